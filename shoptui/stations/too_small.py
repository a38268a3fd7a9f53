"""What is shown while the terminal is smaller than 80x24: it lies over the screen and changes nothing."""

from typing import TYPE_CHECKING, cast

from textual.content import Content
from textual.widget import Widget

if TYPE_CHECKING:
    from shoptui.stations.app import ShopApp

WIDTH, HEIGHT = 80, 24


class TooSmall(Widget):
    """Covers the screen until the terminal grows; forms and half-typed words stay as they are beneath."""

    DEFAULT_CSS = """
    TooSmall {
        layer: cover;
        display: none;
        width: 100%;
        height: 100%;
        background: $background;
        color: $foreground;
    }
    """

    def render(self) -> Content:
        """Say what is wanted and what there is."""
        size = self.app.size
        return Content(
            f"This terminal has {size.width}x{size.height} cells; {WIDTH}x{HEIGHT} are needed.\n"
            "Make the window larger or the letters smaller.\n"
            "Nothing is lost: scans still count, and what was typed is kept.\n"
            f"{cast('ShopApp', self.app).keyboard.words('leave')} twice leaves."
        )

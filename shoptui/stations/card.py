"""One thing's card: facts with their labels, headings and sentences, to read and to scroll."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, cast

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from shoptui.domain.inert import inert
from shoptui.stations.marks import TONE_STYLES, Tone

if TYPE_CHECKING:
    from shoptui.stations.app import ShopApp

LABEL_WIDTH = 14
LONGEST = 400
"""Cells of one line of a card; a sentence is never that long, a hostile name may be."""

LABEL = TONE_STYLES[Tone.QUIET]


@dataclass(frozen=True, slots=True)
class Fact:
    """One line of a card.

    Args:
        label: What it is; empty for a sentence that stands alone.
        text: What it says; empty makes the label a heading.
        tone: How it looks.

    """

    label: str = ""
    text: str = ""
    tone: Tone = Tone.PLAIN


class Card(VerticalScroll):
    """The card."""

    DEFAULT_CSS = """
    Card {
        height: 1fr;
        padding: 0 1;
        background: $background;
        border-title-color: $foreground;
        &:focus { background-tint: $foreground 3%; }
    }
    """

    def __init__(self) -> None:
        super().__init__()
        self._title = ""
        self._facts: tuple[Fact, ...] = ()

    def compose(self) -> ComposeResult:
        """One text holds all lines: a card is read, not worked in."""
        yield Static("", markup=False)

    def show(self, title: str, facts: Sequence[Fact]) -> None:
        """Show another thing, or the same as it is now; another one is shown from its top."""
        if title != self._title:
            self.scroll_home(animate=False)
        self._title, self._facts = title, tuple(facts)
        self._draw()

    def on_resize(self) -> None:
        """Fold the lines anew."""
        self._draw()

    def watch_show_vertical_scrollbar(self) -> None:
        """Fold the lines anew: its bar takes room from them, and gives it back."""
        if self.is_mounted:
            self._draw()

    def _draw(self) -> None:
        width = max(LABEL_WIDTH * 2, self.scrollable_content_region.width - 2)
        lines = [Content.styled(inert(self._title, limit=LONGEST), "bold")] if self._title else []
        app = cast("ShopApp", self.app)
        for fact in self._facts:
            followed = replace(fact, text=app.keyboard.follow(fact.text, app.current_mode))
            lines.append(_drawn(followed, width, plain=app.no_color))
        self.query_one(Static).update(Content("\n").join(lines))


def _drawn(fact: Fact, width: int, *, plain: bool) -> Content:
    style = "" if plain else TONE_STYLES[fact.tone]
    if not fact.text:
        return (
            Content.styled(inert(fact.label, limit=LONGEST), "bold underline") if fact.label else Content("")
        )
    text = inert(fact.text, limit=LONGEST)
    if not fact.label:
        return Content.styled(text, style)
    label = Content.styled(f"{inert(fact.label, limit=LABEL_WIDTH):<{LABEL_WIDTH}} ", "" if plain else LABEL)
    first, *more = Content(text).wrap(width - LABEL_WIDTH - 1) or [Content("")]
    indent = " " * (LABEL_WIDTH + 1)
    lines = [label + Content.styled(first.plain.rstrip(), style)]
    lines.extend(Content(indent) + Content.styled(line.plain.rstrip(), style) for line in more)
    return Content("\n").join(lines)

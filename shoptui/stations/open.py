"""Opens the screens: the only door from the command line to the stations."""

from pathlib import Path

from shoptui.stations.app import ShopApp
from shoptui.store.shop import Shop


def run(shop: Shop, terminal_name: str, *, build: str | None = None, keys: Path | None = None) -> None:
    """Show the screens until somebody leaves.

    Args:
        shop: The open shop.
        terminal_name: Name of this terminal.
        build: Code of the build to work on; None for the one that this terminal was at.
        keys: File with this person's keys; None for the usual ones.

    Raises:
        SystemExit: The program broke; what happened was said.

    """
    app = ShopApp(shop, terminal_name, build=build, keys=keys)
    app.run()
    if app.return_code:
        raise SystemExit(app.return_code)

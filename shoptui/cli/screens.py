"""Commands that open the screens; only they import what the screens need."""

import argparse
import tempfile
from pathlib import Path

from shoptui.cli.making import refuse_inside_a_shop
from shoptui.cli.opening import (
    clock_of,
    environ_as_started,
    key_file,
    opened,
    refuse_unfit_terminal,
    terminal_name,
)
from shoptui.cli.output import lines
from shoptui.cli.progress import under_way
from shoptui.domain.inert import inert
from shoptui.store.memory import MANY, quiet_collector
from shoptui.store.shop import Shop


def open_screens(arguments: argparse.Namespace) -> int:
    """Open the screens on the shop."""
    name = terminal_name(arguments)
    refuse_unfit_terminal(environ_as_started())
    with opened(arguments) as shop:
        _run(shop, name)
    return 0


def demo(arguments: argparse.Namespace) -> int:
    """Open the screens on the invented shop, in a copy that is thrown away or kept."""
    name = terminal_name(arguments)
    refuse_unfit_terminal(environ_as_started())
    keep: Path | None = arguments.keep
    if keep is not None:
        refuse_inside_a_shop(keep)
        _demo(arguments, name, keep)
        folder = inert(str(keep), 400)
        lines([f"The shop is kept in {folder}. Open it again with: shoptui --store {folder}"])
        return 0
    with tempfile.TemporaryDirectory(prefix="shoptui-demo-") as folder:
        _demo(arguments, name, Path(folder) / "shop")
    return 0


def _demo(arguments: argparse.Namespace, name: str, folder: Path) -> None:
    from shoptui.jobs.sample import make_sample  # noqa: PLC0415 - reads files that other commands need not

    with under_way("The screens were not opened."):
        shop = make_sample(folder, clock_of(arguments))
    try:
        _run(shop, name)
    finally:
        shop.close()


def _run(shop: Shop, name: str) -> None:
    with quiet_collector() as made:
        from shoptui.stations.open import run  # noqa: PLC0415 - the framework takes half a second to import

        made(MANY)  # and more: modules stay, and nobody at a screen waits for a walk through them

    run(shop, name, keys=key_file())

"""Commands that make a shop and fill it from files."""

import argparse
import shutil
from collections.abc import Callable
from pathlib import Path

from shoptui.cli.opening import CannotDoError, build_of, clock_of, opened, terminal_name
from shoptui.cli.output import lines
from shoptui.cli.progress import under_way
from shoptui.domain.inert import inert
from shoptui.jobs.answers import Answer
from shoptui.store.errors import DamagedError, StoreError
from shoptui.store.folder import current_generation
from shoptui.store.shop import Shop


def new(arguments: argparse.Namespace) -> int:
    """Make a shop in a folder: empty, or the invented one."""
    folder = arguments.folder
    refuse_inside_a_shop(folder)
    if arguments.sample:
        from shoptui.jobs.sample import make_sample  # noqa: PLC0415 - reads files that other commands need not

        with under_way("No shop was made."):
            shop = _whole_or_not_at_all(folder, lambda: make_sample(folder, clock_of(arguments)))
        made = "The invented shop is"
    else:
        shop = Shop.create(folder, clock=clock_of(arguments))
        made = "An empty shop is"
    shop.close()
    name = inert(str(folder), 400)
    lines([f"{made} in {name}. Open it with: shoptui --store {name}"])
    return 0


def refuse_inside_a_shop(folder: Path) -> None:
    """Refuse a folder in another shop's: whoever copies or clears that one would take this one with it.

    Raises:
        CannotDoError: It is in one.

    """
    for above in folder.absolute().resolve().parents:
        if _has_store(above):
            raise CannotDoError(
                f"{inert(str(folder), 400)} is inside the shop in {inert(str(above), 400)}; give a folder "
                "outside it."
            )


def _has_store(folder: Path) -> bool:
    try:
        current_generation(folder)
    except DamagedError:
        return True
    except StoreError:
        return False
    return True


def _whole_or_not_at_all(folder: Path, make: Callable[[], Shop]) -> Shop:
    """Make a shop of many files; what failed half way leaves no folder behind that was not there before."""
    was_there = folder.exists()
    try:
        return make()
    except BaseException:
        if not was_there:
            shutil.rmtree(folder, ignore_errors=True)
        raise


def take_shop(arguments: argparse.Namespace) -> int:
    """Import builds, people, suppliers, bins and filming days."""
    from shoptui.jobs.import_shop import import_shop  # noqa: PLC0415 - reads TOML, which others need not

    return _take(arguments, lambda shop, name: import_shop(shop, arguments.file, terminal=name))


def take_parts(arguments: argparse.Namespace) -> int:
    """Import a build's list."""
    from shoptui.jobs.import_parts import import_parts  # noqa: PLC0415 - as above

    def take(shop: Shop, name: str) -> Answer:
        build_of(shop, arguments.build)
        return import_parts(shop, arguments.file, arguments.build, terminal=name)

    return _take(arguments, take)


def take_orders(arguments: argparse.Namespace) -> int:
    """Import orders and their boxes."""
    from shoptui.jobs.import_orders import import_orders  # noqa: PLC0415 - as above

    return _take(arguments, lambda shop, name: import_orders(shop, arguments.file, terminal=name))


def _take(arguments: argparse.Namespace, take: Callable[[Shop, str], Answer]) -> int:
    name = terminal_name(arguments)
    with opened(arguments) as shop, under_way("Nothing was imported."):
        answer = take(shop, name)
    lines([answer.text])
    return 0

"""Which store, which clock, which terminal; and whether the screens can be shown here."""

import argparse
import os
import sys
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

from shoptui.cli.terminal_names import free_name
from shoptui.domain.inert import inert
from shoptui.domain.records import Build
from shoptui.store.errors import NoStoreError
from shoptui.store.shop import Shop

LONGEST_NAME = 60
"""Letters of a terminal's name."""

COERCED = ("C.UTF-8", "C.utf8", "UTF-8")
"""What the interpreter sets LC_CTYPE to, by PEP 538."""


class CannotDoError(ValueError):
    """The job could not be done; the words say why, and what to do."""


def store_folder(arguments: argparse.Namespace) -> Path:
    """Return the store's folder: as given, else SHOPTUI_STORE, else in the user's data folder."""
    given: Path | None = arguments.store
    if given is not None:
        return given
    if named := os.environ.get("SHOPTUI_STORE"):
        return Path(named)
    from platformdirs import user_data_path  # noqa: PLC0415 - only where nobody said which

    return user_data_path("shoptui", appauthor=False)


def key_file() -> Path:
    """Return the file with this person's keys: SHOPTUI_KEYS, else `keys.toml` among the user's settings."""
    if named := os.environ.get("SHOPTUI_KEYS"):
        return Path(named)
    from platformdirs import user_config_path  # noqa: PLC0415 - only the screens need it

    return user_config_path("shoptui", appauthor=False) / "keys.toml"


def clock_of(arguments: argparse.Namespace) -> Callable[[], datetime]:
    """Return the clock, which stands still where `--now` says so."""
    now: datetime | None = arguments.now
    if now is None:
        return lambda: datetime.now(UTC)
    fixed = now.astimezone(UTC)
    return lambda: fixed


def terminal_name(arguments: argparse.Namespace) -> str:
    """Return this terminal's name: as given, else SHOPTUI_TERMINAL, else a free one of this user here.

    Raises:
        CannotDoError: The name given is none.

    """
    given = (
        arguments.terminal if arguments.terminal is not None else os.environ.get("SHOPTUI_TERMINAL") or None
    )
    if given is None:
        return free_name(store_folder(arguments))
    name = " ".join(given.split())
    if not name or len(name) > LONGEST_NAME or inert(name, LONGEST_NAME) != name:
        raise CannotDoError(
            f"A terminal's name of 1 to {LONGEST_NAME} printable letters was expected, not “{inert(given)}”."
        )
    return name


@contextmanager
def opened(arguments: argparse.Namespace) -> Iterator[Shop]:
    """Open the shop for one command, and close it after.

    Raises:
        StoreError: It cannot be opened.

    """
    folder = store_folder(arguments)
    try:
        shop = Shop.open(folder, clock=clock_of(arguments))
    except NoStoreError as error:
        if arguments.store is None and not os.environ.get("SHOPTUI_STORE"):
            raise CannotDoError(
                f"There is no shop in {inert(str(folder), 200)} yet. Make one with shoptui new DIR and say "
                f"which with --store DIR, or look at the invented one with shoptui demo."
            ) from error
        raise
    try:
        yield shop
    finally:
        shop.close()


def build_of(shop: Shop, code: str) -> Build | None:
    """Return the build of a code; None where no code was given.

    Raises:
        CannotDoError: There is no such build.

    """
    if not code:
        return None
    build = shop.builds.by_code(code)
    if build is None:
        known = ", ".join(inert(each.code) for each in shop.builds.all()) or "none yet"
        raise CannotDoError(f"There is no build {inert(code)}. Builds: {known}.")
    return build


def environ_as_started() -> dict[str, str]:
    """Return the environment as this process got it.

    In a locale that is not UTF-8 the interpreter sets LC_CTYPE itself before it begins (PEP 538); where the
    system keeps what the process was given, that is told from what its owner has set.
    """
    environ = dict(os.environ)
    try:
        given = Path("/proc/self/environ").read_bytes().split(b"\0")
    except OSError:
        return environ
    if not any(each.startswith(b"LC_CTYPE=") for each in given) and environ.get("LC_CTYPE") in COERCED:
        del environ["LC_CTYPE"]
    return environ


def refuse_unfit_terminal(environ: Mapping[str, str], *, on_windows: bool = sys.platform == "win32") -> None:
    """Refuse a terminal that cannot show the screens, before they open.

    The locale is read from the variables themselves, as the terminal's owner set them: under C the
    interpreter itself claims UTF-8.

    Raises:
        CannotDoError: In one sentence.

    """
    if environ.get("TERM", "") == "dumb":
        raise CannotDoError(
            "This terminal is a dumb one (TERM=dumb) and cannot show the screens; use another, or the "
            "commands that shoptui --help lists."
        )
    if on_windows:
        return
    named = next((value for name in ("LC_ALL", "LC_CTYPE", "LANG") if (value := environ.get(name))), "")
    if "utf8" not in named.casefold().replace("-", ""):
        raise CannotDoError(
            f"This terminal's locale is {inert(named) or 'not set'}, and the screens need UTF-8; "
            f"start it with a locale such as LC_ALL=C.UTF-8 shoptui."
        )
    if not all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stdout)):
        raise CannotDoError(
            "The screens need a terminal, and input or output is not one; shoptui --help lists the commands "
            "that need none."
        )

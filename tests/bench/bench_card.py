"""How soon the lift's card stands after a scan, beside an empty screen: python tests/bench/bench_card.py.

The applications run in this process, at 80x24; what they would write to a terminal is looked at as it is
written.
"""

import asyncio
import os
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from big_shop import TERMINAL, now
from big_torque import torque_copied
from table import ms, row, times
from textual._xterm_parser import XTermParser
from textual.app import App
from textual.drivers.headless_driver import HeadlessDriver
from textual.message import Message
from textual.screen import Screen

from shoptui.domain.places import State
from shoptui.jobs.at import name
from shoptui.jobs.joints import joints_of
from shoptui.stations.app import ShopApp
from shoptui.store.shop import Shop

TURNS, WARM = 40, 3
SIZE = (80, 24)
FRAME = 80
"""Characters of what is written when a screen is drawn, at least; what is shorter only moves the cursor."""


class Written(HeadlessDriver):
    """A driver of no terminal for which all is drawn as for one, and kept with the moment of each piece."""

    is_headless = False

    def __init__(self, *args: object, **kwargs: object) -> None:
        super().__init__(*args, **kwargs)  # type: ignore[arg-type]
        self.pieces: list[tuple[float, str]] = []

    def write(self, data: str) -> None:
        """Keep what is written."""
        self.pieces.append((time.perf_counter(), data))


class Watched:
    """An application that runs, and what it writes."""

    def __init__(self, app: App[None]) -> None:
        self.app = app
        app.driver_class = Written
        self.start = time.perf_counter()
        self._task = asyncio.create_task(app.run_async(size=SIZE))

    async def shown(self, words: str = "") -> float:
        """Return the seconds from the start until words were drawn, or anything."""
        while True:
            for moment, data in self.app._driver.pieces if self.app._driver else ():
                if words in data and len(data) > FRAME:
                    await asyncio.sleep(0.2)  # what comes after it is not the next one's
                    return moment - self.start
            if time.perf_counter() > self.start + 20:
                raise AssertionError(f"{words} never came: {self.app._driver.pieces}")
            await asyncio.sleep(0.001)

    def begin(self) -> None:
        """Look at what is written from now on."""
        self.app._driver.pieces.clear()
        self.start = time.perf_counter()

    async def empty_screen(self) -> float:
        """Lay an empty screen over the one in front; return the seconds until it was drawn."""
        self.begin()
        self.app.call_later(lambda: self.app.push_screen(Screen()) and None)
        took = await self.shown()
        self.app.call_later(lambda: self.app.pop_screen() and None)
        await asyncio.sleep(0.1)
        return took

    async def scan(self, code: str, words: str) -> float:
        """Scan a code; return the seconds from its last byte until words stood on the screen."""
        *keys, enter = self._keys(f"\x1b[20~{code}\r")
        for key in keys:
            self.app.post_message(key)
        await asyncio.sleep(0.1)
        self.begin()
        self.app.post_message(enter)
        return await self.shown(words)

    def send(self, data: str) -> None:
        """Send what a terminal sends for keys."""
        for key in self._keys(data):
            self.app.post_message(key)

    def _keys(self, data: str) -> list[Message]:
        messages = [each for each in XTermParser().feed(data) if isinstance(each, Message)]
        for each in messages:
            each.set_sender(self.app)
        return messages

    async def close(self) -> None:
        """Leave it."""
        self.app.exit()
        await self._task


def cards(shop: Shop, *, on: bool) -> Iterator[tuple[str, str]]:
    """Yield code and heading of cards: of what is on with an open joint, or of what is here to go on."""
    for part in shop.parts.all():
        is_on = shop.book.in_state(part.id, State.INSTALLED) > 0
        if on and is_on and any(each.is_open for each in joints_of(shop, part)):
            yield part.code, f"Tighten: {name(part)[:20]}"
        elif not on and not is_on and part.joints and shop.book.in_state(part.id, State.RECEIVED):
            yield part.code, f"Install: {name(part)[:20]}"


async def started() -> float:
    """Start an application with an empty screen; return the seconds until that was drawn."""
    watched = Watched(App())
    took = await watched.shown()
    await watched.close()
    return took


async def compare(folder: Path) -> None:
    """An empty screen and two kinds of cards, by turns."""
    shop = Shop.open(torque_copied(folder / "shop"), clock=now)
    took: dict[str, list[float]] = {"started": [], "laid over": [], "install": [], "tighten": []}
    scans = {kind: cards(shop, on=kind == "tighten") for kind in ("install", "tighten")}
    empty, lift = Watched(App()), Watched(ShopApp(shop, TERMINAL))
    await lift.shown()
    lift.send("\x1bOS")
    await asyncio.sleep(1)
    jobs = {
        "started": started,
        "laid over": empty.empty_screen,
        "install": lambda: lift.scan(*next(scans["install"])),
        "tighten": lambda: lift.scan(*next(scans["tighten"])),
    }
    for turn in range(TURNS + WARM):
        for kind, job in jobs.items():
            seconds = await job()
            if turn >= WARM:  # the first are for nothing: everything is loaded
                took[kind].append(seconds)
    await lift.close()  # the last one first: each gives standard output back to the one before
    await empty.close()
    shop.close()
    row("app with an empty screen, until it is drawn", ms(took["started"]), f"{TURNS} turns, 80x24")
    row("  an empty screen laid over it", ms(took["laid over"]))
    for kind in ("install", "tighten"):
        beside = times(took[kind], took["started"], "an empty screen")
        row(f"scan until its card is drawn, {kind}", ms(took[kind]), beside, "<= 2.5 x")


def main() -> None:
    """Print the table."""
    with tempfile.TemporaryDirectory(dir=os.environ.get("BENCH_DIR")) as place:
        asyncio.run(compare(Path(place)))


if __name__ == "__main__":
    main()

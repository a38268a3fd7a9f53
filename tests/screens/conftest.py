import asyncio
import random
from contextlib import asynccontextmanager
from datetime import UTC, date, datetime, timedelta

import pytest
from swift_time import A_MOMENT, SwiftLoop, go_swiftly, settled
from textual._xterm_parser import XTermParser
from textual.message import Message

from shoptui.domain import verbs
from shoptui.domain.codes import normal
from shoptui.domain.records import Bin, Box, Build, LearnedCode, Order, OrderLine, Part, Settings, Supplier
from shoptui.domain.shoots import Condition, Need, Shoot, Shot
from shoptui.stations.app import ShopApp
from shoptui.store.shop import Shop

NOW = datetime(2026, 11, 25, 10, tzinfo=UTC)
ROTOR_GTIN = "9521234543213"


class Trial:
    """A small shop and its screens."""

    def __init__(self, folder) -> None:
        self.gtin = ROTOR_GTIN
        self.shop = shop = Shop.create(folder, clock=lambda: NOW, rng=random.Random(1))
        with shop.transaction("set up", terminal="office") as tx:
            tx.add(Settings(twice_seconds=0.0))  # tests scan faster than hands
            self.build = tx.add(Build(0, "wagon", "", "Wagon"))
            supplier = tx.add(Supplier(0, "brakes", "Brakes and more"))
            self.rotor = self._part(tx, "Brake rotor", "BR-100", 2, positions=("LF", "RF"))
            self.hub = self._part(tx, "Hub", "H-7", 1)
            self.markup = self._part(tx, "[red]Hood[/red] \x1b[31m", "HO-1", 1, section="Body")
            self.clips = [self._part(tx, f"Clip {number}", f"C-{number}", 1) for number in range(30)]
            tx.add(LearnedCode(0, ROTOR_GTIN, normal(ROTOR_GTIN), "parts", self.rotor.id))
            self.bin = tx.add(Bin(0, "A3", "", "rack A, shelf 3"))
            lines = (OrderLine(self.rotor.id, 2), OrderLine(self.hub.id, 1), OrderLine(self.clips[0].id, 1))
            order = tx.add(
                Order(
                    0, "1042", "purchase", supplier.id, "1042", date(2026, 11, 1), date(2026, 11, 24), lines
                )
            )
            for line in lines:
                tx.enter(verbs.order(line.part, line.qty, supplier=supplier.id, order=order.id))
            self.box = tx.add(Box(0, "", (order.id,), ("RR473124829GB",)))
            need = Need(Condition.INSTALLED, part=self.rotor.id)
            tx.add(
                Shoot(0, "day-1", "Brakes", NOW.date() + timedelta(days=9), "", (Shot("Rotor on", (need,)),))
            )

    def _part(self, tx, description, number, needed, **fields):
        section = fields.pop("section", "Brakes")
        part = Part(
            0, "", "", self.build.id, description, number=number, section=section, needed=needed, **fields
        )
        return tx.add(part)

    @asynccontextmanager
    async def screens(self, width: int = 80, height: int = 24):
        app = ShopApp(self.shop, "door")
        async with app.run_test(size=(width, height)) as pilot:
            await pilot.pause()
            yield Hands(app, pilot)


class Hands:
    """A person and a scanner at the screens."""

    def __init__(self, app: ShopApp, pilot) -> None:
        self.app = app
        self.pilot = pilot

    async def press(self, *keys: str) -> None:
        await self.pilot.press(*keys)
        await self.settle()

    async def type(self, text: str) -> None:
        await self.press(*("space" if letter == " " else letter for letter in text))

    async def scan(self, text: str, *, prefix: bool = True) -> None:
        """Send what a scanner sends, as the bytes that a terminal gets."""
        for message in self.keys(("\x1b[20~" if prefix else "") + text + "\r"):
            self.app.post_message(message)
        await self.settle()

    def keys(self, data: str) -> list[Message]:
        parser = XTermParser()
        messages = [message for message in parser.feed(data) if isinstance(message, Message)]
        for message in messages:
            message.set_sender(self.app)
        return messages

    async def settle(self) -> None:
        """Wait until all is answered and drawn, and a moment longer: no hand is as fast as a scanner."""
        await settled(self.app)

    async def a_moment(self) -> None:
        """Let go by what no hand is faster than: an Enter sooner than this is the scanner's second one."""
        await asyncio.sleep(A_MOMENT)

    @property
    def said(self) -> str:
        answer = self.app.hearing.last_answer
        return f"{answer.said}: {answer.text}" if answer else ""

    @property
    def screen_text(self) -> str:
        """What stands on the screen, without its looks."""
        lines = self.app.screen._compositor.render_strips()
        return "\n".join(strip.text for strip in lines)


def pytest_asyncio_loop_factories():
    """Nobody waits in these tests for what a timer will do."""
    return {"swift": SwiftLoop}


@pytest.fixture(autouse=True)
def swift_time(monkeypatch):
    go_swiftly(monkeypatch)


@pytest.fixture
def trial(tmp_path):
    trial = Trial(tmp_path / "shop")
    yield trial
    trial.shop.close()

import random
from datetime import UTC, date, datetime, timedelta

import pytest

from shoptui.domain import verbs
from shoptui.domain.codes import normal
from shoptui.domain.places import State
from shoptui.domain.records import Bin, Box, Build, LearnedCode, Order, OrderLine, Part, Person, Supplier
from shoptui.jobs.at import At
from shoptui.jobs.scan import Scanning
from shoptui.store.shop import Shop

START = datetime(2026, 11, 25, 10, tzinfo=UTC)

ROTOR_GTIN = "9521234543213"


class Clock:
    """A clock that tests turn by hand."""

    def __init__(self) -> None:
        self.now = START

    def __call__(self) -> datetime:
        return self.now

    def advance(self, **time: int) -> None:
        self.now += timedelta(**time)


class Made:
    """A small shop: two builds, five parts, two orders, a box, bins, a person."""

    def __init__(self, folder, clock) -> None:
        self.folder = folder
        self.clock = clock
        self.others: list[Shop] = []
        self.shop = shop = Shop.create(folder, clock=clock, rng=random.Random(1))
        with shop.transaction("set up", terminal="office") as tx:
            self.build = tx.add(Build(0, "wagon", "", "Wagon"))
            self.other = tx.add(Build(0, "coupe", "", "Coupe"))
            self.supplier = tx.add(Supplier(0, "brakes", "Brakes and more"))
            self.painter = tx.add(Supplier(0, "paint", "Paint shop"))
            self.rotor = tx.add(
                Part(
                    0,
                    "",
                    "",
                    self.build.id,
                    "Brake rotor",
                    number="BR-100",
                    section="Brakes",
                    needed=2,
                    positions=("LF", "RF"),
                )
            )
            self.hub = tx.add(Part(0, "", "", self.build.id, "Hub", section="Brakes", needed=1))
            self.hood = tx.add(Part(0, "", "", self.build.id, "Hood", section="Body", needed=1))
            self.clip = tx.add(Part(0, "", "", self.build.id, "Clip", section="Trim", needed=10))
            self.foreign = tx.add(Part(0, "", "", self.other.id, "Mirror", section="Body", needed=1))
            tx.add(LearnedCode(0, ROTOR_GTIN, normal(ROTOR_GTIN), "parts", self.rotor.id))
            self.a3 = tx.add(Bin(0, "A3", "", "rack A, shelf 3"))
            self.a4 = tx.add(Bin(0, "A4", "", "rack A, shelf 4"))
            self.person = tx.add(Person(0, "lead", "", "the lead"))
            due = date(2026, 11, 26)
            self.order = tx.add(
                Order(
                    0,
                    "1042",
                    "purchase",
                    self.supplier.id,
                    "1042",
                    date(2026, 11, 1),
                    due,
                    (OrderLine(self.rotor.id, 2), OrderLine(self.hub.id, 1)),
                )
            )
            self.late = tx.add(
                Order(
                    0,
                    "1043",
                    "purchase",
                    self.supplier.id,
                    "1043",
                    date(2026, 11, 1),
                    due,
                    (OrderLine(self.clip.id, 10), OrderLine(self.hood.id, 1)),
                )
            )
            for order in (self.order, self.late):
                for line in order.lines:
                    tx.enter(verbs.order(line.part, line.qty, supplier=order.supplier, order=order.id))
            self.box = tx.add(Box(0, "", (self.order.id,), ("RR473124829GB",)))
        shop.remember("lift", build=self.build.id)

    def scans(self, station: str, terminal: str = "") -> Scanning:
        return Scanning(self.shop, terminal or {"receiving": "door"}.get(station, station), station=station)

    def at(self, terminal: str, build: str = "wagon") -> At:
        """Where a job is done that no scan asks for."""
        return At(self.shop, terminal, build_given=build)

    def count(self, part: Part, *states: State) -> int:
        return self.shop.book.in_state(part.id, *states)

    def bytes(self) -> dict[str, bytes]:
        """All that is on disk."""
        return {
            str(path.relative_to(self.folder)): path.read_bytes()
            for path in self.folder.rglob("*")
            if path.is_file()
        }

    def reopened(self) -> Shop:
        shop = Shop.open(self.folder, clock=self.clock, rng=random.Random(2))
        self.others.append(shop)
        return shop


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def made(tmp_path, clock):
    made = Made(tmp_path / "shop", clock)
    yield made
    for shop in (made.shop, *made.others):
        shop.close()

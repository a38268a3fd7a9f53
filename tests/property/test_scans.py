"""Any sequence of scans: nothing is created or destroyed, undo restores the balances, the disk agrees."""

import random
import shutil
import tempfile
from datetime import UTC, date, datetime
from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from shoptui.domain import verbs
from shoptui.domain.records import Bin, Box, Build, KitLine, LearnedCode, Order, OrderLine, Part, Supplier
from shoptui.jobs.scan import Scanning
from shoptui.store.shop import Shop

SCANS = st.lists(
    st.tuples(
        st.sampled_from(["receiving", "lift", "racks"]),
        st.sampled_from(
            (
                *("BOX-1", "BOX-2", "ROTOR", "HUB", "HOOD", "A3", "A4", "LF", "RF", "yes", "no", "done"),
                *("undo", "damaged", "remove", "install", "1", "2", "old bracket", "9521234543214"),
                *("new-code", "", "wrong", "over", "short", "substitute", "O-2", "KIT", "3", "bent a little"),
                *("mock up", "assemble", "count", "LF", "HUB", "yes", "no"),
            )
        ),
    ),
    max_size=30,
)
NOW = datetime(2026, 11, 25, 10, tzinfo=UTC)


def shop_in(folder: Path) -> Shop:
    shop = Shop.create(folder, clock=lambda: NOW, rng=random.Random(1))
    with shop.transaction("set up", terminal="office") as tx:
        build = tx.add(Build(0, "wagon", "", "Wagon"))
        supplier = tx.add(Supplier(0, "one", "One"))
        names = {"ROTOR": ("LF", "RF"), "HUB": (), "HOOD": ("front",)}
        parts = [tx.add(Part(0, "", "", build.id, name, needed=2, positions=p)) for name, p in names.items()]
        for part in parts:
            tx.add(LearnedCode(0, part.description, part.description.lower(), "parts", part.id))
        for number, lines in (("1", parts[:2]), ("2", parts[1:])):
            order_lines = tuple(OrderLine(part.id, 2) for part in lines)
            order = tx.add(
                Order(
                    0,
                    f"O-{number}",
                    "purchase",
                    supplier.id,
                    f"O-{number}",
                    None,
                    date(2026, 12, 1),
                    order_lines,
                )
            )
            for line in order_lines:
                tx.enter(verbs.order(line.part, line.qty, supplier=supplier.id, order=order.id))
            tx.add(Box(0, "", (order.id,), (f"BOX-{number}",)))
        inside = tuple(KitLine(part.id, 2) for part in parts[1:])
        tx.add(Part(0, "KIT", "", build.id, "Kit", sold_as="kit", kit=inside))
        for code in ("A3", "A4"):
            tx.add(Bin(0, code, ""))
    return shop


def balances(shop: Shop) -> dict:
    found = {number: shop.book.places(number) for number in range(1, len(shop.parts) + 1)}
    return {number: places for number, places in found.items() if places}


def books(shop: Shop) -> dict:
    """Every document of the store but what terminals are at, which is no part of the history."""
    tables = [shelf.table for shelf in shop.shelves.values()] + ["transactions", "moves", "edits"]
    return {table: dict(shop.database.documents(table)) for table in tables if table != "terminals"}


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(SCANS)
def test_any_sequence_of_scans_keeps_the_books(scans):
    folder = Path(tempfile.mkdtemp())
    try:
        shop = shop_in(folder / "shop")
        start = balances(shop)
        scanning = Scanning(shop, "door")
        for station, text in scans:
            scanning.station = station
            before = balances(shop)
            kept = books(shop)
            answer = scanning.typed(text) if " " in text else scanning.line(text)
            assert answer.text
            if answer.said in ("stop", "question", "unknown") or text == "no":
                assert balances(shop) == before
                # An unknown code is learned by its answer, also where the thing itself is then asked about.
                assert books(shop) == kept or "now stands for" in answer.text
            for number in balances(shop):
                assert shop.book.sum(number) == 0
            assert not list(shop.book.below_zero())
        again = Shop.open(folder / "shop", clock=lambda: NOW)
        assert balances(again) == balances(shop)
        again.close()
        scanning.drop()
        while scanning.take("undo").said == "done":
            pass
        assert balances(shop) == start
        shop.close()
    finally:
        shutil.rmtree(folder)

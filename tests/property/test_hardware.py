"""Whatever goes on and comes off: no bolt is made or lost, and each part has on it what fastens it."""

import random
from datetime import UTC, datetime

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from shoptui.domain import verbs
from shoptui.domain.places import State
from shoptui.domain.records import HARDWARE, Bin, Build, HardwareLine, Part
from shoptui.jobs.at import At
from shoptui.jobs.install import install
from shoptui.jobs.remove import remove
from shoptui.jobs.undo import undo
from shoptui.store.shop import Shop

NOW = datetime(2026, 11, 25, 10, tzinfo=UTC)
EACH, ONCE = 3, 2
"""Bolts that one piece takes: to be used again, and for one use."""

DEEDS = st.lists(
    st.tuples(st.sampled_from(["on", "off", "bag", "undo"]), st.integers(1, 3), st.integers(0, 1)),
    max_size=14,
)


@given(DEEDS)
@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_what_fastens_a_part_is_on_with_it_and_nothing_is_lost(tmp_path_factory, deeds):
    shop = Shop.create(tmp_path_factory.mktemp("bolts") / "shop", clock=lambda: NOW, rng=random.Random(1))
    try:
        _play(shop, deeds)
    finally:
        shop.close()


def _play(shop, deeds):
    with shop.transaction("set up", terminal="office") as tx:
        build = tx.add(Build(0, "wagon", "", "Wagon"))
        bolt = tx.add(Part(0, "", "", None, "Bolt", kind=HARDWARE, designation="M8 x 20 - 8.8"))
        ring = tx.add(Part(0, "", "", None, "", kind=HARDWARE, designation="ring", one_use=True))
        lines = (HardwareLine(bolt.id, EACH), HardwareLine(ring.id, ONCE))
        parts = [tx.add(Part(0, "", "", build.id, f"Part {n}", needed=4, hardware=lines)) for n in range(2)]
        for part in parts:
            tx.enter(verbs.stock(part.id, 4))
        tx.enter(verbs.stock(bolt.id, 10))
        bags = [tx.add(Bin(0, "", "", kind="bag")) for _ in parts]
    at = At(shop, "lift")
    for deed, qty, which in deeds:
        part = parts[which]
        match deed:
            case "on":
                install(at, part, qty)
            case "off":
                remove(at, part, qty, position="")
            case "bag":
                remove(at, part, qty, position="", bag=shop.bins.get(bags[which].id))
            case _:
                undo(at)
        _sound(shop, parts, bolt, ring)
    while undo(at).said == "done":
        _sound(shop, parts, bolt, ring)
    assert shop.book.in_state(bolt.id, State.RECEIVED) == 10
    assert all(bag.part is None for bag in shop.bins.all())


def _sound(shop, parts, bolt, ring):
    assert not list(shop.book.below_zero())
    for kind, each in ((bolt, EACH), (ring, ONCE)):
        assert shop.book.sum(kind.id) == 0
        for part in parts:
            on = shop.book.in_state(part.id, State.INSTALLED)
            assert shop.book.parts_at(State.INSTALLED, part.id).get(kind.id, 0) == on * each
    assert not shop.book.in_state(ring.id, State.REMOVED), "used once, it never lies about"
    for bag in shop.bins.all():
        inside = shop.book.parts_at(State.REMOVED, bag.id)
        assert not inside or bag.part is not None

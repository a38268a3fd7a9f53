"""What is kept of joints and wrenches is what would be derived anew, after whatever was done by whomever."""

import random
from contextlib import suppress
from dataclasses import replace
from datetime import UTC, datetime, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from shoptui.domain import verbs
from shoptui.domain.ledger import CannotMoveError, Move
from shoptui.domain.places import Place, State
from shoptui.domain.records import Build, Joint, Part, Reading, What, Wrench
from shoptui.jobs.at import At
from shoptui.jobs.joints import all_joints, derived, joints_of
from shoptui.jobs.undo import undo
from shoptui.jobs.wrench_words import readings_since, uses_since
from shoptui.store.readings import strike
from shoptui.store.shop import Shop

HUB, WHEEL, CAP = 1, 2, 3
POSITIONS = ("LF", "RF")
OTHER_WAYS = (
    {"value": "120 N m"},
    {"fasteners": 3},
    {"second_check": True},
    {"again_after": 50},
    {"again_days": 2},
    {"clamps": (HUB,)},
    {"clamps": (CAP, HUB)},
)
DEEDS = (
    *("on", "off", "built in", "tightened", "tightened", "tightened", "second", "checked", "failed"),
    *(
        "loosened",
        "struck",
        "joint",
        "odometer",
        "deviation",
        "wrench checked",
        "days",
        "undo",
        "undo",
        "broken",
        "compact",
    ),
)
DONE = st.lists(
    st.tuples(st.sampled_from(DEEDS), st.booleans(), st.integers(1, 3), st.integers(0, 30)), max_size=20
)


class Days:
    """A clock that somebody sets."""

    def __init__(self) -> None:
        self.now = datetime(2026, 11, 25, 10, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.now


class Shops:
    """One shop, open in two processes: this one keeps, the other changes it as well."""

    def __init__(self, folder):
        self.clock = Days()
        self.own = Shop.create(folder, clock=self.clock, rng=random.Random(1))
        with self.own.transaction("set up", terminal="office") as tx:
            build = tx.add(Build(0, "wagon", "", "Wagon", odometer=1000))
            tx.add(Wrench(0, "T-200", "", "Click", low=20, high=200))
            for name, clamps in (("Hub", ()), ("Wheel", (HUB,)), ("Cap", (HUB, WHEEL))):
                joint = Joint("Nuts", 2, value="110 N m", again_after=80, again_days=4, clamps=clamps)
                original = name == "Cap"
                part = Part(0, name, "", build.id, name, needed=2, positions=POSITIONS, joints=(joint,))
                part = tx.add(replace(part, original=original))
                tx.enter(verbs.stock(part.id, 2))
        for part in (HUB, WHEEL, CAP):
            for count in (0, 1):  # most deeds say something of a joint only if it was tightened before
                moved(self.own, "on", part, count)
                states(self.own, "tightened", part, count)
        self.other = Shop.open(folder, clock=self.clock, rng=random.Random(2))

    def close(self):
        self.own.close()
        self.other.close()


def moved(shop, deed, part, count):
    position = POSITIONS[count % 2]
    book = shop.book
    with suppress(CannotMoveError), shop.transaction(deed, terminal="lift") as tx:
        if deed == "on":
            tx.enter(verbs.install(book, part, 1, position=position))
        elif deed == "off":
            tx.enter(verbs.remove(book, part, 1, position=position))
        else:
            tx.enter(verbs.assemble(book, part, 1, carrier=part % 3 + 1))


def states(shop, deed, part, count):
    what = {
        "tightened": What.TIGHTENED,
        "second": What.SECOND,
        "checked": What.CHECKED,
        "failed": What.FAILED,
        "loosened": What.LOOSENED,
    }[deed]
    (joint,) = shop.parts.get(part).joints
    tight = what is What.TIGHTENED
    row = Reading(0, what, part, "Nuts", POSITIONS[count % 2], sheet_says=joint.sheet_says)
    if tight:
        # Within the sheet, within what the tool may deviate, and beyond both.
        value = ("110", "113", "118")[count % 3]
        row = replace(row, fasteners=2 - count // 20, value=value, unit="N m", wrench=1, odometer=1000)
    with shop.transaction(deed, terminal="lift") as tx:
        tx.state(row)


def changed(shop, deed, part, count):
    with shop.transaction(deed, terminal="lift") as tx:
        if deed == "joint":
            (joint,) = shop.parts.get(part).joints
            way = OTHER_WAYS[count % len(OTHER_WAYS)]
            tx.change(shop.parts.get(part), joints=(replace(joint, **way),))
        elif deed == "odometer":
            tx.change(shop.builds.get(1), odometer=1000 + 8 * count)
        elif deed == "deviation":
            tx.change(shop.wrenches.get(1), deviation_percent=float(count % 9))
        else:
            tx.change(shop.wrenches.get(1), checked=shop.clock().date())


def struck(shop, _deed, part, count):
    rows = shop.readings.of_part(part, strikes=True)
    if rows:
        with shop.transaction("struck", terminal="lift") as tx:
            tx.state(strike(rows[count % len(rows)], "a mistake", None))


def broken(shop, _deed, part, count):
    """Take everything back, having looked at it in the middle."""
    with suppress(ZeroDivisionError), shop.transaction("broken", terminal="lift"):
        moved(shop, "on", part, count)
        states(shop, "tightened", part, count)
        changed(shop, "deviation", part, count)
        compare(shop)
        raise ZeroDivisionError


def done(shops, deed, by_other, part, count):
    shop = shops.other if by_other else shops.own
    shop.refresh()
    if deed == "days":
        shops.clock.now += timedelta(days=1 + count % 6)
    elif deed == "undo":
        undo(At(shop, "lift"))
    elif deed == "compact":
        shop.database.compact()
    else:
        jobs = {
            **dict.fromkeys(("on", "off", "built in"), moved),
            **dict.fromkeys(("joint", "odometer", "deviation", "wrench checked"), changed),
            "struck": struck,
            "broken": broken,
        }
        jobs.get(deed, states)(shop, deed, part, count)


def compare(shop):
    parts = list(shop.parts.all())
    assert [joints_of(shop, part) for part in parts] == [derived(shop, part) for part in parts]
    wrench = shop.wrenches.get(1)
    used = [each for each in readings_since(shop, wrench) if each.what is What.TIGHTENED]
    assert uses_since(shop, wrench) == sum(each.fasteners for each in used)
    assert list(all_joints(shop)) == [each for part in parts for each in derived(shop, part)]


@settings(max_examples=60, deadline=None)
@given(DONE)
def test_what_is_kept_is_what_would_be_derived(tmp_path_factory, deeds):
    shops = Shops(tmp_path_factory.mktemp("standings") / "shop")
    compare(shops.own)
    for deed, by_other, part, count in deeds:
        done(shops, deed, by_other, part, count)
        shops.own.refresh()
        compare(shops.own)
    shops.close()


def test_what_is_only_supposed_is_not_kept(tmp_path):
    shops = Shops(tmp_path / "shop")
    shop = shops.own
    wheel = shop.parts.get(WHEEL)
    off = Move(WHEEL, 1, Place(State.INSTALLED, "LF"), Place(State.REMOVED))
    for _ in ("not asked before", "asked before"):
        with shop.book.supposing([off]):
            assert len(joints_of(shop, wheel)) == 1
        assert len(joints_of(shop, wheel)) == 2
    shops.close()


def test_a_record_from_before_is_answered_by_itself(tmp_path):
    shops = Shops(tmp_path / "shop")
    shop = shops.own
    before = shop.parts.get(WHEEL)
    changed(shop, "joint", WHEEL, 1)
    now = shop.parts.get(WHEEL)
    assert [joints_of(shop, part)[0].wanted for part in (before, now, before, now)] == [2, 3, 2, 3]
    shops.close()


def test_nothing_is_derived_twice_while_nothing_changes(tmp_path, monkeypatch):
    shops = Shops(tmp_path / "shop")
    first = list(all_joints(shops.own))
    monkeypatch.setattr("shoptui.jobs.joints.derived", None)
    assert list(all_joints(shops.own)) == first
    shops.close()

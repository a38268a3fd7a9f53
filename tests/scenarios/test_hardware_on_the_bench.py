"""What is built in on the bench takes its hardware from stock, and gives it back when it is taken apart."""

from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.places import State
from shoptui.domain.records import HARDWARE, Bin, HardwareLine, Joint, Part, Wrench
from shoptui.domain.tags import Kind
from shoptui.jobs.check_hardware import hardware_on_nothing
from shoptui.jobs.dispose import dispose
from shoptui.jobs.hardware import stands
from shoptui.jobs.transfer import transfer
from tests.scenarios.test_hardware import held


@pytest.fixture
def bench(made):
    """A rotor hat that goes into the rotor with five screws, to be used again, and five new locking tabs."""
    with made.shop.transaction("a hat", terminal="office") as tx:
        made.screw = tx.add(Part(0, "", "", None, "Hat screw", kind=HARDWARE, designation="M8 x 20 - 8.8"))
        made.tab = tx.add(Part(0, "", "", None, "", kind=HARDWARE, designation="locking tab", one_use=True))
        made.drawer = tx.add(Bin(0, "D3", "", kind="drawer"))
        lines = (HardwareLine(made.screw.id, 5), HardwareLine(made.tab.id, 5))
        made.hat = tx.add(Part(0, "HAT", "", made.build.id, "Rotor hat", needed=2, hardware=lines))
        for part in (made.hat, made.rotor):
            tx.enter(verbs.stock(part.id, 2, to=made.a3.id))
        for kind in (made.screw, made.tab):
            tx.enter(verbs.stock(kind.id, 12, to=made.drawer.id))
    return made


@pytest.fixture
def lift(bench):
    return bench.scans("lift")


def build_in(lift, carrier):
    lift.take("HAT")
    lift.take("assemble")
    return lift.take(carrier)


def need(made, kind):
    return next(each.need.needed for each in stands(made.shop) if each.part.id == kind.id)


def test_built_in_it_takes_its_screws_and_gives_them_back(bench, lift):
    assert (need(bench, bench.screw), need(bench, bench.tab)) == (10, 10)
    build_in(lift, bench.rotor.tag)
    assert held(bench, bench.screw) == {("received", bench.drawer.id): 7, ("installed", bench.hat.id): 5}
    assert (need(bench, bench.screw), need(bench, bench.tab)) == (5, 5), "what is on is not needed"
    lift.take("HAT")
    lift.take("remove")
    off = lift.yes()
    assert "Scrap, for one use: 5 locking tab." in off.text
    assert "Its hardware: 5 Hat screw" in off.text
    lift.typed("1")
    blank = bench.shop.new_tag(Kind.BAG)
    lift.take(blank)
    bag = bench.shop.bins.by_code(blank)
    assert held(bench, bench.screw) == {
        ("received", bench.drawer.id): 7,
        ("removed", bag.id): 4,
        ("gone", "lost"): 1,
    }
    assert held(bench, bench.tab) == {("received", bench.drawer.id): 7, ("gone", "scrapped"): 5}
    assert need(bench, bench.tab) == 10, "what was for one use is in the need at once"
    lift.take("done")
    assert lift.take(blank).card == "assemble", "it came out of a rotor, so it goes into one"
    lift.take(bench.rotor.tag)
    assert held(bench, bench.screw)["received", bench.drawer.id] == 6, "four of its own and one new"
    assert bench.shop.bins.get(bag.id).part is None
    for _ in range(5):
        lift.take("undo")
    assert held(bench, bench.screw) == {("received", bench.drawer.id): 12}


def test_screws_of_what_is_built_in_are_where_they_belong(bench, lift):
    build_in(lift, bench.rotor.tag)
    assert not list(hardware_on_nothing(bench.shop))
    assert "5 on Rotor hat" in bench.scans("racks").take(bench.screw.tag).text


def test_a_bag_scanned_first_takes_the_screws(bench, lift):
    with bench.shop.transaction("a bag", terminal="office") as tx:
        bag = tx.add(Bin(0, "BAG1", "", kind="bag"))
    build_in(lift, bench.rotor.tag)
    for code in ("HAT", "remove"):
        lift.take(code)
    assert "its hardware into bag BAG1?" in lift.take("BAG1").text
    assert lift.yes().text.endswith("Its hardware is in bag BAG1.")
    assert held(bench, bench.screw)["removed", bag.id] == 5


def test_what_is_short_is_asked_about(bench, lift):
    with bench.shop.transaction("few", terminal="office") as tx:
        tx.enter(verbs.dispose(bench.shop.book, bench.tab.id, 10, reason="lost"))
    asked = build_in(lift, bench.rotor.tag)
    assert "Hardware: 2 of 5 locking tab are here new." in asked.text
    lift.yes()
    assert held(bench, bench.tab)["installed", bench.hat.id] == 5


@pytest.fixture
def one_rotor(bench):
    with bench.shop.transaction("one is enough", terminal="office") as tx:
        tx.enter(verbs.dispose(bench.shop.book, bench.rotor.id, 1, reason="sold"))


@pytest.mark.usefixtures("one_rotor")
def test_screws_go_with_what_carries_them(bench, lift):
    build_in(lift, bench.rotor.tag)
    lift.take(bench.rotor.tag)
    lift.take("LF")
    lift.take("remove")
    lift.yes()
    assert held(bench, bench.screw)["installed", bench.hat.id] == 5, "the rotor came off whole"
    rotor = bench.shop.parts.get(bench.rotor.id)
    removed = [place for place, _ in bench.shop.book.places(rotor.id, State.REMOVED)]
    dispose(bench.at("office"), rotor, 1, reason="sold", no_longer_needed=False, sources=removed)
    assert held(bench, bench.screw) == {("received", bench.drawer.id): 7, ("gone", "sold"): 5}


@pytest.mark.usefixtures("one_rotor")
def test_screws_go_to_another_build_within_what_carries_them(bench, lift):
    build_in(lift, bench.rotor.tag)
    answer = transfer(bench.at("office"), bench.rotor, 1, to=bench.other, line=0, no_longer_needed=True)
    assert answer.said == "done"
    (hat,) = [part for part in bench.shop.parts.all() if part.build == bench.other.id and part.hardware]
    assert held(bench, bench.screw) == {("received", bench.drawer.id): 7, ("installed", hat.id): 5}


def test_the_card_says_what_to_fetch(bench, lift):
    from shoptui.stations.lift.rows import lift_facts  # noqa: PLC0415 - stations are heavy to load

    lift.take("HAT")
    lift.take("assemble")
    told = " ".join(fact.text for fact in lift_facts(lift.at, bench.hat, 1, "assemble")[1])
    assert "5 Hat screw M8 x 20 - 8.8: 5 in drawer D3" in told


def test_the_part_that_it_was_in_before_is_offered_first(bench, lift):
    build_in(lift, bench.rotor.tag)
    for code in ("HAT", "remove", "yes", "done", "HAT", "assemble"):
        lift.take(code)
    assert lift.question.question.choices[0].label == "Brake rotor"


ONCE = "M8 x 20 - 10.9"


@pytest.fixture
def once(bench):
    """The hat's screws may be used once, and its sheet says how they are tightened."""
    with bench.shop.transaction("a joint", terminal="office") as tx:
        joint = Joint("Hat screws", 5, "M8 10.9", value="30 N m", one_use=True, source="Sheet")
        tx.change(bench.screw, designation=ONCE, one_use=True)
        tx.change(bench.shop.parts.get(bench.hat.id), joints=(joint,), needed=1)
        tx.add(Wrench(0, "T-50", "", "Click 50", low=10, high=50, checked=date(2026, 9, 1)))
    return bench


def tighten(lift, values="30 30 30 30 30"):
    lift.typed(values)
    return lift.yes()


def test_a_joint_of_what_is_built_in_is_renewed_when_it_is_tightened_again(once, lift):
    for code in ("lead", "T-50"):
        lift.take(code)
    assert "Hat screws: 5 x M8" in build_in(lift, once.rotor.tag).text, "its joint is next"
    tighten(lift)
    on = ("installed", once.hat.id)
    assert held(once, once.screw) == {("received", once.drawer.id): 7, on: 5}
    assert need(once, once.screw) == 0
    with once.shop.transaction("the sheet was read again", terminal="office") as tx:
        hat = once.shop.parts.get(once.hat.id)
        tx.change(
            hat, joints=(Joint("Hat screws", 5, "M8 10.9", value="32 N m", one_use=True, source="New"),)
        )
    assert need(once, once.screw) == 5, "open again: five new ones are wanted at once"
    for code in ("done", "HAT", "tighten"):
        lift.take(code)
    tighten(lift, "32 32 32 32 32")
    assert held(once, once.screw) == {("received", once.drawer.id): 2, on: 5, ("gone", "scrapped"): 5}
    assert need(once, once.screw) == 0
    lift.take("undo")
    assert held(once, once.screw) == {("received", once.drawer.id): 7, on: 5}, "one deed, one to take back"
    assert need(once, once.screw) == 5

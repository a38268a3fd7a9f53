"""The bolts of a caliper: from stock, off into a bag, on again out of the bag; those for one use are new."""

from dataclasses import replace
from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.places import Place, State
from shoptui.domain.records import HARDWARE, Bin, HardwareLine, Joint, Part, What, Wrench
from shoptui.domain.tags import Kind
from shoptui.jobs.answers import done
from shoptui.jobs.hand_over import hand_over
from shoptui.jobs.hardware import stands, takers
from shoptui.jobs.joints import joints_of
from shoptui.jobs.recheck import state
from shoptui.jobs.story import story
from shoptui.jobs.strike_out import strike_out


@pytest.fixture
def drawer(made):
    with made.shop.transaction("a drawer", terminal="office") as tx:
        return tx.add(Bin(0, "D3", "", kind="drawer"))


@pytest.fixture
def hardware(made, drawer):
    """Bolts to be used again, and sealing rings for one use: ten of each."""
    with made.shop.transaction("hardware", terminal="office") as tx:
        bolt = tx.add(
            Part(0, "", "", None, "Caliper bolt", kind=HARDWARE, designation="M12 x 1.5 x 35 - 10.9")
        )
        ring = tx.add(
            Part(0, "", "", None, "", kind=HARDWARE, designation="sealing ring 12 x 16", one_use=True)
        )
        for kind in (bolt, ring):
            tx.enter(verbs.stock(kind.id, 10, to=drawer.id))
    return bolt, ring


@pytest.fixture
def caliper(made, hardware):
    bolt, ring = hardware
    with made.shop.transaction("a caliper", terminal="office") as tx:
        part = tx.add(
            Part(
                0,
                "CAL",
                "",
                made.build.id,
                "Brake caliper",
                needed=2,
                positions=("LF", "RF"),
                hardware=(HardwareLine(bolt.id, 2), HardwareLine(ring.id, 1)),
            )
        )
        tx.enter(verbs.stock(part.id, 2, to=made.a3.id))
    return part


def held(made, kind):
    """State and where to pieces of a kind of hardware, in the shop and on vehicles."""
    places = made.shop.book.places(kind.id)
    return {
        (place.state.value, place.where): qty for place, qty in places if place.state is not State.NOT_OURS
    }


def test_on_off_into_a_bag_and_on_again_out_of_it(made, hardware, caliper, drawer):
    bolt, ring = hardware
    assert bolt.tag.startswith("H")
    lift = made.scans("lift")
    lift.take("CAL")
    lift.take("LF")
    assert held(made, bolt) == {("received", drawer.id): 8, ("installed", caliper.id): 2}
    assert held(made, ring) == {("received", drawer.id): 9, ("installed", caliper.id): 1}

    lift.take("remove")
    off = lift.yes()
    assert "Scrap, for one use: 1 sealing ring 12 x 16." in off.text
    assert "Its hardware: 2 Caliper bolt M12 x 1.5 x 35 - 10.9. Scan a bag" in off.text
    blank = made.shop.new_tag(Kind.BAG)
    bagged = lift.take(blank)
    bag = made.shop.bins.by_code(blank)
    assert bagged.said == "done"
    assert bag.part == caliper.id
    assert held(made, bolt) == {("received", drawer.id): 8, ("removed", bag.id): 2}
    assert held(made, ring) == {("received", drawer.id): 9, ("gone", "scrapped"): 1}

    lift.take("done")
    asked = lift.take(blank)  # its bag brings its card back
    assert lift.card.part == caliper.id
    assert asked.card == "install"
    lift.take("RF")
    assert held(made, bolt) == {("received", drawer.id): 8, ("installed", caliper.id): 2}
    assert held(made, ring)["received", drawer.id] == 8
    assert made.shop.bins.get(bag.id).part is None, "the empty bag is free"
    lift.take("undo")
    assert held(made, bolt)["removed", bag.id] == 2
    assert made.shop.bins.get(bag.id).part == caliper.id


def test_a_bag_scanned_first_takes_the_bolts_and_the_part_goes_where_parts_go(made, hardware, caliper):
    bolt, _ = hardware
    with made.shop.transaction("a bag", terminal="office") as tx:
        bag = tx.add(Bin(0, "BAG1", "", kind="bag"))
    lift = made.scans("lift")
    for code in ("CAL", "LF", "A4", "remove"):
        lift.take(code)
    assert "its hardware into bag BAG1?" in lift.take("BAG1").text
    assert "Its hardware is in bag BAG1." in lift.yes().text
    assert held(made, bolt)["removed", bag.id] == 2
    assert made.count(caliper, State.REMOVED) == 1
    assert made.shop.book.parts_at(State.REMOVED, made.a4.id) == {caliper.id: 1}
    lift.take("undo")
    assert held(made, bolt)["installed", caliper.id] == 2, "one deed, one to take back"


def test_one_bolt_is_missing_when_they_are_counted_into_the_bag(made, hardware, caliper):
    bolt, _ = hardware
    lift = made.scans("lift")
    for code in ("CAL", "LF", "remove", "yes"):
        lift.take(code)
    assert "Its hardware: 1 Caliper bolt" in lift.typed("1").text
    lift.take(made.shop.new_tag(Kind.BAG))
    assert held(made, bolt)["gone", "lost"] == 1
    assert sum(qty for (state, _), qty in held(made, bolt).items() if state == "removed") == 1


def test_a_bag_of_another_part_is_not_taken(made, hardware, caliper):
    bolt, _ = hardware
    with made.shop.transaction("a bag", terminal="office") as tx:
        bag = tx.add(Bin(0, "BAG1", "", kind="bag", part=made.hub.id))
    lift = made.scans("lift")
    for code in ("CAL", "LF", "remove", "yes"):
        lift.take(code)
    assert "the hardware of Hub: take another bag" in lift.take("BAG1").text
    assert ("removed", bag.id) not in held(made, bolt)
    assert lift.take(made.shop.new_tag(Kind.BAG)).said == "done", "the question stood"


@pytest.mark.parametrize(
    ("scan", "said"),
    [("LF", "LF is no bag."), ("T1", "T1 is in hand."), ("lead", "the lead is at this")],
)
def test_the_bag_is_asked_for_until_it_comes(made, hardware, caliper, scan, said):
    bolt, _ = hardware
    with made.shop.transaction("a wrench", terminal="office") as tx:
        tx.add(Wrench(0, "T1", "", "click", low=20, high=200, unit="N m"))
    lift = made.scans("lift")
    for code in ("CAL", "LF", "remove", "yes"):
        lift.take(code)
    asked = lift.take(scan)
    assert asked.text.startswith(said)
    assert "Its hardware: 2 Caliper bolt" in asked.text
    assert lift.take(made.shop.new_tag(Kind.BAG)).kind == "bag"
    assert sum(qty for (state, _), qty in held(made, bolt).items() if state == "removed") == 2


def test_the_bag_of_one_part_is_no_stock_for_another(made, hardware, caliper, drawer):
    bolt, _ = hardware
    with made.shop.transaction("few", terminal="office") as tx:
        bag = tx.add(Bin(0, "BAG1", "", kind="bag", part=made.hub.id))
        tx.enter(verbs.install(made.shop.book, bolt.id, 9, position=made.hub.id))
        tx.enter(verbs.remove(made.shop.book, bolt.id, 9, position=made.hub.id, to=bag.id))
    lift = made.scans("lift")
    asked = lift.take("CAL")
    assert "Hardware: 1 of 2 Caliper bolt M12 x 1.5 x 35 - 10.9 are here." in asked.text
    lift.yes()
    assert held(made, bolt) == {("removed", bag.id): 9, ("installed", caliper.id): 2}
    assert made.shop.book.sum(bolt.id) == 0


def test_a_trial_fit_uses_no_bolts_up(made, hardware, caliper):
    lift = made.scans("lift")
    for code in ("mock up", "CAL", "LF"):
        lift.take(code)
    assert made.count(caliper, State.MOCKED_UP) == 1
    assert made.count(hardware[0], State.INSTALLED) == 0


def test_one_of_two_comes_off_with_its_share(made, hardware, caliper):
    bolt, _ = hardware
    lift = made.scans("lift")
    for code in ("CAL", "LF", "CAL", "RF", "remove", "RF"):
        lift.take(code)
    assert held(made, bolt)["installed", caliper.id] == 2


def test_at_the_lift_a_bolt_is_shown_and_never_put_on(made, hardware, caliper):
    answer = made.scans("lift").take(hardware[0].tag)
    assert (answer.said, answer.show) == ("done", "hardware")
    assert "in drawer D3" in answer.text


def test_what_is_handed_over_takes_its_bolts_along(made, hardware, caliper):
    bolt, _ = hardware
    lift = made.scans("lift")
    for code in ("CAL", "LF"):
        lift.take(code)
    answer = hand_over(made.at("office"), made.build)
    while answer.question is not None and answer.said == "question":
        choices = answer.question.choices
        answer = answer.question.yes() if answer.question.yes else choices[0].take()
    assert held(made, bolt)["gone", "handed over"] == 2


@pytest.fixture
def seat(made):
    """A seat with four bolts turned by angle, which may be used once."""
    with made.shop.transaction("a seat", terminal="office") as tx:
        size = "M10 x 1.25 x 25 - 10.9"
        bolt = tx.add(Part(0, "", "", None, "Seat bolt", kind=HARDWARE, designation=size, one_use=True))
        joint = Joint("Seat bolts", 4, "M10x1.25 10.9", value="40 N m + 90 deg", one_use=True, source="Sheet")
        seat = tx.add(
            Part(
                *(0, "SEAT", "", made.build.id, "Seat"),
                needed=1,
                hardware=(HardwareLine(bolt.id, 4),),
                joints=(joint,),
            )
        )
        tx.enter(verbs.stock(seat.id, 1, to=made.a3.id))
        tx.enter(verbs.stock(bolt.id, 10, to=made.a4.id))
        tx.add(Wrench(0, "T-200", "", "Click 200", low=20, high=200, checked=date(2026, 9, 1)))
    return seat, bolt


def tighten(lift):
    lift.typed("90 90 90 90")
    assert "4 new ones?" in lift.question.text
    return lift.yes()


def test_seat_bolts_that_are_used_once_are_used_up(made, seat):
    part, bolt = seat
    lift = made.scans("lift")
    for code in ("lead", "T-200", "SEAT", "yes"):
        lift.take(code)
    assert held(made, bolt) == {("received", made.a4.id): 6, ("installed", part.id): 4}
    tighten(lift)
    assert held(made, bolt)["installed", part.id] == 4, "they went on new with the seat"
    with made.shop.transaction("the sheet was read again", terminal="office") as tx:
        now = made.shop.parts.get(part.id)
        tx.change(now, joints=(replace(now.joints[0], source="Sheet, edition 2"),))
    for code in ("done", "SEAT", "tighten"):
        lift.take(code)
    tighten(lift)
    assert held(made, bolt) == {
        ("received", made.a4.id): 2,
        ("installed", part.id): 4,
        ("gone", "scrapped"): 4,
    }
    lift.take("remove")
    off = lift.yes()
    assert "Scrap, for one use: 4 Seat bolt" in off.text
    assert off.question is None, "nothing is left for a bag"
    assert held(made, bolt) == {("received", made.a4.id): 2, ("gone", "scrapped"): 8}
    lift.take("done")
    assert "Hardware: 2 of 4 Seat bolt M10 x 1.25 x 25 - 10.9 are here new." in lift.take("SEAT").text


def test_what_happened_to_a_bolt_is_told(made, hardware, caliper):
    bolt, ring = hardware
    lift = made.scans("lift")
    for code in ("CAL", "LF", "remove", "yes"):
        lift.take(code)
    lift.take(made.shop.new_tag(Kind.BAG))
    told = " ".join(story(made.shop, bolt))
    assert "2 went on with Brake caliper (CAL)" in told
    assert "2 came off with Brake caliper (CAL), on the bench, unsorted" in told
    assert "2 put away in bag G-" in told
    assert "gone, scrapped" in " ".join(story(made.shop, ring))


def test_bolts_of_one_use_are_new_only_as_far_as_they_are_booked(made, seat):
    part, bolt = seat
    with made.shop.transaction("few are left", terminal="office") as tx:
        tx.enter(verbs.dispose(made.shop.book, bolt.id, 8, reason="lost"))
    lift = made.scans("lift")
    for code in ("lead", "T-200", "SEAT", "yes"):
        lift.take(code)
    asked = lift.typed("90 90 90 90")
    assert "4 new ones? 2 new are booked. Enter: yes, and 2 of them not booked." in asked.text
    lift.yes()
    assert [row.note.split("; ")[-1] for row in made.shop.readings.of_part(part.id)] == [
        "new fasteners", "new fasteners", "new ones not booked", "new ones not booked",
    ]  # fmt: skip


def test_only_a_bolt_that_was_turned_too_far_is_renewed(made, seat):
    _, bolt = seat
    lift = made.scans("lift")
    for code in ("lead", "T-200", "SEAT", "yes"):
        lift.take(code)
    lift.typed("400")
    lift.yes()
    lift.yes()
    lift.typed("90 90 90")
    lift.yes()
    assert made.count(bolt, State.GONE) == 0
    lift.typed("90")
    lift.yes()
    assert made.count(bolt, State.GONE) == 1
    assert made.count(bolt, State.INSTALLED) == 4


def loosen(made, part):
    each = joints_of(made.shop, made.shop.parts.get(part.id))[0]
    state(made.at("lift"), each, done, What.LOOSENED, "to look")


def on_and_tight(lift):
    for code in ("lead", "T-200", "SEAT", "yes"):
        lift.take(code)
    tighten(lift)


def needed(made, kind):
    return next(each.need.needed for each in stands(made.shop) if each.part.id == kind.id)


def test_loosened_bolts_of_one_use_are_scrap_once_new_ones_are_tightened(made, seat):
    part, bolt = seat
    lift = made.scans("lift")
    on_and_tight(lift)
    assert needed(made, bolt) == 0
    loosen(made, part)
    assert needed(made, bolt) == 4, "wanted as soon as it is loosened"
    assert [each.renew for each in takers(made.shop, bolt)] == [4]
    for code in ("done", "SEAT", "tighten"):
        lift.take(code)
    lift.typed("90 90")
    lift.yes()
    assert (made.count(bolt, State.GONE), needed(made, bolt)) == (2, 2)
    lift.typed("90 90")
    lift.yes()
    assert held(made, bolt) == {
        ("received", made.a4.id): 2,
        ("installed", part.id): 4,
        ("gone", "scrapped"): 4,
    }
    lift.take("undo")
    assert (made.count(bolt, State.GONE), needed(made, bolt)) == (2, 2)


def test_bolts_that_were_never_tightened_stay_new_when_others_are_loosened(made, seat):
    part, bolt = seat
    lift = made.scans("lift")
    for code in ("lead", "T-200", "SEAT", "yes"):
        lift.take(code)
    lift.typed("90 90")
    lift.yes()
    loosen(made, part)
    assert needed(made, bolt) == 2
    for code in ("done", "SEAT", "tighten"):
        lift.take(code)
    tighten(lift)
    assert made.count(bolt, State.GONE) == 2, "two were tightened before, two never"


def test_a_reading_of_new_bolts_that_was_struck_out_renews_them_no_second_time(made, seat):
    part, bolt = seat
    lift = made.scans("lift")
    on_and_tight(lift)
    loosen(made, part)
    for code in ("done", "SEAT", "tighten"):
        lift.take(code)
    tighten(lift)
    for row in made.shop.readings.of_part(part.id)[-4:]:
        strike_out(made.at("lift"), joints_of(made.shop, part)[0], row, "typed at the wrong seat")
    assert needed(made, bolt) == 0, "the bolts are new still"
    for code in ("done", "SEAT", "tighten"):
        lift.take(code)
    tighten(lift)
    assert (made.count(bolt, State.GONE), made.count(bolt, State.INSTALLED)) == (4, 4)


@pytest.fixture
def bagged(made, hardware, caliper):
    """A caliper that came off LF, its bolts in BAG1."""
    with made.shop.transaction("a bag", terminal="office") as tx:
        bag = tx.add(Bin(0, "BAG1", "", kind="bag"))
    lift = made.scans("lift")
    for code in ("CAL", "LF", "remove", "BAG1", "yes"):
        lift.take(code)
    lift.take("done")
    return bag


def sold(made, caliper, *, qty, needed):
    with made.shop.transaction("sold", terminal="office") as tx:
        tx.enter(verbs.dispose(made.shop.book, caliper.id, qty, reason="sold"))
        tx.change(made.shop.parts.get(caliper.id), needed=needed)


def test_the_bag_of_a_part_that_was_sold_is_for_any_part(made, hardware, caliper, bagged):
    bolt, _ = hardware
    assert stand_of(made, bolt).stock.kept == 0
    sold(made, caliper, qty=2, needed=0)
    lift = made.scans("lift")
    answer = lift.take("BAG1")
    assert (answer.said, answer.card) == ("done", "")
    assert answer.text == "bag BAG1: Brake caliper needs it no more: it is for any part."
    assert stand_of(made, bolt).need.on_hand == 10
    assert "it is for any part" in made.scans("racks").take("BAG1").text


def test_the_bag_of_a_part_that_is_bought_again_waits_for_the_new_one(made, hardware, caliper, bagged):
    sold(made, caliper, qty=2, needed=2)
    lift = made.scans("lift")
    asked = lift.take("BAG1")
    assert (asked.card, lift.card.part) == ("install", caliper.id)


def test_more_in_a_bag_than_its_part_takes_is_for_nobody_else(made, hardware, caliper, bagged):
    bolt, _ = hardware
    sold(made, caliper, qty=1, needed=0)
    stand = stand_of(made, bolt)
    assert (stand.stock.used, stand.stock.kept, stand.need.on_hand) == (2, 2, 8)


def test_the_racks_say_whose_a_bag_is_and_what_lacks_in_it(made, hardware, caliper, bagged):
    racks = made.scans("racks")
    assert racks.take("BAG1").text == "bag BAG1: 2 Caliper bolt M12 x 1.5 x 35 - 10.9. Of Brake caliper."
    with made.shop.transaction("lost", terminal="office") as tx:
        tx.enter(verbs.dispose(made.shop.book, hardware[0].id, 1, reason="lost", sources=lies_in(bagged)))
    assert racks.take("BAG1").text.endswith("Of Brake caliper, lacking 1 Caliper bolt M12 x 1.5 x 35 - 10.9.")


def lies_in(bag):
    return [Place(State.REMOVED, bag.id)]


def stand_of(made, kind):
    return next(each for each in stands(made.shop) if each.part.id == kind.id)

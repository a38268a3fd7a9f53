"""How pieces leave: disposed of, transferred, handed over; and what is then to be ordered again."""

from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.places import OTHER_BUILD, SEALED, Place, State
from shoptui.domain.records import Charge, Part
from shoptui.domain.shoots import Condition, Need, Shoot, Shot
from shoptui.jobs.answers import Said
from shoptui.jobs.cores import CoreState, core_words, cores_of, open_cores, refund
from shoptui.jobs.dispose import dispose
from shoptui.jobs.hand_over import hand_over
from shoptui.jobs.transfer import ask_transfer, transfer
from shoptui.jobs.undo import undo


@pytest.fixture
def here(made):
    """Both rotors in A3, the hub held in A4, its spare in A3, the hood on order."""
    shop = made.shop
    with shop.transaction("here", terminal="office") as tx:
        tx.enter(verbs.receive(shop.book, made.rotor.id, 2, order=made.order.id, to=made.a3.id))
        tx.enter(verbs.receive_unordered(made.hub.id, 1, supplier=made.supplier.id, to=made.a3.id))
        tx.enter(
            verbs.hold_ordered(shop.book, made.hub.id, 1, order=made.order.id, note="damaged", to=made.a4.id)
        )
    return made


def to_order(made, part):
    part = made.shop.parts.get(part.id)
    return verbs.to_order(made.shop.book, part.id, needed=part.needed, original=part.original)


def pick(answer, label):
    return next(choice for choice in answer.question.choices if choice.label == label).take()


def test_a_scrapped_piece_is_asked_about_and_enter_means_to_order_again(here):
    before = here.bytes()
    answer = dispose(here.at("office"), here.rotor, 1, reason="scrapped")
    assert answer.text == "1 Brake rotor: still needed? Enter: yes, 1 to order again."
    assert here.bytes() == before
    assert answer.question.yes().text == "Gone, scrapped: 1 Brake rotor. 1 to order again."
    assert to_order(here, here.rotor) == 1


def test_one_that_is_no_longer_needed_changes_the_need_in_the_same_transaction(here):
    answer = pick(dispose(here.at("office"), here.rotor, 1, reason="sold"), "no longer needed")
    assert answer.said is Said.DONE
    assert here.shop.parts.get(here.rotor.id).needed == 1
    assert to_order(here, here.rotor) == 0
    undo(here.at("office"))
    assert here.shop.parts.get(here.rotor.id).needed == 2
    assert here.count(here.rotor, State.RECEIVED) == 2


def test_where_they_lie_in_several_places_it_is_asked_which_held_ones_first(here):
    answer = dispose(here.at("office"), here.hub, 1, reason="returned")
    assert [choice.label[:10] for choice in answer.question.choices] == ["1 held, se", "1 received"]
    answer = answer.question.choices[0].take()
    assert answer.text == "Gone, returned: 1 Hub."  # one is here for the one that is needed: nothing to ask
    assert here.count(here.hub, State.HELD) == 0
    assert here.count(here.hub, State.RECEIVED) == 1


def test_all_of_them_need_no_question_which(here):
    assert "still needed" in dispose(here.at("office"), here.hub, 2, reason="lost").text


def test_more_than_there_are_is_refused_with_what_there_is(here):
    answer = dispose(here.at("office"), here.rotor, 3, reason="lost")
    assert answer.said is Said.STOP
    assert "2 are" in answer.text


def test_what_is_built_in_goes_along_and_is_said(here):
    with here.shop.transaction("bearing", terminal="office") as tx:
        bearing = tx.add(Part(0, "", "", here.build.id, "Bearing", needed=1))
        tx.enter(verbs.receive_unordered(bearing.id, 1, supplier=here.supplier.id))
        tx.enter(verbs.assemble(here.shop.book, bearing.id, 1, carrier=here.rotor.id))
    answer = dispose(here.at("office"), here.rotor, 2, reason="sold", no_longer_needed=True)
    assert "With it: 1 Bearing." in answer.text
    assert here.count(bearing, State.GONE) == 1


def test_a_shot_that_needs_it_sealed_is_asked_about_last(here):
    need = Need(Condition.SEALED, part=here.rotor.id)
    with here.shop.transaction("day", terminal="office") as tx:
        tx.add(Shoot(0, "d1", "Boxes", date(2026, 12, 1), shots=(Shot("Rotors", (need,)),)))
    answer = dispose(here.at("office"), here.rotor, 1, reason="sold").question.yes()
    assert "needs it sealed" in answer.text
    assert here.count(here.rotor, State.GONE) == 0
    answer.question.yes()
    assert here.count(here.rotor, State.GONE) == 1


def other_line(made, **fields):
    with made.shop.transaction("line", terminal="office") as tx:
        return tx.add(Part(0, "", "", made.other.id, "Disc", needed=1, **fields))


def test_a_transfer_finds_the_line_with_the_same_number(here):
    line = other_line(here, number="br100")
    answer = transfer(here.at("office"), here.rotor, 1, to=here.other)
    assert "still needed?" in answer.text
    answer = answer.question.yes()
    tag = f"P-{line.tag[1:]}"
    assert answer.text == f"Given to coupe: 1 Brake rotor. 1 to order again. Its tag is {tag} now."
    assert here.shop.book.at(line.id, Place(State.RECEIVED, here.a3.id, SEALED)) == 1
    assert to_order(here, here.rotor) == 1
    undo(here.at("office"))
    assert here.shop.book.in_state(line.id, State.RECEIVED) == 0


def test_without_such_a_line_it_is_asked_which_or_a_new_one(here):
    before = here.bytes()
    answer = transfer(here.at("office"), here.rotor, 2, to=here.other, no_longer_needed=True)
    assert answer.text == (
        "2 Brake rotor to coupe: no line there is like it. "
        "Enter: a new one, copied from this. Or scan the line."
    )
    assert here.bytes() == before
    answer.question.yes()
    (line,) = [each for each in here.shop.parts.all() if each.build == here.other.id and each.number]
    assert (line.number, line.needed, line.install_after) == ("BR-100", 2, ())
    assert here.count(line, State.RECEIVED) == 2
    codes = [code.record for code in here.shop.learned.all()]
    assert codes == [here.rotor.id, line.id]
    assert here.shop.parts.get(here.rotor.id).needed == 0


def test_lines_that_are_called_alike_are_listed(here):
    with here.shop.transaction("line", terminal="office") as tx:
        disc = tx.add(Part(0, "", "", here.other.id, "Front brake disc", needed=2))
    answer = transfer(here.at("office"), here.rotor, 1, to=here.other, no_longer_needed=False)
    assert answer.text == "1 Brake rotor to coupe: on which line there? Its number and Enter, or scan it."
    assert len(answer.question.choices) == 2
    answer.question.choices[0].take()
    assert here.count(disc, State.RECEIVED) == 1


def test_the_line_can_be_scanned(here):
    answer = transfer(here.at("office"), here.rotor, 1, to=here.other, no_longer_needed=False)
    assert answer.question.accepts(here.hub.tag) is None
    assert answer.question.accepts(here.foreign.tag).said is Said.DONE
    assert here.count(here.foreign, State.RECEIVED) == 1


def test_what_is_installed_comes_off_in_the_same_transaction(here):
    with here.shop.transaction("installed", terminal="lift") as tx:
        tx.enter(verbs.install(here.shop.book, here.rotor.id, 1, position="LF"))
        tx.enter(verbs.install(here.shop.book, here.rotor.id, 1, position="RF"))
    line = other_line(here, number="BR-100")
    answer = transfer(here.at("office"), here.rotor, 1, to=here.other)
    assert "0 lie here. Does 1 come off the vehicle for coupe?" in answer.text
    answer = pick(answer, "from RF").question.yes()
    assert answer.said is Said.DONE
    assert [place.where for place, _ in here.shop.book.places(here.rotor.id, State.INSTALLED)] == ["LF"]
    assert here.shop.book.in_state(line.id, State.REMOVED) == 1
    undo(here.at("office"))
    assert here.count(here.rotor, State.INSTALLED) == 2


def test_what_is_built_in_gets_a_line_there_too(here):
    with here.shop.transaction("bearing", terminal="office") as tx:
        bearing = tx.add(Part(0, "", "", here.build.id, "Bearing", number="B-1", needed=2))
        tx.enter(verbs.receive_unordered(bearing.id, 2, supplier=here.supplier.id))
        tx.enter(verbs.assemble(here.shop.book, bearing.id, 2, carrier=here.rotor.id))
    line = other_line(here, number="BR-100")
    answer = transfer(here.at("office"), here.rotor, 2, to=here.other, no_longer_needed=True)
    assert "With it: 2 Bearing." in answer.text
    (inner,) = [
        each for each in here.shop.parts.all() if each.build == here.other.id and each.number == "B-1"
    ]
    assert here.shop.book.places(inner.id, State.ASSEMBLED) == ((Place(State.ASSEMBLED, line.id), 2),)


def test_nothing_goes_to_a_finished_build_or_to_its_own(here):
    with here.shop.transaction("finished", terminal="office") as tx:
        finished = tx.change(here.other, status="finished")
    assert "Coupe is finished" in transfer(here.at("office"), here.rotor, 1, to=finished).text
    assert "already" in transfer(here.at("office"), here.rotor, 1, to=here.build).text
    assert [choice.label for choice in ask_transfer(here.at("office"), here.rotor, 1).question.choices] == [
        "the shop's stock"
    ]


def test_stock_gets_a_line_that_needs_nothing(here):
    answer = pick(ask_transfer(here.at("office"), here.rotor, 2), "the shop's stock")
    answer.question.yes()
    (line,) = [each for each in here.shop.parts.all() if each.build is None]
    assert (line.needed, here.count(line, State.RECEIVED)) == (0, 2)
    assert here.shop.book.parts_at(State.GONE, OTHER_BUILD) == {here.rotor.id: 2}


def deposit(made, due):
    charge = Charge("core deposit", 4500, part=made.hub.id, due=due)
    with made.shop.transaction("deposit", terminal="office") as tx:
        tx.change(made.shop.orders.get(made.order.id), charges=(charge,), currency="EUR")


def test_a_core_is_due_then_overdue_then_sent_back_then_paid_back(here):
    deposit(here, date(2026, 12, 25))
    day = date(2026, 11, 25)
    (core,) = open_cores(here.shop, day)
    assert core.state is CoreState.OPEN
    assert core_words(core, day).endswith("due Fri 25 Dec, EUR 45.00, order 1042")
    assert open_cores(here.shop, date(2026, 12, 26))[0].state is CoreState.OVERDUE
    held = tuple(place for place, _ in here.shop.book.places(here.hub.id, State.HELD))
    dispose(here.at("office"), here.hub, 1, reason="core sent back", sources=held, no_longer_needed=False)
    (core,) = cores_of(here.shop, here.hub, day)
    assert core.state is CoreState.SENT
    assert refund(here.at("office"), core).text == (
        f"EUR 45.00 came back for the core of Hub (P-{here.hub.tag[1:]}), order 1042."
    )
    assert not open_cores(here.shop, day)
    undo(here.at("office"))
    assert open_cores(here.shop, day)


def test_a_refund_that_another_was_quicker_with_changes_nothing(here):
    deposit(here, None)
    (core,) = open_cores(here.shop, date(2026, 11, 25))
    refund(here.at("office"), core, 4000)
    assert refund(here.at("office"), core).said is Said.STOP
    assert here.shop.orders.get(here.order.id).charges[0].refunded_minor == 4000


def test_a_handed_over_vehicle_takes_what_is_installed_with_it(here):
    shop = here.shop
    with shop.transaction("installed", terminal="lift") as tx:
        tx.enter(verbs.install(shop.book, here.rotor.id, 1, position="LF"))
    before = here.bytes()
    answer = hand_over(here.at("office"), here.build)
    assert "With it: 1 piece." in answer.text
    assert "11 ordered" in answer.text
    assert "1 held (Hub: damaged)" in answer.text
    assert "2 here but not installed" in answer.text
    assert here.bytes() == before
    answer = answer.question.yes()
    assert answer.said is Said.DONE
    assert shop.builds.get(here.build.id).status == "finished"
    assert here.count(here.rotor, State.GONE) == 1
    assert here.count(here.rotor, State.RECEIVED) == 1
    again = hand_over(here.at("office"), shop.builds.get(here.build.id))
    assert again.text == "Wagon is finished already: nothing is left on it to be handed over."
    undo(here.at("office"))
    assert shop.builds.get(here.build.id).status == "open"
    assert here.count(here.rotor, State.INSTALLED) == 1


def test_a_list_may_bring_a_finished_vehicle_with_all_that_is_on_it(here):
    shop = here.shop
    with shop.transaction("installed", terminal="lift") as tx:
        tx.enter(verbs.install(shop.book, here.rotor.id, 1, position="LF"))
        tx.change(here.build, status="finished")
    asked = hand_over(here.at("office"), shop.builds.get(here.build.id))
    assert asked.text.startswith("Hand over Wagon? With it: 1 piece.")
    assert asked.question.yes().text == "Wagon is handed over, with 1 piece. Its record stays."
    assert here.count(here.rotor, State.GONE) == 1
    assert asked.question.yes().said is Said.STOP, "answered at two terminals"


def test_one_handed_over_meanwhile_is_not_handed_over_twice(here):
    shop = here.shop
    with shop.transaction("installed", terminal="lift") as tx:
        tx.enter(verbs.install(shop.book, here.rotor.id, 1, position="LF"))
    asked = hand_over(here.at("office"), here.build)
    asked.question.yes()
    assert asked.question.yes().said is Said.STOP


def test_what_lies_here_can_go_to_the_stock_at_the_hand_over(here):
    hand_over(here.at("office"), here.build).question.choices[0].take()
    stock = {each.description: each for each in here.shop.parts.all() if each.build is None}
    assert set(stock) == {"Brake rotor", "Hub"}
    assert here.count(stock["Hub"], State.HELD) == 1
    assert here.count(stock["Hub"], State.RECEIVED) == 1
    assert here.count(here.hub, State.RECEIVED, State.HELD) == 0

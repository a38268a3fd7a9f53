from shoptui.domain import verbs
from shoptui.domain.places import Place, State
from shoptui.domain.records import Bin, Box, Part
from shoptui.jobs.add_part import add_part
from shoptui.jobs.answers import Said
from shoptui.jobs.at import At
from shoptui.jobs.order import order
from shoptui.jobs.set_aside import hold, open_part
from shoptui.jobs.undo import last_to_undo, undo


def picture(made):
    """All balances and all records, as they are seen."""
    shop = made.shop
    shelves = {name: list(shelf.all()) for name, shelf in shop.shelves.items()}
    return {part.id: shop.book.places(part.id) for part in shop.parts.all()}, shelves


def receive(made, part, qty, terminal="door"):
    with made.shop.transaction(f"received {qty}", terminal=terminal) as tx:
        tx.enter(verbs.receive(made.shop.book, part.id, qty, order=made.order.id))


def put_away(made, part, qty, bin_, terminal):
    source = Place(State.RECEIVED, "", "sealed")
    with made.shop.transaction("put away", terminal=terminal) as tx:
        tx.enter(verbs.put_away(made.shop.book, part.id, source, qty, to=bin_.id))


def test_undo_restores_the_very_balances_and_records(made):
    before = picture(made)
    receive(made, made.rotor, 2)
    order(made.at("door"), made.hood, 3, supplier="A new supplier", number="9", more=True)
    hold(made.at("door"), made.rotor, 1, note="scratched")
    for _ in range(3):
        assert undo(made.at("door")).said is Said.DONE
    assert picture(made) == before


def test_undo_names_what_it_took_back(made):
    receive(made, made.rotor, 2)
    assert undo(made.at("door")).text == "Undone: received 2"


def test_undo_goes_back_through_what_was_done_and_never_undoes_an_undo(made):
    receive(made, made.rotor, 1)
    receive(made, made.hub, 1)
    assert undo(made.at("door")).text == "Undone: received 1"
    assert made.count(made.hub, State.RECEIVED) == 0
    undo(made.at("door"))
    assert made.count(made.rotor, State.RECEIVED) == 0
    answer = undo(made.at("door"))
    assert (answer.said, answer.text) == (Said.STOP, "There is nothing to undo at this terminal.")


def test_each_terminal_undoes_its_own(made):
    receive(made, made.rotor, 1, "door")
    receive(made, made.hub, 1, "lift")
    undo(made.at("door"))
    assert made.count(made.rotor, State.RECEIVED) == 0
    assert made.count(made.hub, State.RECEIVED) == 1


def test_undo_works_after_closing_the_program(made):
    receive(made, made.rotor, 1)
    made.shop.close()
    made.shop = made.reopened()
    assert undo(made.at("door")).said is Said.DONE
    assert made.count(made.rotor, State.RECEIVED) == 0
    assert last_to_undo(made.shop, "door") is None


def test_refused_when_the_pieces_were_moved_since_and_says_by_what(made):
    receive(made, made.rotor, 2)
    put_away(made, made.rotor, 2, made.a3, "racks")
    before = picture(made)
    answer = undo(made.at("door"))
    assert answer.said is Said.STOP
    assert "its pieces were moved since, by “put away” (racks," in answer.text
    assert picture(made) == before
    undo(made.at("racks"))
    assert undo(made.at("door")).said is Said.DONE


def test_refused_when_a_later_one_changed_the_same_field(made):
    shop = made.shop
    with shop.transaction("section", terminal="office") as tx:
        tx.change(made.hood, section="Front")
    with shop.transaction("section again", terminal="lift") as tx:
        tx.change(made.hood, section="Nose")
    answer = undo(made.at("office"))
    assert answer.said is Said.STOP
    assert "the field “section” of" in answer.text
    assert shop.parts.get(made.hood.id).section == "Nose"
    undo(made.at("lift"))
    assert undo(made.at("office")).said is Said.DONE
    assert shop.parts.get(made.hood.id).section == "Body"


def test_another_field_of_the_same_record_does_not_stand_in_the_way(made):
    shop = made.shop
    with shop.transaction("section", terminal="office") as tx:
        tx.change(made.hood, section="Front")
    with shop.transaction("notes", terminal="lift") as tx:
        tx.change(made.hood, notes="heavy")
    assert undo(made.at("office")).said is Said.DONE
    assert (shop.parts.get(made.hood.id).section, shop.parts.get(made.hood.id).notes) == ("Body", "heavy")


def test_refused_when_a_later_move_uses_a_record_that_it_made(made):
    shop = made.shop
    with shop.transaction("a bin", terminal="office") as tx:
        bin_ = tx.add(Bin(0, "B9", ""))
    receive(made, made.rotor, 1)
    put_away(made, made.rotor, 1, bin_, "racks")
    answer = undo(made.at("office"))
    assert "what it made is used by “put away”" in answer.text
    assert shop.bins.by_code("B9") is not None


def test_refused_when_a_later_move_names_a_box_that_it_made(made):
    shop = made.shop
    with shop.transaction("a box", terminal="office") as tx:
        box = tx.add(Box(0, "", (made.order.id,)))
    with shop.transaction("received", terminal="door") as tx:
        tx.enter(verbs.receive(shop.book, made.rotor.id, 1, order=made.order.id, ref=box.code))
    assert "what it made is used by “received”" in undo(made.at("office")).text


def test_refused_when_a_later_record_points_at_one_that_it_made(made):
    shop = made.shop
    added = add_part(made.at("office"), description="bracket")
    with shop.transaction("spacer", terminal="lift") as tx:
        tx.add(Part(0, "", "", made.build.id, "spacer", install_after=(added.subject,)))
    assert "what it made is used by “spacer”" in undo(made.at("office")).text


def test_a_record_made_and_changed_in_one_go_is_withdrawn(made):
    order(made.at("office"), made.hood, 1, supplier="brakes", number="77", more=True)
    number = made.shop.orders.by_code("77").id
    undo(made.at("office"))
    assert made.shop.orders.by_code("77") is None
    assert made.shop.orders.get(number).withdrawn


def test_what_was_undone_in_between_leaves_the_code_free_again(made):
    first = add_part(made.at("office"), description="bracket")
    undo(made.at("office"))
    second = add_part(made.at("office"), description="bracket")
    assert second.said is Said.DONE
    assert second.part != first.part


def test_another_process_that_undid_it_first_is_seen(made):
    receive(made, made.rotor, 1)
    other = made.reopened()
    assert undo(At(other, "door")).said is Said.DONE
    other.close()
    assert undo(made.at("door")).text == "There is nothing to undo at this terminal."


def test_words_of_a_name_are_inert(made):
    added = add_part(made.at("office"), description="br\x1b[31mrack\u202eet")
    assert "\x1b" not in added.text
    assert "\u202e" not in added.text
    assert "\x1b" not in undo(made.at("office")).text


def test_opening_is_undone_to_sealed(made):
    receive(made, made.rotor, 2)
    open_part(made.at("lift"), made.rotor, 1)
    undo(made.at("lift"))
    assert made.shop.book.at(made.rotor.id, Place(State.RECEIVED, "", "sealed")) == 2

"""Forms of records: what is typed is read, what cannot be is refused, what others changed is shown."""

from datetime import date

import pytest

from shoptui.domain.places import State
from shoptui.domain.prices import Price, Sure
from shoptui.domain.records import (
    Build,
    KitLine,
    Order,
    OrderLine,
    OutsideWork,
    Part,
    Person,
    Supplier,
    Wrench,
)
from shoptui.domain.row_text import row_text
from shoptui.jobs.answers import Said
from shoptui.jobs.edit import edit, make, written
from shoptui.jobs.record_forms import FORMS
from shoptui.jobs.story import story
from shoptui.jobs.undo import undo


def change(made, record, at="office", **typed):
    record = made.shop.shelves[type(record)].get(record.id)
    before = written(made.shop, record)
    return edit(made.at(at), record, {**before, **typed}, before=before)


def now(made, record):
    return made.shop.shelves[type(record)].get(record.id)


def test_all_fields_of_a_part(made):
    typed = {
        "description": " Brake  rotor, vented ",
        "code": "BR-1",
        "section": "Brakes",
        "maker": "Anvil works",
        "number": "BR-101",
        "other_numbers": "BR-100; BR-99",
        "needed": "4",
        "sold_as": "pair",
        "pieces": "2",
        "positions": "LF RF LR RR",
        "install_after": "Hub",
        "replaces": "Clip",
        "outside_work": "coated, 5 days, 20",
        "hours": "2,5 h",
        "price": "about 1.250,00",
        "sponsor": "yes",
        "opened_on": "12 Nov",
        "use_by": "+5",
        "notes": "left / right",
    }
    assert change(made, made.rotor, **typed).said is Said.DONE
    rotor = now(made, made.rotor)
    assert rotor.description == "Brake rotor, vented"
    assert (rotor.code, rotor.tag) == ("BR-1", made.rotor.tag)
    assert rotor.other_numbers == ("BR-100", "BR-99")
    assert (rotor.needed, rotor.sold_as, rotor.pieces) == (4, "pair", 2)
    assert rotor.install_after == (made.hub.id,)
    assert rotor.replaces == (made.clip.id,)
    assert rotor.outside_work == (OutsideWork("coated", 5, 2000),)
    assert rotor.hours == (2.5, 2.5, 2.5)
    assert rotor.price == Price(Sure.ABOUT, 125000, currency="EUR")
    assert rotor.sponsor
    assert (rotor.opened_on, rotor.use_by) == (date(2026, 11, 12), date(2026, 11, 30))
    assert rotor.notes == "left\nright"
    again = written(made.shop, rotor)
    assert again["install_after"] == f"Hub ({made.hub.tag[0]}-{made.hub.tag[1:]})"
    assert change(made, rotor).text.startswith("Nothing was changed")


def test_one_changed_field_is_said_from_what_to_what_and_stands_in_the_history(made):
    made.scans("office").take(made.person.tag)
    before = made.bytes()
    assert change(made, made.rotor, needed="3").text == "Changed needed of Brake rotor from 2 to 3."
    assert made.bytes() != before
    assert story(made.shop, now(made, made.rotor))[-1].endswith(
        "the lead at office: needed changed from 2 to 3"
    )
    assert undo(made.at("office")).said is Said.DONE
    assert now(made, made.rotor).needed == 2


def test_a_build_is_finished_by_handing_it_over_alone(made):
    before = made.bytes()
    for answer in (
        change(made, made.build, status="finished"),
        make(made.at("office"), Build, {"title": "Pickup", "status": "Finished"}),
    ):
        assert (answer.said, answer.field) == (Said.STOP, "status")
        assert answer.text == (
            "Status: A vehicle is finished by handing it over: "
            "Ctrl+G in the list of builds asks what is open."
        )
    assert made.bytes() == before


def test_a_finished_build_is_changed_and_opened_again(made):
    with made.shop.transaction("finished", terminal="office") as tx:
        tx.change(made.build, status="finished")
    assert change(made, made.build, title="Old wagon", status="Finished").said is Said.DONE
    assert now(made, made.build).status == "finished"
    assert change(made, made.build, status="open").said is Said.DONE
    assert now(made, made.build).status == "open"


def test_several_changed_fields_are_one_transaction(made):
    text = change(made, made.rotor, needed="3", maker="Anvil works").text
    assert text == "Changed maker and needed of Brake rotor."
    undo(made.at("office"))
    assert (now(made, made.rotor).needed, now(made, made.rotor).maker) == (2, "")


WRONG = {
    Build: {
        "title": (" ", "Words were expected"),
        "code": ("coupe", "stands for something else already"),
        "vehicle": ("a\x1b[31mb", "control character"),
        "vin": ("1M8GDM9AXKP04278", "17 characters, got 16"),
        "odometer": ("-5", "whole kilometres or miles"),
        "odometer_unit": ("leagues", "One of km, mi was expected; leagues came"),
        "labour_rate_minor": ("30 USD", "An amount such as 30.00 EUR was expected"),
        "status": ("asleep", "One of open, finished"),
    },
    Part: {
        "description": ("x" * 300, "At most 200 characters"),
        "code": ("12", "only digits"),
        "section": ("\u202eBrakes", "invisible"),
        "maker": ("a\x07", "control"),
        "number": ("9" * 61, "At most 60"),
        "other_numbers": ("a\x07", "control"),
        "needed": ("1000000000", "At most 100000 pieces were expected, not 1000000000"),
        "sold_as": ("dozen", "One of each, pair, set, pack, kit was expected; dozen came"),
        "pieces": ("0", "1 or more was expected, not 0"),
        "positions": ("a\x07", "control"),
        "install_after": ("Unicorn", "no part is called that"),
        "replaces": ("Unicorn", "no part is called that"),
        "original": ("maybe", '"yes" or "no" was expected'),
        "outside_work": ("10 days", "Outside work such as"),
        "hours": ("soon", "Hours such as"),
        "price": ("1,234", "two ways"),
        "sponsor": ("perhaps", '"yes" or "no"'),
        "kit": (row_text([{"part": "Unicorn", "qty": "1"}]), "part 1, Part: A part's code"),
        "hardware": (row_text([{"part": "Hub", "qty": "1"}]), "kind 1, Hardware: A kind of hardware was"),
        "joints": (
            row_text([{"name": "Bolts", "fasteners": "2", "value": "lots"}]),
            "joint 1, Value: A torque",
        ),
        "opened_on": ("+1", "still to come"),
        "use_by": ("29 Feb", "There is no 29 Feb"),
        "read_again": ("a\x07", "control"),
        "notes": ("x" * 5000, "At most 4000"),
    },
    Order: {
        "supplier": ("Nobody", "New suppliers are made in Set-up"),
        "number": ("1043", "order 1043 is there already"),
        "code": ("undo", "a command or a position"),
        "placed": ("2027-01-01", "still to come"),
        "due": ("1 Oct", "cannot be due on"),
        "currency": ("euro", "three letters"),
        "lines": (row_text([{"part": "Hub", "qty": "-1"}]), "line 1, Pieces: A quantity of 1 or more"),
        "charges": (row_text([{"kind": "bribe", "amount_minor": "5"}]), "charge 1, What for: One of freight"),
    },
    Supplier: {
        "name": ("Paint shop", "is there already"),
        "code": ("A3", "stands for something else"),
        "lead_days": ("1000", "0 to 999"),
    },
    Person: {
        "name": ("", "Words were expected"),
        "code": ("wagon", "stands for something else"),
        "second_check": ("2", '"yes" or "no"'),
    },
    Wrench: {
        "name": ("", "Words were expected"),
        "code": ("007", "only digits"),
        "unit": ("kg", "A unit of torque was expected (N m, lbf ft, lbf in"),
        "low": ("-1", "A number such as"),
        "high": ("5", "More than the lowest mark, 20, was expected; 5 came"),
        "kind": ("pipe", "or else setting or indicating; pipe came"),
        "deviation_percent": ("400", "At most 100"),
        "length_mm": ("long", "A number such as"),
        "checked": ("30 Nov", "still to come"),
        "interval_months": ("0", "1 to 120"),
        "cycles": ("-1", "0 to 1000000"),
        "barred": ("a\x07", "control"),
        "gone": ("2", '"yes" or "no"'),
    },
}


@pytest.fixture
def wrench(made):
    with made.shop.transaction("wrench", terminal="office") as tx:
        return tx.add(Wrench(0, "", "", "Half inch", low=20, high=200))


@pytest.fixture
def records(made, wrench):
    return {
        Build: made.build,
        Part: made.rotor,
        Order: made.order,
        Supplier: made.supplier,
        Person: made.person,
        Wrench: wrench,
    }


@pytest.mark.parametrize(
    ("kind", "name"), [(kind, name) for kind, fields in WRONG.items() for name in fields], ids=str
)
def test_a_wrong_field_is_said_in_a_sentence_and_named(made, records, kind, name):
    text, words = WRONG[kind][name]
    before = made.bytes()
    answer = change(made, records[kind], **{name: text})
    assert answer.said is Said.STOP
    assert answer.field == name
    assert words in answer.text
    assert answer.text.startswith(FORMS[kind].asked(name).label)
    assert made.bytes() == before


@pytest.mark.parametrize("kind", list(WRONG), ids=str)
def test_every_field_of_every_form_has_something_wrong_tried(records, kind):
    assert set(WRONG[kind]) == {asked.name for asked in FORMS[kind].asked_of(records[kind])}


@pytest.mark.parametrize(
    ("kind", "typed"),
    [
        (Build, {"title": "Roadster"}),
        (Part, {"description": "Seat rail"}),
        (Supplier, {"name": "Glass hut"}),
        (Person, {"name": "the welder", "second_check": "yes"}),
        (Wrench, {"name": "Quarter inch", "low": "5", "high": "25"}),
    ],
    ids=str,
)
def test_a_record_is_made_from_what_is_needed_alone(made, kind, typed):
    answer = make(made.at("office"), kind, typed)
    assert answer.said is Said.DONE, answer.text
    record = made.shop.shelves[kind].get(answer.subject)
    assert record.code
    undo(made.at("office"))
    assert made.shop.shelves[kind].get(answer.subject).withdrawn


def test_a_new_order_promises_its_lines(made):
    lines = row_text([{"part": "Hub", "qty": "2", "total_minor": "80"}, {"part": "Clip", "qty": "5"}])
    typed = {"supplier": "paint", "number": "77", "due": "+3", "lines": lines}
    answer = make(made.at("office"), Order, typed)
    assert answer.text == "New: order 77."
    order = made.shop.orders.get(answer.subject)
    assert order.lines == (OrderLine(made.hub.id, 2, 8000), OrderLine(made.clip.id, 5))
    assert made.count(made.hub, State.ORDERED) == 3
    undo(made.at("office"))
    assert made.count(made.hub, State.ORDERED) == 1


def test_an_order_of_nothing_is_none(made):
    before = made.bytes()
    answer = make(made.at("office"), Order, {"supplier": "paint"})
    assert (answer.said, answer.field) == (Said.STOP, "lines")
    assert made.bytes() == before


def test_other_lines_of_an_order_move_what_is_still_to_come(made):
    lines = row_text([{"part": "Brake rotor", "qty": "4"}, {"part": "Hood", "qty": "1"}])
    assert change(made, made.order, lines=lines).said is Said.DONE
    assert made.count(made.rotor, State.ORDERED) == 4
    assert made.count(made.hub, State.ORDERED) == 0
    assert made.count(made.hood, State.ORDERED) == 2
    undo(made.at("office"))
    assert made.count(made.rotor, State.ORDERED) == 2
    assert now(made, made.order).lines == made.order.lines


def test_a_line_is_never_less_than_what_came(made):
    made.scans("receiving").take(made.box.code)
    made.scans("receiving").take("9521234543213")
    before = made.bytes()
    lines = row_text([{"part": "Hub", "qty": "1"}])
    answer = change(made, made.order, lines=lines)
    assert answer.text == "1 of 2 Brake rotor came already: leave 1 or more. Nothing changed."
    assert answer.field == "lines"
    assert made.bytes() == before


def test_another_supplier_takes_over_what_is_still_to_come(made):
    made.scans("receiving").take(made.box.code)
    made.scans("receiving").take("9521234543213")
    assert change(made, made.order, supplier="Paint shop").said is Said.DONE
    assert made.count(made.rotor, State.ORDERED, State.RECEIVED) == 2
    undo(made.at("office"))
    assert now(made, made.order).supplier == made.supplier.id


def test_charges_are_in_their_own_currency(made):
    charges = row_text(
        [
            {"kind": "freight", "amount_minor": "1500", "currency": "JPY", "bank_minor": "9,60"},
            {"kind": "core deposit", "amount_minor": "60", "part": "Brake rotor", "due": "25 Dec"},
        ]
    )
    change(made, made.order, charges=charges)
    freight, core = now(made, made.order).charges
    assert (freight.amount_minor, freight.currency, freight.bank_minor) == (1500, "JPY", 960)
    assert (core.part, core.due, core.amount_minor) == (made.rotor.id, date(2026, 12, 25), 6000)
    words = written(made.shop, now(made, made.order))["charges"]
    assert change(made, made.order, charges=words + " ").text.startswith("Nothing was changed")


def test_a_core_deposit_names_its_core(made):
    charges = row_text([{"kind": "core deposit", "amount_minor": "60"}])
    assert "which part's core" in change(made, made.order, charges=charges).text


def test_parts_that_wait_for_one_another_are_refused_with_the_ring(made):
    change(made, made.hub, install_after="Brake rotor")
    change(made, made.hood, install_after="Hub")
    answer = change(made, made.rotor, install_after="Hood")
    assert answer.field == "install_after"
    called = [answer.text.index(name) for name in ("Brake rotor (", "Hood (", "Hub (")]
    assert called == sorted(called)
    assert "would wait for itself" in change(made, made.clip, install_after="Clip").text


def test_a_kit_gets_its_contents(made):
    kit = row_text([{"part": "Hub", "qty": "1"}, {"part": "Clip"}])
    made_kit = make(made.at("office"), Part, {"description": "Front kit", "kit": kit}, build=made.build.id)
    assert made.shop.parts.get(made_kit.subject).kit == (KitLine(made.hub.id), KitLine(made.clip.id))
    kit = made.shop.parts.get(made_kit.subject)
    assert "cannot be in itself" in change(made, kit, kit=row_text([{"part": "Front kit"}])).text


@pytest.mark.parametrize(("sold", "pieces"), [("each", "2"), ("pair", "4"), ("set", "1")])
def test_pieces_in_one_fit_how_it_is_sold(made, sold, pieces):
    assert change(made, made.rotor, sold_as=sold, pieces=pieces).field == "pieces"


def test_a_vin_that_need_not_hold_is_taken_with_a_word(made):
    answer = change(made, made.build, vin="WBA00000000000000")
    assert answer.said is Said.DONE
    assert "compare it once more" in answer.text


def test_the_second_who_changes_a_field_is_shown_the_first(made):
    before = written(made.shop, made.rotor)
    made.scans("office").take(made.person.tag)
    change(made, made.rotor, needed="3", maker="Anvil works")
    typed = {**before, "needed": "5", "notes": "mine"}
    on_disk = made.bytes()
    answer = edit(made.at("lift"), made.rotor, typed, before=before)
    assert answer.said is Said.QUESTION
    assert "the lead at office) from 2 to 3" in answer.text
    assert made.bytes() == on_disk
    theirs, mine = answer.question.choices
    assert theirs.take().said is Said.DONE
    assert (now(made, made.rotor).needed, now(made, made.rotor).notes) == (3, "mine")
    assert now(made, made.rotor).maker == "Anvil works"
    undo(made.at("lift"))
    assert mine.take().said is Said.DONE
    assert (now(made, made.rotor).needed, now(made, made.rotor).notes) == (5, "mine")


def test_what_both_changed_alike_is_no_question(made):
    before = written(made.shop, made.rotor)
    change(made, made.rotor, needed="3")
    answer = edit(made.at("lift"), made.rotor, {**before, "needed": "3"}, before=before)
    assert answer.text.startswith("Nothing was changed")


def test_a_record_taken_off_the_list_meanwhile_is_not_changed(made):
    answer = make(made.at("office"), Supplier, {"name": "Glass hut"})
    record = made.shop.suppliers.get(answer.subject)
    before = written(made.shop, record)
    undo(made.at("office"))
    assert "taken off the list" in edit(made.at("lift"), record, {**before, "name": "x"}, before=before).text


def test_a_second_one_of_a_name_is_asked_about(made):
    before = made.bytes()
    for kind, typed in ((Person, {"name": "The LEAD"}), (Build, {"title": "wagon"})):
        asked = make(made.at("office"), kind, typed)
        assert asked.said is Said.QUESTION
        assert "is there already, as " in asked.text
        assert made.bytes() == before
    assert asked.question.yes().said is Said.DONE


@pytest.mark.parametrize("typed", [{"title": "-5"}, {"title": "Wagon two", "code": "-5"}])
def test_a_number_with_a_sign_is_no_name(made, typed):
    answer = make(made.at("office"), Build, typed)
    assert answer.said is Said.STOP
    assert "-5" in answer.text

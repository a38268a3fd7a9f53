"""What is missing, what needs somebody today, where it is, its story, and the health of the store."""

import csv
import io
from datetime import date

import pytest

from shoptui.cli.output import as_csv
from shoptui.domain import verbs
from shoptui.domain.inert import cells
from shoptui.domain.ledger import Move
from shoptui.domain.places import Place, State
from shoptui.domain.records import Bin, Box, BoxLine, LearnedCode, Order, OutsideWork, Part
from shoptui.domain.shoots import Condition, Need, Shoot, Shot
from shoptui.jobs import missing_sheet
from shoptui.jobs.at import shown
from shoptui.jobs.check import check
from shoptui.jobs.find import where
from shoptui.jobs.missing import NoShootError, find_shoot, missing
from shoptui.jobs.part_list import part_lines
from shoptui.jobs.place_words import piece_words, place_words
from shoptui.jobs.send_out import send_out
from shoptui.jobs.set_aside import hold, open_part
from shoptui.jobs.story import story
from shoptui.jobs.today import today_lines
from shoptui.jobs.undo import undo

TODAY = date(2026, 11, 25)  # a Wednesday
DAY = date(2026, 11, 27)


@pytest.fixture
def day(made):
    shop = made.shop
    with shop.transaction("filming", terminal="office") as tx:
        needs = (
            Need(Condition.SEALED, part=made.rotor.id),
            Need(Condition.INSTALLED, build=made.build.id, section="brakes"),
        )
        shots = (
            Shot("the boxes", needs),
            Shot("filmed", (Need(Condition.ON_HAND, part=made.hood.id),), filmed=True),
        )
        return tx.add(Shoot(0, "day1", "First day", DAY, "07:30", shots))


def receive(made, part, qty, *, ref=""):
    order = made.order if part.id in {line.part for line in made.order.lines} else made.late
    with made.shop.transaction(f"received {qty}", terminal="door", who=made.person.id) as tx:
        tx.enter(verbs.receive(made.shop.book, part.id, qty, order=order.id, ref=ref))


def test_what_is_missing_leaves_filmed_shots_out(made, day):
    report = missing(made.shop, day, TODAY)
    assert (report.ready, report.wanted) == (0, 3)
    assert {line.part.id for line in report.lines} == {made.rotor.id, made.hub.id}
    assert {line.lack.why for line in report.lines} == {"ordered, due Thu 26 Nov, box not arrived"}


def test_it_follows_what_is_done(made, day):
    receive(made, made.rotor, 2)
    assert missing(made.shop, day, TODAY).ready == 1
    open_part(made.at("door"), made.rotor, 1).question.yes()
    line = next(
        line for line in missing(made.shop, day, TODAY).lines if line.need.condition is Condition.SEALED
    )
    assert (line.lack.why, line.act) == (
        "opened on Wed 25 Nov",
        "lead: order another or change the shot",
    )
    undo(made.at("door"))
    assert missing(made.shop, day, TODAY).ready == 1


def test_advice_that_would_take_a_part_from_another_shot_says_so(made, day):
    shop = made.shop
    receive(made, made.hood, 1)
    with shop.transaction("shots", terminal="office") as tx:
        tx.change(made.hood, outside_work=(OutsideWork("painted", 1),))
        boxes = Shot("the box", (Need(Condition.SEALED, part=made.hood.id),))
        tx.change(day, shots=(boxes, Shot("hood on", (Need(Condition.INSTALLED, part=made.hood.id),))))
    (line,) = missing(shop, shop.shoots.get(day.id), TODAY).lines
    assert line.act == (
        "lead: send it out to be painted, by Thu 26 Nov; but shot 1 needs it sealed: film that first"
    )
    with shop.transaction("the box on another day", terminal="office") as tx:
        tx.add(Shoot(0, "day0", "", TODAY, shots=(boxes,)))
        tx.change(shop.shoots.get(day.id), shots=(shop.shoots.get(day.id).shots[1],))
    (line,) = missing(shop, shop.shoots.get(day.id), TODAY).lines
    assert line.act.endswith("; but Wed 25 Nov, shot 1 needs it sealed: film that first")


def test_advice_that_leaves_another_shot_its_part_says_nothing_of_it(made, day):
    shop = made.shop
    receive(made, made.rotor, 2)
    with shop.transaction("shots", terminal="office") as tx:
        boxes = Shot("the box", (Need(Condition.SEALED, part=made.rotor.id, qty=1),))
        one_on = Shot("one on", (Need(Condition.INSTALLED, part=made.rotor.id, qty=1),))
        tx.change(day, shots=(boxes, one_on))
    (line,) = missing(shop, shop.shoots.get(day.id), TODAY).lines
    assert "film that first" not in line.act


def test_the_next_day_is_the_first_from_today_with_a_shot_to_film(made, day):
    with made.shop.transaction("more days", terminal="office") as tx:
        tx.add(Shoot(0, "past", "", date(2026, 11, 24), shots=(Shot("x"),)))
        tx.add(Shoot(0, "filmed", "", TODAY, shots=(Shot("x", filmed=True),)))
        tx.add(Shoot(0, "later", "", date(2026, 12, 24), shots=(Shot("x"),)))
    assert find_shoot(made.shop, "next", TODAY).code == "day1"
    assert find_shoot(made.shop, "LATER", TODAY).code == "later"
    with pytest.raises(NoShootError, match=r"no filming day nope\. Filming days: past, filmed, day1, later"):
        find_shoot(made.shop, "nope", TODAY)
    with pytest.raises(NoShootError, match="from today on"):
        find_shoot(made.shop, "next", date(2027, 1, 1))


def test_the_sheets_say_the_same(made, day):
    report = missing(made.shop, day, TODAY)
    values = missing_sheet.as_values(report)
    assert (values["shoot"], values["date"]) == ("day1", "2026-11-27")
    assert tuple(values["lines"][0]) == missing_sheet.COLUMNS
    rows = list(csv.DictReader(io.StringIO(as_csv(missing_sheet.COLUMNS, missing_sheet.rows(report)))))
    assert [row["why"] for row in rows] == [line["why"] for line in values["lines"]]
    text = missing_sheet.as_text(report)
    assert max(len(line) for line in text.splitlines()) <= 80
    assert "Missing for Fri 27 Nov, call 07:30: First day (day1)" in text
    assert "SUPPLIER" in text
    assert missing_sheet.as_markdown(report).count("| Brakes and more") == 0


def test_markup_and_controls_in_names_are_inert_on_the_sheets(made, day):
    with made.shop.transaction("names", terminal="office") as tx:
        tx.change(made.rotor, description="ro\x1b[1mtor | [b]x[/b] \u202egnp\nsecond")
    report = missing(made.shop, day, TODAY)
    for text in (
        missing_sheet.as_text(report),
        missing_sheet.as_markdown(report),
        as_csv(missing_sheet.COLUMNS, missing_sheet.rows(report)),
    ):
        assert "\x1b" not in text
        assert "\u202e" not in text
    assert r"\|" in missing_sheet.as_markdown(report)


def test_today_says_what_is_due_late_here_and_held(made, day):
    shop = made.shop
    with shop.transaction("boxes", terminal="office") as tx:
        tx.change(made.order, due=date(2026, 11, 20))
        tx.change(made.hood, outside_work=(OutsideWork("painted", 4),))
        tx.change(made.hub, install_after=(made.rotor.id,))
    receive(made, made.rotor, 1)
    receive(made, made.hub, 1)
    receive(made, made.hood, 1)
    receive(made, made.clip, 2)
    hold(made.at("door"), made.clip, 1, note="bent")
    kinds = {line.kind: line for line in today_lines(shop, TODAY)}
    assert set(kinds) == {"filming", "box overdue", "due", "held", "send out", "install", "waits", "labels"}
    assert kinds["filming"].words.startswith("Fri 27 Nov, First day: 0 of 3 ready")
    assert (kinds["box overdue"].mark, kinds["box overdue"].subject) == ("!", made.box.id)
    assert kinds["send out"].words.endswith("to be painted")
    assert kinds["waits"].words.endswith("first Brake rotor")
    assert kinds["held"].subject == made.clip.id


def test_today_says_when_outside_work_is_late(made, clock):
    receive(made, made.rotor, 2)
    send_out(made.at("office"), made.rotor, 1, to="paint", work="coated", due=date(2026, 11, 27), number="7")
    assert [line.mark for line in today_lines(made.shop, TODAY) if line.kind == "outside work"] == [" "]
    late = [line for line in today_lines(made.shop, date(2026, 11, 30)) if line.kind == "outside work"]
    assert late[0].words.startswith("was due Fri 27 Nov: 1 Brake rotor (")
    assert late[0].words.endswith(", Paint shop job 7")
    assert late[0].mark == "!"


def test_what_is_due_much_later_needs_nobody_today(made):
    assert [line for line in today_lines(made.shop, date(2026, 11, 1)) if "due" in line.kind] == []


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("9521234543213", ["Brake rotor"]),  # a learned GTIN
        ("br-100", ["Brake rotor"]),  # the maker's number
        ("a3", ["bin A3 (rack A, shelf 3)"]),
        ("rack shelf", ["bin A3 (rack A, shelf 3)", "bin A4 (rack A, shelf 4)"]),
        ("ROTOR brakes", ["Brake rotor"]),
        ("rotor trim", []),
        ("  ", []),
        ("1042", ["order 1042 (Brakes and more)", "Brake rotor", "Hub"]),
        ("wagon", ["vehicle Wagon (wagon)"]),
        ("LEAD", ["the lead (lead)"]),
        ("LF", ["Brake rotor"]),
        ("rak", []),
        ("ack", []),
        ("rac", ["bin A3", "bin A4"]),
        ("RR473124829GB", ["box X"]),
    ],
)
def test_where(made, text, names):
    found = where(made.shop, text)
    assert len(found) == len(names)
    assert all(each.name.startswith(name) for each, name in zip(found, names, strict=True))


def test_where_says_how_an_order_and_a_vehicle_stand(made):
    receive(made, made.rotor, 2)
    assert where(made.shop, "1042")[0].places == ("1 still to come, due Thu 26 Nov",)
    receive(made, made.hub, 1)
    assert where(made.shop, "1042")[0].places == ("nothing more to come",)
    assert where(made.shop, "wagon")[0].places == ("open: 4 parts on its list, 0 pieces installed",)


def test_where_says_each_place(made):
    receive(made, made.rotor, 1)
    with made.shop.transaction("away", terminal="door") as tx:
        source = Place(State.RECEIVED, "", "sealed")
        tx.enter(verbs.put_away(made.shop.book, made.rotor.id, source, 1, to=made.a3.id))
    assert where(made.shop, "rotor")[0].places == (
        "1 ordered from Brakes and more, order 1042, due Thu 26 Nov",
        "1 received, sealed, in bin A3 (rack A, shelf 3)",
    )
    assert where(made.shop, "A3")[0].places == (f"1 Brake rotor (P-{made.rotor.code[1:]}), received",)
    assert where(made.shop, "A4")[0].places == ("empty",)
    assert where(made.shop, "mirror")[0].places == ("1 to order",)


@pytest.mark.parametrize(
    ("place", "words"),
    [
        (Place(State.INSTALLED, "LF"), "installed at LF"),
        (Place(State.INSTALLED, ""), "installed"),
        (Place(State.RECEIVED, "", "sealed"), "on the bench, unsorted"),
        (Place(State.HELD, ""), "held, on the bench, unsorted"),
        (Place(State.GONE, "sold"), "gone, sold"),
        (Place(State.NOT_OURS, "vehicle as bought"), "vehicle as bought"),
        (Place(State.ORDERED, 99), "ordered"),
        (Place(State.RECEIVED, 99), "in a bin that is not in the books (99)"),
    ],
)
def test_places_in_words(made, place, words):
    assert place_words(made.shop, place) == words
    assert piece_words(made.shop, place, 2).startswith("2 ")


def test_the_story_tells_each_thing_once_and_what_was_undone(made):
    receive(made, made.rotor, 2)
    undo(made.at("door"))
    told = story(made.shop, made.rotor)
    assert len(told) == 3
    assert told[1].endswith("the lead at door: 2 received, sealed, on the bench, unsorted (undone later)")
    assert told[2].endswith("door: taken back: received 2")


def test_the_story_names_the_parts_that_a_change_points_at(made):
    with made.shop.transaction("order of work", terminal="office") as tx:
        tx.change(made.rotor, install_after=(made.hub.id, made.hood.id), sponsor=True)
    told = story(made.shop, made.rotor)[-1]
    assert "install after changed from nothing to Hub (" in told
    assert "; Hood (" in told
    assert "sponsor changed from nothing to yes" in told or "from no to yes" in told


def test_why_something_is_held_is_said(made, day):
    def held(note):
        with made.shop.transaction("held", terminal="door") as tx:
            tx.enter(verbs.hold(made.shop.book, made.rotor.id, 1, note=note))
        return {line.lack.why for line in missing(made.shop, day, TODAY).lines}

    receive(made, made.rotor, 2)
    assert "held: bent \N{SYMBOL FOR ESCAPE}[1m" in held("bent \x1b[1m")
    undo(made.at("door"))
    assert "held: wrong side" in held("wrong side")
    assert "held: over, wrong side" in held("over")


def test_the_condition_and_the_pieces_stand_apart(made):
    needs = (Need(Condition.ON_HAND, part=made.rotor.id, qty=1),)
    with made.shop.transaction("filming", terminal="office") as tx:
        shoot = tx.add(Shoot(0, "d", "", DAY, shots=(Shot("x", needs),)))
    report = missing(made.shop, shoot, TODAY)
    (line,) = missing_sheet.as_values(report)["lines"]
    assert (line["needs"], line["qty"]) == ("on hand", 1)


def test_wide_letters_count_twice_on_the_sheet(made, day):
    with made.shop.transaction("names", terminal="office") as tx:
        tx.change(made.rotor, description="\N{CJK UNIFIED IDEOGRAPH-8ECA}" * 70)
    text = missing_sheet.as_text(missing(made.shop, day, TODAY))
    assert max(cells(line) for line in text.splitlines()) <= 80
    assert text.count("\N{CJK UNIFIED IDEOGRAPH-8ECA}") == 140


def test_the_sheet_shows_a_tag_with_its_dash(made, day):
    with made.shop.transaction("no code of its own", terminal="office") as tx:
        tx.change(made.rotor, code=made.rotor.tag)
    text = missing_sheet.as_text(missing(made.shop, day, TODAY))
    assert f"({shown(made.rotor.tag)})" in text
    assert made.rotor.tag not in text


def test_the_list_counts_every_state_and_adds_up_to_nothing(made):
    receive(made, made.rotor, 1)
    line = next(line for line in part_lines(made.shop, made.build.id) if line.part.id == made.rotor.id)
    assert list(line.states) == list(State)
    assert (line.states[State.ORDERED], line.states[State.RECEIVED], line.states[State.NOT_OURS]) == (
        1,
        1,
        -2,
    )
    assert sum(line.states.values()) == 0
    assert line.to_order == 0
    assert len(part_lines(made.shop)) == 5


def test_a_sound_store_has_no_problems(made):
    receive(made, made.rotor, 1, ref=made.box.code)
    undo(made.at("door"))
    assert check(made.shop) == ()


def problem(made, change, words):
    with made.shop.transaction("spoil", terminal="office") as tx:
        change(made.shop, tx)
    found = check(made.shop)
    assert any(words in f"{each.where}: {each.what}" for each in found), found
    assert all(each.remedy for each in found)


def test_check_finds_references_to_nothing(made):
    problem(
        made,
        lambda shop, tx: tx.change(made.hub, install_after=(999,), replaces=(made.hub.id,)),
        "points at part 999, which is not there",
    )


def test_check_finds_what_was_undone_and_is_still_pointed_at(made):
    def spoil(shop, tx):
        tx.change(made.hub, install_after=(made.hood.id,))
        tx.change(made.hood, withdrawn=True)

    problem(made, spoil, "which was undone")


def test_check_finds_rings(made):
    def spoil(shop, tx):
        tx.change(made.hub, install_after=(made.hood.id,))
        tx.change(made.hood, install_after=(made.hub.id,))

    problem(made, spoil, "no order of work fits")


def test_check_finds_codes_that_stand_for_two_things(made):
    problem(made, lambda shop, tx: tx.add(Bin(0, "WAGON", "")), "it stands for bin WAGON, build wagon")


def test_check_finds_one_learned_code_for_two_parts_of_a_build(made):
    def spoil(shop, tx):
        for part in (made.hub, made.hood):
            tx.add(LearnedCode(0, "Label 7", "label 7", "parts", part.id))

    problem(made, spoil, "it stands for part")


def test_two_parts_may_have_one_barcode(made):
    learned = LearnedCode(0, "9521234543213", "09521234543213", "parts", made.hub.id)
    with made.shop.transaction("left and right", terminal="office") as tx:
        tx.add(learned)
    assert check(made.shop) == ()


@pytest.mark.parametrize(
    ("code", "words"), [("a 3", "it stands for bin A3, part P-"), ("UNDO", "is a command or a position")]
)
def test_check_finds_a_learned_code_that_something_else_goes_before(made, code, words):
    problem(made, lambda shop, tx: tx.add(LearnedCode(0, code, code.lower(), "parts", made.hub.id)), words)


def test_two_parts_with_names_of_their_own_are_two(made):
    with made.shop.transaction("two", terminal="office") as tx:
        for code in ("H1", "H2"):
            tx.add(Part(0, code, "", made.build.id, "Hose", section="Brakes"))
    assert check(made.shop) == ()


def test_left_and_right_may_share_a_maker_s_code(made):
    shop = made.shop
    with shop.transaction("left and right", terminal="office") as tx:
        for position in ("LF", "RF"):
            part = tx.add(Part(0, "", "", made.build.id, f"caliper {position}", positions=(position,)))
            tx.add(LearnedCode(0, "95200001", "00000095200001", "parts", part.id))
    assert check(shop) == ()


def test_check_finds_doubled_parts(made):
    problem(
        made, lambda shop, tx: tx.add(Part(0, "", "", made.build.id, "hood", section="BODY")), "has it twice"
    )


def test_check_finds_a_wrong_vin(made):
    problem(made, lambda shop, tx: tx.change(made.build, vin="11111111211111111"), "build wagon")


def test_check_finds_an_order_due_before_it_was_placed(made):
    problem(made, lambda shop, tx: tx.change(made.order, due=date(2026, 10, 1)), "before it was placed")


def test_check_finds_a_box_closed_with_nothing_received(made, clock):
    problem(made, lambda shop, tx: tx.change(made.box, closed=clock()), "nothing was received from it")


def test_check_finds_two_boxes_open_at_one_terminal(made):
    def spoil(shop, tx):
        tx.change(made.box, open_at="door")
        tx.add(Box(0, "", open_at="door", contents=(BoxLine(made.hub.id, 1),)))

    problem(made, spoil, "2 boxes lie open at it")


def test_check_finds_a_shot_that_needs_one_thing_in_two_ways(made):
    needs = (Need(Condition.SEALED, part=made.hub.id), Need(Condition.INSTALLED, part=made.hub.id))
    shoot = Shoot(0, "d", "", DAY, shots=(Shot("x", needs),))
    problem(made, lambda shop, tx: tx.add(shoot), "both sealed and installed")


def test_check_finds_it_through_a_section_too(made):
    section = Need(Condition.INSTALLED, build=made.build.id, section="Brakes")
    shoot = Shoot(0, "d", "", DAY, shots=(Shot("x", (Need(Condition.SEALED, part=made.hub.id), section)),))
    problem(made, lambda shop, tx: tx.add(shoot), "both sealed and installed")


def test_a_shot_may_need_one_of_two_each_way(made):
    needs = (
        Need(Condition.SEALED, part=made.rotor.id, qty=1),
        Need(Condition.INSTALLED, part=made.rotor.id, qty=1),
    )
    with made.shop.transaction("filming", terminal="office") as tx:
        tx.add(Shoot(0, "d", "", DAY, shots=(Shot("x", needs),)))
    assert check(made.shop) == ()


def test_check_finds_a_sponsor_s_part_that_no_shot_shows(made, day):
    problem(made, lambda shop, tx: tx.change(made.clip, sponsor=True), "a sponsor wants it seen")


def test_check_finds_a_terminal_in_a_build_that_is_gone(made):
    made.shop.remember("cart", build=77)
    assert [each.what for each in check(made.shop)] == ["its build 77 is not there"]


def test_check_finds_moves_that_were_written_past_the_jobs(made):
    database = made.shop.database
    with database.transaction():
        row = {
            "transaction": 999,
            "part": 888,
            "qty": 1,
            "from": ["received", 777, ""],
            "to": ["installed", "", ""],
        }
        database.insert("moves", row)
    told = " / ".join(f"{each.where}: {each.what}" for each in check(made.shop))
    assert "transaction 999, which is not there" in told
    assert "part 888, which is not there" in told
    assert "bin 777, which is not there" in told
    assert "no place of ours can hold fewer than none" in told


def test_a_ledger_move_that_does_not_fit_is_refused_before_it_is_written(made):
    before = made.bytes()
    move = Move(made.hood.id, 1, Place(State.RECEIVED, made.a3.id), Place(State.INSTALLED, ""))
    with (
        pytest.raises(ValueError, match="0 are received there"),
        made.shop.transaction("x", terminal="x") as tx,
    ):
        tx.enter((move,))
    assert made.bytes() == before


def test_an_order_of_nobody_is_a_problem(made):
    problem(
        made, lambda shop, tx: tx.add(Order(0, "Z", "purchase", 404, "Z")), "supplier 404, which is not there"
    )


def test_today_does_not_send_anybody_to_install_what_a_shot_needs_as_it_is(made):
    receive(made, made.rotor, 2)
    before = {line.kind for line in today_lines(made.shop, TODAY) if line.subject == made.rotor.id}
    with made.shop.transaction("shoot", terminal="office") as tx:
        need = Need(Condition.SEALED, part=made.rotor.id)
        tx.add(Shoot(0, "later", "Later", date(2026, 12, 20), shots=(Shot("the boxes", (need,)),)))
    after = {line.kind: line for line in today_lines(made.shop, TODAY)}
    assert "install" in before
    assert "install" not in after
    line = after["waits"]
    assert line.words.endswith("Sun 20 Dec, shot 1 (the boxes) needs it sealed")

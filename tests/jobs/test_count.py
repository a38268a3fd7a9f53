"""A bin is counted by scanning what is in it."""

import pytest

from shoptui.domain import verbs
from shoptui.domain.codes import normal
from shoptui.domain.places import COUNTED_SHORT, SEALED, Place, State
from shoptui.domain.records import KitLine, LearnedCode, Part
from shoptui.jobs.answers import Said
from shoptui.jobs.at import At
from shoptui.jobs.count import left
from shoptui.jobs.count_entry import compare
from shoptui.jobs.send_out import send_out
from shoptui.jobs.undo import undo


@pytest.fixture
def stocked(made):
    """A3 holds two rotors and ten clips, A4 a hub; the hood is still to come."""
    shop = made.shop
    with shop.transaction("stocked", terminal="office") as tx:
        tx.enter(verbs.receive(shop.book, made.rotor.id, 2, order=made.order.id, to=made.a3.id))
        tx.enter(verbs.receive(shop.book, made.clip.id, 10, order=made.late.id, to=made.a3.id))
        tx.enter(verbs.receive(shop.book, made.hub.id, 1, order=made.order.id, to=made.a4.id))
    return made


def begun(made, bin_=None):
    racks = made.scans("racks")
    racks.take((bin_ or made.a3).tag)
    racks.take("count")
    return racks


def lies(made, part, bin_):
    return sum(n for place, n in made.shop.book.places(part.id, *verbs.ON_A_SHELF) if place.where == bin_.id)


def test_all_as_booked_ends_the_count_with_nothing_written(stocked):
    racks = begun(stocked)
    racks.take(stocked.rotor.tag)
    racks.take(stocked.rotor.tag)
    racks.take(stocked.clip.tag, 10)
    transactions = len(list(stocked.shop.history.at_terminal("racks")))
    answer = racks.take("done")
    assert (answer.said, answer.text) == (Said.DONE, "A3: 12 counted, all as booked.")
    assert len(list(stocked.shop.history.at_terminal("racks"))) == transactions
    assert stocked.shop.terminal("racks").counting is None


def test_the_differences_are_shown_before_any_is_entered(stocked):
    racks = begun(stocked)
    racks.take(stocked.rotor.tag)
    racks.take(stocked.clip.tag, 11)
    answer = racks.take("done")
    assert answer.said is Said.QUESTION
    assert "Brake rotor: 1 short" in answer.text
    assert "Clip: 1 more than booked" in answer.text
    assert lies(stocked, stocked.rotor, stocked.a3) == 2
    done = racks.yes()
    assert done.said is Said.DONE
    assert lies(stocked, stocked.rotor, stocked.a3) == 1
    assert lies(stocked, stocked.clip, stocked.a3) == 11
    assert stocked.shop.book.parts_at(State.GONE, COUNTED_SHORT) == {stocked.rotor.id: 1}


def test_no_changes_nothing_and_the_count_goes_on(stocked):
    racks = begun(stocked)
    racks.take(stocked.rotor.tag)
    before = stocked.bytes()
    racks.take("done")
    racks.take("no")
    assert stocked.bytes() == before
    assert racks.take(stocked.rotor.tag).text.startswith("A3: 1 Brake rotor counted, 2 so far.")


def test_a_thing_booked_elsewhere_is_a_move(stocked):
    racks = begun(stocked)
    racks.take(stocked.rotor.tag, 2)
    racks.take(stocked.clip.tag, 10)
    racks.take(stocked.hub.tag)
    answer = racks.take("done")
    assert "Hub: 1 booked in A4: moved here" in answer.text
    racks.yes()
    assert stocked.shop.book.at(stocked.hub.id, Place(State.RECEIVED, stocked.a3.id, SEALED)) == 1
    assert not stocked.shop.book.in_state(stocked.hub.id, State.GONE)


def test_what_was_short_in_one_bin_is_drawn_back_in_the_next(stocked):
    racks = begun(stocked)
    racks.take(stocked.rotor.tag)
    racks.take(stocked.clip.tag, 10)
    racks.take(stocked.a4.tag)  # the next bin: A3 is compared first
    answer = racks.yes()
    assert "Now A4" in answer.text
    racks.take(stocked.hub.tag)
    racks.take(stocked.rotor.tag)
    answer = racks.take("done")
    assert "Brake rotor: 1 that was not found before" in answer.text
    racks.yes()
    assert not stocked.shop.book.in_state(stocked.rotor.id, State.GONE)
    assert stocked.shop.book.at(stocked.rotor.id, Place(State.RECEIVED, stocked.a4.id, SEALED)) == 1


def test_what_is_booked_as_installed_is_asked_about(stocked):
    shop = stocked.shop
    with shop.transaction("installed", terminal="lift") as tx:
        tx.enter(verbs.install(shop.book, stocked.hub.id, 1, position=""))
    racks = begun(stocked, stocked.a4)
    racks.take(stocked.hub.tag)
    answer = racks.take("done")
    assert "1 Hub more than booked. Where from?" in answer.text
    assert [choice.label for choice in answer.question.choices][:2] == [
        "it came off: installed",
        "none of these: another one was found",
    ]
    answer = racks.take("1", typed=True)
    assert "of what is installed" in answer.text
    racks.yes()
    assert shop.book.places(stocked.hub.id, State.REMOVED) == ((Place(State.REMOVED, stocked.a4.id), 1),)
    assert not shop.book.in_state(stocked.hub.id, State.INSTALLED)


@pytest.mark.parametrize(("choice", "condition"), [("1", "painted"), ("2", "")])
def test_what_is_booked_as_sent_out_may_be_back(stocked, choice, condition):
    send_out(stocked.at("door"), stocked.hub, 1, to="paint", work="painted")
    racks = begun(stocked, stocked.a4)
    racks.take(stocked.hub.tag)
    racks.take("done")
    racks.take(choice, typed=True)
    racks.yes()
    place = Place(State.RECEIVED, stocked.a4.id, condition)
    assert stocked.shop.book.at(stocked.hub.id, place) == 1


def test_what_is_still_ordered_may_have_come(stocked):
    racks = begun(stocked)
    racks.take(stocked.rotor.tag, 2)
    racks.take(stocked.clip.tag, 10)
    racks.take(stocked.hood.tag)
    assert racks.take("done").question.choices[0].label.startswith("it came: ordered from Brakes and more")
    racks.take("1", typed=True)
    racks.yes()
    assert not stocked.shop.book.in_state(stocked.hood.id, State.ORDERED)
    assert lies(stocked, stocked.hood, stocked.a3) == 1


def test_another_one_is_found_although_one_is_ordered(stocked):
    racks = begun(stocked, stocked.a4)
    racks.take(stocked.hub.tag)
    racks.take(stocked.hood.tag)
    racks.take("done")
    racks.take("2", typed=True)
    racks.yes()
    assert stocked.shop.book.in_state(stocked.hood.id, State.ORDERED) == 1
    assert lies(stocked, stocked.hood, stocked.a4) == 1


def test_a_kits_code_counts_what_is_in_it(stocked):
    shop = stocked.shop
    with shop.transaction("kit", terminal="office") as tx:
        kit = tx.add(
            Part(
                0,
                "kit",
                "",
                stocked.build.id,
                "Brake kit",
                kit=(KitLine(stocked.rotor.id, 2), KitLine(stocked.clip.id, 10)),
            )
        )
    racks = begun(stocked)
    racks.take(kit.code)
    assert "all as booked" in racks.take("done").text


def test_a_row_without_a_label_is_counted_by_its_number(stocked):
    racks = begun(stocked)
    answer = racks.take("2", typed=True)
    assert "Clip, 0 so far: how many are there in all?" in answer.text
    assert racks.take("10", typed=True).text.startswith("A3: 10 Clip in all.")
    racks.take("1", typed=True)
    racks.yes()
    racks.take("1", typed=True)
    racks.yes()
    assert "all as booked" in racks.take("done").text
    assert racks.take("1", typed=True).said is Said.STOP


def test_what_was_counted_last_is_taken_back_and_nothing_else(stocked):
    racks = begun(stocked)
    racks.take(stocked.rotor.tag, 2)
    racks.take(stocked.clip.tag)
    assert racks.take("undo").text.startswith("A3: Not counted: 1 Clip.")
    assert stocked.shop.terminal("racks").counted[-1].part == stocked.rotor.id


def test_a_count_survives_closing_the_program(stocked):
    racks = begun(stocked)
    racks.take(stocked.rotor.tag)
    stocked.shop.close()
    stocked.shop = stocked.reopened()
    racks = stocked.scans("racks")
    assert "2 so far" in racks.take(stocked.rotor.tag).text


def test_another_terminal_is_told_who_counts_and_may_go_on(stocked):
    begun(stocked).take(stocked.rotor.tag)
    other = stocked.scans("racks", "office")
    other.take(stocked.a3.tag)
    answer = other.take("count")
    assert answer.text == "A3 is being counted at racks, 1 so far. Enter: go on with it here."
    other.yes()
    assert stocked.shop.terminal("racks").counting is None
    assert "2 so far" in other.take(stocked.rotor.tag).text


def test_stopping_the_count_changes_nothing(stocked):
    racks = begun(stocked)
    racks.take(stocked.rotor.tag)
    answer = racks.take("done")
    assert answer.question.choices[0].label.startswith("stop counting")
    answer = racks.take("1", typed=True)
    assert answer.text == "A3 was not counted; nothing changed."
    assert lies(stocked, stocked.clip, stocked.a3) == 10
    assert "Scan a bin to put it there" in racks.take(stocked.rotor.tag).text


def test_a_bin_of_which_nothing_was_counted_is_not_emptied_by_enter(stocked):
    racks = begun(stocked)
    answer = racks.take("done")
    assert answer.question.yes is None
    racks.take("1", typed=True)
    assert lies(stocked, stocked.clip, stocked.a3) == 0


def test_a_count_is_undone_in_one_go(stocked):
    before = stocked.shop.book.places(stocked.rotor.id), stocked.shop.book.places(stocked.hub.id)
    racks = begun(stocked)
    racks.take(stocked.hub.tag)
    racks.take(stocked.clip.tag, 10)
    racks.take("done")
    racks.yes()
    assert undo(stocked.at("racks")).said is Said.DONE
    assert (stocked.shop.book.places(stocked.rotor.id), stocked.shop.book.places(stocked.hub.id)) == before


def test_what_changed_while_the_question_stood_is_shown_again(stocked):
    racks = begun(stocked)
    racks.take(stocked.clip.tag, 10)
    racks.take("done")
    with stocked.shop.transaction("used", terminal="lift") as tx:
        tx.enter(verbs.install(stocked.shop.book, stocked.rotor.id, 1, position="LF"))
    answer = racks.yes()
    assert answer.said is Said.QUESTION
    assert "Brake rotor: 1 short" in answer.text


def test_the_count_tag_asks_for_the_bin_and_is_for_the_racks(stocked):
    racks = stocked.scans("racks")
    assert racks.take("KCNT22J").text == "Which bin is counted? Scan it, or type its name."
    assert "Counting A4" in racks.take("a4").text
    assert "go to the Racks (F6)" in stocked.scans("receiving").take("count").text


def test_left_and_right_with_one_code_narrow_to_what_is_in_the_bin(stocked):
    shop = stocked.shop
    with shop.transaction("code", terminal="office") as tx:
        tx.add(LearnedCode(0, "952123", normal("952123"), "parts", stocked.clip.id))
        tx.add(LearnedCode(0, "952123", normal("952123"), "parts", stocked.hub.id))
    racks = begun(stocked)
    assert "Clip counted" in racks.take("952123").text


def test_a_script_compares_what_it_counted(stocked):
    at = At(stocked.shop, "script")
    counted = {stocked.rotor.id: 2, stocked.clip.id: 9}
    answer = compare(at, stocked.a3, counted)
    assert answer.question.yes().text == "A3: 11 counted. Entered: Clip: 1 short."


# Which bin, and a count that somebody went away from


@pytest.mark.parametrize("station", ["racks", "parts", "hardware", "today"])
def test_count_means_the_bin_that_was_scanned_wherever_that_was(stocked, station):
    scans = stocked.scans(station, "racks")
    assert scans.take("A4").show == "racks"
    scans.station = "racks"
    scans.take("lead")
    assert scans.take("count").text.startswith("Counting A4:")


def test_another_thing_that_is_shown_takes_the_bins_place(stocked):
    racks = stocked.scans("racks")
    racks.take("A4")
    racks.take(stocked.rotor.tag)
    assert racks.take("count").text.startswith("Which bin is counted?")


def test_nothing_counted_and_another_bin_scanned_ends_the_count_with_words(stocked):
    racks = begun(stocked)
    assert racks.take("A4").text == (
        "A3 was left with nothing counted, so it is not being counted any more. A4: 1 Hub."
    )
    assert stocked.shop.terminal("racks").counting is None
    assert "Scan a bin to put it there" in racks.take(stocked.rotor.tag).text


def test_nothing_counted_and_another_station_ends_the_count_with_words(stocked):
    racks = begun(stocked)
    racks.station = "parts"
    assert racks.take(stocked.hub.tag).text.endswith(
        "A3 was left with nothing counted, so it is not being counted any more."
    )
    racks.station = "racks"
    assert "A4: 1 Hub" in racks.take("A4").text


def test_a_count_that_somebody_went_away_from_is_spoken_of(stocked):
    at = stocked.scans("today", "racks").at
    assert left(at) is None
    begun(stocked)
    assert left(at).text == "A3 was left with nothing counted, so it is not being counted any more."
    assert left(at) is None
    begun(stocked).take(stocked.rotor.tag)
    assert left(at).text.startswith("A3 is being counted, 1 so far. It goes on at the Racks (F6)")


@pytest.mark.parametrize("scan", ["done", "A4"])
def test_a_count_is_put_aside_and_gone_on_with(stocked, scan):
    racks = begun(stocked)
    racks.take(stocked.rotor.tag)
    answer = racks.take(scan)
    assert answer.question.choices[1].label.startswith("put it aside")
    answer = racks.take("2", typed=True)
    assert answer.text == "The count of A3 rests, 1 so far: scan it and “count” to go on."
    assert answer.subject == (stocked.a4.id if scan == "A4" else stocked.a3.id)
    assert left(racks.at) is None
    assert "Scan a bin to put it there" in racks.take(stocked.rotor.tag).text
    racks.take("lead")
    assert racks.take("A3").text == "A3: 2 Brake rotor, 10 Clip."
    assert racks.take("count").text.startswith("Counting A3: 1 so far.")
    assert "2 so far" in racks.take(stocked.rotor.tag).text


def test_a_count_that_rests_is_not_forgotten_for_another_unasked(stocked):
    racks = begun(stocked)
    racks.take(stocked.rotor.tag)
    racks.take("done")
    racks.take("2", typed=True)
    racks.take("A4")
    asked = racks.take("count")
    assert asked.text == (
        "The count of A3 rests, 1 so far. Enter: go on with it. 1 and Enter: forget it, and count A4."
    )
    racks.no()
    racks.take("done")
    assert "That of A3 rests, 1 so far." in stocked.scans("racks").take("count").text
    racks.take("A4")
    racks.take("count")
    assert racks.typed("1").text.startswith("Counting A4:")
    assert "1 Hub counted, 1 so far" in racks.take(stocked.hub.tag).text


def test_a_script_has_nothing_to_put_aside(stocked):
    answer = compare(At(stocked.shop, "script"), stocked.a3, {stocked.rotor.id: 1})
    assert len(answer.question.choices) == 1

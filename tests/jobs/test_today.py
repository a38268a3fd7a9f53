"""Today: what is easily forgotten, beside what is late and what can be done."""

from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.records import OutsideWork
from shoptui.domain.shoots import Condition, Need, Shoot, Shot
from shoptui.jobs.set_aside import hold
from shoptui.jobs.today import today_lines

TODAY = date(2026, 11, 25)  # a Wednesday


@pytest.fixture
def here(made):
    """The rotors, the hub and the hood are here."""
    with made.shop.transaction("all came", terminal="door") as tx:
        for order, part, qty in (
            (made.order, made.rotor, 2),
            (made.order, made.hub, 1),
            (made.late, made.hood, 1),
        ):
            tx.enter(verbs.receive(made.shop.book, part.id, qty, order=order.id))
    return made


def change(made, record, **fields):
    with made.shop.transaction("change", terminal="office") as tx:
        return tx.change(record, **fields)


def mock_up(made, part):
    with made.shop.transaction("trial", terminal="lift") as tx:
        tx.enter(verbs.mock_up(made.shop.book, part.id, 1, position="front"))


def day(made, when, *shots, code="day1"):
    with made.shop.transaction("filming", terminal="office") as tx:
        return tx.add(Shoot(0, code, "First day", when, shots=shots))


def lines(made, kind):
    return [line for line in today_lines(made.shop, TODAY) if line.kind == kind]


@pytest.mark.parametrize(
    ("use_by", "mark", "words"),
    [
        (date(2026, 11, 24), "!", "was good until Tue 24 Nov: 1 Hub"),
        (date(2026, 11, 25), "-", "good until Wed 25 Nov: 1 Hub"),
        (date(2026, 12, 2), "-", "good until Wed 2 Dec: 1 Hub"),
    ],
)
def test_what_is_soon_too_old_is_said(here, use_by, mark, words):
    change(here, here.hub, use_by=use_by)
    (line,) = lines(here, "use by")
    assert line.mark == mark
    assert line.words.startswith(words)


def test_what_keeps_for_long_or_is_not_here_needs_nobody(here):
    change(here, here.hub, use_by=date(2026, 12, 3))
    change(here, here.clip, use_by=date(2026, 1, 1))  # ordered, not here
    assert lines(here, "use by") == []


def test_what_has_to_be_read_again_is_said(here):
    change(here, here.clip, read_again="install after, notes")
    (line,) = lines(here, "read again")
    assert line.words.endswith("its number changed, read again: install after, notes")


def test_what_is_held_says_why(here):
    hold(here.at("door"), here.hub, 1, note="bent \x1b[31m")
    (line,) = lines(here, "held")
    assert "(bent \N{SYMBOL FOR ESCAPE}[31m): may it be used?" in line.words


def test_what_is_mocked_up_is_not_forgotten(here):
    mock_up(here, here.hub)
    change(here, here.hood, outside_work=(OutsideWork("painted", 4),))
    mock_up(here, here.hood)
    told = [line.words.partition(": ")[2] for line in lines(here, "mocked up")]
    assert told == ["install it, or take it down", "take it down to be painted"]


def test_a_day_on_which_the_vehicle_moves_says_what_is_mocked_up(here):
    day(here, date(2026, 11, 27), Shot("the yard", moves=True), Shot("the gate", moves=True))
    assert lines(here, "moves") == []
    mock_up(here, here.hood)
    (line,) = lines(here, "moves")
    assert line.words.startswith("Fri 27 Nov: the vehicle moves, and mocked up on it: 1 Hood (")


def test_a_past_day_that_was_not_filmed_is_said(here):
    past = day(here, date(2026, 11, 24), Shot("a", filmed=True), Shot("b"))
    (line,) = lines(here, "not filmed")
    assert (line.words, line.subject) == (
        "Tue 24 Nov, First day: past, and 1 of 2 not marked filmed",
        past.id,
    )


def test_a_sponsor_s_part_in_no_shot_is_said(here):
    change(here, here.hood, sponsor=True)
    assert lines(here, "sponsor") == []  # no shots are written down yet
    need = Need(Condition.ON_HAND, part=here.hub.id)
    shoot = day(here, date(2026, 11, 27), Shot("a", (need,)))
    (line,) = lines(here, "sponsor")
    assert line.subject == here.hood.id
    change(
        here, shoot, shots=(Shot("a", (need, Need(Condition.ON_HAND, build=here.build.id, section="body"))),)
    )
    assert lines(here, "sponsor") == []


def test_a_finished_vehicle_asks_nothing(here):
    change(here, here.hub, use_by=date(2026, 11, 1), read_again="notes", sponsor=True)
    mock_up(here, here.hood)
    day(here, date(2026, 11, 27), Shot("a", (Need(Condition.ON_HAND, part=here.rotor.id),)))
    hold(here.at("door"), here.hub, 1, note="bent")
    change(here, here.build, status="finished")
    kinds = {line.kind for line in today_lines(here.shop, TODAY)}
    assert kinds.isdisjoint({"use by", "read again", "sponsor", "mocked up", "held", "install", "waits"})

"""A shot in which the vehicle moves: what is loose never stands beneath words that sound as if nothing is."""

from datetime import date

import pytest

from shoptui.domain import verbs
from shoptui.domain.records import Joint, Part
from shoptui.domain.shoots import Condition, Need, Shoot, Shot
from shoptui.jobs.missing import missing
from shoptui.jobs.missing_sheet import as_markdown, as_text

TODAY = date(2026, 11, 25)

NUTS = Joint("Wheel nuts", 5, "M12x1.5 10.9", value="110 N m", source="Sheet", page="4")
BLED = Joint("Bled, no leaks", 0, source="Sheet", page="10")


@pytest.fixture
def day(made):
    """Two shots in which the vehicle moves; the wheel that they need is on, and its joints are open."""
    with made.shop.transaction("a wheel", terminal="office") as tx:
        wheel = tx.add(Part(0, "WH", "", made.build.id, "Wheel", section="Wheels", joints=(NUTS, BLED)))
        tx.enter(verbs.stock(wheel.id, 1, to=made.a3.id))
        tx.enter(verbs.install(made.shop.book, wheel.id, 1, position="LF"))
        need = Need(Condition.INSTALLED, part=wheel.id)
        shots = (Shot("out", (need,), moves=True), Shot("back", (need,), moves=True))
        return tx.add(Shoot(0, "day1", "Rolling", TODAY, shots=shots))


def test_what_is_loose_is_counted_once_and_said_in_the_first_sentence(made, day):
    report = missing(made.shop, day, TODAY)
    text = " ".join(as_text(report).split())
    assert "Nothing is missing, but 2 joints are not tightened or checked on a vehicle that moves." in text
    assert "shot 1 (out): not tightened or checked [ ] 1 Wheel (WH): Wheel nuts" in text
    assert "nothing is mocked up" not in text
    assert "but 2 joints are not tightened or checked" in as_markdown(report)
    assert max(map(len, as_text(report).splitlines())) <= 80


def test_with_a_part_missing_as_well_both_are_said(made, day):
    with made.shop.transaction("a trial", terminal="office") as tx:
        tx.enter(verbs.stock(made.hood.id, 1, to=made.a3.id))
        tx.enter(verbs.mock_up(made.shop.book, made.hood.id, 1, position=""))
        day = tx.change(
            day, shots=(Shot("out", (Need(Condition.INSTALLED, part=made.hood.id),), moves=True),)
        )
    text = " ".join(as_text(missing(made.shop, day, TODAY)).split())
    assert "0 of 1 parts are ready, counted for each shot, and 2 joints are not tightened or checked" in text
    assert "and 1 part is only mocked up on a vehicle that moves." in text
    assert "mocked up on it or not tightened or checked" in text


def test_nothing_that_is_loose_is_not_hinted_at(made, day):
    with made.shop.transaction("no joints", terminal="office") as tx:
        tx.change(made.shop.parts.by_code("WH"), joints=())
    text = " ".join(as_text(missing(made.shop, day, TODAY)).split())
    assert "counted for each shot. Nothing is missing." in text
    assert "by the books nothing is mocked up, and no joint that it moves by is open" in text

"""A rack is counted, and two things lie in wrong bins: nothing is lost, and nothing is found."""

import pytest

from shoptui.domain import verbs
from shoptui.domain.places import State
from shoptui.domain.records import Bin


@pytest.fixture
def rack(made):
    """Three bins; the hub lies in A4 and the hood in A5, but both are booked in A3."""
    shop = made.shop
    with shop.transaction("put away", terminal="door") as tx:
        made.a5 = tx.add(Bin(0, "A5", "", "rack A, shelf 5"))
        for part, qty, order, bin_ in (
            (made.rotor, 2, made.order, made.a3),
            (made.hub, 1, made.order, made.a3),
            (made.hood, 1, made.late, made.a3),
            (made.clip, 10, made.late, made.a4),
        ):
            tx.enter(verbs.receive(shop.book, part.id, qty, order=order.id, to=bin_.id))
    return made


def lying(made):
    book = made.shop.book
    return {
        bin_.code: {made.shop.parts.get(part).description: n for part, n in there.items()}
        for bin_ in (made.a3, made.a4, made.a5)
        if (there := book.parts_at(State.RECEIVED, bin_.id))
    }


def test_a_rack_is_counted_bin_by_bin(rack):
    racks = rack.scans("racks")
    racks.take("A3")
    racks.take("count")
    racks.take(rack.rotor.tag)
    racks.take(rack.rotor.tag)
    said = racks.take("A4")  # the next bin says that A3 is done
    assert said.text.startswith("A3, 2 counted. Hub: 1 short; Hood: 1 short.")
    said = racks.take("A4")  # the same scan again is yes
    assert said.text.endswith("Now A4: scan what is in it.")

    racks.take(rack.hub.tag)
    racks.take(rack.clip.tag, 10)
    said = racks.take("A5")
    assert said.text.startswith("A4, 11 counted. Hub: 1 that was not found before.")
    racks.take("A5")

    racks.take(rack.hood.tag)
    said = racks.take("done")
    assert said.text.startswith("A5, 1 counted. Hood: 1 that was not found before.")
    racks.take("done")

    assert lying(rack) == {"A3": {"Brake rotor": 2}, "A4": {"Hub": 1, "Clip": 10}, "A5": {"Hood": 1}}
    assert not any(rack.shop.book.in_state(part.id, State.GONE) for part in rack.shop.parts.all())


def test_counted_the_other_way_round_they_are_moved(rack):
    racks = rack.scans("racks")
    racks.take("A4")
    racks.take("count")
    racks.take(rack.clip.tag, 10)
    racks.take(rack.hub.tag)
    said = racks.take("done")
    assert "Hub: 1 booked in A3: moved here" in said.text
    racks.yes()
    assert lying(rack)["A4"] == {"Clip": 10, "Hub": 1}

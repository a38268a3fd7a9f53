"""What the check finds of hardware."""

from dataclasses import replace

import pytest

from shoptui.domain.ledger import Move
from shoptui.domain.places import Place, State
from shoptui.domain.records import HARDWARE, HardwareLine, Joint, Part
from shoptui.jobs.check import check


def found(made):
    return {(problem.where, problem.what) for problem in check(made.shop)}


@pytest.fixture
def bolted(made):
    def bolted(designation, qty=1, *, one_use=False, joint=None):
        with made.shop.transaction("hardware", terminal="office") as tx:
            kind = tx.add(
                Part(0, "HW-1", "", None, "Bolt", kind=HARDWARE, designation=designation, one_use=one_use)
            )
            joints = (joint,) if joint else ()
            tx.change(made.rotor, hardware=(HardwareLine(kind.id, qty),), joints=joints, code="ROT")
        return kind

    return bolted


def test_a_kind_that_no_part_takes(made, bolted):
    kind = bolted("M8 x 20 - 8.8")
    assert not found(made)
    with made.shop.transaction("off", terminal="office") as tx:
        tx.change(made.rotor, hardware=())
    ((where, what),) = found(made)
    assert where == "hardware HW-1"
    assert what == "no part takes Bolt M8 x 20 - 8.8, and no minimum says that it is kept"
    with made.shop.transaction("kept", terminal="office") as tx:
        tx.change(kind, minimum=5)
    assert not found(made)


HOLDS = Joint("flange", 5, "M8 10.9", value="25 N m", source="a sheet")


NEW_EACH_TIME = replace(HOLDS, one_use=True)


@pytest.mark.parametrize(
    ("designation", "qty", "one_use", "joint", "words"),
    [
        ("M8 x 20 - 8.8", 5, False, HOLDS, None),
        (
            "M8 x 1 x 20 - 8.8",
            5,
            False,
            HOLDS,
            "the joint flange has the thread M8, and its hardware has M8 x 1",
        ),
        ("M8 x 20 - 8.8", 4, False, HOLDS, "the joint flange takes 5 of M8, and its hardware has 4"),
        ("cotter pin 3 x 30", 1, False, HOLDS, None),
        (
            "M8 x 20 - 8.8",
            5,
            False,
            NEW_EACH_TIME,
            "the joint flange takes new ones each time, and Bolt M8 x 20 - 8.8 (HW-1) is not for one use",
        ),
        ("M8 x 20 - 8.8", 5, True, NEW_EACH_TIME, None),
    ],
)
def test_hardware_that_does_not_fit_the_joints(made, bolted, designation, qty, one_use, joint, words):
    bolted(designation, qty, one_use=one_use, joint=joint)
    told = {what for where, what in found(made) if where == "part ROT"}
    assert told == ({words} if words else set())


def test_hardware_on_a_part_that_is_on_no_vehicle(made, bolted):
    kind = bolted("M8 x 20 - 8.8")
    with made.shop.transaction("odd", terminal="office") as tx:
        tx.enter([Move(kind.id, 2, Place(State.NOT_OURS, "unknown"), Place(State.INSTALLED, made.rotor.id))])
    assert found(made) == {
        ("part ROT", "2 pieces of hardware are booked on Brake rotor, which is neither on nor built in")
    }


def test_two_kinds_of_one_name_are_not_one_line_twice(made, bolted):
    bolted("M8 x 20 - 8.8")
    with made.shop.transaction("hardware", terminal="office") as tx:
        tx.add(Part(0, "", "", None, "Bolt", kind=HARDWARE, designation="M8 x 25 - 8.8", minimum=1))
    assert not found(made)

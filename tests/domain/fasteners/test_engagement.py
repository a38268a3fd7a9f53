import pytest

from shoptui.domain.fasteners.engagement import (
    WASHER_MM,
    Material,
    bolt_length_mm,
    engagement,
    washers_under_head,
    with_spacer,
)
from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.threads import metric, unified

M10 = metric(10)


def test_enough_is_no_finding():
    found = engagement(M10, Material.STEEL, length_mm=40, grip_mm=22, threaded_hole_mm=20)
    assert found.findings == ()
    assert (found.engaged_mm, found.turns) == (18, 12)


def test_short_has_numbers():
    (words,) = engagement(M10, Material.ALUMINIUM, length_mm=30, grip_mm=18).findings
    assert words == "short: 12 mm of thread engage, at least 15 mm (1.5 d in aluminium) are wanted, 3 mm more"


def test_between_the_rules_is_said():
    (words,) = engagement(M10, Material.STEEL, length_mm=30, grip_mm=18).findings
    assert words == "between two rules: 12 mm of thread engage, in steel 1 d is 10 mm and 1.5 d is 15 mm"


def test_bottoming_out_has_numbers():
    found = engagement(M10, Material.STEEL, length_mm=40, grip_mm=20, threaded_hole_mm=16)
    assert found.findings == ("bottoms out: 20 mm of bolt reach into 16 mm of thread, 4 mm too long",)
    assert found.engaged_mm == 16


def test_a_grip_longer_than_the_bolt_engages_nothing():
    assert engagement(M10, Material.STEEL, length_mm=20, grip_mm=25).engaged_mm == 0


def test_what_a_spacer_takes_from_a_stud():
    left, words = with_spacer(metric(12, 1.5), Material.STEEL, length_mm=26, grip_mm=8, spacer_mm=10)
    assert words == "a spacer of 10 mm leaves 8 of 18 mm of thread, 5.3 of 12 turns"
    assert left.findings[0].startswith("short: 8 mm")


@pytest.mark.parametrize(
    ("washers", "nut_mm", "length"),
    [
        (0, None, 35),
        (2, None, 40),
        (2, 6, 35),
    ],  # 20 + 8.4 + 3 = 31.4; with two washers 35.4; 33 with a thin nut
)
def test_bolt_length_from_grip(washers, nut_mm, length):
    assert bolt_length_mm(M10, 20, washers=washers, nut_mm=nut_mm) == length


def test_washers_keep_a_bolt_from_bottoming_out():
    assert [washers_under_head(mm, WASHER_MM[10]) for mm in (0, 0.1, 2, 2.1)] == [0, 1, 1, 2]


@pytest.mark.parametrize(
    "job",
    [
        lambda: engagement(M10, Material.STEEL, length_mm=0, grip_mm=5),
        lambda: engagement(M10, Material.STEEL, length_mm=30, grip_mm=-1),
        lambda: engagement(M10, Material.STEEL, length_mm=30, grip_mm=5, threaded_hole_mm=0),
        lambda: with_spacer(M10, Material.STEEL, length_mm=30, grip_mm=5, spacer_mm=-2),
        lambda: bolt_length_mm(M10, 0),
        lambda: bolt_length_mm(M10, 20, washers=-1),
        lambda: washers_under_head(1, 0),
    ],
)
def test_lengths_that_cannot_be(job):
    with pytest.raises(FastenerError, match="was expected"):
        job()


def test_what_is_not_listed_is_to_be_measured():
    for thread in (metric(30), unified("1/2", 13)):
        with pytest.raises(FastenerError, match="are listed"):
            bolt_length_mm(thread, 20)
    with pytest.raises(FastenerError, match="up to 200 mm are listed"):
        bolt_length_mm(M10, 300)

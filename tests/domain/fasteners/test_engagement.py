import pytest

from shoptui.domain.fasteners.engagement import Material, Nut, engagement, with_spacer
from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.threads import metric

M10 = metric(10)


def test_enough_is_no_finding():
    found = engagement(M10, Material.STEEL, length_mm=40, grip_mm=22, threaded_hole_mm=20)
    assert (found.findings, found.remark) == ((), "")
    assert (found.engaged_mm, found.turns) == (18, 12)


def test_short_has_numbers():
    (words,) = engagement(M10, Material.ALUMINIUM, length_mm=30, grip_mm=18).findings
    assert words == "short: 12 mm of thread engage, at least 15 mm (1.5 d in aluminium) are wanted, 3 mm more"


def test_between_the_rules_is_said_and_is_no_finding():
    found = engagement(M10, Material.STEEL, length_mm=30, grip_mm=18)
    assert found.remark == "enough by one rule, another wants 15 mm (1.5 d in steel)"
    assert found.findings == ()


def test_what_is_just_enough_is_not_short_by_how_numbers_are_kept():
    assert 40.3 - 28.3 != 12
    for grip in (28.3, 16.3):
        assert engagement(metric(12), Material.STEEL, length_mm=grip + 12, grip_mm=grip).findings == ()
    assert engagement(M10, Material.STEEL, length_mm=28.3, grip_mm=16.3, threaded_hole_mm=13.5).findings == ()


def test_bottoming_out_has_numbers():
    found = engagement(M10, Material.STEEL, length_mm=40, grip_mm=20, threaded_hole_mm=16)
    assert found.findings == ("bottoms out: 20 mm of bolt reach into 16 mm of thread, 4 mm too long",)
    assert (found.engaged_mm, found.too_long_mm) == (16, 4)


def test_a_grip_longer_than_the_bolt_engages_nothing():
    assert engagement(M10, Material.STEEL, length_mm=20, grip_mm=25).engaged_mm == 0


OUT = "short: 1.6 mm stand out of the nut, at least 3 mm (2 pitches) are wanted, 1.4 mm more"
IN = "short: 5 mm of the nut's 8.4 mm of thread engage, with 2 pitches past it 6.4 mm more are wanted"


@pytest.mark.parametrize(("length", "words"), [(40, ()), (31.4, ()), (30, (OUT,)), (25, (IN,))])
def test_an_open_nut_is_filled_and_stood_out_of(length, words):
    found = engagement(M10, Nut(8.4), length_mm=length, grip_mm=20)
    assert found.findings == words
    assert found.engaged_mm == pytest.approx(min(8.4, length - 20))


def test_what_a_spacer_takes_from_a_stud():
    left, words = with_spacer(metric(12, 1.5), Material.STEEL, length_mm=26, grip_mm=8, spacer_mm=10)
    assert words == "a spacer of 10 mm leaves 8 of 18 mm of thread, 5.3 of 12 turns"
    assert left.findings[0].startswith("short: 8 mm")


@pytest.mark.parametrize(
    "job",
    [
        lambda: engagement(M10, Material.STEEL, length_mm=0, grip_mm=5),
        lambda: engagement(M10, Material.STEEL, length_mm=30, grip_mm=-1),
        lambda: engagement(M10, Material.STEEL, length_mm=30, grip_mm=5, threaded_hole_mm=0),
        lambda: engagement(M10, Nut(0), length_mm=30, grip_mm=5),
        lambda: with_spacer(M10, Material.STEEL, length_mm=30, grip_mm=5, spacer_mm=-2),
    ],
)
def test_lengths_that_cannot_be(job):
    with pytest.raises(FastenerError, match="was expected"):
        job()

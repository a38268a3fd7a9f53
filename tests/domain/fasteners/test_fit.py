import pytest

from shoptui.domain.fasteners.fit import fit
from shoptui.domain.fasteners.measures import measures
from shoptui.domain.fasteners.reading import designation


def of(bolt, words):
    return fit(designation(bolt), measures(words))


def test_the_designation_s_length_counts_where_no_other_is_said():
    assert of("M10 x 40", "grip 22, into steel").engagement.engaged_mm == 18
    assert of("M10 x 40", "length 30, grip 22, into steel").engagement.engaged_mm == 8


def test_washers_and_spacers_are_gone_through_first():
    found = of("M10x1.25x40", "grip 22, into aluminium, spacer 5, 1 washer")
    assert found.told == ("11 mm of thread engage in aluminium, 8.8 turns",)
    assert found.spaced == "a spacer of 5 mm leaves 11 of 16 mm of thread, 8.8 of 12.8 turns"
    assert found.findings == (
        "short: 11 mm of thread engage, at least 15 mm (1.5 d in aluminium) are wanted, 4 mm more",
    )


@pytest.mark.parametrize(
    ("words", "mended"),
    [
        # 18 mm reach in, and a pitch of 1.5 mm is left below them
        ("grip 22, into steel, hole 17.5", "1 washer of 2 mm under the head, or a bolt 2 mm shorter"),
        ("grip 22, into steel, hole 16", "2 washers of 2 mm under the head, or a bolt 3.5 mm shorter"),
        ("grip 22, into steel, hole 16.5, 1 washer 1", "2 more washers of 1 mm under the head"),
        ("grip 22, into steel, hole 13", "too long: a bolt 6.5 mm shorter"),  # four are a stack
        ("grip 22, into aluminium, hole 16.7", "too long: a bolt 2.8 mm shorter"),  # washers take too much
        ("grip 22, into aluminium, hole 15.5", "too long: full thread 4 mm deeper"),  # no bolt does both
        ("grip 22, into steel, hole 18", "there: 1 washer of 2 mm under the head, or a bolt 1.5 mm shorter"),
        ("grip 22, into steel, hole 19.4", "there: 1 washer of 2 mm under the head, or a bolt 0.1 mm"),
    ],
)
def test_what_keeps_a_bolt_from_bottoming_out(words, mended):
    (finding,) = of("M10 x 40", words).findings
    assert mended in finding


def test_a_hole_as_deep_as_the_bolt_reaches_in_has_no_room():
    """A bolt of its longest, or a washer of its thinnest, would bottom out in it and clamp nothing."""
    (finding,) = of("M8x30", "grip 12, into steel, hole 12, spacer 6").findings
    assert finding.startswith(
        "no room at the bottom: 12 mm of bolt reach into 12 mm of thread, 1.2 mm (a pitch)"
    )
    assert of("M8x30", "grip 12, into steel, hole 13.25, spacer 6").findings == ()
    assert of("M8x30", "grip 12, into steel, spacer 6").findings == ()


def test_what_nobody_said_is_assumed_and_said():
    assert "in steel (nobody wrote down into what)" in of("M10 x 40", "grip 22").told[0]


@pytest.mark.parametrize(
    ("bolt", "words", "why"),
    [
        ("M10", "grip 22", "not judged: how long the bolt or stud is is not written down"),
        ("M10 x 40", "into steel", "not judged: its grip, what it goes through, is not written down"),
        ("3/8-16 x 2", "grip 22, nut", "not judged: Nuts of M5 to M20 are listed"),
        ("3/8-16 x 2", "grip 22, 1 washer", "not judged: Washers of M5 to M20 are listed"),
    ],
)
def test_what_is_missing_is_said_and_no_finding(bolt, words, why):
    found = of(bolt, words)
    assert found.told[0].startswith(why)
    assert (found.engagement, found.findings) == (None, ())


def test_an_inch_bolt_with_a_measured_nut():
    found = of("3/8-16 x 2", "grip 1 in, nut 9.5, 1 washer 1.6")
    assert found.findings == ()
    assert found.engagement.engaged_mm == 9.5

import pytest

from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.handbook import SheetNeededError, handbook
from shoptui.domain.fasteners.reading import designation
from shoptui.domain.fasteners.strength import Scale, Strength, limits
from shoptui.domain.fasteners.surfaces import SURFACES, Prepared, with_friction, with_nut_factor
from shoptui.domain.fasteners.threads import metric, unified
from shoptui.domain.fasteners.torque import GENERIC, Of, Target, tightening
from shoptui.domain.fasteners.units import Unit

BOLT = designation("M10x1.25 10.9")


def test_both_forms_stand_side_by_side_with_their_spread():
    found = tightening(BOLT)
    for spread in (found.preload_n, found.short_nm, found.long_nm):
        assert spread.low < spread.likely < spread.high
    assert found.torque_nm is found.short_nm
    assert found.apart_percent == pytest.approx((found.long_nm.likely / found.short_nm.likely - 1) * 100)
    assert tightening(BOLT, with_friction(0.12, 0.12)).torque_nm.likely < found.long_nm.likely


def test_what_is_assumed_is_said():
    words = "; ".join(tightening(designation("M24x1.1 A2-70"), target=Target(0.7, Of.YIELD)).assumptions)
    for piece in (
        "dry threads",
        "head face of 1.5 d",
        "for the twist",
        "0.85 of the yield stress",
        "No standard lists",
    ):
        assert piece in words
    assert "hexagon head on a medium hole" in "; ".join(tightening(BOLT).assumptions)


def test_cautions_defer_to_the_sheet():
    assert "maker's sheet" in tightening(BOLT).caution
    assert "101 % of the proof load" in tightening(BOLT).caution
    assert "proof load" not in tightening(BOLT, target=Target(0.5, Of.PROOF)).caution
    assert "seize" in tightening(designation("M8 A2-70")).caution


@pytest.mark.parametrize("text", ["M10", "nut M10 8", "washer M10", "#10-32 grade 8", "M20 9.8", "M42 8.8"])
def test_what_has_no_strength_has_no_torque(text):
    with pytest.raises(FastenerError, match=r"expected|maker's sheet is needed"):
        tightening(designation(text))


@pytest.mark.parametrize("value", [0, -0.1, 1.2])
def test_frictions_factors_and_shares_out_of_range(value):
    for make in (
        with_nut_factor,
        lambda each: with_friction(each, 0.1),
        lambda each: with_friction(0.1, each),
        lambda each: Target(each, Of.PROOF),
    ):
        with pytest.raises(FastenerError, match="above 0 and up to 1"):
            make(value)


def test_a_nut_factor_below_what_the_pitch_takes():
    with pytest.raises(FastenerError, match=r"above 0\.020 was expected for M10 x 1\.25"):
        tightening(BOLT, with_nut_factor(0.01))


def test_a_strength_of_another_system():
    with pytest.raises(FastenerError, match="grade 8 is of Unified fasteners"):
        limits(Strength(Scale.GRADE, "8"), metric(10))
    with pytest.raises(FastenerError, match=r"8.8 is of metric fasteners"):
        limits(Strength(Scale.CLASS, "8.8"), unified("3/8", 16))


def test_a_handbook_value_always_says_what_it_is():
    found = handbook(designation("M8 8.8"), Prepared.DRY, plain=True)
    assert str(found) == f"25 N m, {GENERIC}"
    assert found.tightening.assumptions
    assert str(handbook(designation("M8 8.8"), Prepared.DRY, plain=True, unit=Unit.LBF_FT)).startswith(
        "19 lbf ft"
    )


def test_a_joint_that_is_not_plain_needs_the_maker_s_sheet():
    with pytest.raises(SheetNeededError, match="maker's sheet is needed"):
        handbook(designation("M8 8.8"), Prepared.DRY, plain=False)


def test_threadlocker_has_no_handbook_value():
    assert Prepared.LOCKED not in SURFACES
    with pytest.raises(SheetNeededError, match="sheet of the threadlocker is needed"):
        handbook(designation("M8 8.8"), Prepared.LOCKED, plain=True)

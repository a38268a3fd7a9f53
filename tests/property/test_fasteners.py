from decimal import Decimal
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from shoptui.domain.fasteners import forms
from shoptui.domain.fasteners.designations import Designation, Kind
from shoptui.domain.fasteners.doubts import angle_doubt, doubt
from shoptui.domain.fasteners.extensions import set_to
from shoptui.domain.fasteners.figures import FastenerError, significant
from shoptui.domain.fasteners.need import Stock, needs
from shoptui.domain.fasteners.passes import MOST_PASSES, passes, steps
from shoptui.domain.fasteners.patterns import MOST, Pattern, order
from shoptui.domain.fasteners.reading import designation
from shoptui.domain.fasteners.sheet_values import SheetAngle, SheetValue
from shoptui.domain.fasteners.strength import (
    BOLT_CLASSES,
    BOLT_GRADES,
    NUT_CLASSES,
    NUT_GRADES,
    STAINLESS,
    Scale,
    Strength,
)
from shoptui.domain.fasteners.surfaces import SURFACES, with_friction, with_nut_factor
from shoptui.domain.fasteners.thread_tables import METRIC, UNIFIED
from shoptui.domain.fasteners.threads import THIRD_CHOICE, System, metric, unified
from shoptui.domain.fasteners.torque import Of, Target, tightening
from shoptui.domain.fasteners.units import Unit, converted, unit

metric_threads = st.sampled_from(
    [metric(size, pitch) for size, pitches in METRIC.items() for pitch in pitches]
)
unified_threads = st.sampled_from(
    [unified(size, per_inch) for size, (_, *pitches) in UNIFIED.items() for per_inch in pitches if per_inch]
)
threads = metric_threads | unified_threads
frictions = st.floats(0.01, 1)
bolts = st.builds(
    lambda size, name: designation(f"M{size} {name}"),
    st.sampled_from((5, 6, 8, 10, 12, 14, 16)),
    st.sampled_from(("8.8", "9.8", "10.9", "12.9")),
)
decimals = st.decimals("0.1", "9999", places=1)


@given(threads, frictions, frictions, st.floats(100, 200_000))
def test_the_short_form_is_the_long_form_where_the_nut_factor_is_of_the_same_frictions(
    thread, in_thread, under_head, preload
):
    bearing = forms.bearing_diameter_mm(thread)
    factor = forms.nut_factor(in_thread, under_head, thread, bearing)
    assert forms.short_form_nm(factor, preload, thread) == pytest.approx(
        forms.long_form_nm(in_thread, under_head, preload, thread, bearing)
    )


@given(threads, frictions)
def test_one_friction_is_found_again_from_its_nut_factor(thread, friction):
    bearing = forms.bearing_diameter_mm(thread)
    factor = forms.nut_factor(friction, friction, thread, bearing)
    assert forms.friction_of(factor, thread, bearing) == pytest.approx(friction)


@given(
    bolts,
    st.sampled_from(list(SURFACES.values()))
    | st.builds(with_nut_factor, st.floats(0.05, 1))
    | st.builds(with_friction, frictions, frictions),
    st.builds(Target, st.floats(0.05, 1), st.sampled_from(Of)),
)
def test_low_likely_and_high_are_in_order(bolt, surfaces, target):
    found = tightening(bolt, surfaces, target)
    for spread in (found.preload_n, found.short_nm, found.long_nm, found.torque_nm):
        assert 0 < spread.low < spread.likely < spread.high


@given(bolts, st.floats(0.05, 0.9))
def test_a_greater_share_takes_more_torque(bolt, share):
    less, more = (
        tightening(bolt, target=Target(each, of)).torque_nm.likely
        for of in (Of.PROOF,)
        for each in (share, share + 0.1)
    )
    assert less < more


@given(threads)
def test_diameters_are_in_order(thread):
    assert 0 < thread.root_mm < thread.minor_mm < thread.pitch_diameter_mm < thread.major_mm
    assert thread.root_mm < thread.stress_diameter_mm < thread.pitch_diameter_mm
    assert thread.series
    assert ("third choice" in thread.remark) == (thread.major_mm in THIRD_CHOICE) == bool(thread.remark)


@given(st.sampled_from((Pattern.CROSS, Pattern.STAR)), st.integers(1, MOST))
def test_cross_and_star_are_permutations_and_never_go_to_a_neighbour(pattern, count):
    numbers = order(pattern, count)
    assert sorted(numbers) == list(range(1, count + 1))
    if count >= 5:
        assert all((after - before) % count not in {1, count - 1} for before, after in pairwise(numbers))


@given(st.sampled_from((Pattern.INSIDE_OUT, Pattern.IN_LINE)), st.integers(1, MOST))
def test_rows_are_permutations(pattern, count):
    numbers = order(pattern, count)
    assert sorted(numbers) == list(range(1, count + 1))
    if pattern is Pattern.INSIDE_OUT:
        assert all(
            abs(2 * each - count - 1) <= abs(2 * after - count - 1) + 1 for each, after in pairwise(numbers)
        )


@given(decimals, st.integers(1, MOST_PASSES))
def test_passes_rise_to_the_target(target, count):
    values = passes(target, count)
    assert len(values) == count
    assert values[-1] == target
    assert all(before < after for before, after in pairwise(values))


@st.composite
def designations(draw):
    thread = draw(threads)
    kind = draw(st.sampled_from(Kind))
    is_metric = thread.system is System.METRIC
    if kind is Kind.WASHER:
        assume(thread.series in {"coarse", "UNC"})
        return Designation(kind, thread, hardness=draw(st.none() | st.integers(10, 999)))
    nut = kind is Kind.NUT
    if is_metric:
        names = [(Scale.CLASS, name) for name in (NUT_CLASSES if nut else BOLT_CLASSES)]
        names += [(Scale.STAINLESS, name) for name in STAINLESS]
    else:
        names = [(Scale.GRADE, name) for name in (NUT_GRADES if nut else BOLT_GRADES)]
    strength = draw(st.none() | st.sampled_from([Strength(*name) for name in names]))
    lengths = st.integers(1, 6400).map(
        lambda each: round(each / 64 * 25.4 if not is_metric else each / 10, 3)
    )
    length = None if nut else draw(st.none() | lengths.filter(lambda mm: thread.major_mm * 0.6 < mm < 600))
    standard = "" if kind is not Kind.BOLT else draw(st.sampled_from(("", "ISO 4762", "DIN 912 ISO 4762")))
    fit = draw(st.sampled_from(("", "6g", "6H", "6H/6g", "5g6g") if is_metric else ("", "2A", "3B")))
    threaded = draw(st.none() | st.floats(1, length).map(int)) if is_metric and standard and length else None
    return Designation(kind, thread, standard, length, threaded, strength, fit, draw(st.booleans()), None)


@given(designations())
def test_what_is_printed_is_read_back(found):
    assert designation(str(found)) == found


@given(
    st.text(max_size=100)
    | st.from_regex(r"[M#]?[0-9/.,x \-]{0,20}(UNC|grade|nut|A2)?[0-9. \-]{0,8}", fullmatch=True)
)
def test_any_text_is_read_or_refused_in_one_sentence(text):
    try:
        found, sentence = designation(text), "."
    except FastenerError as error:
        found, sentence = None, str(error)
    assert sentence.endswith(".")
    assert "\n" not in sentence
    assert found is None or designation(str(found)) == found


@given(decimals, st.sampled_from(Unit), st.sampled_from(Unit))
def test_conversion_is_exact_and_rounded_within_the_source_s_last_digit(value, source, target):
    found = converted(value, source, target)
    back = converted(Decimal(1), target, source).exact
    assert found.exact * back == Fraction(value)
    assert abs(Fraction(found.rounded) - found.exact) * back <= Fraction("0.05")


@given(st.sampled_from(Unit), st.sampled_from((" ", "\u00b7", "-", ".", "*")), st.booleans())
def test_a_unit_is_read_with_any_joint_either_way_round(named, joint, turned):
    words = named.split()
    assert unit(joint.join(words[::-1] if turned else words)) is named


@given(st.floats(1, 1000), st.floats(100, 1000), st.floats(1, 99), st.floats(0, 360))
def test_an_extension_changes_the_setting_within_what_its_arm_does(torque, length, extension, angle):
    setting = set_to(torque, length, extension, angle)
    assert torque * length / (length + extension) <= setting * (1 + 1e-9)
    assert setting <= torque * length / (length - extension) * (1 + 1e-9)
    assert setting == pytest.approx(set_to(torque, length, extension, 360 - angle))


@given(st.floats(1e-3, 1e6), st.integers(1, 6))
def test_significant_digits_are_near(value, digits):
    assert float(significant(value, digits)) == pytest.approx(value, rel=0.5000001 * 10 ** (1 - digits))


counts = st.integers(0, 50)
stocks = st.builds(Stock, counts, counts, counts, counts, st.integers(1, 25), st.booleans())


@given(st.lists(st.tuples(st.integers(1, 5), counts)), st.dictionaries(st.integers(1, 5), stocks))
def test_what_is_bought_covers_the_work_and_the_minimum_by_less_than_a_pack(wanted, stock):
    for need in needs(wanted, stock):
        kind = stock.get(need.hardware, Stock())
        left = need.on_hand + need.on_order + need.to_buy - need.needed
        assert left >= kind.minimum
        assert need.to_buy % kind.pack == 0
        assert need.to_buy == 0 or left - kind.minimum < kind.pack
        assert need.short <= need.to_buy


plus_minus = st.sampled_from(("+/-", "+-", "+ / -", "\u00b1"))
shares = st.decimals("0.0001", "99", places=4)
uneven = st.sampled_from(("+{up:.1f}/-{down:.1f}", "(-{down:.2f}/+{up})"))


@st.composite
def tolerated(draw, values, signs):
    """Yield one value of a sheet as somebody writes it: alone, plus and minus, a share, a range."""
    value, sign = draw(values), draw(signs)
    match draw(st.integers(0, 5)):
        case 0:
            return f"{value}{sign}"
        case 1:
            return f"{value} {draw(plus_minus)} {value / 3:.1f} {sign}"
        case 2:
            return f"{value}{sign} {draw(plus_minus)} {value / 3:.1f}{sign}"
        case 3:
            return f"{value} {draw(plus_minus)} {draw(shares)} % {sign}"
        case 4:
            return f"{value}{sign} {draw(uneven).format(up=draw(shares), down=value / 3)}"
    return f"{value} to {value + 1} {sign}"


angles = tolerated(st.decimals("1", "170", places=1), st.sampled_from(("\u00b0", " deg", " degrees")))
tightened = tolerated(st.decimals("1", "2000", places=1), st.sampled_from((" N m", "Nm", " ft-lb")))


@given(tightened, st.lists(angles, max_size=3))
def test_steps_are_printed_in_one_way_and_read_back_as_the_same(first, turns):
    found = steps(" + ".join((first, *turns)))
    printed = " + ".join(map(str, found))
    assert steps(printed, Unit.OZF_IN) == found
    assert " + ".join(map(str, steps(printed))) == printed
    assert [type(each) for each in found] == [SheetValue, *[SheetAngle] * len(turns)]


@given(tightened, angles, st.decimals("-1", "1.9999", places=4))
def test_what_lies_between_the_least_and_the_most_is_as_the_sheet_says_and_nothing_else(first, turn, share):
    value, angle = steps(f"{first} + {turn}")
    for sheet, found in ((value, doubt), (angle, angle_doubt)):
        middle, half = (sheet.low + sheet.high) / 2, (sheet.high - sheet.low) / 2
        reading = middle + half * share
        assume(reading > 0)
        assert (found(reading, sheet) is None) == (abs(share) <= 1 or half == 0)

"""What a spacer, a hole and washers do to an engagement, whatever their measures; words are read back."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoptui.domain.fasteners.designations import Designation, Kind
from shoptui.domain.fasteners.engagement import Material, Nut, engagement, with_spacer
from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.fit import fit
from shoptui.domain.fasteners.lengths import LENGTHS_MM, bolt_into_mm, bolt_length_mm
from shoptui.domain.fasteners.measures import Measures, measures
from shoptui.domain.fasteners.threads import metric

SIZES = (5, 6, 8, 10, 12, 14, 16, 18, 20)
threads = st.sampled_from(SIZES).map(metric)
materials = st.sampled_from(Material)
tenths = st.integers(1, 2000).map(lambda each: each / 10)
spacers = st.integers(0, 500).map(lambda each: each / 10)
into = materials | st.builds(Nut, st.integers(30, 300).map(lambda each: each / 10))


@given(threads, into, tenths, tenths, spacers, st.none() | tenths)
def test_a_spacer_never_adds_engagement(thread, into, length, grip, spacer, hole):
    bare = engagement(thread, into, length_mm=length, grip_mm=grip, threaded_hole_mm=hole)
    left, _ = with_spacer(
        thread, into, length_mm=length, grip_mm=grip, spacer_mm=spacer, threaded_hole_mm=hole
    )
    assert 0 <= left.engaged_mm <= bare.engaged_mm
    assert left.too_long_mm <= bare.too_long_mm


@given(threads, materials, tenths, tenths, tenths)
def test_no_more_engages_than_the_hole_or_the_bolt_has(thread, material, length, grip, hole):
    found = engagement(thread, material, length_mm=length, grip_mm=grip, threaded_hole_mm=hole)
    assert found.engaged_mm <= hole
    assert found.engaged_mm <= length
    assert bool(found.too_long_mm) == any(words.startswith("bottoms out") for words in found.findings)
    if not found.findings:
        assert found.least_mm <= found.engaged_mm + 0.001


found_measures = st.builds(
    Measures,
    st.none() | tenths,
    st.none() | tenths,
    st.none() | materials,
    hole=st.none() | tenths,
    spacer=st.none() | tenths,
)


@st.composite
def all_measures(draw):
    found = draw(found_measures)
    if found.material is None and found.hole is None and draw(st.booleans()):
        found = replace(found, nut=True, nut_height=draw(st.none() | tenths))
    count = draw(st.integers(0, 20))
    return replace(found, washers=count, washer=draw(st.none() | tenths) if count else None)


@given(all_measures())
def test_what_is_printed_is_read_back(found):
    assert measures(str(found)) == found


@given(
    st.text(max_size=60)
    | st.from_regex(
        r"((length|grip|into|hole|spacer|nut|[0-9] washers?)[ :]?([0-9.,/ -]{0,6}(mm|in)?)[,; ]{0,2}){1,4}",
        fullmatch=True,
    )
)
def test_any_text_is_read_or_refused_in_one_sentence(text):
    try:
        found, sentence = measures(text), "."
    except FastenerError as error:
        found, sentence = None, str(error)
    assert sentence.endswith(".")
    assert "\n" not in sentence
    assert found is None or measures(str(found)) == found


@given(threads, all_measures())
def test_washers_that_are_said_to_mend_it_do(thread, given_):
    bolt = Designation(Kind.BOLT, thread, length_mm=50)
    for words in fit(bolt, given_).findings:
        _, found, rest = words.replace("left there: ", "too long: ").partition("too long: ")
        if found and rest[0].isdigit():
            more, *_ = rest.split()
            thick = float(rest.partition(" of ")[2].split()[0])
            total = given_.washers + int(more)
            if given_.washer in (None, thick):
                again = fit(bolt, replace(given_, washers=total))
                assert not [each for each in again.findings if each.startswith(("bottoms", "no room"))]


@given(threads, st.integers(1, 100), st.integers(0, 4))
def test_the_length_made_for_a_nut_is_the_shortest_without_a_finding(thread, grip, washers):
    length = bolt_length_mm(thread, grip, washers=washers)
    given_ = Measures(grip=grip, nut=True, washers=washers)
    assert fit(Designation(Kind.BOLT, thread, length_mm=length), given_).findings == ()
    shorter = [each for each in LENGTHS_MM if each < length]
    if shorter:
        assert fit(Designation(Kind.BOLT, thread, length_mm=shorter[-1]), given_).findings


@given(threads, materials, st.integers(1, 100), st.none() | st.integers(1, 60))
def test_the_length_made_for_a_hole_has_no_finding(thread, material, grip, hole):
    try:
        length, found = bolt_into_mm(thread, material, grip, hole)
    except FastenerError as error:
        assert "no room at the bottom" in str(error)  # noqa: PT017 - the other outcome is looked at below
        return
    assert found.findings == ()
    assert found.engaged_mm == pytest.approx(length - grip)

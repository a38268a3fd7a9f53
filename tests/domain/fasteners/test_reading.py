import pytest

from shoptui.domain.fasteners.designations import DesignationError, Kind
from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.reading import designation
from shoptui.domain.fasteners.strength import Scale, Strength
from shoptui.domain.fasteners.threads import System


@pytest.mark.parametrize(
    ("text", "printed"),
    [
        ("M10x1.25 10.9", "M10 x 1.25 - 10.9"),
        ("M10 x 1,25 - 8.8 x 30", "M10 x 1.25 x 30 - 8.8"),
        ("m12X1.5 x 45 8.8", "M12 x 1.5 x 45 - 8.8"),
        ("M8x30", "M8 x 30"),
        ("M 8 class 8.8", "M8 - 8.8"),
        ("8.8 M10", "M10 - 8.8"),
        ("M8 10,9 x 30", "M8 x 30 - 10.9"),
        ("M10*1.25 (10.9)", "M10 x 1.25 - 10.9"),
        ('5/16" - 24 grade 5', "5/16-24 UNF - grade 5"),
        ("1\u2033-8 x 2\u2033", "1-8 UNC x 2"),
        ("M6", "M6"),
        ("M8 A2-70", "M8 - A2-70"),
        ("M8 a4 80", "M8 - A4-80"),
        ("3/8-16 UNC grade 8", "3/8-16 UNC - grade 8"),
        ("3/8 UNC gr.5", "3/8-16 UNC - grade 5"),
        ("3/8-16 SAE J429 grade 8", "3/8-16 UNC - grade 8"),
        ("7/16-20", "7/16-20 UNF"),
        ("#10-32", "#10-32 UNF"),
        ("10-32", "#10-32 UNF"),
        ("No. 10-24 x 3/4", "#10-24 UNC x 3/4"),
        ("1-8", "1-8 UNC"),
        ("1 1/4-7 UNC x 3-1/2 gr 5", "1 1/4-7 UNC x 3 1/2 - grade 5"),
        ("1/4-20 x 30 mm", "1/4-20 UNC x 30 mm"),
        ('1/4-20 x .75"', "1/4-20 UNC x 3/4"),
        ("hex bolt M10 8.8", "M10 - 8.8"),
        ("3/8-24 cap screw grade 8", "3/8-24 UNF - grade 8"),
        ("stud M12x1.5 x 45 10.9", "stud M12 x 1.5 x 45 - 10.9"),
        ("M10 nut 8", "nut M10 - 8"),
        ("nut M10x1.25 class 10", "nut M10 x 1.25 - 10"),
        ("ISO 4032 - M12 - 8", "ISO 4032 - M12 - 8"),
        ("3/8-16 nut grade 8", "nut 3/8-16 UNC - grade 8"),
        ("washer M8", "washer M8"),
        ("washer 8", "washer M8"),
        ("3/8 washer", "washer 3/8"),
        ("iso7089 - 8 - 200 HV", "ISO 7089 - 8 - 200 HV"),
    ],
)
def test_what_people_write(text, printed):
    found = designation(text)
    assert str(found) == printed
    assert designation(printed) == found


def test_the_facts_of_a_designation():
    found = designation("3/8-16 UNC-2A x 1 1/2 - grade 8")
    assert found.kind is Kind.BOLT
    assert found.thread.system is System.UNIFIED
    assert (found.thread.per_inch, found.length_mm) == (16, 38.1)
    assert found.strength == Strength(Scale.GRADE, "8")
    assert designation("washer M8").is_bolt is False


@pytest.mark.parametrize(
    ("text", "remark"),
    [
        ("M10x1.1 8.8", "No standard lists M10 with a pitch of 1.1 mm"),
        ("M13x1.5", "No list here has the size M13"),
        ("3/8-17 grade 8", "3/8 with 17 threads per inch is neither coarse nor fine; 16 and 24 are"),
        ("M10x1.25", ""),
        ("3/8-24", ""),
    ],
)
def test_a_pitch_that_no_standard_lists_is_taken_and_said(text, remark):
    assert designation(text).thread.remark.startswith(remark)
    assert bool(designation(text).thread.remark) == bool(remark)


@pytest.mark.parametrize(
    ("text", "at", "piece"),
    [
        ("M10 11.9", 4, '"11.9" stands, a class that exists (4.6, 4.8'),
        ("M10 class 10", 4, "a class that exists"),
        ("M10 nut 8.8", 8, "a class of nuts that exists (04, 05, 5, 6, 8, 9, 10, 12)"),
        ("M10 A2", 4, "a group of stainless steel that exists"),
        ("M10 A9-70", 4, "a group of stainless steel that exists"),
        ("3/8-16 grade 7", 7, "a grade that exists (1, 2, 5, 8)"),
        ("M10 blue", 4, '"blue" stands, a length behind x'),
        ("M10 8.8 blue", 8, "nothing more than"),
        ("M10 11", 4, "a sign of what this number is"),
        ("M14x1.5 8", 8, "a class of bolts such as 8.8, or the word nut (8 alone is a class of nuts), was"),
        ("M14x1.5 x 30 10", 13, "or the word nut (10 alone is a class of nuts)"),
        ("M14x1.5 8.8 8", 12, "a sign of what this number is"),
        ("7/16-20 8", 8, "the word grade before 8 was expected"),
        ("M10 8.8 10.9", 8, '"10.9" stands'),
        ("M10 - M12", 6, '"M12" stands'),
        ("M10-2A", 4, "a class of fit of metric threads"),
        ("3/8-16 6g", 7, "a class of fit of Unified threads"),
        ("M10x1.25x0", 8, "a length above 0"),
        ("3/8-16 x 50", 7, "one with mm behind it"),
        ("M10 200 HV", 4, "a washer before a hardness"),
        ("M1000", 0, "a thread such as M10"),
        ("bolt", 4, "a thread such as M10"),
        ("", 0, "a thread such as M10"),
        ("x" * 200, 80, "at most 80 signs"),
    ],
)
def test_what_it_cannot_read_it_says_and_where(text, at, piece):
    with pytest.raises(DesignationError) as told:
        designation(text)
    assert told.value.at == at
    assert piece in str(told.value)
    assert str(told.value).endswith("was expected.")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("M10 grade 8", "a class such as 10.9 was expected for M10"),
        ("3/8-16 10.9", "a grade such as grade 8 was expected for 3/8-16 UNC"),
        ("3/8-16 A2-70", "A2-70 is of metric fasteners"),
        ("M13", "M13 has no coarse pitch in the lists"),
        ("M10x0", "A pitch above 0"),
        ("M0", "A metric size from M1 to M100"),
        ("M10x30x1.25", "a quarter of the diameter"),
        ("3/8", "3/8-16 or 3/8-24 was expected"),
        ("3/8-16 UNF", "3/8 UNF has 24 threads per inch; 16 came"),
        ("#0 UNC", "#0 UNC is not in the lists"),
        ("11/17-3", "A Unified size from #0 to 1 1/2"),
        ("3/8-2", "cannot be cut"),
        ("1/0-20", "A Unified size"),
    ],
)
def test_pieces_that_do_not_go_together(text, words):
    with pytest.raises(FastenerError, match=words.replace("(", r"\(")) as told:
        designation(text)
    assert str(told.value).endswith(".")


def test_what_came_is_shown_inert():
    with pytest.raises(DesignationError) as told:
        designation("M10 \x1b[31m\u202ered")
    assert "\x1b" not in str(told.value)
    assert "\u202e" not in str(told.value)

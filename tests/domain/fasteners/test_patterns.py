import pytest

from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.patterns import Pattern, drawn, order


def test_rows():
    assert order(Pattern.IN_LINE, 4) == (1, 2, 3, 4)
    assert order(Pattern.INSIDE_OUT, 6) == (3, 4, 2, 5, 1, 6)
    assert drawn(Pattern.INSIDE_OUT, 4) == ("1  2  3  4",)


@pytest.mark.parametrize("pattern", Pattern)
@pytest.mark.parametrize("count", range(1, 41))
def test_a_drawing_shows_each_number_once_within_80_by_16(pattern, count):
    lines = drawn(pattern, count)
    assert sorted(int(word) for line in lines for word in line.split()) == list(range(1, count + 1))
    assert max(map(len, lines)) <= 80
    assert len(lines) <= 16


def test_one_is_on_top_and_two_to_its_right():
    lines = drawn(Pattern.STAR, 5)
    assert lines[0].strip() == "1"
    assert lines[1].index("2") > lines[0].index("1") > lines[1].index("5")


@pytest.mark.parametrize("count", [0, -1, 41])
def test_counts_that_are_none(count):
    for make in (order, drawn):
        with pytest.raises(FastenerError, match="1 to 40 fasteners were expected"):
            make(Pattern.CROSS, count)

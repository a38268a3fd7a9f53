import pytest

from shoptui.domain.fasteners.engagement import Material
from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.measures import Measures, measures


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("length 40, grip 22, into aluminium, hole 25, spacer 5, 1 washer 2.5", None),
        ("length 40", None),
        ("grip 22, nut", None),
        ("grip 22, nut 12.5, 2 washers", None),
        ("2 washers 2,5; grip 22,5 length 40", "length 40, grip 22.5, 2 washers 2.5"),
        ("LENGTH: 4 cm GRIP=22mm in Aluminum", "length 40, grip 22, into aluminium"),
        ("stud 26, grip 8 mm into grey iron", "length 26, grip 8, into cast iron"),
        ('bolt length 1 1/2 in, grip 7/8, hole 1"', "length 38.1, grip 22.225, hole 25.4"),
        ("length 2 in in steel", "length 50.8, into steel"),
        ("length 1\u00bd in, grip .5 inch", "length 38.1, grip 12.7"),
        ("grip 20, into a nut 2 washers of 2", "grip 20, nut, 2 washers 2"),
        ("blind hole 18, washer 2, grip 3", "grip 3, hole 18, 1 washer 2"),
        ("grip 22, 0 washers 2.5", "grip 22"),
        ("nut 12.5 washer 2", "nut 12.5, 1 washer 2"),
        ("", ""),
    ],
)
def test_what_people_write_is_printed_in_one_way(text, written):
    found = measures(text)
    assert str(found) == (text if written is None else written)
    assert measures(str(found)) == found


def test_what_is_said():
    found = measures("length 40, grip 22, in alloy, hole 25, spacer 5, 3 x washers of 2.5")
    assert found == Measures(40, 22, Material.ALUMINIUM, hole=25, spacer=5, washers=3, washer=2.5)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("grip 22, blue", 'grip 22, blue: where "blue" stands, one of length 40, grip 22'),
        ("40", '40: where "40" stands'),
        ("into cheese", 'into cheese: where "cheese" stands, one of steel, cast iron'),
        ("into", "at its end, one of steel"),
        ("grip x", 'grip x: where "x" stands, a length such as 22'),
        ("grip", "at its end, a length such as 22"),
        ("grip 22, grip 23", 'at sign 10, where "grip" stands, grip no more than once'),
        ("washers 2", "how many washers, such as 2 washers 2.5, was expected"),
        ("length 40,2 washers", "how many washers"),
        ("1.5 washers", 'where "1.5 washers" stands, a whole number of washers'),
        ("2,5x washer", "a whole number of washers"),
        ("99 washers", "0 to 20 washers were expected; 99 came"),
        ("grip 0", "Grip above 0 and up to 1000 mm was expected; 0 came"),
        ("grip -5", "Grip above 0 and up to 1000 mm was expected; -5 came"),
        ("hole 1/0", "Hole above 0"),
        ("length 400 cm", "Length above 0 and up to 1000 mm was expected; 400 cm came"),
        ("spacer 1,000,5", 'where "5" stands'),
        ("nut, hole 18", "a closed one is written: into steel, hole 18"),
        ("nut, into steel", "An open nut has neither"),
        ("grip 2 " * 30, "at most 120 signs"),
        ("grip \x1b[31m5", "stands"),
    ],
)
def test_what_cannot_be_read_is_one_sentence_that_points_at_it(text, words):
    with pytest.raises(FastenerError) as refused:
        measures(text)
    assert words in str(refused.value)
    assert "\x1b" not in str(refused.value)

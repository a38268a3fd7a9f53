import pytest

from shoptui.domain.fasteners.engagement import Material
from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.lengths import WASHER_MM, bolt_into_mm, bolt_length_mm, washers_under_head
from shoptui.domain.fasteners.threads import metric, unified

M10 = metric(10)


@pytest.mark.parametrize(
    ("washers", "washer_mm", "nut_mm", "length"),
    [
        (0, None, None, 35),
        (2, None, None, 40),
        (2, None, 6, 35),
        (2, 1.5, None, 35),
    ],  # 20 + 8.4 + 3 = 31.4; with two washers 35.4; 33 with a thin nut; 34.4 with thin washers
)
def test_bolt_length_from_grip(washers, washer_mm, nut_mm, length):
    assert bolt_length_mm(M10, 20, washers=washers, washer_mm=washer_mm, nut_mm=nut_mm) == length


@pytest.mark.parametrize(
    ("hole", "length", "remark"),
    [(None, 35, False), (16.5, 35, False), (16.4, 30, True), (11.5, 30, True)],
)
def test_bolt_length_into_a_hole(hole, length, remark):
    found, engaged = bolt_into_mm(M10, Material.STEEL, 20, hole)
    assert (found, bool(engaged.remark), engaged.findings) == (length, remark, ())


def test_no_length_is_made_between_short_and_bottoming_out():
    with pytest.raises(FastenerError, match=r"32 mm or more engages, one of more than 32\.5 mm has no room"):
        bolt_into_mm(M10, Material.STEEL, 22, 12)


def test_washers_keep_a_bolt_from_bottoming_out():
    assert [washers_under_head(mm, WASHER_MM[10]) for mm in (0, 0.1, 2, 2.1)] == [0, 1, 1, 2]


@pytest.mark.parametrize(
    "job",
    [
        lambda: bolt_length_mm(M10, 0),
        lambda: bolt_length_mm(M10, 20, washers=-1),
        lambda: bolt_length_mm(M10, 20, nut_mm=0),
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
    with pytest.raises(FastenerError, match=r"which wants 38.1 mm or more: give its length"):
        bolt_into_mm(unified("1/2", 13), Material.STEEL, 25.4)

import pytest

from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.need import Stock, needs


def need(wanted, **stock):
    (found,) = needs([(1, wanted)], {1: Stock(**stock)})
    return found


def test_short_is_what_the_work_lacks():
    found = need(9, new=3, on_order=4)
    assert (found.needed, found.on_hand, found.on_order, found.short, found.to_buy) == (9, 3, 4, 2, 2)


def test_what_is_bought_comes_in_packs_and_leaves_the_minimum():
    assert need(9, new=3, pack=10).to_buy == 10
    assert need(9, new=9, minimum=11, pack=10).to_buy == 20
    assert need(9, new=9, minimum=11, pack=10).short == 0


def test_one_use_must_be_new():
    assert need(4, used=20).short == 0
    assert need(4, used=20, one_use=True).short == 4


def test_all_joints_of_one_kind_add_up_and_what_is_enough_is_listed():
    found = needs(
        [(7, 5), (2, 1), (7, 4)], {7: Stock(new=9), 3: Stock(new=1, minimum=5), 4: Stock(new=5, minimum=5)}
    )
    assert [(each.hardware, each.needed, each.to_buy) for each in found] == [(2, 1, 1), (3, 0, 4), (7, 9, 0)]


@pytest.mark.parametrize("wrong", [{"new": -1}, {"pack": 0}, {"minimum": -2}])
def test_counts_that_cannot_be(wrong):
    with pytest.raises(FastenerError, match="Counts of 0 or more"):
        Stock(**wrong)

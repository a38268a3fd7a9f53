"""A bin is counted from a script; what was not said yes to leaves the store as it was, byte by byte."""

from datetime import UTC, datetime

import pytest

from shoptui.domain.codes import normal
from shoptui.domain.records import LearnedCode
from shoptui.store.shop import Shop

ALL_OF_B1 = ("BR-01=1", "BR-03=1", "BR-04=2 pairs")


def test_a_bin_as_booked_asks_nothing(run, sample_shop, unchanged):
    ran = run("count", "b1", *ALL_OF_B1)
    assert (ran.code, ran.out) == (0, "B1: 6 counted, all as booked.\n")
    assert unchanged()


def test_differences_are_shown_before_they_are_entered(run, sample_shop, states, unchanged):
    things = ("BR-01=1", "BR-03=1", "BR-04=3", "BO-05=1")
    asked = run("count", "B1", *things)
    assert (asked.code, asked.out) == (1, "")
    assert "Brake pad, front: 1 short; Rear bumper: 1 booked in D3: moved here" in asked.err
    assert unchanged()
    ran = run("count", "B1", *things, "--yes", "--json")
    assert (ran.code, ran.json["answer"], ran.json["kind"], ran.json["code"]) == (0, "done", "bin", "B1")
    assert states("BR-04") == {"received": 3, "gone": 1, "to order": 1}
    assert "in bin B1" in run("where", "BO-05").out
    assert run("undo").code == 0
    assert states("BR-04") == {"received": 4}


def test_scans_come_on_standard_input_and_a_carton_counts_what_is_in_it(run, sample_shop):
    shop = Shop.open(sample_shop, clock=lambda: datetime.now(UTC))
    part = shop.parts.by_code("BR-04")
    with shop.transaction("learned", terminal="office") as tx:
        tx.add(LearnedCode(0, "CARTON-2", normal("CARTON-2"), "parts", part.id, 2))
    shop.close()
    ran = run("count", "B1", "-", scans=b"\xef\xbb\xbfBR-01\r\nBR-03\n\nCARTON-2\nCARTON-2")
    assert (ran.code, ran.out) == (0, "B1: 6 counted, all as booked.\n")
    assert run("count", "B1", "BR-01=1", "BR-03=1", "carton-2=2").code == 0


def test_an_empty_bin_is_asked_about_and_chosen(run, sample_shop, states, unchanged):
    asked = run("count", "B1", "-", "--yes")
    assert (asked.code, asked.out) == (1, "")
    assert asked.err.startswith("Nothing was counted in B1, and 6 are booked there. Is it empty?")
    assert unchanged()
    assert run("count", "B1", "--choose", "1").code == 0
    assert states("BR-04") == {"gone": 4, "to order": 4}


@pytest.mark.parametrize(
    ("things", "scans", "words"),
    [
        (("B11", "BR-01=1"), b"", "There is no bin B11. Was bin B1"),
        (("B1", "nonsense=2"), b"", "No part has the code nonsense"),
        (("B1", "BR-01=0"), b"", "BR-01=0: 1 to 100000 pieces were expected"),
        (("B1", "BR-01=-1"), b"", "BR-01=-1: A quantity such as"),
        (("B1", "BR-01=1000000000"), b"", "BR-01=1000000000: 1 to 100000 pieces were expected"),
        (("B1", "BR-01=two"), b"", "BR-01=two: A quantity such as"),
        (("B1", "BR-01"), b"", "BR-01: how many? Write such as BR-01=1."),
        (("B1", "=2"), b"", "No part has the code"),
        (("B1", "9521009000019=1"), b"", "is more than one part"),
        (("B1", "-"), b"BR-01\nBR-\xff\n", "Line 2 of standard input is no UTF-8."),
        (("B1", "-"), b"BR-01\nnonsense\n", "No part has the code nonsense"),
    ],
)
def test_what_is_no_count_is_one_sentence_and_1_and_changes_nothing(
    run, sample_shop, unchanged, things, scans, words
):
    ran = run("count", *things, "--yes", scans=scans)
    assert (ran.code, ran.out) == (1, "")
    assert words in ran.err
    assert ran.err.count("\n") == 1
    assert unchanged()

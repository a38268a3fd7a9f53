import pytest

from shoptui.domain.lookup import By, CodeIndex
from shoptui.domain.recognise import read


@pytest.fixture
def index():
    return CodeIndex()


def found(index, text):
    return [(match.kind, match.record, match.qty) for match in index.find(read(text))]


def test_a_tag_is_found_as_scanned_and_as_typed(index):
    index.put("part", 1, "P7K3QXV", by=By.TAG)
    for text in ("P7K3QXV", "p-7k3qxv", "p 7k3 qxv", "]C0P7K3QXV"):
        assert found(index, text) == [("part", 1, 1)]
        assert index.knows(text)
    assert not index.knows("P7K3QXW")


def test_a_gtin_is_found_in_every_length(index):
    index.put("part", 1, "036000241457")
    for text in ("036000241457", "0036000241457", "]E00036000241457", "00036000241457", "0 36000 24145 7"):
        assert found(index, text) == [("part", 1, 1)]


def test_a_shortened_upc_is_found_by_the_long_one(index):
    index.put("part", 1, "042100005264")
    assert found(index, "04252614") == found(index, "]E0425261") == [("part", 1, 1)]


def test_a_carton_means_as_many_as_was_learned(index):
    index.put("part", 1, "09521234543213", 4)
    assert found(index, "]C10109521234543213" + "10AB") == [("part", 1, 4)]


def test_the_most_specific_form_counts(index):
    index.put("part", 1, "09521234543213")
    index.put("part", 2, "(01)09521234543213(21)77", 2)
    assert found(index, "]C1010952123454321321" + "77") == [("part", 2, 2)]
    assert found(index, "]C1010952123454321321" + "78") == [("part", 1, 1)]


def test_all_records_with_the_same_number_are_found_the_most_certain_first(index):
    index.put("part", 1, "4711", by=By.MAKERS_NUMBER)
    index.put("part", 2, "4711", by=By.MAKERS_NUMBER)
    index.put("order", 3, "4711", by=By.NUMBER)
    assert found(index, "4711")[0] == ("order", 3, 1)
    assert sorted(found(index, "4711")) == [("order", 3, 1), ("part", 1, 1), ("part", 2, 1)]


def test_a_record_is_found_once_however_many_of_its_codes_match(index):
    index.put("box", 1, "XYZ-1", by=By.TAG)
    index.put("box", 1, "XYZ-1", by=By.TRACKING)
    assert [match.by for match in index.find(read("xyz-1"))] == [By.TAG]


def test_printed_in_groups_and_typed_without(index):
    index.put("part", 1, "12-345 A", by=By.MAKERS_NUMBER)
    assert found(index, "12345a") == found(index, "12 345-A") == [("part", 1, 1)]


def test_the_very_same_writing_comes_before_one_that_resembles_it(index):
    index.put("part", 1, "123-45", by=By.MAKERS_NUMBER)
    index.put("part", 2, "12-345", by=By.MAKERS_NUMBER)
    assert found(index, "12-345") == [("part", 2, 1)]
    assert sorted(found(index, "12345")) == [("part", 1, 1), ("part", 2, 1)]


def test_a_learned_code_is_compared_exactly(index):
    index.put("part", 1, "AB 1 ")
    assert found(index, "ab 1 ") == [("part", 1, 1)]
    assert found(index, "AB 1") == found(index, "AB1 ") == []


def test_tracking_number_behind_a_post_code(index):
    index.put("box", 1, "376104250021234569", by=By.TRACKING)
    index.put("box", 2, "952400000000000000001", by=By.TRACKING)
    assert found(index, "4201234500376104250021234569") == [("box", 1, 1)]
    assert found(index, "]C142012345\x1d00376104250021234569") == [("box", 1, 1)]
    assert found(index, "42012345952400000000000000001") == [("box", 2, 1)]
    assert found(index, "420123456789952400000000000000001") == [("box", 2, 1)]
    assert found(index, "]C142012345\x1d952400000000000000001") == [("box", 2, 1)]


def test_order_and_makers_number_on_a_label_with_fields(index):
    index.put("order", 1, "PO-17", by=By.NUMBER)
    index.put("part", 2, "AB12", by=By.MAKERS_NUMBER)
    assert found(index, "]C1400PO-17") == [("order", 1, 1)]
    assert found(index, "(01)09521234543213(240)AB12") == [("part", 2, 1)]


def test_a_wrong_check_digit_stands_for_nothing_but_itself(index):
    index.put("part", 1, "09521234543213")
    assert found(index, "09521234543214") == found(index, "(01)09521234543214") == []
    index.put("part", 2, "09521234543214")
    assert found(index, "09521234543214") == [("part", 2, 1)]
    assert found(index, "9521234543214") == []


def test_what_was_dropped_is_gone(index):
    index.put("part", 1, "AB-1", 2)
    index.put("part", 1, "AB-1", 5)
    index.drop("part", 1, "ab-1", 5)
    assert found(index, "AB-1") == [("part", 1, 2)]
    index.drop("part", 1, "AB-1")
    assert found(index, "AB-1") == []
    index.drop("part", 1, "AB-1")


def test_nothing_is_filed_under_nothing(index):
    index.put("part", 1, " - ", by=By.MAKERS_NUMBER)
    index.put("part", 1, "")
    assert found(index, "--") == found(index, " ") == found(index, "") == []

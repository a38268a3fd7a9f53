from hypothesis import example, given
from hypothesis import strategies as st

from shoptui.domain import codes
from shoptui.domain.recognise import read

fragments = st.sampled_from(
    [
        "]C1",
        "]E0",
        "]Q3",
        "]d2",
        "]",
        "(01)",
        "01",
        "00",
        "02",
        "10",
        "21",
        "37",
        "420",
        "\x1d",
        "\x00",
        "\u202e",
        "09521234543213",
        "376104250021234569",
        "P7K3QXV",
        "RR473124829GB",
        "https://example.com/01/",
        "-",
        " ",
    ]
)
texts = st.one_of(st.text(), st.lists(st.one_of(fragments, st.text("0123456789")), max_size=9).map("".join))


@given(texts)
@example("]")
@example("")
@example("]Y9")
@example("]J1")
@example("\u0660" * 13)
@example("0" * 10_000)
@example("30\x1d37")
@example("http://[::1")
def test_any_text_can_be_read(text):
    reading = read(text)
    assert reading.scanned == text
    assert bool(reading.refused) != bool(reading.candidates)
    if reading.candidates:
        assert reading.candidates[0] == codes.normal(text)
    if reading.checked:
        assert text.isascii()


@given(texts)
def test_what_is_compared_stays_the_same_when_compared_again(text):
    once = codes.normal(text)
    if not once.startswith("]"):  # a text may look like an identifier behind its identifier
        assert codes.normal(once) == once
    assert codes.loose(codes.loose(text)) == codes.loose(text)


@given(st.text("ABCdef 123-"), st.text("ABCdef 123-"))
def test_plain_texts_are_the_same_only_if_they_differ_in_case_alone(one, other):
    if not read(one).checked and not read(other).checked:
        assert (codes.normal(one) == codes.normal(other)) == (one.lower() == other.lower())

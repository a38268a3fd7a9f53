import random

from hypothesis import given
from hypothesis import strategies as st

from shoptui.domain.tags import ALPHABET, Kind, Tag, TagError, allocate, shown

tags = st.builds(
    lambda kind, seed: allocate(kind, random.Random(seed), lambda _tag: False),
    st.sampled_from(Kind),
    st.integers(0, 2**32),
)
places = st.integers(0, 6)


def is_tag(text):
    try:
        Tag.parse(text)
    except TagError:
        return False
    return True


@given(tags)
def test_a_tag_given_out_is_read_back(tag):
    parsed = Tag.parse(tag)
    assert str(parsed) == tag
    assert parsed.shown == shown(tag)
    assert Tag.parse(parsed.shown.lower()) == parsed
    assert set(tag) <= set(ALPHABET)
    assert any(character.isdigit() for character in tag)


@given(tags, places, st.sampled_from(ALPHABET))
def test_one_wrong_character_is_always_found(tag, place, wrong):
    changed = tag[:place] + wrong + tag[place + 1 :]
    assert is_tag(changed) == (changed == tag)


@given(tags, st.integers(0, 5))
def test_a_swap_of_neighbours_is_always_found(tag, place):
    changed = tag[:place] + tag[place + 1] + tag[place] + tag[place + 2 :]
    assert is_tag(changed) == (changed == tag)


@given(st.text())
def test_any_text_is_a_tag_or_a_sentence(text):
    try:
        Tag.parse(text)
    except TagError as error:
        assert str(error).startswith("Expected ")  # noqa: PT017
        assert str(error).isprintable()  # noqa: PT017

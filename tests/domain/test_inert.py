import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoptui.domain.inert import cells, inert


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("\x1b[2J\x07\x00\r\n\t\x7f", "␛[2J␇␀␍␊␉␡"),
        ("a\u202eb\u2066c\u200bd\ufeffe", "a\ufffdb\ufffdc\ufffdd\ufffde"),
        ("\x9b31m\x85\u2028\u2029", "\ufffd31m\ufffd\ufffd\ufffd"),
        ("\ud800\ue000\U000e0041", "\ufffd\ufffd\ufffd"),
        ("[red]x[/red]", "[red]x[/red]"),
        ("e\u0301", "e\u0301"),
        ("\u0301x", "\u25cc\u0301x"),
        ("a" + "\u0301" * 50, "a" + "\u0301" * 3),
        ("a\u00a0b", "a b"),
        ("", ""),
    ],
)
def test_what_cannot_be_shown_is_marked(text, shown):
    assert inert(text) == shown


@pytest.mark.parametrize(
    ("text", "limit", "shown"),
    [
        ("abcdef", 6, "abcdef"),
        ("abcdef", 5, "abcd…"),
        ("漢字漢字", 8, "漢字漢字"),
        ("漢字漢字", 7, "漢字漢…"),
        ("漢字漢字", 6, "漢字…"),
        ("abe\u0301fg", 4, "abe\u0301…"),
        ("abe\u0301fg", 3, "ab…"),
        ("abc", 1, "…"),
        ("abc", 0, ""),
    ],
)
def test_cut_to_cells(text, limit, shown):
    assert inert(text, limit) == shown


@given(st.text(st.characters(exclude_categories=()), max_size=40), st.integers(0, 30))
def test_any_text_is_safe_and_fits(text, limit):
    shown = inert(text, limit)
    assert cells(shown) <= limit
    assert not {unicodedata.category(character) for character in shown} & {
        "Cc",
        "Cf",
        "Cs",
        "Co",
        "Cn",
        "Zl",
        "Zp",
    }
    assert not shown[:1] or unicodedata.category(shown[0]) not in {"Mn", "Me", "Mc"}
    assert inert(shown, limit) == shown
    shown.encode()

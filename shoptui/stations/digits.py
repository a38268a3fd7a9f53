"""Digits to tap, for a hand that holds no keyboard: counts, rows' numbers, amounts and days."""

from shoptui.stations.tap_bar import Tap

SIGNS: tuple[tuple[str, str], ...] = (
    *((digit, digit) for digit in "1234567890"),
    ("full_stop", "."),
    ("minus", "-"),
    ("plus", "+"),
    ("backspace", "Rub out"),
    ("enter", "Enter"),
)
"""Textual's name of a key to what is to be tapped."""

DIGITS: tuple[Tap, ...] = tuple(Tap(f"app.type('{key}')", f" {words}", "") for key, words in SIGNS)

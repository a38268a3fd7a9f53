"""The vehicle identification number and its check digit.

The check digit is law for vehicles made for North America: 49 CFR 565.15 (c), whose values and weights are
those below. Elsewhere position 9 is free, and a number that fails the check may well be right.
"""

LENGTH = 17
CHECK_PLACE = 8
"""Index of the check digit: the ninth character."""

WEIGHTS = (8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2)
VALUES = {
    **{digit: int(digit) for digit in "0123456789"},
    **{letter: value for value, letter in enumerate("ABCDEFGH", 1)},
    **{letter: value for value, letter in enumerate("JKLMN", 1)},
    "P": 7,
    "R": 9,
    **{letter: value for value, letter in enumerate("STUVWXYZ", 2)},
}
"""What each character counts for; there is no I, O or Q."""

NORTH_AMERICA = "12345"
"""First characters of vehicles made there (ISO 3780)."""


def plain(vin: str) -> str:
    """Return a VIN as it is compared: upper case, without blanks and dashes."""
    return "".join(vin.split()).replace("-", "").upper()


def check_digit(vin: str) -> str:
    """Return the check digit, 0 to 9 or X for ten, that belongs into the ninth place of a well-formed VIN.

    >>> check_digit("11111111111111111")
    '1'
    """
    rest = sum(VALUES[character] * weight for character, weight in zip(vin, WEIGHTS, strict=True)) % 11
    return "X" if rest == len("0123456789") else str(rest)


def check(vin: str) -> str | None:
    """Return a sentence on what is wrong with a VIN, or None.

    A wrong check digit is wrong only where the first character says that the law on it applies.

    >>> check("11111111011111111")
    'Expected check digit 1 in the ninth place of this VIN, got 0; read it again.'
    """
    text = plain(vin)
    if len(text) != LENGTH:
        return f"Expected a VIN of {LENGTH} characters, got {len(text)}; older vehicles have none to enter."
    for place, character in enumerate(text, 1):
        if character not in VALUES:
            return (
                f"Expected digits and letters without I, O and Q in a VIN, "
                f"got {character!a} in place {place}; read it again."
            )
    if text[0] in NORTH_AMERICA and not holds(text):
        return (
            f"Expected check digit {check_digit(text)} in the ninth place of this VIN, "
            f"got {text[CHECK_PLACE]}; read it again."
        )
    return None


def holds(vin: str) -> bool:
    """Return whether the check digit of a well-formed VIN is right."""
    return vin[CHECK_PLACE] == check_digit(vin)


def note(vin: str) -> str:
    """Return what is worth saying about a VIN that `check` accepts, empty if nothing."""
    text = plain(vin)
    if text[0] in NORTH_AMERICA or holds(text):
        return ""
    return "Its check digit does not hold, which it need not outside North America; compare it once more."

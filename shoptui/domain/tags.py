"""Our own tags: a kind letter, five characters and a check character, all easy to read aloud and to type.

The check character is that of ISO/IEC 7064 MOD 37,2, which finds every single wrong character and every swap
of two neighbours. Its own alphabet is wider than that of the tags, so a body whose check character a person
could misread is never given out.
"""

import random
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

ALPHABET = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"
"""Characters of a tag: no 0, 1, I or O, which people take for each other."""

_CHARACTERS = frozenset(ALPHABET)

BODY_LENGTH = 5
TAG_LENGTH = 1 + BODY_LENGTH + 1

CHECK_ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*"
"""Values 0 to 36 of ISO/IEC 7064 MOD 37,2."""

_VALUES = {character: value for value, character in enumerate(CHECK_ALPHABET)}

MOST_TRIES = 10_000

_DROPPED = str.maketrans("", "", " \t\u00a0-\u2010\u2011\u2012\u2013\u2014\u2212")
"""Blanks and the dashes that keyboards and word processors put for each other."""


class Kind(StrEnum):
    """What a tag is stuck on; the value is its first letter."""

    BIN = "B"
    PART = "P"
    HARDWARE = "H"
    BAG = "G"
    BOX = "X"
    WRENCH = "W"
    PERSON = "U"
    VEHICLE = "V"
    COMMAND = "K"

    @property
    def words(self) -> str:
        """The kind in words: `bin`, `part`, `hardware bag`..."""
        return _WORDS[self]


_WORDS = {
    Kind.BIN: "bin",
    Kind.PART: "part",
    Kind.HARDWARE: "hardware",
    Kind.BAG: "bag",
    Kind.BOX: "box",
    Kind.WRENCH: "wrench",
    Kind.PERSON: "person",
    Kind.VEHICLE: "vehicle",
    Kind.COMMAND: "command or position",
}

_KIND_LETTERS = frozenset(Kind)


class TagError(ValueError):
    """A text that is no tag of ours; the words say what was expected, what came and what to do.

    Args:
        expected: What was expected, in words.
        got: What came.
        remedy: What to do, a whole sentence.

    """

    def __init__(self, expected: str, got: str, remedy: str) -> None:
        super().__init__(f"Expected {expected}, got {got}. {remedy}")
        self.expected = expected
        self.got = got
        self.remedy = remedy


class TagsUsedUpError(RuntimeError):
    """No free tag of a kind was found, which some 24 million tags of that kind make unlikely."""


@dataclass(frozen=True, slots=True)
class Tag:
    """One tag, its check character verified.

    Args:
        kind: What it is stuck on.
        body: Five characters.
        check: The check character over kind and body.

    """

    kind: Kind
    body: str
    check: str

    def __str__(self) -> str:
        """Return the seven characters as they are stored and scanned."""
        return f"{self.kind.value}{self.body}{self.check}"

    @classmethod
    def parse(cls, text: str) -> "Tag":
        """Read a tag that was scanned or typed; dashes, blanks and lower case are forgiven.

        Raises:
            TagError: Says what is wrong with it.

        >>> str(Tag.parse("p-7k3 qxv"))
        'P7K3QXV'

        """
        plain = without_blanks_and_dashes(text)
        if len(plain) != TAG_LENGTH:
            raise TagError(
                f"a tag of {TAG_LENGTH} characters",
                str(len(plain)),
                "Scan it again, or type all of it; the dash may be left out.",
            )
        plain = plain.upper() if plain.isascii() else plain
        if not _CHARACTERS.issuperset(plain):
            wrong = next(character for character in plain if character not in _CHARACTERS)
            raise TagError(
                "2 to 9 and A to Z without I and O",
                f"{wrong!a} as character {plain.index(wrong) + 1}",
                "Tags have no 0, 1, I or O, which are too easily taken for each other; read it again.",
            )
        if plain[0] not in _KIND_LETTERS:
            raise TagError(
                "a tag that begins with one of " + ", ".join(Kind), plain[0], "Read its first letter again."
            )
        check = check_character(plain[:-1])
        if plain[-1] != check:
            raise TagError(f"check character {check}", plain[-1], "A character was misread; read it again.")
        return cls(Kind(plain[0]), plain[1:-1], plain[-1])

    @property
    def shown(self) -> str:
        """The tag as printed for the eye."""
        return f"{self.kind.value}-{self.body}{self.check}"


def without_blanks_and_dashes(text: str) -> str:
    """Return a text as typed codes are compared, without the blanks and dashes put in for the eye."""
    return text.translate(_DROPPED)


def check_character(text: str) -> str:
    """Return the check character of ISO/IEC 7064 MOD 37,2, which can be any of 0-9, A-Z and `*`.

    The example is python-stdnum's, for iso7064.mod_37_2.

    >>> check_character("G123489654321")
    'Y'
    """
    sum_ = 0
    for character in text:
        sum_ = (sum_ + _VALUES[character]) * 2 % 37
    return CHECK_ALPHABET[(1 - sum_) % 37]


def allocate(kind: Kind, rng: random.Random, taken: Callable[[str], bool]) -> str:
    """Return a fresh tag of seven characters, without dash.

    A tag without any digit is not given out: it could be a word that somebody types to search.

    Args:
        kind: What it is for.
        rng: Where its characters come from.
        taken: Says whether a tag is in use already.

    Raises:
        TagsUsedUpError: When every one tried is taken.

    >>> tag = allocate(Kind.PART, random.Random(7), lambda tag: False)
    >>> tag, shown(tag), str(Tag.parse(tag)) == tag
    ('P8R5F4A', 'P-8R5F4A', True)

    """
    for _ in range(MOST_TRIES):
        first_six = kind.value + "".join(rng.choice(ALPHABET) for _ in range(BODY_LENGTH))
        tag = first_six + check_character(first_six)
        if tag[-1] in ALPHABET and any(character.isdigit() for character in tag) and not taken(tag):
            return tag
    raise TagsUsedUpError(f"No free tag for a {kind.words} was found in {MOST_TRIES} tries.")


def shown(tag: str) -> str:
    """Return a stored tag as it is shown: with a dash after its kind letter.

    What is no tag is returned as it is.
    """
    return f"{tag[0]}-{tag[1:]}" if len(tag) == TAG_LENGTH and "-" not in tag else tag

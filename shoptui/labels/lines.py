"""A text as large as it fits into a room, on one line or on two."""

from dataclasses import dataclass

from shoptui.domain.inert import ELLIPSIS
from shoptui.labels.font import ADVANCE, LEAST_SIZE, above, below

LEADING = 1.15
"""From baseline to baseline, in ems, where letters allow it."""

_NOTHING = 1e-9
"""Millimetres that no printer shows."""

_WORTH = 1.2
"""How much larger the letters must get to be worth a second line."""


@dataclass(frozen=True, slots=True)
class Lines:
    """A text broken into lines that all have one size.

    Args:
        lines: From the top.
        size: Em, mm.
        cut: Whether the end of the text is missing.

    """

    lines: tuple[str, ...]
    size: float
    cut: bool = False

    @property
    def height(self) -> float:
        """From the top of the first line to the bottom of the last, mm."""
        return height_in_ems(self.lines) * self.size


def height_in_ems(lines: tuple[str, ...]) -> float:
    """Return the height of lines in ems."""
    return above(lines[0]) + (len(lines) - 1) * leading(lines) + below(lines[-1])


def leading(lines: tuple[str, ...]) -> float:
    """Return the way from one baseline to the next, in ems: an accent never touches the line above."""
    return max(LEADING, below(lines[0]) + above(lines[-1]))


def fit(text: str, room: float, height: float, *, most_lines: int, most_size: float) -> Lines:
    """Return a text as large as it fits, on two lines where that is clearly larger.

    Args:
        text: Settable, not empty.
        room: Width, mm.
        height: Height, mm.
        most_lines: 1 or 2.
        most_size: Largest em, mm.

    """
    best = Lines((text,), min(_size((text,), room, height), most_size))
    if most_lines > 1 and (two := in_two(text)):
        size = min(_size(two, room, height), most_size)
        best = Lines(two, size) if size > best.size * _WORTH else best
    return best if best.size >= LEAST_SIZE - _NOTHING else _cut(text, room, height, most_lines)


def _size(lines: tuple[str, ...], room: float, height: float) -> float:
    return min(room / (max(map(len, lines)) * ADVANCE), height / height_in_ems(lines))


def in_two(text: str) -> tuple[str, str] | None:
    """Return a text broken into two lines as even as can be; None where there is no place to break it.

    >>> in_two("Front upper control arm, left")
    ('Front upper', 'control arm, left')

    """
    return min(_ways(text), key=lambda way: max(map(len, way)), default=None)


def _ways(text: str) -> list[tuple[str, str]]:
    """Return the ways to break a text at a blank, or after a dash, slash or comma."""
    breaks = [at for at in range(1, len(text)) if text[at] == " " or text[at - 1] in "-/,"]
    ways = ((text[:at].strip(), text[at:].strip()) for at in breaks)
    return [way for way in ways if all(way)]


def _cut(text: str, room: float, height: float, most_lines: int) -> Lines:
    """Return as much of a text as fits at the least size, ending in an ellipsis."""
    characters = max(1, int(room / (ADVANCE * LEAST_SIZE) + _NOTHING))
    if most_lines == 1 or height < height_in_ems((text, text)) * LEAST_SIZE - _NOTHING:
        return Lines((_shortened(text, characters),), LEAST_SIZE, cut=len(text) > characters)
    broken = [way for way in _ways(text) if len(way[0]) <= characters]
    whole_words = max(broken, key=lambda way: len(way[0]), default=None)
    first, rest = whole_words or (text[:characters], text[characters:])
    return Lines((first, _shortened(rest, characters)), LEAST_SIZE, cut=len(rest) > characters)


def _shortened(text: str, characters: int) -> str:
    return text if len(text) <= characters else text[: characters - 1].rstrip() + ELLIPSIS

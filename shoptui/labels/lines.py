"""A text as large as it fits into a room, on one line or on two."""

from dataclasses import dataclass

from shoptui.domain.inert import ELLIPSIS
from shoptui.labels.font import ADVANCE, CAPITAL, LEAST_SIZE, above, below

LEADING = 1.15
"""From baseline to baseline, in ems, where letters allow it."""

NOTHING = 1e-9
"""Millimetres that no printer shows."""

_WORTH = 1.2
"""How much larger the letters must get to be worth a second line."""

READABLE = 2.5
"""Height of capitals, mm, below which a word is rather broken, and letters are not thickened: they would
close up. Common practice, no source."""

_LEAST_PART = 3
"""Letters of a broken word that stay together."""


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


def height_in_ems(lines: tuple[str, ...], tails: str = "") -> float:
    """Return the height of lines in ems; `tails` are letters whose tails get room in any case."""
    return above(lines[0]) + (len(lines) - 1) * leading(lines) + below(lines[-1] + tails)


def leading(lines: tuple[str, ...]) -> float:
    """Return the way from one baseline to the next, in ems: an accent never touches the line above."""
    return max(LEADING, below(lines[0]) + above(lines[-1]))


def fit(
    text: str,
    room: float,
    height: float,
    *,
    most_lines: int,
    most_size: float,
    whole: bool = False,
    tails: str = "",
) -> Lines:
    """Return a text as large as it fits, on two lines where that is clearly larger.

    Args:
        text: Settable, not empty.
        room: Width, mm.
        height: Height, mm.
        most_lines: 1 or 2.
        most_size: Largest em, mm.
        whole: Whether it is a code, whose words are never broken.
        tails: As in `height_in_ems`.

    """
    best = Lines((text,), 0)
    for way in ways(text, room, most_lines=most_lines, whole=whole):
        size = min(widest(way, room), height / height_in_ems(way, tails), most_size)
        worth = size > best.size * _WORTH or best.size < LEAST_SIZE - NOTHING < size
        best = Lines(way, size) if worth else best
    return best if best.size >= LEAST_SIZE - NOTHING else _cut(text, room, height, most_lines)


def ways(text: str, room: float, *, most_lines: int, whole: bool) -> list[tuple[str, ...]]:
    """Return the ways to set a text, the best liked first; a word is broken only to become readable.

    >>> ways("Hinterachsdifferentialsperre", 30, most_lines=2, whole=False)[-1]
    ('Hinterachsdif-', 'ferentialsperre')

    """
    found: list[tuple[str, ...]] = [(text,)]
    if most_lines > 1 and (two := in_two(text)):
        found.append(two)
    if most_lines > 1 and not whole and max(widest(way, room) for way in found) * CAPITAL < READABLE:
        found += [two] if (two := _broken(text)) else []
    return found


def widest(lines: tuple[str, ...], room: float) -> float:
    """Return the largest em that a width has room for, mm."""
    return room / (max(map(len, lines)) * ADVANCE)


def in_two(text: str) -> tuple[str, str] | None:
    """Return a text broken into two lines as even as can be; None where there is no place to break it.

    >>> in_two("Front upper control arm, left"), in_two("order 23-104, 23-107")
    (('Front upper', 'control arm, left'), ('order 23-104,', '23-107'))

    """
    return min(_ways(text), key=_unlike, default=None)


def _unlike(way: tuple[str, str]) -> float:
    """Return how little a break is liked: what a dash or slash joins is torn only where that is worth it."""
    return max(map(len, way)) * (_WORTH if way[0].endswith(("-", "/")) else 1)


def _ways(text: str) -> list[tuple[str, str]]:
    """Return the ways to break a text at a blank, or after a dash, slash or comma."""
    breaks = [at for at in range(1, len(text)) if text[at] == " " or text[at - 1] in "-/,"]
    ways = ((text[:at].strip(), text[at:].strip()) for at in breaks)
    return [way for way in ways if all(way)]


def _broken(text: str) -> tuple[str, str] | None:
    """Return a text broken within a word, as even as can be; None where no word is long enough."""
    inside = range(_LEAST_PART, len(text) - _LEAST_PART + 1)
    breaks = [at for at in inside if text[at - _LEAST_PART : at + _LEAST_PART].isalpha()]
    broken = ((f"{text[:at]}-", text[at:]) for at in breaks)
    return min(broken, key=lambda way: max(map(len, way)), default=None)


def _cut(text: str, room: float, height: float, most_lines: int) -> Lines:
    """Return as much of a text as fits at the least size, ending in an ellipsis."""
    characters = max(1, int(room / (ADVANCE * LEAST_SIZE) + NOTHING))
    if most_lines == 1 or height < height_in_ems((text, text)) * LEAST_SIZE - NOTHING:
        return Lines((_shortened(text, characters),), LEAST_SIZE, cut=len(text) > characters)
    broken = [way for way in _ways(text) if len(way[0]) <= characters]
    whole_words = max(broken, key=lambda way: len(way[0]), default=None)
    first, rest = whole_words or (text[:characters], text[characters:])
    return Lines((first, _shortened(rest, characters)), LEAST_SIZE, cut=len(rest) > characters)


def _shortened(text: str, characters: int) -> str:
    return text if len(text) <= characters else text[: characters - 1].rstrip() + ELLIPSIS

"""In what order the fasteners of a joint are tightened, as numbers and as a small drawing.

On a circle fasteners are numbered clockwise from the top, in a row from the left.
"""

import math
from enum import StrEnum

from shoptui.domain.fasteners.figures import FastenerError

MOST = 40
"""Fasteners of one joint that a drawing has room for; no source."""


class Pattern(StrEnum):
    """An order of tightening; its value is its name everywhere."""

    CROSS = "cross"
    STAR = "star"
    INSIDE_OUT = "inside out"
    IN_LINE = "in line"


def order(pattern: Pattern, count: int) -> tuple[int, ...]:
    """Return the numbers of the fasteners, in the order in which they are tightened.

    Raises:
        FastenerError: Not 1 to 40 fasteners.

    >>> order(Pattern.STAR, 5), order(Pattern.CROSS, 8), order(Pattern.INSIDE_OUT, 5)
    ((1, 3, 5, 2, 4), (1, 5, 3, 7, 2, 6, 4, 8), (3, 4, 2, 5, 1))

    """
    if not 1 <= count <= MOST:
        raise FastenerError(f"1 to {MOST} fasteners were expected; {count} came.")
    match pattern:
        case Pattern.CROSS:
            return _cross(count)
        case Pattern.STAR:
            return _star(count)
        case Pattern.INSIDE_OUT:
            return _inside_out(count)
        case Pattern.IN_LINE:
            return tuple(range(1, count + 1))


def _star(count: int) -> tuple[int, ...]:
    """Each nearly opposite the one before; 1 3 5 2 4 is common practice, no source.

    An odd count steps by just under half round; an even one goes to the opposite, then on by one.
    """
    half = count // 2
    if count < 4:  # noqa: PLR2004 - of three, all are neighbours
        return tuple(range(1, count + 1))
    if count % 2:
        return tuple(step * half % count + 1 for step in range(count))
    return tuple(number for first in range(1, half + 1) for number in (first, first + half))


def _cross(count: int) -> tuple[int, ...]:
    """Opposite pairs, each across the one before.

    The order of 4, 8, 12, 16, 20 and 24 is that of ASME PCC-1, cross-pattern, as quoted in public sources:
    within a quarter or half of the circle the star says which comes next.
    """
    if count % 4 == 0:
        quarter = count // 4
        turn = (0, 2 * quarter, quarter, 3 * quarter)
        return tuple(first + each for first in _star(quarter) for each in turn)
    if count % 2 == 0:
        return tuple(first + each for first in _star(count // 2) for each in (0, count // 2))
    return _star(count)


def _inside_out(count: int) -> tuple[int, ...]:
    """From the middle of a row outwards, by turns to the right and to the left."""
    middle = (count + 1) // 2
    return tuple(sorted(range(1, count + 1), key=lambda number: (abs(number - middle), -number)))


_IN_A_LINE = 20
"""Of a row; the rest goes on below, within 80 cells."""


def drawn(pattern: Pattern, count: int) -> tuple[str, ...]:
    r"""Return the lines of a drawing that shows which number is where: a circle, or a row.

    Raises:
        FastenerError: Not 1 to 40 fasteners.

    >>> print("\n".join(drawn(Pattern.CROSS, 6)))
             1
      6             2
    <BLANKLINE>
      5             3
             4

    """
    numbers = sorted(order(pattern, count))
    if pattern in {Pattern.INSIDE_OUT, Pattern.IN_LINE}:
        return tuple(
            "  ".join(map(str, numbers[start : start + _IN_A_LINE])) for start in range(0, count, _IN_A_LINE)
        )
    high = 1 if count <= _LOW else min(max(2, math.ceil(count / 5)), _HIGHEST)
    rings = (_ring(numbers, high, wide) for wide in range(4 * high, _WIDEST))
    return next(ring for ring in rings if len(" ".join(ring).split()) == count)


_LOW = 5
"""As many as three lines have room for, so that all of a wheel's stand on a card beside its question."""

_HIGHEST, _WIDEST = 7, 38
"""Half axes of a ring that fits into 16 lines of 80 cells."""


def _ring(numbers: list[int], high: int, wide: int) -> tuple[str, ...]:
    """Draw the numbers on an ellipse of these half axes, in cells; where there is no room two may touch."""
    rows = [[" "] * (2 * wide + 3) for _ in range(2 * high + 1)]
    for number in numbers:
        turn = 2 * math.pi * (number - 1) / len(numbers)
        row, column = _cell(high - high * math.cos(turn)), _cell(wide + 1 + wide * math.sin(turn))
        label = str(number)
        at = column - len(label) + 1
        rows[row][at : at + len(label)] = label
    return tuple("".join(row).rstrip() for row in rows)


def _cell(place: float) -> int:
    """Round halves up on either side of the ring alike, whatever the last digit of a cosine."""
    return math.floor(place + 0.5 + 1e-9)

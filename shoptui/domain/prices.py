"""A price as the list has it, and how sure it is."""

from dataclasses import dataclass
from enum import StrEnum


class Sure(StrEnum):
    """How sure a price is."""

    EXACT = "exact"
    ABOUT = "about"
    FROM = "from"
    BETWEEN = "between"
    NONE = "none"


@dataclass(frozen=True, slots=True)
class Price:
    """A price as the list has it.

    Args:
        sure: How sure it is.
        low_minor: The price, or its lower bound, minor units.
        high_minor: The upper bound of `between`.
        percent: The margin of `about`; None means the shop's default.
        currency: ISO 4217 code.

    """

    sure: Sure = Sure.NONE
    low_minor: int | None = None
    high_minor: int | None = None
    percent: int | None = None
    currency: str = ""


NOT_KNOWN = Price()
"""No price is known, which is not nought."""

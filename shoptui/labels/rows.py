"""How the rows of a label share its height: what each needs, what is left, and who gives way."""

from dataclasses import dataclass

from shoptui.labels.font import CAPITAL, LEAST_SIZE
from shoptui.labels.layouts import Row
from shoptui.labels.lines import NOTHING, height_in_ems, ways, widest

LEAST_BARS = 5.0
"""Bars lower than this are refused, mm."""

BETWEEN_SHARE = 0.04
"""White between two rows, of a label's height, before rows get more than they want."""


@dataclass(slots=True)
class Claim:
    """What one row asks for and gets.

    Args:
        row: Which.
        text: What stands in it, nothing for the bars.
        least: Height without which it cannot be, mm.
        most: Height beyond which it gains nothing, mm.
        wanted: Height that it gets before others get more than their least, mm.
        height: What it gets, mm.

    """

    row: Row
    text: str
    least: float
    most: float
    wanted: float = 0.0
    height: float = 0.0


def words_claim(row: Row, text: str, room: float, wanted: float) -> Claim:
    """Return what a row of words asks for: 5 points at least, no more than what makes it larger."""
    set_ = ways(text, room, most_lines=row.most_lines, whole=row.whole)
    sizes = [(height_in_ems(way, row.tails), widest(way, room)) for way in set_]
    most = max(high * max(LEAST_SIZE, min(size, row.most / CAPITAL)) for high, size in sizes)
    likely = sizes[:1] if row.whole else sizes  # a code is torn only where it has to be
    high, size = max(likely, key=lambda each: min(each[1], wanted / CAPITAL))  # the first of equals
    return Claim(row, text, sizes[0][0] * LEAST_SIZE, most, min(high * min(size, wanted / CAPITAL), most))


def make_room(claims: list[Claim], height: float, between: float, notes: list[str]) -> float:
    """Where the least heights do not fit, lower the bars, then leave out words from the bottom.

    Returns:
        How much is lacking when all that is done, mm; nothing where it fits.

    """
    bars = next(claim for claim in claims if claim.row.what == "symbol")
    optional = [claim for claim in claims if claim.row.what in {"lines", "words"}]
    while (lacking := sum(claim.least for claim in claims) + between * (len(claims) - 1) - height) > NOTHING:
        if bars.least - lacking >= LEAST_BARS:
            bars.least -= lacking
        elif optional:
            claims.remove(left_out := optional.pop())
            notes.append(f"There is no room for {left_out.text}, which is left out.")
        else:
            return lacking - (bars.least - LEAST_BARS)
    return 0


def share_out(claims: list[Claim], height: float, between: float) -> float:
    """Give each row its height; return the white between two of them.

    First comes what is least, then what rows want, then white, then their shares until nobody can use more.

    Args:
        claims: The rows, whose heights are set.
        height: Of all, mm.
        between: The least white between two rows, mm.

    """
    gaps = len(claims) - 1
    rest = height - between * gaps
    for claim in claims:
        claim.height = claim.least
        rest -= claim.least
    for claim in claims:
        more = max(0.0, min(rest, claim.wanted - claim.height))
        claim.height += more
        rest -= more
    white = max(0.0, min(rest, (BETWEEN_SHARE * height - between) * gaps))
    rest -= white
    while rest > NOTHING and (
        open_ := [c for c in claims if c.row.share > 0 and c.most - c.height > NOTHING]
    ):
        each = rest / sum(claim.row.share for claim in open_)
        for claim in open_:
            more = min(each * claim.row.share, claim.most - claim.height)
            claim.height += more
            rest -= more
    return between + (white / gaps if gaps else 0.0)

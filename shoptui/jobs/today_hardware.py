"""The hardware that is short for what is still to go on: one line, however many kinds."""

from collections.abc import Iterator

from shoptui.jobs.at import pieces
from shoptui.jobs.hardware import stands
from shoptui.jobs.today_line import WARNING, TodayLine
from shoptui.store.shop import Shop

NAMED = 3
"""Kinds that the line names."""


def hardware_lines(shop: Shop) -> Iterator[TodayLine]:
    """Yield one line if any hardware is short; what is ordered is on its way."""
    short = sorted((each for each in stands(shop) if each.need.short), key=lambda each: -each.need.short)
    if short:
        told = ", ".join(pieces(each.need.short, each.part) for each in short[:NAMED])
        more = f" and {len(short) - NAMED} kinds more" if len(short) > NAMED else ""
        yield TodayLine(
            "bolts", f"short for what is to go on: {told}{more}", "hardware", short[0].part.id, WARNING
        )

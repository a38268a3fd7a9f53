"""The parts of a build as rows."""

from shoptui.domain import verbs
from shoptui.domain.places import State
from shoptui.domain.records import Part
from shoptui.jobs.at import name, shown
from shoptui.stations.long_list import Column, Row
from shoptui.stations.marks import Tone
from shoptui.store.shop import Shop

PART_COLUMNS = (
    Column("part"),
    Column("section", 13),
    Column("needed", 6, right=True),
    Column("state", 22, toned=True),
    Column("code", 12, since=76),
    Column("number", 14, since=100),
)
SHOWN_STATES = (
    State.HELD,
    State.ORDERED,
    State.RECEIVED,
    State.SENT_OUT,
    State.MOCKED_UP,
    State.ASSEMBLED,
    State.INSTALLED,
    State.REMOVED,
    State.GONE,
)


def part_row(shop: Shop, part: Part) -> Row:
    """Return the row of a part."""
    words, tone = part_state(shop, part)
    return Row(
        part.id,
        (
            name(part),
            part.section,
            str(part.needed) if part.needed else "",
            words,
            shown(part.code),
            part.number,
        ),
        tone,
        f"{part.code} {part.tag} {part.maker} {' '.join(part.other_numbers)} {part.number}",
    )


def part_state(shop: Shop, part: Part) -> tuple[str, Tone]:
    """Return where the pieces of a part are, in as few words as there are, and how that looks."""
    to_order = verbs.to_order(shop.book, part.id, needed=part.needed, original=part.original)
    totals: dict[State, int] = {}
    for place, qty in shop.book.places(part.id, *SHOWN_STATES):
        totals[place.state] = totals.get(place.state, 0) + qty
    words = [f"! {to_order} to order"] if to_order else []
    words.extend(f"{qty} {state}" for state, qty in totals.items())
    if to_order or State.HELD in totals:
        return ", ".join(words), Tone.BAD
    if part.needed and totals.get(State.INSTALLED, 0) >= part.needed:
        return ", ".join(words), Tone.GOOD
    return ", ".join(words) or "-", Tone.PLAIN

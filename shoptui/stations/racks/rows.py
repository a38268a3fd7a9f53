"""Bins and what is in them as rows and cards."""

from shoptui.domain.places import UNSORTED, Place, State
from shoptui.domain.records import Bin, Part
from shoptui.jobs.at import name
from shoptui.jobs.place_words import piece_words
from shoptui.stations.card import Fact
from shoptui.stations.listed import Column, Row
from shoptui.stations.marks import Tone
from shoptui.store.shop import Shop

BIN_COLUMNS = (
    Column("bin", 10),
    Column("kind", 9),
    Column("pieces", 6, right=True),
    Column("what is in it"),
    Column("where it stands", 22, since=96),
)
CONTENT_COLUMNS = (
    Column("part"),
    Column("pieces", 6, right=True),
    Column("state", 9, toned=True),
    Column("how it is", 12),
    Column("number", 14, since=70),
)
IN_BINS = (State.RECEIVED, State.HELD, State.REMOVED)
TONES = {State.HELD: Tone.BAD, State.REMOVED: Tone.WARN, State.RECEIVED: Tone.GOOD}

Inside = tuple[tuple[Part, Place, int], ...]


def inside_of(shop: Shop, where: int | str) -> Inside:
    """Return what lies in a bin, or on the bench: part, place and pieces."""
    return tuple(
        (shop.parts.get(part), place, qty)
        for state in IN_BINS
        for part in shop.book.parts_at(state, where)
        for place, qty in shop.book.places(part, state)
        if place.where == where
    )


def bin_row(shop: Shop, found: Bin) -> Row:
    """Return the row of a bin."""
    return _row(
        shop, found.id, found.code, found.kind, found.id, ", ".join(filter(None, (found.words, found.room)))
    )


def bench_row(shop: Shop) -> Row:
    """Return the row of what was put away nowhere yet."""
    return _row(shop, 0, "bench", "unsorted", UNSORTED, "not put away yet")


def _row(shop: Shop, key: int, code: str, kind: str, where: int | str, stands: str) -> Row:
    inside = inside_of(shop, where)
    return Row(
        key,
        (
            code,
            kind,
            str(sum(qty for _, _, qty in inside)) if inside else "",
            ", ".join(name(part) for part, _, _ in inside) or "empty",
            stands,
        ),
        find=" ".join(f"{part.code} {part.number}" for part, _, _ in inside),
    )


def content_row(part: Part, place: Place, qty: int) -> Row:
    """Return the row of one part in a bin."""
    cells = (name(part), str(qty), place.state.value, place.condition or "opened", part.number)
    return Row((part.id, place), cells, TONES.get(place.state, Tone.PLAIN), part.code)


def bin_facts(shop: Shop, found: Bin | None) -> tuple[str, tuple[Fact, ...]]:
    """Return title and lines of a bin's card; None is the bench."""
    inside = inside_of(shop, found.id if found else UNSORTED)
    facts = [Fact("kind", found.kind), Fact("stands", found.words), Fact("room", found.room)] if found else []
    facts = [fact for fact in facts if fact.text]
    facts.append(Fact("What is in it"))
    for part, place, qty in inside:
        facts.append(
            Fact("", f"{name(part)}: {piece_words(shop, place, qty)}", TONES.get(place.state, Tone.PLAIN))
        )
    if not inside:
        facts.append(Fact("", "Nothing."))
    return (f"Bin {found.code}" if found else "On the bench, not put away yet"), tuple(facts)

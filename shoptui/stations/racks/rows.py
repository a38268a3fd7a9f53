"""Bins and what is in them as rows and cards."""

from collections import Counter

from shoptui.domain.places import UNSORTED, Place, State
from shoptui.domain.records import Bin, Part
from shoptui.jobs.at import At, name, shown
from shoptui.jobs.bins import inside
from shoptui.jobs.count import counted_so_far, rows_of_count
from shoptui.jobs.count_differences import difference_words, differences
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
COUNT_COLUMNS = (
    Column("part"),
    Column("booked", 6, right=True),
    Column("counted", 7, right=True),
    Column("what differs", 34, toned=True),
    Column("number", 14, since=96),
)
TONES = {State.HELD: Tone.BAD, State.REMOVED: Tone.WARN, State.RECEIVED: Tone.GOOD}


def bin_row(shop: Shop, found: Bin) -> Row:
    """Return the row of a bin."""
    stands = ", ".join(filter(None, (found.words, found.room)))
    return _row(shop, found.id, shown(found.code), found.kind, found.id, stands)


def bench_row(shop: Shop) -> Row:
    """Return the row of what was put away nowhere yet."""
    return _row(shop, 0, "bench", "unsorted", UNSORTED, "not put away yet")


def _row(shop: Shop, key: int, code: str, kind: str, where: int | str, stands: str) -> Row:
    things = inside(shop, where)
    return Row(
        key,
        (
            code,
            kind,
            str(sum(qty for _, _, qty in things)) if things else "",
            ", ".join(name(part) for part, _, _ in things) or "empty",
            stands,
        ),
        find=" ".join(f"{part.code} {part.number}" for part, _, _ in things),
    )


def content_row(part: Part, place: Place, qty: int) -> Row:
    """Return the row of one part in a bin."""
    cells = (name(part), str(qty), place.state.value, place.condition or "opened", part.number)
    return Row((part.id, place), cells, TONES.get(place.state, Tone.PLAIN), part.code)


def count_rows(at: At, found: Bin) -> list[Row]:
    """Return the rows of a bin that is being counted: what is booked there, then what else was counted."""
    shop, counted = at.shop, counted_so_far(at)
    differ = {each.part.id: each for each in differences(shop, found, counted)}
    booked = Counter[int]()
    for part, _, qty in inside(shop, found.id):
        booked[part.id] += qty
    rows = []
    for part in rows_of_count(at, found):
        words, tone = "as booked", Tone.GOOD
        if part.id in differ:
            words, tone = difference_words(shop, differ[part.id]), Tone.WARN
            if part.id not in counted:
                words, tone = "not counted yet", Tone.PLAIN
        cells = (name(part), str(booked[part.id]), str(counted[part.id]), words, part.number)
        rows.append(Row(part.id, cells, tone, part.code))
    return rows


def bin_facts(shop: Shop, found: Bin | None) -> tuple[str, tuple[Fact, ...]]:
    """Return title and lines of a bin's card; None is the bench."""
    things = inside(shop, found.id if found else UNSORTED)
    facts = [Fact("kind", found.kind), Fact("stands", found.words), Fact("room", found.room)] if found else []
    if found and found.part is not None:
        facts.append(Fact("hardware of", name(shop.parts.get(found.part))))
    facts = [fact for fact in facts if fact.text]
    facts.append(Fact("What is in it"))
    for part, place, qty in things:
        facts.append(
            Fact("", f"{name(part)}: {piece_words(shop, place, qty)}", TONES.get(place.state, Tone.PLAIN))
        )
    if not things:
        facts.append(Fact("", "Nothing."))
    return (f"Bin {shown(found.code)}" if found else "On the bench, not put away yet"), tuple(facts)

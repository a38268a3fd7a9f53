"""What can go on and what is on, as rows; the install card as facts."""

from shoptui.domain import verbs
from shoptui.domain.cautions import cautions
from shoptui.domain.places import State
from shoptui.domain.records import Part
from shoptui.jobs.at import At, name
from shoptui.jobs.install import install_card, shots_that_need_it
from shoptui.jobs.place_words import piece_words
from shoptui.jobs.put_away import bin_name
from shoptui.jobs.remove import removal_bin
from shoptui.stations.card import Fact
from shoptui.stations.listed import Column, Row
from shoptui.stations.marks import Tone

LIFT_COLUMNS = (
    Column("part"),
    Column("section", 16, since=70),
    Column("on", 8, right=True),
    Column("here", 4, right=True),
    Column("state", 12, toned=True),
    Column("first", 24, since=96),
)
NOT_HERE = 3
"""Place in the order of work of what the lift has no use for."""


def lift_row(at: At, part: Part, *, in_hand: bool = False) -> tuple[int, Row] | None:
    """Return the row of a part with its place in the order of work; None for what the lift has no use for.

    The part in hand always has a row: its card and the keys must never act on another one.
    """
    book = at.shop.book
    on, here = book.in_state(part.id, State.INSTALLED), book.in_state(part.id, *verbs.HERE)
    if part.original:
        here = 0
    if not on and not here and not in_hand:
        return None
    waits = [
        other
        for other in map(at.shop.parts.get, part.install_after)
        if book.in_state(other.id, State.INSTALLED) < max(1, other.needed)
    ]
    if here and on < max(1, part.needed):
        place, word, tone = (1, "waits", Tone.WARN) if waits else (0, "can go on", Tone.GOOD)
    elif not on and not here:
        place, word, tone = NOT_HERE, "is off" if part.original else "not here", Tone.WARN
    else:
        place, word, tone = 2, "+ on", Tone.QUIET
    count = f"{on} of {part.needed}" if part.needed else str(on)
    first = ", ".join(map(name, waits)) if place == 1 else ""
    cells = (name(part), part.section, count, str(here) if here else "", word, first)
    return place, Row(part.id, cells, tone, f"{part.code} {part.number} {' '.join(part.positions)}")


def lift_facts(at: At, part: Part, qty: int = 1, *, off: bool | None = None) -> tuple[str, tuple[Fact, ...]]:
    """Return title and lines of the card, in the order of the work.

    Args:
        at: Where the lift stands.
        part: The part.
        qty: Pieces that the card is about.
        off: Whether it comes off; None for what its scan would do: on while any is here, else off.

    """
    book = at.shop.book
    if off is None:
        on, here = book.in_state(part.id, State.INSTALLED), book.in_state(part.id, *verbs.HERE)
        off = bool(on) and (part.original or not here)
    if off:
        return f"Remove: {name(part)}", _off_facts(at, part)
    card = install_card(at, part, qty)
    installed = book.places(part.id, State.INSTALLED)
    facts = [Fact("! Caution", "", Tone.BAD)] if card.cautions else []
    facts.extend(Fact("", words, Tone.BAD) for words in card.cautions)
    if card.left or card.fetch:
        facts.append(Fact("May I start?"))
        facts.extend(Fact("", f"! first: {name(other)} is not on yet", Tone.BAD) for other in card.first)
        facts.extend(Fact("", f"! {words}", Tone.WARN) for words in card.doubts)
        shots = shots_that_need_it(at, card)
        facts.extend(Fact("", f"! {words}", Tone.WARN) for words in shots)
        if not card.first and not card.doubts and not shots:
            facts.append(Fact("", "+ Yes: it is here, and what must be on first is on.", Tone.GOOD))
        facts.append(Fact("What to fetch"))
        facts.extend(Fact("", piece_words(at.shop, place, n)) for place, n in card.fetch)
        if not card.fetch:
            facts.append(Fact("", "Nothing is here by the books."))
        facts.append(Fact("Where it goes"))
        facts.append(Fact("", f"{card.position or 'it has no position'}, {card.left} still to go on"))
        if part.positions:
            facts.append(Fact("positions", ", ".join(part.positions)))
    if installed:
        facts.append(Fact("On the vehicle"))
        facts.extend(Fact("", piece_words(at.shop, place, n), Tone.GOOD) for place, n in installed)
    if part.replaces:
        facts.append(Fact("It replaces"))
        facts.extend(Fact("", _replaced(at, at.shop.parts.get(number))) for number in part.replaces)
    facts.extend(_notes(part))
    return f"Install: {name(part)}", tuple(facts)


def _off_facts(at: At, part: Part) -> tuple[Fact, ...]:
    """Return what there is to know before a part comes off: cautions, from where, where to."""
    words = cautions(part.section, part.description)
    facts = [Fact("! Caution", "", Tone.BAD)] if words else []
    facts.extend(Fact("", each, Tone.BAD) for each in words)
    facts.append(Fact("It comes off"))
    facts.extend(
        Fact("", piece_words(at.shop, place, n)) for place, n in at.shop.book.places(part.id, State.INSTALLED)
    )
    into = removal_bin(at)
    facts.extend((Fact("Where it goes"), Fact("", bin_name(into) if into else "the bench")))
    return (*facts, *_notes(part))


def _notes(part: Part) -> tuple[Fact, ...]:
    return (Fact("Notes"), Fact("", part.notes)) if part.notes else ()


def _replaced(at: At, other: Part) -> str:
    still = at.shop.book.in_state(other.id, State.INSTALLED)
    return f"{name(other)}: {'! still on' if still else 'is off'}"

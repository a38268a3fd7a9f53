"""What can go on and what is on, as rows; the install card as facts."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import partial

from shoptui.domain import verbs
from shoptui.domain.carriers import is_unsure
from shoptui.domain.cautions import for_work
from shoptui.domain.places import State
from shoptui.domain.records import Part
from shoptui.jobs.at import At, name, pieces
from shoptui.jobs.fastened import fetch_words, on_it
from shoptui.jobs.fit_card import FitCard, fit_card
from shoptui.jobs.joint_question import CARD
from shoptui.jobs.joints import JointAt, joints_of
from shoptui.jobs.lift_card import BUILT_IN, turn_of
from shoptui.jobs.place_words import bin_words, piece_words
from shoptui.jobs.positions import free_position, not_on_yet, on_vehicle
from shoptui.jobs.remove import goes_to
from shoptui.jobs.take_down import down_moves
from shoptui.stations.card import Fact
from shoptui.stations.lift.joints import tighten_facts, to_tighten
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
MOST_COUNTED = 99
"""Joints of one part, as many as the column of the state has room for."""

NOT_HERE = 3
"""Place in the order of work of what the lift has no use for."""


def lift_row(at: At, part: Part, *, in_hand: bool = False) -> tuple[int, Row] | None:
    """Return the row of a part with its place in the order of work; None for what the lift has no use for.

    The part in hand always has a row: its card and the keys must never act on another one.
    """
    book = at.shop.book
    on, here = on_vehicle(book, part.id).total(), book.in_state(part.id, *verbs.HERE)
    hangs, inside = (book.in_state(part.id, state) for state in (State.MOCKED_UP, State.ASSEMBLED))
    if part.original:
        here = 0
    if not (on or here or hangs or inside or in_hand):
        return None
    waits: tuple[Part, ...] = ()
    fitted = inside + book.in_state(part.id, State.INSTALLED)
    if (here or hangs) and fitted < max(1, part.needed):
        waits = not_on_yet(at.shop, part, free_position(book, part))
        word, tone = ("waits", Tone.WARN) if waits else ("can go on", Tone.GOOD)
        place, word = (1 if waits else 0), "mocked up" if hangs else word
    elif inside and not on:
        place, word, tone = 2, "built in", Tone.QUIET
    elif not on and not here:
        place, word, tone = NOT_HERE, "is off" if part.original else "not here", Tone.WARN
    else:
        place, word, tone = 2, "+ on", Tone.QUIET
    if on and (left := [each for each in joints_of(at.shop, part) if each.needs_somebody]):
        place, word, tone = min(place, 1), joints_word(left), Tone.WARN
    mark = ""
    if inside and is_unsure(book, part.id):
        mark, word, tone = "?", *(("built in", Tone.QUIET) if word == "+ on" else (word, tone))
    count = f"{on}{mark} of {part.needed}" if part.needed else f"{on}{mark}"
    cells = (name(part), part.section, count, str(here) if here else "", word, ", ".join(map(name, waits)))
    return place, Row(part.id, cells, tone, f"{part.code} {part.number} {' '.join(part.positions)}")


def joints_word(left: Sequence[JointAt]) -> str:
    """Return how many joints are open, or due to be checked again; the card says the rest.

    It fits the column, so that no count is ever cut.
    """
    open_ = sum(each.is_open for each in left)
    if not open_:
        return f"{min(len(left), MOST_COUNTED)} due"
    return f"{min(open_, MOST_COUNTED)} open" + (", due" if len(left) > open_ else "")


def lift_facts(
    at: At, part: Part, qty: int = 1, verb: str = "", asked: tuple[str, str] = ("", "")
) -> tuple[str, tuple[Fact, ...]]:
    """Return title and lines of the card, in the order of the work.

    Args:
        at: Where the lift stands.
        part: The part.
        qty: Pieces that the card is about.
        verb: What it is turned to; empty for what its scan would do.
        asked: Name and position of the joint that is asked about.

    """
    turned = verb or turn_of(at, part)
    facts, title = _CARDS[turned]
    lines = tighten_facts(at, part, qty, asked) if turned == CARD else facts(at, part, qty)
    told = (*_short_cautions(part), *lines, *_notes(part), *_caution_facts(part))
    return f"{title}: {name(part)}", told


def _on_facts(at: At, part: Part, qty: int, *, trial: bool = False) -> tuple[Fact, ...]:
    """Return what there is to know before a part goes on, for good or for trial."""
    card = fit_card(at, part, qty, trial=trial)
    facts = list[Fact]()
    if card.left or card.fetch:
        facts.extend(_may_start(card))
        facts.extend(Fact("fetch", piece_words(at.shop, place, n)) for place, n in card.fetch)
        if not card.fetch:
            facts.append(Fact("fetch", "Nothing is here by the books."))
        if not trial:
            facts.extend(_fetched(words) for words in fetch_words(at.shop, part, qty))
            facts.extend(to_tighten(at, part, qty))
        facts.append(Fact("Where it goes"))
        facts.append(Fact("", f"{card.position or 'it has no position'}, {card.left} still to go on"))
        if part.positions:
            facts.append(Fact("positions", ", ".join(part.positions)))
    facts.extend(_there(at, part, "Where others are", State.INSTALLED, State.MOCKED_UP, State.ASSEMBLED))
    facts.extend(_inside_facts(at, part))
    if part.replaces:
        facts.append(Fact("It replaces"))
        facts.extend(Fact("", _replaced(at, at.shop.parts.get(number))) for number in part.replaces)
    return tuple(facts)


def _fetched(words: str) -> Fact:
    return Fact("fetch", words, Tone.BAD if "! " in words else Tone.PLAIN)


def _may_start(card: FitCard) -> Iterator[Fact]:
    yield Fact("May I start?")
    yield from (Fact("", f"! first: {name(other)} is not on yet", Tone.BAD) for other in card.first)
    yield from (
        Fact("", f"! {words}", Tone.WARN) for words in (*card.doubts, card.crowd, *card.shots) if words
    )
    if not card.doubtful:
        there = "it may hang for trial." if card.trial else "what must be on first is on."
        yield Fact("", f"+ Yes: it is here, and {there}", Tone.GOOD)


def _off_facts(at: At, part: Part, _qty: int) -> tuple[Fact, ...]:
    """Return what there is to know before a part comes off: from where, where to."""
    return (
        *_there(at, part, "It comes off", State.INSTALLED),
        *_inside_facts(at, part),
        *_hardware_off(at, part),
        Fact("Where it goes"),
        Fact("", goes_to(at)),
    )


def _hardware_off(at: At, part: Part) -> Iterator[Fact]:
    """Yield the hardware that comes off with a part: into a bag, or, used once, to the scrap."""
    on = [(at.shop.parts.get(number), qty) for number, qty in on_it(at.shop, part.id).items()]
    if on:
        yield Fact("Its hardware: scan a bag for it")
    for hardware, qty in on:
        scrap = ", for one use: scrap" if hardware.one_use else ""
        yield Fact("", f"{pieces(qty, hardware)}{scrap}")


def _down_facts(at: At, part: Part, qty: int) -> tuple[Fact, ...]:
    """Return where a part hangs for trial, and where it goes back to."""
    hanging = at.shop.book.in_state(part.id, State.MOCKED_UP)
    moves = down_moves(at.shop, part, min(qty, hanging)) if hanging else ()
    return (
        *_there(at, part, "It is taken down", State.MOCKED_UP),
        *_inside_facts(at, part),
        Fact("Where it goes"),
        *(
            Fact("", words)
            for words in dict.fromkeys(bin_words(at.shop, move.target.where) for move in moves)
        ),
    )


def _bench_facts(at: At, part: Part, qty: int) -> tuple[Fact, ...]:
    """Return what is here to be built into another part, its hardware, and what is built in."""
    return (
        *_there(at, part, "What to fetch", *verbs.HERE),
        *(_fetched(words) for words in fetch_words(at.shop, part, qty)),
        *_there(at, part, "Built in already", State.ASSEMBLED),
        *_inside_facts(at, part),
        Fact("Into what"),
        Fact("", "Scan the part that it goes into."),
    )


def _apart_facts(at: At, part: Part, _qty: int) -> tuple[Fact, ...]:
    """Return what carries a part, and where it goes when it comes out."""
    return (
        *_there(at, part, "Where it is", State.ASSEMBLED),
        *_inside_facts(at, part),
        *_hardware_off(at, part),
        Fact("Where it goes"),
        Fact("", goes_to(at)),
    )


_CARDS: dict[str, tuple[Callable[[At, Part, int], Iterable[Fact]], str]] = {
    "install": (_on_facts, "Install"),
    "mock up": (partial(_on_facts, trial=True), "Mock up"),
    "take down": (_down_facts, "Take down"),
    "remove": (_off_facts, "Remove"),
    "assemble": (_bench_facts, "Assemble"),
    CARD: (tighten_facts, "Tighten"),
    "take apart": (_apart_facts, "Take apart"),
    BUILT_IN: (_apart_facts, "Built in"),
}


def _short_cautions(part: Part) -> Iterator[Fact]:
    """Yield what can hurt somebody, in two lines: first on every card, whichever way the part goes."""
    if told := for_work(part.section, part.description):
        yield Fact("", f"! {' '.join(each.short for each in told)}", Tone.BAD)


def _caution_facts(part: Part) -> Iterator[Fact]:
    """Yield the same in full, below: what the hand needs must not have to be scrolled to."""
    if told := for_work(part.section, part.description):
        yield Fact("! Caution", "", Tone.BAD)
        yield from (Fact("", each.words, Tone.BAD) for each in told)


def _there(at: At, part: Part, heading: str, *states: State) -> Iterator[Fact]:
    places = at.shop.book.places(part.id, *states)
    if places:
        yield Fact(heading)
        yield from (Fact("", piece_words(at.shop, place, n), Tone.GOOD) for place, n in places)


def _inside_facts(at: At, part: Part) -> Iterator[Fact]:
    """Yield what is built into a part and goes where it goes."""
    inside = at.shop.book.parts_at(State.ASSEMBLED, part.id)
    if inside:
        yield Fact("Built into it")
        yield from (Fact("", pieces(n, at.shop.parts.get(each))) for each, n in sorted(inside.items()))


def _notes(part: Part) -> tuple[Fact, ...]:
    return (Fact("Notes"), Fact("", part.notes)) if part.notes else ()


def _replaced(at: At, other: Part) -> str:
    still = at.shop.book.in_state(other.id, State.INSTALLED)
    return f"{name(other)}: {'! still on' if still else 'is off'}"

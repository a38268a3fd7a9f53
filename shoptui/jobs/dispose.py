"""Let pieces go for good, and say why; what is still needed is then to be ordered again."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import partial

from shoptui.domain import verbs
from shoptui.domain.inert import inert
from shoptui.domain.ledger import CannotMoveError, Move
from shoptui.domain.places import Place, State
from shoptui.domain.records import Part
from shoptui.jobs.answers import Answer, Choice, Question, ask_about, stop
from shoptui.jobs.at import At, name, pieces
from shoptui.jobs.built_in import goes_along
from shoptui.jobs.carry_out import carry_out
from shoptui.jobs.held import why_words
from shoptui.jobs.part_list import still_to_order
from shoptui.jobs.place_words import piece_words
from shoptui.store.transaction import Transaction

REASONS = ("returned", "sold", "scrapped", "core sent back", "lost", "used up")
"""What becomes of pieces that leave the shop; what goes to another build is transferred."""

LEAVES_FROM = (State.HELD, State.REMOVED, State.RECEIVED, State.SENT_OUT)
"""States that pieces leave the shop from, the likeliest to leave first. Common practice, no source."""

AGAIN, NO_LONGER = "to order again", "no longer needed"


def dispose(
    at: At,
    part: Part,
    qty: int,
    *,
    reason: str,
    no_longer_needed: bool | None = None,
    sources: Iterable[Place] = (),
    note: str = "",
) -> Answer:
    """Let pieces go; asks which ones where they lie in several places, and whether they are still needed.

    Args:
        at: Where it is done.
        part: The part.
        qty: Pieces.
        reason: One of `REASONS`.
        no_longer_needed: Whether the part's needed quantity shrinks in the same transaction; None asks where
            more would be needed than remain.
        sources: Where they are taken from; empty asks where there is more than one place.
        note: A person's words.

    """
    if reason not in REASONS:
        return stop(f"One of {', '.join(REASONS)} was expected, not “{inert(reason)}”.")
    book, places = at.shop.book, tuple(sources)
    again = partial(dispose, at, part, qty, reason=reason, note=note)
    if not places:
        asked = ask_from_where(
            at, part, qty, LEAVES_FROM, lambda place: again(no_longer_needed=no_longer_needed, sources=place)
        )
        if asked is not None:
            return asked
        places = tuple(place for state in LEAVES_FROM for place, _ in book.places(part.id, state))

    def gone() -> tuple[Move, ...]:
        return verbs.dispose(book, part.id, qty, reason=reason, sources=places, note=note)

    return let_go(
        at,
        part,
        qty,
        f"gone, {reason}",
        Leaving(gone, lambda _: gone(), lambda no: again(no_longer_needed=no, sources=places)),
        no_longer_needed=no_longer_needed,
    )


@dataclass(frozen=True, slots=True)
class Leaving:
    """How pieces leave a line.

    Args:
        out: The moves by which they leave, to see what would remain.
        moves: What is entered, in the open transaction.
        again: Does it with the question answered whether they are no longer needed.
        after: Says what is to know once it is done.

    """

    out: Callable[[], tuple[Move, ...]]
    moves: Callable[[Transaction], tuple[Move, ...]]
    again: Callable[[bool], Answer]
    after: Callable[[], str] = lambda: ""


def let_go(
    at: At, part: Part, qty: int, deed: str, leaving: Leaving, *, no_longer_needed: bool | None
) -> Answer:
    """Carry out moves by which pieces leave a line, and ask first whether they are still needed there.

    Args:
        at: Where it is done.
        part: The part whose line they leave.
        qty: Pieces.
        deed: What is done, as the sentence says it.
        leaving: How they leave.
        no_longer_needed: As `dispose` has it.

    """
    shop = at.shop
    try:
        out = leaving.out()
    except CannotMoveError as error:
        return stop(f"{name(part)}: {error} Nothing changed.", kind="part", part=part.code, subject=part.id)
    with shop.book.supposing(out):
        wanted = min(qty, still_to_order(shop, part))
    if wanted and no_longer_needed is None:
        return _ask_needed(part, qty, wanted, leaving.again)

    def entered(tx: Transaction) -> tuple[Move, ...]:
        if wanted and no_longer_needed:
            now = shop.parts.get(part.id)
            tx.change(now, needed=max(0, now.needed - wanted))
        return leaving.moves(tx)

    what = f"{wanted} {NO_LONGER if no_longer_needed else AGAIN}." if wanted else ""
    told = (goes_along(shop, part, out), what)
    return carry_out(
        at, part, qty, deed, entered, hint=lambda: " ".join(filter(None, (*told, leaving.after())))
    )


def _ask_needed(part: Part, qty: int, wanted: int, again: Callable[[bool], Answer]) -> Answer:
    still, no_longer = partial(again, False), partial(again, True)  # noqa: FBT003 - the answer itself
    return ask_about(
        part,
        f"{pieces(qty, part)}: still needed? Enter: yes, {wanted} {AGAIN}.",
        Question(yes=still, choices=(Choice(AGAIN, still), Choice(NO_LONGER, no_longer))),
        qty=qty,
    )


def ask_from_where(
    at: At, part: Part, qty: int, states: Iterable[State], take: Callable[[tuple[Place, ...]], Answer]
) -> Answer | None:
    """Ask which place pieces are meant to leave from; None where there is nothing to choose."""
    places = [(place, n) for state in states for place, n in at.shop.book.places(part.id, state)]
    enough = [(place, n) for place, n in places if n >= qty]
    if len(places) < 2 or not enough or qty >= sum(n for _, n in places):  # noqa: PLR2004
        return None

    def choice(place: Place, n: int) -> Choice:
        why = why_words(at.shop, part.id, place) if place.state is State.HELD else ""
        words = piece_words(at.shop, place, n)
        return Choice(f"{words}: {why}" if why else words, lambda: take((place,)))

    return ask_about(
        part,
        f"{name(part)} lies in {len(places)} places. Which {'one' if qty == 1 else qty} of them? "
        "Its number, then Enter.",
        Question(choices=tuple(choice(place, n) for place, n in enough)),
        qty=qty,
    )

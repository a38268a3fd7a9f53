"""Hold pieces until somebody decides, release them, open sealed ones, put removed ones back into stock."""

from collections.abc import Callable

from shoptui.domain import verbs
from shoptui.domain.places import Place, State
from shoptui.domain.records import Part
from shoptui.jobs.answers import Answer, Question, ask_about, stop
from shoptui.jobs.at import At, pieces
from shoptui.jobs.carry_out import carry_out
from shoptui.jobs.dispose import ask_from_where
from shoptui.jobs.held import why_words


def hold(at: At, part: Part, qty: int, *, note: str) -> Answer:
    """Set pieces that are here aside, where they lie: damaged, wrong, waiting for somebody's word."""
    note = " ".join(note.split())
    if not note:
        return stop("Say in a few words why it is held: damaged, wrong, over, or what it waits for.")
    return carry_out(
        at,
        part,
        qty,
        "held",
        lambda _: verbs.hold(at.shop.book, part.id, qty, note=note),
        hint="It counts for nothing until it is released.",
    )


def release(at: At, part: Part, qty: int, *, sources: tuple[Place, ...] = ()) -> Answer:
    """Let held pieces be used after all, where they lie; asks which, and says first why they are held.

    Args:
        at: Where it is done.
        part: The part.
        qty: Pieces.
        sources: Places that they were said to be meant in; empty asks.

    """

    def said(places: tuple[Place, ...]) -> Answer:
        return release(at, at.shop.parts.get(part.id), qty, sources=places)

    held = tuple(place for place, _ in at.shop.book.places(part.id, State.HELD))
    if not sources and at.shop.book.in_state(part.id, State.HELD) >= qty:
        return ask_from_where(at, part, qty, (State.HELD,), said) or _ask_release(at, part, qty, held, said)
    return carry_out(
        at, part, qty, "released", lambda _: verbs.release(at.shop.book, part.id, qty, sources=sources)
    )


def _ask_release(
    at: At, part: Part, qty: int, held: tuple[Place, ...], said: Callable[[tuple[Place, ...]], Answer]
) -> Answer:
    why = why_words(at.shop, part.id) or "nobody wrote down why"
    return ask_about(
        part,
        f"{pieces(qty, part)}, held: {why}. May it be used all the same? Enter: yes, release it.",
        Question(yes=lambda: said(held)),
        qty=qty,
    )


def open_part(at: At, part: Part, qty: int) -> Answer:
    """Open sealed pieces where they lie; asks first where an unfilmed shot needs them sealed."""
    return carry_out(at, part, qty, "opened", lambda _: verbs.open_(at.shop.book, part.id, qty))


def return_to_stock(at: At, part: Part, qty: int) -> Answer:
    """Count removed pieces as usable stock again, where they lie."""
    return carry_out(
        at, part, qty, "returned to stock", lambda _: verbs.return_to_stock(at.shop.book, part.id, qty)
    )

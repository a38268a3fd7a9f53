"""Let pieces go for good, and say why."""

from collections.abc import Iterable

from shoptui.domain import verbs
from shoptui.domain.inert import inert
from shoptui.domain.ledger import Move
from shoptui.domain.places import Place
from shoptui.domain.records import Part
from shoptui.jobs.answers import Answer, stop
from shoptui.jobs.at import At
from shoptui.jobs.carry_out import carry_out
from shoptui.store.transaction import Transaction

REASONS = ("returned", "sold", "scrapped", "core sent back", "lost", "used up", "other build")
"""What becomes of pieces that leave the shop."""


def dispose(
    at: At,
    part: Part,
    qty: int,
    *,
    reason: str,
    no_longer_needed: bool = False,
    sources: Iterable[Place] = (),
    note: str = "",
) -> Answer:
    """Let pieces go; what is still needed is then to be ordered again, unless it is no longer needed.

    Args:
        at: Where it is done.
        part: The part.
        qty: Pieces.
        reason: One of `REASONS`.
        no_longer_needed: Whether the part's needed quantity shrinks in the same transaction.
        sources: Where they are taken from; empty takes removed, held, received, sent out, in this order.
        note: A person's words.

    """
    if reason not in REASONS:
        return stop(f"One of {', '.join(REASONS)} was expected, not “{inert(reason)}”.")

    def moves(tx: Transaction) -> tuple[Move, ...]:
        if no_longer_needed:
            now = at.shop.parts.get(part.id)
            tx.change(now, needed=max(0, now.needed - qty))
        return verbs.dispose(at.shop.book, part.id, qty, reason=reason, sources=tuple(sources), note=note)

    return carry_out(at, part, qty, f"gone, {reason}", moves)

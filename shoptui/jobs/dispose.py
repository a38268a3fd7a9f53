"""Let pieces go for good, and say why."""

from collections.abc import Iterable

from shoptui.domain import verbs
from shoptui.domain.inert import inert
from shoptui.domain.ledger import Move
from shoptui.domain.places import Place
from shoptui.jobs.answers import Answer, stop
from shoptui.jobs.carry_out import carry_out
from shoptui.store.shop import Shop
from shoptui.store.transaction import Transaction

REASONS = ("returned", "sold", "scrapped", "core sent back", "lost", "used up", "other build")
"""What becomes of pieces that leave the shop."""


def dispose(
    shop: Shop,
    terminal: str,
    part: int,
    qty: int,
    *,
    reason: str,
    no_longer_needed: bool = False,
    sources: Iterable[Place] = (),
    note: str = "",
    who: int | None = None,
) -> Answer:
    """Let pieces go; what is still needed is then to be ordered again, unless it is no longer needed.

    Args:
        shop: The shop.
        terminal: Name of the terminal.
        part: Id of the part.
        qty: Pieces.
        reason: One of `REASONS`.
        no_longer_needed: Whether the part's needed quantity shrinks in the same transaction.
        sources: Where they are taken from; empty takes removed, held, received, sent out, in this order.
        note: A person's words.
        who: Id of the person.

    """
    if reason not in REASONS:
        return stop(f"One of {', '.join(REASONS)} was expected, not “{inert(reason)}”.")

    def moves(tx: Transaction) -> tuple[Move, ...]:
        record = shop.parts.get(part)
        if no_longer_needed:
            tx.change(record, needed=max(0, record.needed - qty))
        return verbs.dispose(shop.book, part, qty, reason=reason, sources=tuple(sources), note=note)

    return carry_out(shop, terminal, part, qty, f"gone, {reason}", moves, who=who)

"""The shape that most jobs share: ask if a shot still needs it, move, commit once, say what was done."""

from collections.abc import Callable, Iterable
from dataclasses import replace

from shoptui.domain.ledger import CannotMoveError, Move
from shoptui.domain.records import Part
from shoptui.jobs.answers import Answer, Question, ask_about, done, stop
from shoptui.jobs.at import At, name, pieces
from shoptui.jobs.fastened import goes_with
from shoptui.jobs.place_words import bin_words, place_words
from shoptui.jobs.still_needed import still_needed
from shoptui.store.transaction import Transaction

IN_A_BIN = ("received", "held", "removed")

Moves = Callable[[Transaction], Iterable[Move]]


def carry_out(
    at: At,
    part: Part,
    qty: int,
    deed: str,
    moves: Moves,
    *,
    asked: bool = False,
    hint: str | Callable[[], str] = "",
) -> Answer:
    """Enter the moves of one job in one transaction, with those of the hardware, and say so.

    Args:
        at: Where it is done.
        part: The part.
        qty: Pieces.
        deed: What is done, as the sentence says it: "opened", "sent out to Coating shop".
        moves: Given the open transaction, says which moves; it may add or change records too.
        asked: Whether it was already asked if a shot that still needs the part as it is may lose it.
        hint: A sentence after the words, or what says it once the moves are entered.

    Returns:
        Done; a question where an unfilmed shot needs the part as it is; or stop, with nothing changed.

    """
    shop = at.shop
    words = f"{deed}: {pieces(qty, part)}"
    try:
        with at.doing(words) as tx:
            entries = tuple(moves(tx))
            if not asked and (needs := still_needed(shop, entries)):
                raise _AskFirst(needs)  # noqa: TRY301 - the way out of the transaction
            tx.enter((*entries, *goes_with(shop, entries)))
    except _AskFirst as ask:
        return ask_about(
            part,
            f"{name(part)}: {'; '.join(ask.needs)}. Enter: do it all the same ({deed}).",
            Question(
                yes=lambda: carry_out(at, shop.parts.get(part.id), qty, deed, moves, asked=True, hint=hint)
            ),
            qty=qty,
        )
    except CannotMoveError as error:
        return stop(f"{name(part)}: {error} Nothing changed.", kind="part", part=part.code, subject=part.id)
    target = entries[-1].target
    after = hint() if callable(hint) else hint
    answer = done(
        f"{words[0].upper()}{words[1:]}. {after}".rstrip(),
        kind="part",
        part=part.code,
        qty=qty,
        subject=part.id,
    )
    told = bin_words(shop, target.where) if target.state.value in IN_A_BIN else place_words(shop, target)
    return replace(answer, state=target.state.value, where=told)


class _AskFirst(Exception):  # noqa: N818 - leaves the transaction without a trace; no error of anybody's
    def __init__(self, needs: tuple[str, ...]) -> None:
        self.needs = needs

"""The shape that most jobs share: ask if a shot still needs it, move, commit once, say what was done."""

from collections.abc import Callable, Iterable
from dataclasses import replace

from shoptui.domain.inert import inert
from shoptui.domain.ledger import CannotMoveError, Move
from shoptui.domain.records import Part
from shoptui.jobs.answers import Answer, Question, Said, done, stop
from shoptui.jobs.at import shown
from shoptui.jobs.place_words import bin_words, place_words
from shoptui.jobs.still_needed import still_needed
from shoptui.store.shop import Shop
from shoptui.store.transaction import Transaction

IN_A_BIN = ("received", "held", "removed")

Moves = Callable[[Transaction], Iterable[Move]]


def carry_out(
    shop: Shop,
    terminal: str,
    part: int,
    qty: int,
    deed: str,
    moves: Moves,
    *,
    who: int | None = None,
    asked: bool = False,
    hint: str = "",
) -> Answer:
    """Enter the moves of one job in one transaction and say so.

    Args:
        shop: The shop.
        terminal: Name of the terminal.
        part: Id of the part.
        qty: Pieces.
        deed: What is done, as the sentence says it: "opened", "sent out to Coating shop".
        moves: Given the open transaction, says which moves; it may add or change records too.
        who: Id of the person.
        asked: Whether it was already asked if a shot that still needs the part as it is may lose it.
        hint: A sentence after the words.

    Returns:
        Done; a question where an unfilmed shot needs the part as it is; or stop, with nothing changed.

    """
    record = shop.parts.get(part)
    words = f"{deed}: {pieces(record, qty)}"
    try:
        with shop.transaction(words, terminal=terminal, who=who) as tx:
            entries = tuple(moves(tx))
            if not asked and (needs := still_needed(shop, entries)):
                raise _AskFirst(needs)  # noqa: TRY301 - the way out of the transaction
            tx.enter(entries)
    except _AskFirst as ask:
        return Answer(
            Said.QUESTION,
            f"{part_name(record)}: {'; '.join(ask.needs)}. Enter: do it all the same ({deed}).",
            kind="part",
            part=record.code,
            qty=qty,
            question=Question(
                yes=lambda: carry_out(shop, terminal, part, qty, deed, moves, who=who, asked=True, hint=hint)
            ),
            subject=part,
        )
    except CannotMoveError as error:
        return stop(
            f"{part_name(record)}: {error} Nothing changed.", kind="part", part=record.code, subject=part
        )
    target = entries[-1].target
    answer = done(
        f"{words[0].upper()}{words[1:]}.{' ' if hint else ''}{hint}",
        kind="part",
        part=record.code,
        qty=qty,
        subject=part,
    )
    told = bin_words(shop, target.where) if target.state.value in IN_A_BIN else place_words(shop, target)
    return replace(answer, state=target.state.value, where=told)


class _AskFirst(Exception):  # noqa: N818 - leaves the transaction without a trace; no error of anybody's
    def __init__(self, needs: tuple[str, ...]) -> None:
        self.needs = needs


def part_name(part: Part) -> str:
    """Return a part by its description, and its code: "brake rotor, front (BR-02)"."""
    description = inert(part.description)
    return f"{description} ({shown(part.code)})" if description else shown(part.code)


def pieces(part: Part, qty: int) -> str:
    """Return "2 brake rotor, front (BR-02)"."""
    return f"{qty} {part_name(part)}"

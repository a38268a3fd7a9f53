"""Receiving a kit: one scan is all of its contents; what did not come is left out and stays ordered."""

from dataclasses import dataclass, replace

from shoptui.domain import verbs
from shoptui.domain.ledger import Move
from shoptui.domain.places import State
from shoptui.domain.records import Box, Order, Part
from shoptui.jobs.answers import Answer, Choice, Question, ask_about
from shoptui.jobs.at import At, name, pieces
from shoptui.jobs.at_the_door import (
    NOT_ORDERED,
    OVER,
    ask_yes,
    bring_too,
    on_the_bench,
    order_words,
    other_orders,
    promised,
    seller,
)
from shoptui.jobs.box_list import expected_in
from shoptui.jobs.kit import contents

LISTED = 3


@dataclass(frozen=True, slots=True)
class _Ticks:
    """A list of a kit's contents to tick.

    Args:
        box: The box that it came in.
        kit: The kit.
        qty: Kits.
        order: An order that the box was not expected to bring, and that promises it.
        left_out: Ids of parts that did not come.

    """

    box: Box
    kit: Part
    qty: int
    order: Order | None = None
    left_out: frozenset[int] = frozenset()


def receive_kit(at: At, kit: Part, qty: int = 1) -> Answer:
    """Show the contents that the open box's orders promise, all ticked; Enter receives what is ticked.

    What no order promises is asked about first, as with any other thing.
    """
    box = at.box
    assert box is not None  # noqa: S101 - seen by the caller
    ticks = _Ticks(box, kit, qty)
    if _moves(at, ticks):
        return _ask(at, ticks)
    if elsewhere := other_orders(at, kit, box):
        order = elsewhere[0]
        return ask_yes(
            f"{name(kit)} is not expected in this box; it is {order_words(at, order)}. "
            "Did it come in this one?",
            kit,
            qty,
            lambda: _ask(at, replace(ticks, order=order)),
        )
    came = any(at.shop.box_index.received(box.code).get(part.id) for part, _ in contents(at.shop, kit))
    why = "all of it was received already" if came else "it is on no open order"
    return ask_yes(
        f"{name(kit)}: {why}. Hold {pieces(qty, kit)} until somebody decides?",
        kit,
        qty,
        lambda: _hold(at, ticks, OVER if came else NOT_ORDERED),
    )


def _moves(at: At, ticks: _Ticks) -> dict[int, tuple[Move, ...]]:
    """Return for each part of the contents that orders promise, ticked or not, how it would come in."""
    found = {
        part.id: promised(at, ticks.box, part, wanted, also=ticks.order)
        for part, wanted in contents(at.shop, ticks.kit, ticks.qty)
    }
    return {part: moves for part, moves in found.items() if moves}


def _pieces(moves: tuple[Move, ...]) -> int:
    return sum(move.qty for move in moves)


def _over(at: At, ticks: _Ticks, moves: dict[int, tuple[Move, ...]]) -> int:
    """Return the kits beyond those of which orders promise anything."""
    each = {part.id: qty for part, qty in contents(at.shop, ticks.kit)}
    return ticks.qty - max(-(-_pieces(found) // each[part]) for part, found in moves.items())


def _ask(at: At, ticks: _Ticks) -> Answer:
    moves = _moves(at, ticks)
    missing = len(ticks.left_out & moves.keys())
    over = _over(at, ticks, moves)
    more = f" {over} more than ordered: {'it is' if over == 1 else 'they are'} held." if over else ""
    told = _lines_here(len(moves) - missing, len(moves))
    return ask_about(
        ticks.kit,
        f"{pieces(ticks.qty, ticks.kit)}.{more} Enter: {told}. A line's number, then Enter: it is not there.",
        Question(
            yes=lambda: _receive(at, ticks),
            choices=tuple(_line(at, ticks, part, found) for part, found in moves.items()),
        ),
        qty=ticks.qty,
    )


def _lines_here(here: int, lines: int) -> str:
    """Say how many of a kit's lines came.

    >>> _lines_here(1, 1), _lines_here(0, 1)
    ('its one line is here', '0 of 1 line is here, the rest stays ordered')
    """
    if here < lines:
        return f"{here} of {lines} {'line is' if lines == 1 else 'lines are'} here, the rest stays ordered"
    return f"all {lines} lines are here" if lines > 1 else "its one line is here"


def _line(at: At, ticks: _Ticks, part: int, moves: tuple[Move, ...]) -> Choice:
    out = part in ticks.left_out
    told = pieces(_pieces(moves), at.shop.parts.get(part))
    turned = replace(ticks, left_out=ticks.left_out ^ {part})
    return Choice(f"{'[ ]' if out else '[x]'} {told}{', not there' if out else ''}", lambda: _ask(at, turned))


def _receive(at: At, ticks: _Ticks) -> Answer:
    shop, kit = at.shop, ticks.kit
    with at.doing() as transaction:
        ticks = replace(ticks, box=shop.boxes.get(ticks.box.id))
        moves = _moves(at, ticks)
        here = {part: found for part, found in moves.items() if part not in ticks.left_out}
        if not here:
            return replace(_ask(at, ticks), text=f"Nothing of {name(kit)} is ticked. {_ask(at, ticks).text}")
        transaction.enter(move for found in here.values() for move in found)
        if over := _over(at, ticks, moves):
            _enter_over(at, ticks, over, set(here), OVER)
        if ticks.order is not None:
            bring_too(at, transaction, ticks.box, ticks.order)
        got = sum(map(_pieces, here.values()))
        transaction.say(f"received kit {name(kit)}: {got} pieces")
    out = [pieces(_pieces(found), shop.parts.get(part)) for part, found in moves.items() if part not in here]
    more = f" and {len(out) - LISTED} more" if len(out) > LISTED else ""
    left = f" Still ordered: {', '.join(out[:LISTED])}{more}." if out else ""
    missing = sum(line.short for line in expected_in(shop, shop.boxes.get(ticks.box.id)))
    rest = f"{missing} still to come out of the box." if missing else "The box is complete."
    held = f" {over} over, held." if over else ""
    return on_the_bench(
        f"{name(kit)} received: {len(here)} of {len(moves)} lines.{left}{held} {rest} "
        "Next thing, or the bin.",
        kit,
        got,
        State.RECEIVED,
    )


def _enter_over(at: At, ticks: _Ticks, kits: int, parts: set[int], note: str) -> None:
    with at.doing() as transaction:
        for part, qty in contents(at.shop, ticks.kit, kits):
            if part.id in parts:
                supplier = seller(at, ticks.box)
                transaction.enter(
                    verbs.hold_unordered(part.id, qty, supplier=supplier, note=note, ref=ticks.box.code)
                )


def _hold(at: At, ticks: _Ticks, note: str) -> Answer:
    inside = contents(at.shop, ticks.kit, ticks.qty)
    with at.doing(f"held kit {name(ticks.kit)}: {note}"):
        _enter_over(at, ticks, ticks.qty, {part.id for part, _ in inside}, note)
    return on_the_bench(
        f"{name(ticks.kit)} held with all that is in it. Lay it apart, then scan the bin for held things.",
        ticks.kit,
        sum(qty for _, qty in inside),
        State.HELD,
    )

"""Hardware that came off goes into a bag with a tag, which is then that of its part."""

from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import replace
from functools import partial

from shoptui.domain import verbs
from shoptui.domain.codes import tag
from shoptui.domain.inert import inert
from shoptui.domain.ledger import CannotMoveError, Move
from shoptui.domain.places import Place, State
from shoptui.domain.records import Bin, Part
from shoptui.domain.tags import Kind
from shoptui.jobs.answers import Answer, Choice, Question, done, stop
from shoptui.jobs.at import At, name, pieces
from shoptui.jobs.at_tool import taken_up
from shoptui.jobs.bins import inside
from shoptui.jobs.fastened import FASTENED, goes_with, kept_for, on_it, sources
from shoptui.jobs.put_away import bin_name
from shoptui.store.command_tags import command_named
from shoptui.store.shop import Shop
from shoptui.store.transaction import Transaction

Loose = tuple[tuple[Part, Place, int], ...]
"""Kinds of hardware that came off, where they lie, and how many of each."""

LOST = "lost"


def came_off(shop: Shop, moves: Iterable[Move]) -> Loose:
    """Return the hardware that some moves took off and that may go on again."""
    return tuple(
        (shop.parts.get(move.part), move.target, move.qty)
        for move in moves
        if move.target.state is State.REMOVED and not shop.parts.get(move.part).one_use
    )


def scrapped_words(shop: Shop, moves: Iterable[Move]) -> str:
    """Say what came off and was for one use."""
    told = [pieces(move.qty, shop.parts.get(move.part)) for move in moves if move.target.state is State.GONE]
    return f"Scrap, for one use: {', '.join(told)}." if told else ""


def offer_bag(at: At, answer: Answer, part: Part, loose: Loose) -> Answer:
    """Let the hardware of a part that came off go into the bag that is scanned next.

    Each number says that one of a kind is missing: what is in a bag was counted.
    """
    if not loose:
        return answer
    counted = ", ".join(pieces(qty, hardware) for hardware, _, qty in loose)
    words = f"Its hardware: {counted}. Scan a bag for it; is one missing, say so first."
    question = Question(
        choices=tuple(
            Choice(f"one {name(hardware)} is missing", partial(_missing, at, part, loose, number))
            for number, (hardware, _, _) in enumerate(loose)
        ),
        accepts=lambda text: _scanned(at, answer, part, loose, text),
    )
    return replace(answer, text=f"{answer.text} {words}", question=question)


def bag_scanned(at: At, text: str) -> Bin | None:
    """Return the bag that a scan means: one that is there, or with id 0 one that its blank tag makes."""
    found = at.shop.bins.by_code(text)
    if found is not None:
        return found if found.kind == "bag" else None
    blank = tag(text)
    if blank is None or blank.kind is not Kind.BAG or at.shop.codes.knows(str(blank)):
        return None
    return Bin(0, str(blank), str(blank), kind="bag")


def taken_by_another(shop: Shop, bag: Bin, part: Part) -> str:
    """Say whose hardware is in a bag, if it is another part's."""
    of = kept_for(shop, bag)
    if of is None or of.id == part.id:
        return ""
    return f"In {bin_name(bag)} is the hardware of {name(of)}: take another bag."


def bag_or_bin(
    at: At, part: Part, text: str, bag: Bin | None, ask: Callable[[Bin | None], Answer]
) -> Answer | None:
    """Take a bag for the hardware of a part, or a bin for the part, and ask again; None where it is neither.

    Where no hardware is on it, a bag is a bin like any other.

    Args:
        at: Where it was scanned.
        part: What comes off.
        text: As scanned.
        bag: The bag that was scanned before, None for none.
        ask: Asks whether it comes off, its hardware into that bag.

    """
    scanned = bag_scanned(at, text)
    if scanned is not None and on_it(at.shop, part.id):
        other = taken_by_another(at.shop, scanned, part)
        asked = ask(bag if other else scanned)
        return replace(asked, text=other) if other else asked
    into = at.shop.bins.by_code(text)
    if into is None:
        return None
    at.shop.remember(at.terminal, bin=into.id)
    return ask(bag)


def _scanned(at: At, answer: Answer, part: Part, loose: Loose, text: str) -> Answer | None:
    bag = bag_scanned(at, text)
    if bag is None:
        words = _no_bag(at, text)
        return None if words is None else offer_bag(at, replace(answer, text=words), part, loose)
    if words := taken_by_another(at.shop, bag, part):
        return offer_bag(at, replace(answer, text=words), part, loose)
    return bag_it(at, part, loose, bag)


def _no_bag(at: At, text: str) -> str | None:
    """Say what was scanned that lets the hardware wait for its bag: a tool, a badge, a position."""
    if (said := taken_up(at, text)) is not None:
        return said or f"{inert(text)} is in hand."
    command = command_named(text)
    return f"{command.word} is no bag." if command is not None and command.position else None


def bag_it(at: At, part: Part, loose: Loose, bag: Bin) -> Answer:
    """Put hardware that came off a part into a bag, which is that part's from now on."""
    try:
        with at.doing() as tx:
            into = put_in(at.shop, tx, part, loose, bag)
            counted = ", ".join(pieces(qty, hardware) for hardware, _, qty in loose)
            tx.say(f"bagged the hardware of {name(part)} in {bin_name(into)}: {counted}")
    except CannotMoveError as error:
        return stop(f"Hardware of {name(part)}: {error} Nothing changed.", part=part.code, subject=part.id)
    return done(
        f"In {bin_name(into)}, of {name(part)}: {counted}.",
        kind="bag",
        part=part.code,
        qty=sum(qty for _, _, qty in loose),
        state=State.REMOVED.value,
        where=bin_name(into),
        show="lift",
        subject=part.id,
    )


def take_off(
    shop: Shop, tx: Transaction, part: Part, moves: tuple[Move, ...], bag: Bin | None
) -> tuple[tuple[Move, ...], Loose]:
    """Enter moves by which a part comes off, in an open transaction; its hardware goes into a bag, if any.

    Returns:
        The moves of its hardware, and what of that may go on again.

    """
    hardware = goes_with(shop, moves)
    tx.enter((*moves, *hardware))
    loose = came_off(shop, hardware)
    if bag is not None:
        put_in(shop, tx, part, loose, bag)
    return hardware, loose


def put_in(shop: Shop, tx: Transaction, part: Part, loose: Loose, bag: Bin) -> Bin:
    """Put hardware into a bag in an open transaction; return the bag as it is then.

    Where nothing came off that may go on again, the bag stays as it is.
    """
    if not loose:
        return bag
    into = bag if bag.id else tx.add(bag)
    for hardware, place, qty in loose:
        tx.enter(verbs.put_away(shop.book, hardware.id, place, qty, to=into.id))
    return tx.change(into, part=part.id)


def _missing(at: At, part: Part, loose: Loose, number: int) -> Answer:
    """Write down that one piece of a kind is lost, and go on with the others."""
    hardware, place, qty = loose[number]
    try:
        with at.doing(f"missing of the hardware of {name(part)}: {pieces(1, hardware)}") as tx:
            tx.enter(verbs.dispose(at.shop.book, hardware.id, 1, reason=LOST, sources=[place]))
    except CannotMoveError as error:
        return stop(f"{name(hardware)}: {error} Nothing changed.", part=part.code, subject=part.id)
    left = tuple(
        (each, there, n - (each is hardware)) for each, there, n in loose if each is not hardware or qty > 1
    )
    here = sum(at.shop.book.at(hardware.id, each) for each in sources(at.shop, part, hardware))
    spare = here - sum(n for each, _, n in left if each is hardware)
    words = f"{spare} more here to replace it" if spare else "none here to replace it: buy one (F7)"
    told = done(f"{pieces(1, hardware)} is missing, {words}.", part=part.code, show="lift", subject=part.id)
    return offer_bag(at, told, part, left)


def bag_words(shop: Shop, bag: Bin) -> str:
    """Say whose hardware a bag holds, and how many of each kind lack in it for one piece; nothing of others.

    What is kept for no part any more is free for any.
    """
    if bag.part is None:
        return ""
    part = shop.parts.get(bag.part)
    there: Counter[int] = Counter()
    for kind, _, qty in inside(shop, bag.id):
        there[kind.id] += qty
    if kept_for(shop, bag) is None:
        return f"{name(part)} needs it no more: it is for any part." if there else ""
    kinds = ((shop.parts.get(line.part), line.qty - there[line.part]) for line in part.hardware)
    lacking = ", ".join(pieces(qty, kind) for kind, qty in kinds if qty > 0 and not kind.one_use)
    return f"Of {name(part)}{f', lacking {lacking}' if lacking else ''}."


def was_built_in(shop: Shop, part: Part) -> bool:
    """Return whether a part last came out of another part, not off a vehicle."""
    off = (entry.move.source.state for entry in shop.history.latest_of_part(part.id))
    return next((state for state in off if state in FASTENED), None) is State.ASSEMBLED

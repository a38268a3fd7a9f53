"""What a kit's code means away from the door: its contents are what lies there and what is fitted."""

from collections.abc import Callable

from shoptui.domain import verbs
from shoptui.domain.inert import inert
from shoptui.domain.places import UNSORTED, Place, State
from shoptui.domain.records import Bin, Part
from shoptui.domain.verbs import ON_A_SHELF
from shoptui.jobs.answers import Answer, Choice, Question, ask_about, done, stop
from shoptui.jobs.at import At, name
from shoptui.jobs.count import bin_counted, count_part
from shoptui.jobs.kit import contents, kit_words
from shoptui.jobs.lift_card import ask_card
from shoptui.jobs.put_away import bin_name

_AT_THE_LIFT = (State.RECEIVED, State.REMOVED, State.MOCKED_UP, State.INSTALLED)


def kit_meaning(at: At, kit: Part, qty: int, verb: str) -> Answer:
    """Ask which of its contents at the lift, count or put away all at the racks, else say how they stand."""
    if at.station == "lift":
        return _which(at, kit, _AT_THE_LIFT, lambda part: ask_card(at, part, 1, verb))
    if at.station == "racks" and bin_counted(at) is not None:
        return count_part(at, kit, qty)
    shelved = any(at.shop.book.in_state(part.id, *ON_A_SHELF) for part, _ in contents(at.shop, kit))
    offer = (
        Question(accepts=lambda text: _all_to(at, kit, text)) if at.station == "racks" and shelved else None
    )
    hint = " Scan a bin to put all of it there." if offer else ""
    return done(
        f"{name(kit)}, {kit_words(at.shop, kit)}.{hint}",
        kind="part",
        part=kit.code,
        qty=qty,
        show="parts" if offer is None else "",
        subject=kit.id,
        question=offer,
    )


def _which(at: At, kit: Part, states: tuple[State, ...], deed: Callable[[Part], Answer]) -> Answer:
    there = [part for part, _ in contents(at.shop, kit) if at.shop.book.in_state(part.id, *states)]
    if not there:
        return stop(
            f"{name(kit)}, {kit_words(at.shop, kit)}: nothing of it is here.", kind="part", subject=kit.id
        )
    return ask_about(
        kit,
        f"{name(kit)} is a kit. Which of its parts? Its number, then Enter.",
        Question(choices=tuple(_choice(at, part, deed) for part in there)),
    )


def _choice(at: At, part: Part, deed: Callable[[Part], Answer]) -> Choice:
    number = f", {inert(part.number)}" if part.number else ""
    return Choice(f"{name(part)}{number}", lambda: deed(at.shop.parts.get(part.id)))


def _all_to(at: At, kit: Part, text: str) -> Answer | None:
    """Put a kit's contents into the bin scanned next: those on the bench, or all where none lies there."""
    into = at.shop.bins.by_code(text)
    if into is None:
        return None
    lying = [
        (part, place, qty)
        for part, _ in contents(at.shop, kit)
        for place, qty in at.shop.book.places(part.id, *ON_A_SHELF)
        if place.where != into.id
    ]
    bench = [each for each in lying if each[1].where == UNSORTED]
    return _moved(at, kit, bench or lying, into)


def _moved(at: At, kit: Part, things: list[tuple[Part, Place, int]], into: Bin) -> Answer:
    if not things:
        return stop(f"{name(kit)} is in {bin_name(into)} already.", part=kit.code, subject=kit.id)
    with at.doing(f"put away into {bin_name(into)}: kit {name(kit)}") as transaction:
        for part, place, qty in things:
            transaction.enter(verbs.put_away(at.shop.book, part.id, place, qty, to=into.id))
    total = sum(qty for _, _, qty in things)
    return done(
        f"Into {bin_name(into)}: {name(kit)}, {total} pieces.",
        part=kit.code,
        qty=total,
        where=bin_name(into),
        show="racks",
        subject=into.id,
    )

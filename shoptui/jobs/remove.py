"""Removing: the card of a part that comes off, and the part off the vehicle."""

from collections.abc import Iterator
from functools import partial

from shoptui.domain import verbs
from shoptui.domain.ledger import CannotMoveError, Move
from shoptui.domain.places import UNSORTED, State
from shoptui.domain.records import Bin, Part
from shoptui.jobs.answers import Answer, Choice, Question, ask_on_card, done, stop
from shoptui.jobs.at import At, name, pieces
from shoptui.jobs.bags import bag_or_bin, offer_bag, scrapped_words, take_off
from shoptui.jobs.built_in import goes_along
from shoptui.jobs.loosen import LOOSEN, ask_loosen, can_be_loosened
from shoptui.jobs.positions import position_of
from shoptui.jobs.put_away import bin_name
from shoptui.jobs.still_needed import still_needed


def ask_remove(
    at: At, part: Part, qty: int = 1, position: str | None = None, *, bag: Bin | None = None
) -> Answer:
    """Open the remove card: Enter or a position removes; a bin or bag says where it goes.

    The same scan again removes too, but never what is tightened or signed, or what a shot needs.

    Args:
        at: Where the lift stands.
        part: The part.
        qty: Pieces.
        position: From where, if that was said.
        bag: Where its hardware goes; None where it goes with the part, or into a bag that is scanned after.

    """
    on = at.shop.book.places(part.id, State.INSTALLED)
    spots = list(dict.fromkeys(str(place.where) for place, _ in on))
    if not on or (position is not None and position not in spots):
        words = (
            f"is on at {', '.join(filter(None, spots)) or 'the vehicle'}, not at {position}."
            if on
            else "is not on the vehicle by the books, so it cannot come off."
        )
        return stop(f"{name(part)} {words}", part=part.code, subject=part.id)
    spot = position if position is not None else spots[0]
    several = position is None and len(spots) > 1
    return ask_on_card(
        part,
        "remove",
        f"Which {name(part)} comes off: {', '.join(spots)}? Scan the position, or its number and Enter."
        if several
        else _ask(at, part, qty, spot, bag),
        Question(
            yes=None if several else partial(remove, at, part, qty, position=spot, bag=bag),
            choices=(
                *(
                    Choice(each or name(part), partial(remove_or_ask, at, part, qty, each, bag=bag))
                    for each in spots
                    if several
                ),
                *_or_loosen(at, part, position),
            ),
            accepts=lambda text: _accepted(at, part, qty, text, position, bag),
            again=not (can_be_loosened(at, part, spot) or still_needed(at.shop, _moves(at, part, qty, spot))),
        ),
        qty=qty,
        state=State.INSTALLED.value,
        where=", ".join(filter(None, spots)),
    )


def _or_loosen(at: At, part: Part, position: str | None) -> Iterator[Choice]:
    """Yield that a joint is loosened and the part stays on: at the lift, where its card lies open."""
    if at.station == "lift" and can_be_loosened(at, part):
        yield Choice(LOOSEN, partial(ask_loosen, at, part, position=position))


def _ask(at: At, part: Part, qty: int, spot: str, bag: Bin | None) -> str:
    moves = _moves(at, part, qty, spot)
    words = [f"{need}." for need in still_needed(at.shop, moves)]
    words.append(goes_along(at.shop, part, moves))
    bagged = f", its hardware into {bin_name(bag)}" if bag else ""
    first = "Enter." if bag else "Enter, or a bin or bag first."
    words.append(f"Remove {pieces(qty, part)}{_from(spot)} to {goes_to(at)}{bagged}? {first}")
    return " ".join(filter(None, words))


def _moves(at: At, part: Part, qty: int, spot: str) -> tuple[Move, ...]:
    """Return the moves as far as they can be: too few are refused when it is done."""
    try:
        return verbs.remove(at.shop.book, part.id, qty, position=spot)
    except CannotMoveError:
        return ()


def _from(position: str) -> str:
    return f" from {position}" if position else ""


def remove_or_ask(at: At, part: Part, qty: int, position: str, *, bag: Bin | None = None) -> Answer:
    """Remove from a position that was said, unless a shot still needs it there."""
    on = at.shop.book.places(part.id, State.INSTALLED)
    there = any(place.where == position for place, _ in on)
    if there and not still_needed(at.shop, _moves(at, part, qty, position)):
        return remove(at, part, qty, position=position, bag=bag)
    return ask_remove(at, part, qty, position, bag=bag)


def _accepted(at: At, part: Part, qty: int, text: str, spot: str | None, bag: Bin | None) -> Answer | None:
    """Take a bag for the hardware, a bin for the part, or the position."""
    asked = bag_or_bin(at, part, text, bag, lambda into: ask_remove(at, part, qty, spot, bag=into))
    if asked is not None:
        return asked
    position = position_of(part, text)
    return None if position is None else remove_or_ask(at, part, qty, position.name, bag=bag)


def removal_bin(at: At) -> Bin | None:
    """Return the bin or bag that removed things go to at this terminal, None for the bench."""
    if at.bin_given:
        return at.shop.bins.by_code(at.bin_given)
    number = at.memory.bin
    into = None if number is None else at.shop.bins.get(number)
    return None if into is None or into.withdrawn else into


def goes_to(at: At) -> str:
    """Return where removed things go at this terminal, in words."""
    into = removal_bin(at)
    return bin_name(into) if into else "the bench"


def remove(at: At, part: Part, qty: int, *, position: str, bag: Bin | None = None) -> Answer:
    """Take pieces off the vehicle; they go to the bin scanned last at this lift, else to the bench.

    Their hardware goes where they go, or into a bag; what was for one use is scrap.
    """
    into = removal_bin(at)
    try:
        with at.doing(f"removed {pieces(qty, part)}{_from(position)} to {goes_to(at)}") as transaction:
            moves = verbs.remove(
                at.shop.book, part.id, qty, position=position, to=into.id if into else UNSORTED
            )
            along = goes_along(at.shop, part, moves)
            hardware, loose = take_off(at.shop, transaction, part, moves, bag)
    except CannotMoveError as error:
        return stop(f"{name(part)}: {error} Nothing changed.", part=part.code, subject=part.id)
    bagged = f"Its hardware is in {bin_name(bag)}." if bag is not None and loose else BECOMES
    words = (
        f"{pieces(qty, part)} removed{_from(position)} to {goes_to(at)}.",
        along,
        scrapped_words(at.shop, hardware),
        bagged,
    )
    answer = done(
        " ".join(filter(None, words)),
        part=part.code,
        qty=qty,
        state=State.REMOVED.value,
        where=goes_to(at),
        show="lift",
        subject=part.id,
    )
    return answer if bag is not None else offer_bag(at, answer, part, loose)


BECOMES = "What becomes of it (Ctrl+K) can wait."
"""Said after something came off: returned to stock, core, scrapped, or kept where it is."""

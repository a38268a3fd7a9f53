"""Stripping a donor: a part that was bought for what is in it gives that, and goes."""

from collections.abc import Iterable
from functools import partial

from shoptui.domain import verbs
from shoptui.domain.ledger import CannotMoveError, Move
from shoptui.domain.places import UNSORTED, State
from shoptui.domain.records import Part
from shoptui.jobs.answers import Answer, Choice, Question, ask_about, done, stop
from shoptui.jobs.at import At, name, pieces
from shoptui.jobs.bring_in import bring_in, not_here
from shoptui.jobs.dispose import AGAIN, NO_LONGER
from shoptui.jobs.fastened import goes_with
from shoptui.jobs.part_list import still_to_order
from shoptui.jobs.remove import goes_to, removal_bin
from shoptui.jobs.still_needed import still_needed
from shoptui.jobs.unlisted import LONGEST
from shoptui.jobs.which_part import which_part

NEW = 0
"""Id of a part that no list has yet."""


def ask_strip(at: At, donor: Part, qty: int = 1) -> Answer:
    """Ask which part comes out of a donor, and how many of it; a name that no list has is a new part's."""
    return ask_about(
        donor,
        f"What comes out of {name(donor)}? Scan that part, or type its name.",
        Question(
            accepts=lambda text: which_part(
                at,
                ask_strip(at, donor, qty),
                text,
                donor.build,
                lambda wanted: ask_wanted(at, donor, wanted, qty),
            ),
            words=lambda text: ask_wanted(at, donor, _new_part(donor, text, qty), qty),
        ),
        qty=qty,
    )


def _new_part(donor: Part, words: str, qty: int) -> Part:
    """Return a line for what comes out of a donor and no list has; it is made when the donor is stripped."""
    needed = qty if donor.build is not None else 0
    return Part(NEW, "", "", donor.build, " ".join(words.split()), section=donor.section, needed=needed)


def ask_wanted(at: At, donor: Part, wanted: Part, qty: int) -> Answer:
    """Ask if the donor goes with the rest: Enter; or stays, since more comes out of it."""
    if len(wanted.description) > LONGEST:
        return stop(f"A name of at most {LONGEST} letters was expected. Nothing changed.")
    try:
        moves = _moves(at, donor, wanted, qty, last=True)
    except CannotMoveError as error:
        return stop(f"{name(donor)}: {error} Nothing changed.", part=donor.code, subject=donor.id)
    known = [move for move in moves if move.part != NEW]
    words = []
    if not at.shop.book.in_state(donor.id, *verbs.HERE, State.HELD):
        words.append(not_here(at.shop, donor, 1))
    words.extend(f"{need}." for need in still_needed(at.shop, known))
    if wanted.id == NEW:
        words.append(f"“{name(wanted)}” is new: it is listed.")
    words.append(f"{pieces(qty, wanted)} out of {name(donor)}, to {goes_to(at)}.")
    choices = [Choice("it stays: more comes out", partial(strip, at, donor, qty, wanted=wanted, last=False))]
    if again := _to_order_again(at, donor, known):
        words.append(
            f"Enter: the rest of it goes, {again} {AGAIN}. 1: it stays, more comes out. 2: {NO_LONGER}."
        )
        choices.append(
            Choice(
                f"it goes, and is {NO_LONGER}",
                partial(strip, at, donor, qty, wanted=wanted, no_longer_needed=True),
            )
        )
    else:
        words.append("Enter: the rest of it goes. 1: it stays, more comes out.")
    words.append("A bin first says where to.")
    return ask_about(
        donor,
        " ".join(words),
        Question(
            yes=partial(strip, at, donor, qty, wanted=wanted),
            choices=tuple(choices),
            accepts=lambda text: _into_bin(at, donor, wanted, qty, text),
        ),
        qty=qty,
    )


def _to_order_again(at: At, donor: Part, moves: Iterable[Move]) -> int:
    """Return 1 if the donor's line lacks one once it has gone, else 0."""
    with at.shop.book.supposing(moves):
        return min(1, still_to_order(at.shop, at.shop.parts.get(donor.id)))


def _into_bin(at: At, donor: Part, wanted: Part, qty: int, text: str) -> Answer | None:
    into = at.shop.bins.by_code(text)
    if into is None:
        return None
    at.shop.remember(at.terminal, bin=into.id)
    return ask_wanted(at, donor, wanted, qty)


def _moves(at: At, donor: Part, wanted: Part, qty: int, *, last: bool) -> tuple[Move, ...]:
    book, into = at.shop.book, removal_bin(at)
    brought: tuple[Move, ...] = ()
    if not book.in_state(donor.id, *verbs.HERE, State.HELD):
        brought = bring_in(at.shop, donor, 1)
    with book.supposing(brought):
        to = into.id if into else UNSORTED
        return (*brought, *verbs.strip(book, donor.id, wanted.id, qty, to=to, last=last))


def strip(
    at: At, donor: Part, qty: int, *, wanted: Part, last: bool = True, no_longer_needed: bool = False
) -> Answer:
    """Take pieces out of one donor, to where removed things go at this terminal.

    Args:
        at: Where it is done.
        donor: The part that was bought for what is in it.
        qty: Pieces that come out.
        wanted: The part that they are; one that no list has is listed in the same transaction.
        last: Whether the donor goes with what is left in it.
        no_longer_needed: Whether the donor's line wants one less from now on.

    """
    again = 0
    try:
        with at.doing(f"took {pieces(qty, wanted)} out of {name(donor)}") as transaction:
            if wanted.id == NEW:
                wanted = transaction.add(wanted)
            moves = _moves(at, donor, wanted, qty, last=last)
            again = _to_order_again(at, donor, moves) if last else 0
            transaction.enter((*moves, *goes_with(at.shop, moves)))
            if again and no_longer_needed:
                now = at.shop.parts.get(donor.id)
                transaction.change(now, needed=now.needed - again)
    except CannotMoveError as error:
        return stop(f"{name(donor)}: {error} Nothing changed.", part=donor.code, subject=donor.id)
    rest = f"{name(donor)} is gone, stripped" if last else f"{name(donor)} is still here"
    what = f", {again} {NO_LONGER if no_longer_needed else AGAIN}" if again else ""
    return done(
        f"{pieces(qty, wanted)} out of {name(donor)}, to {goes_to(at)}. {rest}{what}.",
        kind="part",
        part=wanted.code,
        qty=qty,
        state=State.RECEIVED.value,
        where=goes_to(at),
        subject=wanted.id,
    )

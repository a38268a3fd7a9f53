"""Stripping a donor: a part that was bought for what is in it gives that, and goes."""

from functools import partial

from shoptui.domain import verbs
from shoptui.domain.ledger import CannotMoveError, Move
from shoptui.domain.places import UNSORTED, State
from shoptui.domain.records import Part
from shoptui.jobs.answers import Answer, Choice, Question, Said, done, stop
from shoptui.jobs.at import At, name, pieces
from shoptui.jobs.bring_in import bring_in, not_here
from shoptui.jobs.remove import goes_to, removal_bin
from shoptui.jobs.still_needed import still_needed
from shoptui.jobs.which_part import which_part


def ask_strip(at: At, donor: Part, qty: int = 1) -> Answer:
    """Ask which part comes out of a donor, and how many of it."""
    return Answer(
        Said.QUESTION,
        f"What comes out of {name(donor)}? Scan that part, or type its name.",
        kind="part",
        part=donor.code,
        qty=qty,
        subject=donor.id,
        question=Question(
            accepts=lambda text: which_part(
                at,
                ask_strip(at, donor, qty),
                text,
                donor.build,
                lambda wanted: ask_wanted(at, donor, wanted, qty),
            )
        ),
    )


def ask_wanted(at: At, donor: Part, wanted: Part, qty: int) -> Answer:
    """Ask if the donor goes with the rest: Enter; or stays, since more comes out of it."""
    try:
        moves = _moves(at, donor, wanted, qty, last=True)
    except CannotMoveError as error:
        return stop(f"{name(donor)}: {error} Nothing changed.", part=donor.code, subject=donor.id)
    words = []
    if not at.shop.book.in_state(donor.id, *verbs.HERE, State.HELD):
        words.append(not_here(at.shop, donor, 1))
    words.extend(f"{need}." for need in still_needed(at.shop, moves))
    words.append(f"{pieces(qty, wanted)} out of {name(donor)}, to {goes_to(at)}.")
    words.append("Enter: the rest of it goes. 1: it stays, more comes out. A bin first says where to.")
    return Answer(
        Said.QUESTION,
        " ".join(words),
        kind="part",
        part=donor.code,
        qty=qty,
        subject=donor.id,
        question=Question(
            yes=partial(strip, at, donor, qty, wanted=wanted),
            choices=(
                Choice("it stays: more comes out", partial(strip, at, donor, qty, wanted=wanted, last=False)),
            ),
            accepts=lambda text: _into_bin(at, donor, wanted, qty, text),
        ),
    )


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


def strip(at: At, donor: Part, qty: int, *, wanted: Part, last: bool = True) -> Answer:
    """Take pieces out of one donor, to where removed things go at this terminal.

    Args:
        at: Where it is done.
        donor: The part that was bought for what is in it.
        qty: Pieces that come out.
        wanted: The part that they are.
        last: Whether the donor goes with what is left in it.

    """
    try:
        with at.doing(f"took {pieces(qty, wanted)} out of {name(donor)}") as transaction:
            transaction.enter(_moves(at, donor, wanted, qty, last=last))
    except CannotMoveError as error:
        return stop(f"{name(donor)}: {error} Nothing changed.", part=donor.code, subject=donor.id)
    rest = f"{name(donor)} is gone, stripped" if last else f"{name(donor)} is still here"
    return done(
        f"{pieces(qty, wanted)} out of {name(donor)}, to {goes_to(at)}. {rest}.",
        kind="part",
        part=wanted.code,
        qty=qty,
        state=State.RECEIVED.value,
        where=goes_to(at),
        subject=wanted.id,
    )

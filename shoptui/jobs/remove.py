"""Removing: the card of a part that comes off, the part off the vehicle, and originals that no list has."""

from collections.abc import Callable

from shoptui.domain import verbs
from shoptui.domain.cautions import cautions
from shoptui.domain.ledger import CannotMoveError
from shoptui.domain.places import UNSORTED, State
from shoptui.domain.records import Bin, Part
from shoptui.jobs.answers import Answer, Choice, Question, Said, done, stop
from shoptui.jobs.at import At, name, pieces
from shoptui.jobs.positions import position_of
from shoptui.jobs.put_away import bin_name
from shoptui.jobs.still_needed import still_needed


def ask_remove(at: At, part: Part, qty: int = 1, position: str | None = None) -> Answer:
    """Open the remove card: Enter, the same scan or a position removes; a bin or bag says where it goes."""
    on = at.shop.book.places(part.id, State.INSTALLED)
    if not on:
        return stop(
            f"{name(part)} is not on the vehicle by the books, so it cannot come off.",
            part=part.code,
            subject=part.id,
        )
    spots = [str(place.where) for place, _ in on]
    if position is not None and position not in spots:
        return stop(
            f"{name(part)} is on at {', '.join(filter(None, spots)) or 'the vehicle'}, not at {position}.",
            part=part.code,
            subject=part.id,
        )
    spot = position if position is not None else spots[0]
    where = f" from {spot}" if spot else ""
    shots = "".join(f"{need}. " for need in _shots(at, part, qty, spot))
    several = position is None and len(spots) > 1
    ask = (
        f"Which {name(part)} comes off: {', '.join(spots)}? Scan the position, or its number and Enter."
        if several
        else f"{shots}Remove {pieces(qty, part)}{where} to {_goes_to(at)}? Enter, or a bin or bag first."
    )
    return Answer(
        Said.QUESTION,
        ask,
        part=part.code,
        qty=qty,
        state=State.INSTALLED.value,
        where=", ".join(filter(None, spots)),
        show="lift",
        subject=part.id,
        question=Question(
            yes=None if several else (lambda: remove(at, part, qty, spot)),
            choices=tuple(Choice(each or name(part), _remover(at, part, qty, each)) for each in spots)
            if several
            else (),
            accepts=lambda text: _accepted(at, part, qty, text),
        ),
    )


def _shots(at: At, part: Part, qty: int, spot: str) -> tuple[str, ...]:
    """Return the unfilmed shots that would lose the part as they need it."""
    try:
        moves = verbs.remove(at.shop.book, part.id, qty, position=spot)
    except CannotMoveError:
        return ()
    return still_needed(at.shop, moves)


def _remover(at: At, part: Part, qty: int, spot: str) -> Callable[[], Answer]:
    return lambda: remove(at, part, qty, spot)


def _accepted(at: At, part: Part, qty: int, text: str) -> Answer | None:
    into = at.shop.bins.by_code(text)
    if into is not None:
        at.shop.remember(at.terminal, bin=into.id)
        return ask_remove(at, part, qty)
    position = position_of(part, text)
    if position is None:
        return None
    on = at.shop.book.places(part.id, State.INSTALLED)
    there = any(place.where == position.name for place, _ in on)
    if there and not _shots(at, part, qty, position.name):
        return remove(at, part, qty, position.name)
    return ask_remove(at, part, qty, position.name)


def removal_bin(at: At) -> Bin | None:
    """Return the bin or bag that removed things go to at this terminal, None for the bench."""
    number = at.memory.bin
    into = None if number is None else at.shop.bins.get(number)
    return None if into is None or into.withdrawn else into


def _goes_to(at: At) -> str:
    into = removal_bin(at)
    return bin_name(into) if into else "the bench"


def remove(at: At, part: Part, qty: int, position: str) -> Answer:
    """Take pieces off the vehicle; they go to the bin scanned last at this lift, else to the bench."""
    into = removal_bin(at)
    where = f" from {position}" if position else ""
    try:
        with at.doing(f"removed {pieces(qty, part)}{where} to {_goes_to(at)}") as transaction:
            transaction.enter(
                verbs.remove(at.shop.book, part.id, qty, position=position, to=into.id if into else UNSORTED)
            )
    except CannotMoveError as error:
        return stop(f"{name(part)}: {error} Nothing changed.", part=part.code, subject=part.id)
    return done(
        f"{pieces(qty, part)} removed{where} to {_goes_to(at)}. What becomes of it: on its card (F8).",
        part=part.code,
        qty=qty,
        state=State.REMOVED.value,
        where=_goes_to(at),
        show="lift",
        subject=part.id,
    )


def ask_unlisted(at: At, words: str) -> Answer:
    """Ask whether an original part that no list has came off; yes writes it down as bought and removed."""
    build = at.build
    if build is None:
        return stop(
            f"No part is called “{words}”, and this terminal works on no build. Scan the vehicle first."
        )
    return Answer(
        Said.QUESTION,
        f"No part is called “{words}”. Did an original part come off? Enter: list it as removed to "
        f"{_goes_to(at)}.",
        show="lift",
        question=Question(yes=lambda: remove_unlisted(at, words)),
    )


def _original(part: Part) -> str:
    words = name(part)
    return words if words.casefold().startswith("original") else f"Original {words}"


def remove_unlisted(at: At, words: str, *, tag: str = "", position: str = "") -> Answer:
    """List an original part, as bought with the vehicle, and take it off: one transaction."""
    build = at.build
    if build is None:
        return stop("This terminal works on no build. Scan the vehicle first.")
    into = removal_bin(at)
    with at.doing(f"removed original {words} to {_goes_to(at)}") as transaction:
        part = transaction.add(Part(0, "", tag, build.id, words, original=True))
        transaction.enter(verbs.as_bought(part.id, 1, position=position))
        transaction.enter(
            verbs.remove(at.shop.book, part.id, 1, position=position, to=into.id if into else UNSORTED)
        )
    warn = cautions("", words)
    return done(
        f"{_original(part)} listed and removed to {_goes_to(at)}. {warn[0] if warn else ''}".rstrip(),
        part=part.code,
        qty=1,
        state=State.REMOVED.value,
        where=_goes_to(at),
        show="lift",
        subject=part.id,
    )

"""Installing and mocking up: the card of a part that goes on, and the part put on the vehicle."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial

from shoptui.domain import verbs
from shoptui.domain.inert import inert
from shoptui.domain.ledger import CannotMoveError
from shoptui.domain.places import State
from shoptui.domain.records import Part
from shoptui.jobs.answers import Answer, Choice, Question, ask_on_card, done, stop
from shoptui.jobs.at import At, name, pieces
from shoptui.jobs.at_tool import lever_words, taken_up
from shoptui.jobs.bring_in import brought_word
from shoptui.jobs.fastened import free_bags, goes_with
from shoptui.jobs.fit_card import FitCard, crowded, fit_card, moves_on
from shoptui.jobs.joints import joints_of, open_words
from shoptui.jobs.place_words import place_words
from shoptui.jobs.positions import on_vehicle, position_of
from shoptui.jobs.take_down import take_down
from shoptui.jobs.tighten import ask_next


def ask_install(
    at: At, part: Part, qty: int = 1, position: str | None = None, *, trial: bool = False, fresh: bool = False
) -> Answer:
    """Open the card of a part that goes on: Enter or the position does it.

    The same scan again does it only where nothing speaks against it and nobody could mean another position.
    Nothing has changed yet. What is mocked up is offered to be installed where it is, or to be taken down.

    Args:
        at: Where the lift stands.
        part: The part.
        qty: Pieces.
        position: Where they go, if that was said.
        trial: Whether they are mocked up, not installed for good.
        fresh: Whether what is mocked up stays as it is, and others are taken.

    """
    card = fit_card(at, part, qty, position, trial=trial, fresh=fresh)
    words = []
    if card.hanging:
        words.append(f"{name(part)} is mocked up{_at(card.position)}.")
    if card.first:
        words.append(f"First: {', '.join(name(other) for other in card.first)} not on yet.")
    words.extend(card.doubts)
    words.extend(f"{need}." for need in card.shots)
    if card.along:
        words.append(card.along)
    for_good = " for good" if card.hanging else ""
    all_the_same = " all the same" if card.doubtful else ""
    if part.joints and not trial and at.wrench is not None:
        lever = f" and its {lever_words(at.memory.lever)}" if at.memory.lever else ""
        words.append(f"With {inert(at.wrench.code)}{lever}.")
    deed = f"{_verb(card)} {pieces(qty, part)}{_at(card.position)}{for_good}{all_the_same}"
    tight = _tight(at, card)
    if card.crowd:
        meant = "Enter: its joints there. " if tight else ""
        words.extend((card.crowd, f"{meant}1 and Enter: {deed[0].lower()}{deed[1:]}."))
    else:
        by_scan = part.positions and not (card.doubtful and position)
        words.append(f"{deed}? Enter{' or scan the position' if by_scan else ''}.")
    return ask_on_card(
        part,
        "mock up" if trial else "install",
        " ".join(words),
        Question(
            yes=tight if card.crowd else lambda: _put_on(at, card),
            choices=tuple(_choices(at, card)),
            accepts=lambda text: _at_position(at, card, text, named=position),
            again=not card.doubtful and (position is not None or len(part.positions) <= 1),
        ),
        qty=qty,
        state=card.fetch[0][0].state.value if card.fetch else "",
        where="; ".join(f"{there} {place_words(at.shop, place)}" for place, there in card.fetch[:2]),
    )


def _tight(at: At, card: FitCard) -> Callable[[], Answer] | None:
    """Return what asks for the open joints of what is on at the position already: that one may be meant.

    At the lift alone: a script's yes to a part that goes on must never tighten another.
    """
    waits = any(each.needs_somebody for each in joints_of(at.shop, card.part, card.position))
    return partial(ask_next, at, card.part, card.position) if waits and at.station == "lift" else None


def _verb(card: FitCard) -> str:
    return "Mock up" if card.trial else "Install"


def _at(position: str) -> str:
    return f" at {position}" if position else ""


def _choices(at: At, card: FitCard) -> Iterator[Choice]:
    part, qty = card.part, card.qty
    if card.crowd:
        yield Choice(f"{_verb(card).lower()} {qty} more{_at(card.position)}", lambda: _put_on(at, card))
    everything = min(sum(there for _, there in card.fetch), card.left)
    if not part.positions and everything > qty:
        yield Choice(
            f"{_verb(card).lower()} all {everything}",
            lambda: _put_on(at, fit_card(at, part, everything, card.position, trial=card.trial)),
        )
    if card.hanging:
        yield Choice("take it down", partial(take_down, at, part, qty, position=card.position))
        if at.shop.book.in_state(part.id, *verbs.HERE):
            yield Choice("install one from the shelf", partial(ask_install, at, part, qty, fresh=True))
    if part.read_again:
        yield Choice("it was read again: strike that note", partial(_was_read, at, card))


def _was_read(at: At, card: FitCard) -> Answer:
    """Strike the note that something has to be read again, and open the card without it."""
    part = at.shop.parts.get(card.part.id)
    with at.doing(f"read again for {name(part)}: {part.read_again}") as transaction:
        part = transaction.change(part, read_again="")
    return ask_install(at, part, card.qty, card.position, trial=card.trial)


def _at_position(at: At, card: FitCard, text: str, *, named: str | None) -> Answer | None:
    """Take a position scan: it goes on there, unless something has to be said yes to first.

    The same position a second time is not that yes: a scanner reads twice what a hand showed it once. A
    wrench, an extension or a badge is taken in hand for what comes after.
    """
    part = card.part
    if part.joints and (said := taken_up(at, text)) is not None:
        asked = ask_install(at, part, card.qty, named, trial=card.trial)
        return replace(asked, text=f"{said} {asked.text}".strip())
    position = position_of(part, text)
    if position is None:
        return None
    there = fit_card(at, part, card.qty, position.name, trial=card.trial)
    if there.doubtful:
        return ask_install(at, part, card.qty, position.name, trial=card.trial)
    return _put_on(at, there)


def install(at: At, part: Part, qty: int, *, position: str = "", trial: bool = False) -> Answer:
    """Put pieces on the vehicle, for good or for trial, whatever there is to be asked about it."""
    if part.is_hardware:
        return stop(f"{name(part)} goes on with the part that it fastens: install that.", part=part.code)
    return _put_on(at, fit_card(at, part, qty, position, trial=trial))


def _put_on(at: At, card: FitCard) -> Answer:
    """Put pieces on; what the books have elsewhere is brought in first, in the same transaction.

    Only what the card asked about is brought in, and only where there was room: if the last piece went
    elsewhere since, or another took its position, it is asked anew.
    """
    shop, position = at.shop, card.position
    part, qty = shop.parts.get(card.part.id), card.qty
    state = State.MOCKED_UP if card.trial else State.INSTALLED
    try:
        with at.doing() as transaction:
            if card.hanging:
                there = sum(shop.book.at(part.id, place) for place in card.hanging)
            else:
                there = shop.book.in_state(part.id, *verbs.HERE)
            filled = not card.crowd and crowded(at, part, qty, position, card.hanging)
            if filled or there < min(qty, sum(n for _, n in card.fetch)):
                return ask_install(at, part, qty, position, trial=card.trial)
            brought, moves = moves_on(at, part, qty, position, card.hanging, trial=card.trial)
            moves = (*brought, *moves)
            transaction.enter((*moves, *goes_with(shop, moves)))
            free_bags(shop, transaction, part.id)
            got = f"{brought_word(brought)} and " if brought else ""
            transaction.say(f"{got}{state} {pieces(qty, part)}{_at(position)}")
    except CannotMoveError as error:
        return stop(f"{name(part)}: {error} Nothing changed.", part=part.code, subject=part.id)
    on = on_vehicle(shop.book, part.id, state).total()
    count = f"{on} of {part.needed} {'mocked up' if card.trial else 'on'}." if part.needed > 1 else ""
    words = " ".join(filter(None, (f"{pieces(qty, part)} {got}{state}{_at(position)}.", count, card.along)))
    if not card.trial and (left := open_words(shop, part, position)):
        if at.station == "lift":
            return ask_next(at, part, position, words)
        words = f"{words} Its torque is open: {left}."
    return done(
        words,
        part=part.code,
        qty=qty,
        state=state.value,
        where=position,
        show="lift",
        subject=part.id,
    )

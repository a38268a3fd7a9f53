"""Taking a part out of the one that carries it."""

from functools import partial

from shoptui.domain import verbs
from shoptui.domain.ledger import CannotMoveError, Move
from shoptui.domain.places import UNSORTED, State
from shoptui.domain.records import Part
from shoptui.jobs.answers import Answer, Choice, Question, Said, done, stop
from shoptui.jobs.at import At, name, pieces
from shoptui.jobs.built_in import goes_along
from shoptui.jobs.place_words import place_words
from shoptui.jobs.remove import goes_to, removal_bin
from shoptui.jobs.still_needed import still_needed


def carriers(at: At, part: Part) -> tuple[Part, ...]:
    """Return the parts that some pieces are built into."""
    places = at.shop.book.places(part.id, State.ASSEMBLED)
    numbers = dict.fromkeys(place.where for place, _ in places if isinstance(place.where, int))
    return tuple(at.shop.parts.get(number) for number in numbers)


def ask_take_apart(at: At, part: Part, qty: int = 1, carrier: Part | None = None) -> Answer:
    """Ask if pieces come out of the part that carries them; a bin or bag says where they go."""
    inside = carriers(at, part)
    if not inside:
        return stop(f"{name(part)} is built into nothing.", part=part.code, subject=part.id)
    if carrier is None and len(inside) > 1:
        return _card(
            part,
            qty,
            f"Out of which comes {name(part)}? Its number, then Enter.",
            Question(
                choices=tuple(Choice(name(e), partial(ask_take_apart, at, part, qty, e)) for e in inside)
            ),
        )
    out_of = carrier or inside[0]
    try:
        moves = _moves_out(at, part, qty, out_of)
    except CannotMoveError as error:
        return stop(f"{name(part)}: {error} Nothing changed.", part=part.code, subject=part.id)
    words = [f"It is {place_words(at.shop, moves[0].source)}."]
    words.extend(f"{need}." for need in still_needed(at.shop, moves))
    words.append(f"Take {pieces(qty, part)} out of {name(out_of)}, to {goes_to(at)}? Enter, or a bin first.")
    return _card(
        part,
        qty,
        " ".join(words),
        Question(
            yes=partial(take_apart, at, part, qty, carrier=out_of),
            accepts=lambda text: _into_bin(at, part, qty, out_of, text),
        ),
    )


def _card(part: Part, qty: int, text: str, question: Question) -> Answer:
    return Answer(
        Said.QUESTION,
        text,
        part=part.code,
        qty=qty,
        state=State.ASSEMBLED.value,
        show="lift",
        subject=part.id,
        card="take apart",
        question=question,
    )


def _into_bin(at: At, part: Part, qty: int, carrier: Part, text: str) -> Answer | None:
    into = at.shop.bins.by_code(text)
    if into is None:
        return None
    at.shop.remember(at.terminal, bin=into.id)
    return ask_take_apart(at, part, qty, carrier)


def _moves_out(at: At, part: Part, qty: int, carrier: Part) -> tuple[Move, ...]:
    into = removal_bin(at)
    to = into.id if into else UNSORTED
    return verbs.take_apart(at.shop.book, part.id, qty, carrier=carrier.id, to=to)


def take_apart(at: At, part: Part, qty: int, *, carrier: Part) -> Answer:
    """Take pieces out of the part that carries them; they go where removed things go at this terminal."""
    try:
        with at.doing(f"took {pieces(qty, part)} out of {name(carrier)}") as transaction:
            moves = _moves_out(at, part, qty, carrier)
            along = goes_along(at.shop, part, moves)
            transaction.enter(moves)
    except CannotMoveError as error:
        return stop(f"{name(part)}: {error} Nothing changed.", part=part.code, subject=part.id)
    words = (f"{pieces(qty, part)} taken out of {name(carrier)}, to {goes_to(at)}.", along)
    return done(
        " ".join(filter(None, words)),
        part=part.code,
        qty=qty,
        state=State.RECEIVED.value,
        where=goes_to(at),
        show="lift",
        subject=part.id,
    )

"""Taking a part out of the one that carries it; its hardware comes off with it."""

from functools import partial

from shoptui.domain import verbs
from shoptui.domain.ledger import CannotMoveError, Move
from shoptui.domain.places import UNSORTED, State
from shoptui.domain.records import Bin, Part
from shoptui.jobs.answers import Answer, Choice, Question, ask_on_card, done, stop
from shoptui.jobs.at import At, name, pieces
from shoptui.jobs.bags import bag_or_bin, offer_bag, scrapped_words, take_off
from shoptui.jobs.built_in import goes_along
from shoptui.jobs.fastened import on_it
from shoptui.jobs.loosen import can_be_loosened
from shoptui.jobs.place_words import place_words
from shoptui.jobs.put_away import bin_name
from shoptui.jobs.remove import goes_to, removal_bin
from shoptui.jobs.still_needed import still_needed


def carriers(at: At, part: Part) -> tuple[Part, ...]:
    """Return the parts that some pieces are built into."""
    places = at.shop.book.places(part.id, State.ASSEMBLED)
    numbers = dict.fromkeys(place.where for place, _ in places if isinstance(place.where, int))
    return tuple(at.shop.parts.get(number) for number in numbers)


def ask_take_apart(
    at: At, part: Part, qty: int = 1, carrier: Part | None = None, *, bag: Bin | None = None
) -> Answer:
    """Ask if pieces come out of the part that carries them; a bin says where they go.

    A bag takes their hardware; where they have none, it is a bin like any other.
    """
    inside = carriers(at, part)
    if not inside:
        return stop(f"{name(part)} is built into nothing.", part=part.code, subject=part.id)
    if carrier is None and len(inside) > 1:
        return _card(
            part,
            qty,
            f"Out of which comes {name(part)}? Its number, then Enter.",
            Question(
                choices=tuple(
                    Choice(name(each), partial(ask_take_apart, at, part, qty, each, bag=bag))
                    for each in inside
                )
            ),
        )
    out_of = carrier or inside[0]
    try:
        moves = _moves_out(at, part, qty, out_of)
    except CannotMoveError as error:
        return stop(f"{name(part)}: {error} Nothing changed.", part=part.code, subject=part.id)
    words = [f"It is {place_words(at.shop, moves[0].source)}."]
    needs = still_needed(at.shop, moves)
    words.extend(f"{need}." for need in needs)
    bagged = f", its hardware into {bin_name(bag)}" if bag else ""
    first = "Enter." if bag else f"Enter, or a bin{' or bag' if on_it(at.shop, part.id) else ''} first."
    words.append(f"Take {pieces(qty, part)} out of {name(out_of)}, to {goes_to(at)}{bagged}? {first}")
    return _card(
        part,
        qty,
        " ".join(words),
        Question(
            yes=partial(take_apart, at, part, qty, carrier=out_of, bag=bag),
            accepts=lambda text: bag_or_bin(
                at, part, text, bag, lambda into: ask_take_apart(at, part, qty, out_of, bag=into)
            ),
            again=not (needs or can_be_loosened(at, part, "")),
        ),
    )


def _card(part: Part, qty: int, text: str, question: Question) -> Answer:
    return ask_on_card(part, "take apart", text, question, qty=qty, state=State.ASSEMBLED.value)


def _moves_out(at: At, part: Part, qty: int, carrier: Part) -> tuple[Move, ...]:
    into = removal_bin(at)
    to = into.id if into else UNSORTED
    return verbs.take_apart(at.shop.book, part.id, qty, carrier=carrier.id, to=to)


def take_apart(at: At, part: Part, qty: int, *, carrier: Part, bag: Bin | None = None) -> Answer:
    """Take pieces out of the part that carries them; they go where removed things go at this terminal.

    Their hardware goes where they go, or into a bag; what was for one use is scrap.
    """
    try:
        with at.doing(f"took {pieces(qty, part)} out of {name(carrier)}") as transaction:
            moves = _moves_out(at, part, qty, carrier)
            along = goes_along(at.shop, part, moves)
            hardware, loose = take_off(at.shop, transaction, part, moves, bag)
    except CannotMoveError as error:
        return stop(f"{name(part)}: {error} Nothing changed.", part=part.code, subject=part.id)
    words = (
        f"{pieces(qty, part)} taken out of {name(carrier)}, to {goes_to(at)}.",
        along,
        scrapped_words(at.shop, hardware),
        f"Its hardware is in {bin_name(bag)}." if bag is not None and loose else "",
    )
    answer = done(
        " ".join(filter(None, words)),
        part=part.code,
        qty=qty,
        state=State.RECEIVED.value,
        where=goes_to(at),
        show="lift",
        subject=part.id,
    )
    return answer if bag is not None else offer_bag(at, answer, part, loose)

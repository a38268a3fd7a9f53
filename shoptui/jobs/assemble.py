"""Bench assemblies: a part is built into another, with the hardware that fastens it."""

from collections.abc import Iterator
from functools import partial

from shoptui.domain import verbs
from shoptui.domain.carriers import carriers_of, is_unsure
from shoptui.domain.ledger import CannotMoveError, Move
from shoptui.domain.places import Place, State
from shoptui.domain.records import Part
from shoptui.domain.verbs import HERE
from shoptui.jobs.answers import Answer, Choice, Question, ask_on_card, done, stop
from shoptui.jobs.at import At, name, pieces
from shoptui.jobs.bring_in import bring_in, not_here
from shoptui.jobs.fastened import free_bags, goes_with, short_of
from shoptui.jobs.joints import joints_of, open_words
from shoptui.jobs.place_words import place_words
from shoptui.jobs.still_needed import still_needed
from shoptui.jobs.tighten import ask_next
from shoptui.jobs.which_part import MOST_OFFERED, no_such_part, which_part


def ask_assemble(at: At, part: Part, qty: int = 1) -> Answer:
    """Ask which part some pieces are built into: the next scan, or a typed name, says so."""
    likely = tuple(_likely(at, part))
    number = " or pick its number" if likely else ""
    return ask_on_card(
        part,
        "assemble",
        f"Into what are {pieces(qty, part)} built? Scan that part{number}."
        if qty > 1
        else f"Into what is {name(part)} built? Scan that part{number}.",
        Question(
            choices=tuple(
                Choice(name(each), partial(ask_into, at, part, qty, each)) for each in likely[:MOST_OFFERED]
            ),
            accepts=lambda text: which_part(
                at, ask_assemble(at, part, qty), text, part.build, partial(ask_into, at, part, qty)
            ),
            words=lambda text: no_such_part(ask_assemble(at, part, qty), text),
        ),
        qty=qty,
        state=State.RECEIVED.value,
    )


def _likely(at: At, part: Part) -> Iterator[Part]:
    """Yield what it was built into before, then what is here of its section."""
    shop = at.shop
    moves = (entry.move for entry in shop.history.latest_of_part(part.id))
    before = dict.fromkeys(
        place.where
        for move in moves
        for place in (move.target, move.source)
        if place.state is State.ASSEMBLED
    )
    near = sorted(shop.sections.of(part.build, part.section)) if part.section else []
    for number in dict.fromkeys((*before, *near)):
        if not isinstance(number, int) or number == part.id:
            continue
        other = shop.parts.get(number)
        if number in before or (not other.original and shop.book.in_state(number, *HERE)):
            yield other


def ask_into(at: At, part: Part, qty: int, carrier: Part) -> Answer:
    """Build pieces into a part; what there is to doubt about it is asked about first."""
    shop = at.shop
    try:
        brought, moves = _moves_in(at, part, qty, carrier)
    except CannotMoveError as error:
        return _refused(part, error)
    doubts = []
    if words := not_here(shop, part, qty):
        doubts.append(f"{name(part)}: {words}")
    if not carriers_of(shop.book, carrier.id):
        doubts.append(f"{name(carrier)}: {not_here(shop, carrier, 1)}")
    elif spot := _only_on_vehicle(at, carrier):
        doubts.append(f"{name(carrier)} is {spot}, and none is on the bench.{_comes_off(at, carrier)}")
    if part.build is not None and carrier.build not in (None, part.build):
        doubts.append(f"{name(carrier)} belongs to {shop.builds.get(carrier.build or 0).title}.")
    doubts.extend(short_of(shop, part, qty))
    doubts.extend(f"{need}." for need in still_needed(shop, (*brought, *moves)))
    if not doubts:
        return assemble(at, part, qty, carrier=carrier)
    return ask_on_card(
        part,
        "assemble",
        f"{' '.join(doubts)} Build {pieces(qty, part)} into {name(carrier)} all the same? Enter.",
        Question(yes=partial(assemble, at, part, qty, carrier=carrier)),
        qty=qty,
    )


def _only_on_vehicle(at: At, carrier: Part) -> str:
    """Return where on the vehicle a carrier is, if none is on the bench or in a bin."""
    if at.shop.book.in_state(carrier.id, *HERE):
        return ""
    on = at.shop.book.places(carrier.id, State.INSTALLED, State.MOCKED_UP)
    return " and ".join(place_words(at.shop, place) for place, _ in on)


def _comes_off(at: At, carrier: Part) -> str:
    """Say that its joints open only when it comes off by the books as well."""
    if not joints_of(at.shop, carrier):
        return ""
    return " If it came off for that, remove it first: its joints are open then."


def _where_in(at: At, part: Part, carrier: Part, place: Place) -> str:
    """Say into which of several carriers: those that are here come before those on the vehicle."""
    book = at.shop.book
    here, on = book.in_state(carrier.id, *HERE), book.in_state(carrier.id, State.INSTALLED, State.MOCKED_UP)
    if not here or not on:
        return f"{place_words(at.shop, place)}."
    told = f"built into {name(carrier)} on the bench ({here} here, {on} on the vehicle)."
    return f"{told} {UNSURE}" if is_unsure(book, part.id) else told


UNSURE = "Which one has it the books do not keep: until all have one, lists say so with a ?."


def _moves_in(at: At, part: Part, qty: int, carrier: Part) -> tuple[tuple[Move, ...], tuple[Move, ...]]:
    """Return the moves that bring in what the books have elsewhere, and those that build it in."""
    book = at.shop.book
    brought: tuple[Move, ...] = ()
    if (short := qty - book.in_state(part.id, *HERE)) > 0:
        brought = bring_in(at.shop, part, short)
    if not carriers_of(book, carrier.id):
        brought += bring_in(at.shop, carrier, 1)
    with book.supposing(brought):
        return brought, verbs.assemble(book, part.id, qty, carrier=carrier.id)


def assemble(at: At, part: Part, qty: int, *, carrier: Part) -> Answer:
    """Build pieces into a part; what the books have elsewhere is brought in in the same transaction."""
    try:
        with at.doing(f"built {pieces(qty, part)} into {name(carrier)}") as transaction:
            brought, moves = _moves_in(at, part, qty, carrier)
            moves = (*brought, *moves)
            transaction.enter((*moves, *goes_with(at.shop, moves)))
            free_bags(at.shop, transaction, part.id)
    except CannotMoveError as error:
        return _refused(part, error)
    where = place_words(at.shop, moves[-1].target)
    words = f"{pieces(qty, part)} {_where_in(at, part, carrier, moves[-1].target)}"
    if left := open_words(at.shop, part, ""):
        if at.station == "lift":
            return ask_next(at, part, "", words)
        words = f"{words} Its torque is open: {left}."
    return done(
        words,
        part=part.code,
        qty=qty,
        state=State.ASSEMBLED.value,
        where=where,
        show="lift",
        subject=part.id,
    )


def _refused(part: Part, error: CannotMoveError) -> Answer:
    return stop(f"{name(part)}: {error} Nothing changed.", part=part.code, subject=part.id)

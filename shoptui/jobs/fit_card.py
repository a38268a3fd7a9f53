"""The card of a part that goes on, for good or for trial: what there is to know before the work."""

from collections.abc import Iterator
from dataclasses import dataclass

from shoptui.domain import verbs
from shoptui.domain.inert import inert
from shoptui.domain.ledger import Move
from shoptui.domain.places import Place, State
from shoptui.domain.readiness import work_left
from shoptui.domain.records import Part
from shoptui.jobs.at import At, name
from shoptui.jobs.bring_in import bring_in, not_here
from shoptui.jobs.built_in import goes_along
from shoptui.jobs.fastened import short_of
from shoptui.jobs.positions import free_position, not_on_yet, on_vehicle, share_of
from shoptui.jobs.still_needed import still_needed
from shoptui.store.shop import Shop


@dataclass(frozen=True, slots=True)
class FitCard:
    """What there is to know before a part goes on.

    Args:
        part: The part.
        qty: Pieces that a yes puts on.
        position: Where they go, empty where the part has no position.
        trial: Whether they are mocked up, not installed for good.
        hanging: Places of mocked-up pieces that are to be installed where they are; empty takes what is here.
        first: Parts that must be on first and are not; a trial fit waits for none.
        doubts: What has to be said yes to beside that: never received, another build, what it replaces.
        crowd: What is there already where no more is to go, in words; empty where there is room.
        shots: Unfilmed shots that would lose something as they need it.
        along: What is built into it and goes on with it, in words.
        fetch: Where the pieces lie, with their number.
        left: Pieces that the line still wants on the vehicle; what is built in goes on with its carrier.

    """

    part: Part
    qty: int
    position: str
    trial: bool
    hanging: tuple[Place, ...]
    first: tuple[Part, ...]
    doubts: tuple[str, ...]
    crowd: str
    shots: tuple[str, ...]
    along: str
    fetch: tuple[tuple[Place, int], ...]
    left: int

    @property
    def doubtful(self) -> bool:
        """Whether a position alone does not put it on: something has to be said yes to first."""
        return bool(self.first or self.doubts or self.crowd or self.shots)


def fit_card(
    at: At, part: Part, qty: int = 1, position: str | None = None, *, trial: bool = False, fresh: bool = False
) -> FitCard:
    """Return the card for putting a part on.

    Args:
        at: Where the lift stands.
        part: The part.
        qty: Pieces.
        position: Where they go; None takes where the part is mocked up, else its next free position.
        trial: Whether they are mocked up, not installed for good.
        fresh: Whether what is mocked up stays as it is, and others are taken.

    """
    book = at.shop.book
    hanging = () if trial or fresh else _hanging(at, part, position)
    if position is None:
        position = str(hanging[0][0].where) if hanging else free_position(book, part)
        hanging = tuple(pair for pair in hanging if pair[0].where == position)
    sources = tuple(place for place, _ in hanging)
    brought, moves = moves_on(at, part, qty, position, sources, trial=trial)
    return FitCard(
        part,
        qty,
        position,
        trial,
        sources,
        () if trial else not_on_yet(at.shop, part, position),
        tuple(_doubts(at, part, qty, position, moves, sources, trial=trial)),
        crowded(at, part, qty, position, sources),
        still_needed(at.shop, (*brought, *moves)),
        goes_along(at.shop, part, (*brought, *moves)),
        hanging or book.places(part.id, *verbs.HERE),
        max(0, part.needed - book.in_state(part.id, State.INSTALLED, State.ASSEMBLED)),
    )


def _hanging(at: At, part: Part, position: str | None) -> tuple[tuple[Place, int], ...]:
    places = at.shop.book.places(part.id, State.MOCKED_UP)
    return tuple(pair for pair in places if position is None or pair[0].where == position)


def moves_on(
    at: At, part: Part, qty: int, position: str, hanging: tuple[Place, ...], *, trial: bool
) -> tuple[tuple[Move, ...], tuple[Move, ...]]:
    """Return the moves that bring in what the books have elsewhere, and those that put it on.

    What is mocked up is installed first, then what is here.
    """
    book = at.shop.book
    short = max(0, qty - _there(at, part, hanging) - book.in_state(part.id, *verbs.HERE))
    brought = bring_in(at.shop, part, short, but=hanging) if short else ()
    with book.supposing(brought):
        if trial:
            return brought, verbs.mock_up(book, part.id, qty, position=position)
        here = (place for place, _ in book.places(part.id, *verbs.HERE))
        sources = (*hanging, *here) if hanging else ()
        return brought, verbs.install(book, part.id, qty, position=position, sources=sources)


def _there(at: At, part: Part, hanging: tuple[Place, ...]) -> int:
    return sum(at.shop.book.at(part.id, place) for place in hanging)


def _doubts(
    at: At,
    part: Part,
    qty: int,
    position: str,
    moves: tuple[Move, ...],
    hanging: tuple[Place, ...],
    *,
    trial: bool,
) -> list[str]:
    shop, doubts = at.shop, []
    if words := not_here(shop, part, qty - _there(at, part, hanging)):
        doubts.append(words)
    build = at.build
    if part.build is not None and build is not None and part.build != build.id:
        doubts.append(
            f"It belongs to {shop.builds.get(part.build).title}, and this terminal is at {build.title}."
        )
    if position and part.positions and position not in part.positions:
        doubts.append(f"It is listed for {', '.join(part.positions)}, not for {position}.")
    if part.read_again:
        doubts.append(f"Its number changed: read again {inert(part.read_again)}.")
    works = (work_left(part, move.source.condition) for move in moves)
    if not trial and (left := next(filter(None, works), None)):
        doubts.append(f"It is still to be {inert(left[0].work)}.")
    if not trial:
        doubts.extend(short_of(shop, part, qty))
        doubts.extend(_still_on(shop, part, position))
    return doubts


def _still_on(shop: Shop, part: Part, position: str) -> Iterator[str]:
    """Say what is on still where a part goes that replaces it.

    Where either has no position, it may be in the way anywhere.
    """
    for number in part.replaces:
        on = on_vehicle(shop.book, number)
        if on[position] or (on[""] if position else on.total()):
            there = f" at {position}" if position and on[position] else ""
            yield f"{name(shop.parts.get(number))} is still on{there}: this replaces it."


def crowded(at: At, part: Part, qty: int, position: str, hanging: tuple[Place, ...]) -> str:
    """Say what is at a position already where so many more are too many; empty where there is room."""
    states = (State.INSTALLED,) if hanging else (State.INSTALLED, State.MOCKED_UP)
    on, share = on_vehicle(at.shop.book, part.id, *states)[position], share_of(part)
    if on + qty <= share or not (on or part.positions):
        return ""
    there = f"at {position}" if position else "on the vehicle"
    if not on:
        return f"{share} of it belong{'s' if share == 1 else ''} {there}, not {qty}."
    return f"{on} of it {'is' if on == 1 else 'are'} {there} already."

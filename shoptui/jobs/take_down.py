"""Taking down what was mocked up: it goes back to where it came from."""

from functools import partial

from shoptui.domain import verbs
from shoptui.domain.ledger import CannotMoveError, Move
from shoptui.domain.places import UNSORTED, Place, State
from shoptui.domain.records import Part
from shoptui.jobs.answers import Answer, Choice, Question, ask_on_card, done, stop
from shoptui.jobs.at import At, name, pieces
from shoptui.jobs.built_in import goes_along
from shoptui.jobs.place_words import bin_words
from shoptui.jobs.positions import position_of
from shoptui.jobs.still_needed import still_needed
from shoptui.store.shop import Shop


def came_at(shop: Shop, part: int, hanging: Place, qty: int) -> list[tuple[Place, int]]:
    """Return where mocked-up pieces were before, read from the history: what was put up last comes first.

    An undo appends moves of its own, so what was taken back is left out by itself.
    """
    found: list[tuple[Place, int]] = []
    down = 0
    for entry in reversed(shop.history.moves_of_part(part)):
        move = entry.move
        if qty and move.target == hanging:
            passed = min(down, move.qty)
            down -= passed
            if taken := min(qty, move.qty - passed):
                found.append((move.source, taken))
                qty -= taken
        elif move.source == hanging:
            down += move.qty
    return found


def down_moves(shop: Shop, part: Part, qty: int, position: str | None = None) -> tuple[Move, ...]:
    """Return the moves that take pieces down; one from a bin that is gone, or unknown, goes to the bench.

    Args:
        shop: The shop.
        part: The part.
        qty: Pieces.
        position: Where they are mocked up; None takes them from any position.

    Raises:
        CannotMoveError: Fewer are mocked up there.

    """
    moves: list[Move] = []
    for place, there in shop.book.places(part.id, State.MOCKED_UP):
        if position is not None and place.where != position:
            continue
        for source, found in came_at(shop, part.id, place, min(qty, there)):
            with shop.book.supposing(moves):
                moves.extend(
                    verbs.take_down(
                        shop.book,
                        part.id,
                        found,
                        position=str(place.where),
                        to=source.where if _is_there(shop, source.where) else UNSORTED,
                        removed=source.state is State.REMOVED,
                    )
                )
            qty -= found
    if qty:
        up = sum(move.qty for move in moves)
        raise CannotMoveError(
            f"{up} {'is' if up == 1 else 'are'} mocked up{_at(position or '')}; "
            f"{up + qty} cannot be taken down."
        )
    return tuple(moves)


def _is_there(shop: Shop, where: int | str) -> bool:
    try:
        return isinstance(where, int) and not shop.bins.get(where).withdrawn
    except KeyError:
        return False


def ask_take_down(at: At, part: Part, qty: int = 1, position: str | None = None) -> Answer:
    """Open the card of a part that is mocked up: Enter takes it down, a position says which."""
    spots = list(
        dict.fromkeys(str(place.where) for place, _ in at.shop.book.places(part.id, State.MOCKED_UP))
    )
    if not spots or (position is not None and position not in spots):
        return stop(f"{name(part)} is not mocked up{_at(position or '')}.", part=part.code, subject=part.id)
    if position is None and len(spots) > 1:
        which = f"Which {name(part)} is taken down: {', '.join(spots)}?"
        text = f"{which} Scan the position, or its number and Enter."
        question = Question(
            choices=tuple(
                Choice(spot or name(part), partial(take_down, at, part, qty, position=spot)) for spot in spots
            ),
            accepts=lambda reply: _accepted(at, part, qty, reply),
        )
    else:
        spot = spots[0] if position is None else position
        try:
            moves = down_moves(at.shop, part, qty, spot)
        except CannotMoveError as error:
            return stop(f"{name(part)}: {error} Nothing changed.", part=part.code, subject=part.id)
        needs = "".join(f"{need}. " for need in still_needed(at.shop, moves))
        text = f"{needs}Take down {pieces(qty, part)}{_at(spot)}, back {_back_to(at.shop, moves)}? Enter."
        question = Question(
            yes=lambda: take_down(at, part, qty, position=spot, asked=True),
            accepts=lambda reply: _accepted(at, part, qty, reply),
            again=not needs,
        )
    return ask_on_card(
        part,
        "take down",
        text,
        question,
        qty=qty,
        state=State.MOCKED_UP.value,
        where=", ".join(filter(None, spots)),
    )


def _accepted(at: At, part: Part, qty: int, text: str) -> Answer | None:
    position = position_of(part, text)
    return None if position is None else take_down(at, part, qty, position=position.name)


def take_down(at: At, part: Part, qty: int, *, position: str, asked: bool = False) -> Answer:
    """Take pieces down that are mocked up at a position; asks first where a shot needs them there."""
    shop = at.shop
    words = f"took down {pieces(qty, part)}{_at(position)}"
    try:
        with at.doing(words) as transaction:
            moves = down_moves(shop, part, qty, position)
            if not asked and still_needed(shop, moves):
                return ask_take_down(at, part, qty, position)
            along = goes_along(shop, part, moves)
            transaction.enter(moves)
    except CannotMoveError as error:
        return stop(f"{name(part)}: {error} Nothing changed.", part=part.code, subject=part.id)
    back = _back_to(shop, moves)
    return done(
        " ".join(filter(None, (f"{pieces(qty, part)} taken down{_at(position)}, back {back}.", along))),
        part=part.code,
        qty=qty,
        state=moves[0].target.state.value,
        where=back,
        show="lift",
        subject=part.id,
    )


def _at(position: str) -> str:
    return f" at {position}" if position else ""


def _back_to(shop: Shop, moves: tuple[Move, ...]) -> str:
    return " and ".join(dict.fromkeys(bin_words(shop, move.target.where) for move in moves))

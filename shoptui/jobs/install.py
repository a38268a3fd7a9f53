"""Installing: the card that a part's scan opens at the lift, and the part put on the vehicle for good."""

from collections import Counter
from dataclasses import dataclass

from shoptui.domain import verbs
from shoptui.domain.cautions import cautions
from shoptui.domain.ledger import CannotMoveError, Move
from shoptui.domain.places import SEALED, UNKNOWN, UNSORTED, Place, State
from shoptui.domain.records import Part
from shoptui.jobs.answers import Answer, Choice, Question, Said, done, stop
from shoptui.jobs.at import At, name, pieces
from shoptui.jobs.place_words import place_words
from shoptui.jobs.positions import Position, position_of
from shoptui.jobs.still_needed import still_needed


@dataclass(frozen=True, slots=True)
class InstallCard:
    """What there is to know before a part goes on.

    Args:
        part: The part.
        qty: Pieces that a yes installs.
        position: Where they go, empty where the part has no position.
        first: Parts that must be on first and are not.
        doubts: What has to be said yes to beside that: never received, another build, position taken.
        fetch: Where the pieces lie, with their number.
        left: Pieces that the line still wants on the vehicle.
        cautions: Short words where the work can hurt somebody.

    """

    part: Part
    qty: int
    position: str
    first: tuple[Part, ...]
    doubts: tuple[str, ...]
    fetch: tuple[tuple[Place, int], ...]
    left: int
    cautions: tuple[str, ...]


def free_position(at: At, part: Part) -> str:
    """Return the first listed position that still wants a piece; the first one where none does."""
    on = Counter({str(p.where): n for p, n in at.shop.book.places(part.id, State.INSTALLED)})
    share = max(1, part.needed // max(1, len(part.positions)))
    free = [position for position in part.positions if on[position] < share]
    return (free or list(part.positions) or [""])[0]


def install_card(at: At, part: Part, qty: int = 1, position: str | None = None) -> InstallCard:
    """Return the card for installing a part, at its next free position unless one was chosen."""
    shop = at.shop
    where = free_position(at, part) if position is None else position
    fetch = shop.book.places(part.id, *verbs.HERE)
    first = tuple(
        other
        for other in (shop.parts.get(number) for number in part.install_after)
        if not _is_on(at, other, where)
    )
    return InstallCard(
        part,
        qty,
        where,
        first,
        tuple(_doubts(at, part, qty, where)),
        fetch,
        max(0, part.needed - shop.book.in_state(part.id, State.INSTALLED)),
        cautions(part.section, part.description),
    )


def _is_on(at: At, other: Part, position: str) -> bool:
    """Whether a part is on: at the same position where it has that one, else all that its line wants."""
    on = at.shop.book.places(other.id, State.INSTALLED)
    if position and position in other.positions:
        return any(place.where == position for place, _ in on)
    return sum(qty for _, qty in on) >= max(1, other.needed)


def _doubts(at: At, part: Part, qty: int, position: str) -> list[str]:
    shop, doubts = at.shop, []
    here = shop.book.in_state(part.id, *verbs.HERE)
    if here < qty:
        doubts.append(_not_here(at, part, here, qty))
    build = at.build
    if part.build is not None and build is not None and part.build != build.id:
        doubts.append(
            f"It belongs to {shop.builds.get(part.build).title}, and this terminal is at {build.title}."
        )
    if position and part.positions and position not in part.positions:
        doubts.append(f"It is listed for {', '.join(part.positions)}, not for {position}.")
    on_there = shop.book.at(part.id, Place(State.INSTALLED, position))
    share = max(1, part.needed // max(1, len(part.positions)))
    there = f"at {position}" if position else "on the vehicle"
    if on_there + qty > share and on_there:
        doubts.append(f"{on_there} of it {'is' if on_there == 1 else 'are'} {there} already.")
    return doubts


def _not_here(at: At, part: Part, here: int, qty: int) -> str:
    """Say what the books have instead of pieces on hand."""
    other = at.shop.book.places(part.id, State.ORDERED, State.SENT_OUT, State.HELD)
    if not other:
        return (
            f"Only {here} of {qty} is here by the books, and none is ordered."
            if here
            else ("By the books none was ever received or ordered.")
        )
    place = other[0][0]
    words = place_words(at.shop, place)
    return (
        f"{here} of {qty} is here; the rest is {words}."
        if here
        else f"Never received: it is {words}."
        if (place.state is State.ORDERED)
        else f"It is {words}."
    )


def ask_install(at: At, part: Part, qty: int = 1, position: str | None = None) -> Answer:
    """Open the install card: Enter, the same scan or the position installs; nothing has changed yet."""
    card = install_card(at, part, qty, position)
    where = f" at {card.position}" if card.position else ""
    words = []
    if card.first:
        words.append(f"First: {', '.join(name(other) for other in card.first)} not on yet.")
    words.extend(card.doubts)
    words.extend(f"{need}." for need in shots_that_need_it(at, card))
    doubtful = bool(words)
    ask = f"Install {pieces(qty, part)}{where}{' all the same' if doubtful else ''}?"
    if doubtful and position:
        more = f", or scan {position} again"
    else:
        more = " or scan the position" if part.positions else ""
    here = sum(n for _, n in card.fetch)
    everything = min(here, card.left)
    choices = (
        (Choice(f"install all {everything}{where}", lambda: install(at, part, everything, card)),)
        if not part.positions and everything > qty
        else ()
    )
    return Answer(
        Said.QUESTION,
        " ".join([*words, ask, f"Enter{more}."]),
        part=part.code,
        qty=qty,
        state=State.RECEIVED.value if here else "",
        where=_fetch_words(at, card),
        show="lift",
        subject=part.id,
        question=Question(
            yes=lambda: install(at, part, qty, card),
            choices=choices,
            accepts=lambda text: _at_position(at, part, qty, text, agreed=position),
        ),
    )


def _at_position(at: At, part: Part, qty: int, text: str, *, agreed: str | None) -> Answer | None:
    """Take a position scan: it installs there, unless something has to be said yes to first.

    The same position a second time, the doubts about it once said, is that yes.
    """
    position: Position | None = position_of(part, text)
    if position is None:
        return None
    card = install_card(at, part, qty, position.name)
    doubtful = card.first or card.doubts or shots_that_need_it(at, card)
    if doubtful and position.name != agreed:
        return ask_install(at, part, qty, position.name)
    return install(at, part, qty, card)


def shots_that_need_it(at: At, card: InstallCard) -> tuple[str, ...]:
    """Return the unfilmed shots that would lose the part as they need it."""
    try:
        moves = verbs.install(at.shop.book, card.part.id, card.qty, position=card.position)
    except CannotMoveError:
        return ()
    return still_needed(at.shop, moves)


def _fetch_words(at: At, card: InstallCard) -> str:
    return "; ".join(f"{qty} {place_words(at.shop, place)}" for place, qty in card.fetch[:2])


def install(at: At, part: Part, qty: int, card: InstallCard) -> Answer:
    """Install pieces; what the books have elsewhere is brought in first, in the same transaction.

    Only what the card asked about is brought in: if the last piece went elsewhere since, it is asked anew.
    """
    shop, position = at.shop, card.position
    where = f" at {position}" if position else ""
    try:
        with at.doing() as transaction:
            here = shop.book.in_state(part.id, *verbs.HERE)
            if here < min(qty, sum(n for _, n in card.fetch)):
                return ask_install(at, part, qty, position)
            brought = _bring_in(at, part, qty - here) if here < qty else ()
            transaction.enter(brought)
            transaction.enter(verbs.install(shop.book, part.id, qty, position=position))
            got = f"{_brought_word(brought)} and " if brought else ""
            transaction.say(f"{got}installed {pieces(qty, part)}{where}")
    except CannotMoveError as error:
        return stop(f"{name(part)}: {error} Nothing changed.", part=part.code, subject=part.id)
    on = shop.book.in_state(part.id, State.INSTALLED)
    count = f" {on} of {part.needed} on." if part.needed > 1 else ""
    return done(
        f"{pieces(qty, part)} {got}installed{where}.{count}",
        part=part.code,
        qty=qty,
        state=State.INSTALLED.value,
        where=position,
        show="lift",
        subject=part.id,
    )


def _brought_word(brought: tuple[Move, ...]) -> str:
    return {State.SENT_OUT: "taken back", State.HELD: "released"}.get(brought[0].source.state, "received")


def _bring_in(at: At, part: Part, short: int) -> tuple[Move, ...]:
    """Return the moves that bring in what is physically here and the books have elsewhere."""
    moves: list[Move] = []
    for place, there in at.shop.book.places(part.id, State.ORDERED, State.SENT_OUT, State.HELD):
        taken = min(short, there)
        if not taken:
            break
        condition = SEALED if place.state is State.ORDERED else place.condition
        if place.state is State.SENT_OUT and isinstance(place.where, int):
            condition = at.shop.orders.get(place.where).work or condition
        where = place.where if place.state is State.HELD else UNSORTED
        moves.append(Move(part.id, taken, place, Place(State.RECEIVED, where, condition)))
        short -= taken
    if short:
        moves.extend(verbs.receive_unordered(part.id, short, supplier=UNKNOWN))
    return tuple(moves)

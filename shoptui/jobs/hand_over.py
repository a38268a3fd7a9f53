"""Hand a finished vehicle over: what is installed leaves with it, and its record stays."""

from collections.abc import Iterable, Iterator

from shoptui.domain import verbs
from shoptui.domain.carriers import standing, taken_along
from shoptui.domain.cautions import moves_by
from shoptui.domain.inert import inert
from shoptui.domain.ledger import Move
from shoptui.domain.places import State
from shoptui.domain.records import Build, Part
from shoptui.domain.verbs import ON_A_SHELF
from shoptui.jobs.answers import Answer, Choice, Question, Said, done, stop
from shoptui.jobs.at import At, name
from shoptui.jobs.cores import open_cores
from shoptui.jobs.fastened import goes_with
from shoptui.jobs.gift import give
from shoptui.jobs.given import STOCK
from shoptui.jobs.held import why_words
from shoptui.jobs.joints import JointAt, all_joints
from shoptui.jobs.left_over import of_part
from shoptui.jobs.needs import asked
from shoptui.jobs.place_words import today
from shoptui.jobs.same_line import line_for
from shoptui.store.shop import Shop
from shoptui.store.transaction import Transaction

FINISHED = "finished"

_OPEN = {
    "mocked up": (State.MOCKED_UP,),
    "sent out": (State.SENT_OUT,),
    "ordered": (State.ORDERED,),
    "held": (State.HELD,),
    "here but not installed": (State.RECEIVED, State.ASSEMBLED, State.REMOVED),
}
"""What a person should know of before the vehicle leaves, and in which states it is."""


def hand_over(at: At, build: Build) -> Answer:
    """Ask whether a vehicle is handed over, and say what is open; yes lets what is installed leave with it.

    Joints that are open or due stand first: somebody drives off with them.

    What is not on the vehicle stays on the build's list as it is, or goes to the shop's stock. A list of
    builds may bring one that is finished and still has all that is on it: that is asked about like any other.
    """
    leaving = _leaving(at.shop, build)
    if build.status == FINISHED and not leaving:
        return stop(
            f"{inert(build.title)} is finished already: nothing is left on it to be handed over.",
            kind="vehicle",
            subject=build.id,
        )
    leaves = sum(move.qty for move in leaving)
    loose = _loose(at.shop, build, leaving)
    left = ", ".join(open_things(at.shop, build))
    rest = "Else nothing is open. " if loose else "Nothing is open. "
    return Answer(
        Said.QUESTION,
        f"Hand over {inert(build.title)}? {''.join(f'! {words}. ' for words in _named(loose))}"
        f"With it: {_count(leaves)}. "
        f"{f'Open: {left}. ' if left else rest}Enter: hand over; the rest stays.",
        kind="vehicle",
        subject=build.id,
        qty=leaves,
        question=Question(
            yes=lambda: _hand_over(at, build, to_stock=False),
            choices=(
                Choice(
                    f"hand over; what lies here goes to {STOCK}", lambda: _hand_over(at, build, to_stock=True)
                ),
            ),
        ),
    )


def _count(qty: int) -> str:
    return f"{qty} {'piece' if qty == 1 else 'pieces'}"


def _parts(shop: Shop, build: Build) -> list[Part]:
    return [part for part in shop.parts.all() if part.build == build.id]


def _leaving(shop: Shop, build: Build) -> tuple[Move, ...]:
    """Return the moves by which what is on the vehicle for good leaves, and what is built into it."""
    return tuple(move for part in _parts(shop, build) for move in verbs.hand_over(shop.book, part.id))


def _loose(shop: Shop, build: Build, leaving: Iterable[Move]) -> tuple[JointAt, ...]:
    """Return the joints of what leaves that are open, or due to be checked again.

    Open ones come first, and of these what a moving vehicle depends on.
    """
    parts = {move.part for move in leaving}
    found = [each for each in all_joints(shop, [build.id]) if each.part.id in parts and each.needs_somebody]
    return tuple(sorted(found, key=_safety))


def _safety(each: JointAt) -> tuple[bool, bool]:
    return not each.is_open, not moves_by(each.part.section, each.part.description)


def _counted(loose: Iterable[JointAt]) -> Iterator[tuple[str, list[JointAt]]]:
    """Yield how many joints are so, and which: open ones, then those that are due."""
    for is_open, words in ((True, "not done"), (False, "to be checked again")):
        if some := [each for each in loose if each.is_open is is_open]:
            yield f"{len(some)} {'joint' if len(some) == 1 else 'joints'} {words}", some


def _named(loose: Iterable[JointAt]) -> Iterator[str]:
    """Yield the same with the first two of them: what it is says whether the vehicle may go."""
    for counted, some in _counted(loose):
        told = [
            f"{of_part(each)}, {inert(each.standing.why.removeprefix('to be checked again, '))}"
            for each in some[:2]
        ]
        more = f"; {len(some) - 2} more" if len(some) > 2 else ""  # noqa: PLR2004
        yield f"{counted}: {'; '.join(told)}{more}"


def open_things(shop: Shop, build: Build) -> Iterator[str]:
    """Yield what is not finished on a build, each in a few words."""
    parts = _parts(shop, build)
    for words, states in _OPEN.items():
        there = [
            (part, qty)
            for part in parts
            if (qty := sum(n for place, n in standing(shop.book, part.id) if place.state in states))
        ]
        if there:
            yield f"{sum(qty for _, qty in there)} {words}{_which(shop, words, [part for part, _ in there])}"
    day = today(shop)
    unfilmed = sum(
        any(part.build == build.id for need in shot.needs for part, _ in asked(shop, need))
        for shoot in shop.shoots.all()
        for shot in shoot.shots
        if not shot.filmed
    )
    if unfilmed:
        yield f"{unfilmed} {'shot' if unfilmed == 1 else 'shots'} not filmed"
    if cores := sum(core.part.build == build.id for core in open_cores(shop, day)):
        yield f"{cores} core {'deposit' if cores == 1 else 'deposits'} not back"


def _which(shop: Shop, words: str, parts: list[Part]) -> str:
    """Name the one part that is so, and of held ones the first two, since why they are says what to do."""
    held = words == State.HELD
    if len(parts) > 1 and not held:
        return ""
    told = [
        name(part) + (f": {why}" if held and (why := why_words(shop, part.id)) else "") for part in parts[:2]
    ]
    more = f"; {len(parts) - 2} more" if len(parts) > 2 else ""  # noqa: PLR2004
    return f" ({'; '.join(told)}{more})"


def _hand_over(at: At, build: Build, *, to_stock: bool) -> Answer:
    shop = at.shop
    now = shop.builds.get(build.id)
    if now.status == FINISHED and (build.status != FINISHED or not _leaving(shop, build)):
        return hand_over(at, now)
    with at.doing(f"handed over {inert(build.title)}") as tx:
        leaving = _leaving(shop, build)
        loose = [words for words, _ in _counted(_loose(shop, build, leaving))]
        tx.enter((*leaving, *goes_with(shop, leaving)))
        kept = sum(_to_stock(shop, tx, part) for part in _parts(shop, build)) if to_stock else 0
        tx.change(shop.builds.get(build.id), status=FINISHED)
    left = sum(move.qty for move in leaving)
    rest = f" {STOCK.capitalize()} gets {_count(kept)}." if kept else ""
    with_ = f", with {' and '.join(loose)}" if loose else ""
    return done(
        f"{inert(build.title)} is handed over, with {_count(left)}.{rest} Its record stays{with_}.",
        kind="vehicle",
        subject=build.id,
        qty=left,
    )


def _to_stock(shop: Shop, tx: Transaction, part: Part) -> int:
    """Move what lies here of a part to a line of the shop's stock; what is built in goes with its carrier."""
    here = shop.book.in_state(part.id, *ON_A_SHELF)
    if not here:
        return 0
    line = line_for(shop, tx, part, None, here)
    inside = {
        number: line_for(shop, tx, shop.parts.get(number), None, n)
        for number, _, n in taken_along(shop.book, part.id, here)
    }
    places = [place for place, _ in shop.book.places(part.id, *ON_A_SHELF)]
    given = give(shop, tx, part.id, here, line=line, sources=places, inside=inside)
    tx.enter((*given, *goes_with(shop, given)))
    return here

"""One position of the vehicle: what is on there, what is not tightened, and what is still to go on.

After a tag that said what is done with the next part, the position says where that part is.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from functools import partial

from shoptui.domain.carriers import is_unsure
from shoptui.domain.places import Place, State
from shoptui.domain.recognise import read
from shoptui.domain.records import Part
from shoptui.domain.verbs import HERE
from shoptui.jobs.answers import Answer, Choice, Question, Said, done, stop
from shoptui.jobs.at import At, name, name_and_code
from shoptui.jobs.install import ask_install
from shoptui.jobs.joint_words import joint_name, stands_words
from shoptui.jobs.joints import JointAt, joints_of
from shoptui.jobs.matching import matches_of
from shoptui.jobs.positions import on_vehicle
from shoptui.jobs.remove import ask_remove
from shoptui.jobs.take_down import ask_take_down
from shoptui.jobs.tighten import ask_joint, ask_next

Ask = Callable[[], Answer]
Way = tuple[str, Ask]
"""A part as a list names it, and what asks about it."""


@dataclass(slots=True)
class Corner:
    """What is at a position: on, on for trial, still to go on; and the joints there that want somebody.

    `unsure` are the ids of those on that another piece of their carrier may have, which is not on.
    """

    on: list[Part] = field(default_factory=list)
    unsure: set[int] = field(default_factory=set)
    trial: list[Part] = field(default_factory=list)
    off: list[Part] = field(default_factory=list)
    loose: list[JointAt] = field(default_factory=list)


def corner(at: At, position: str) -> Answer:
    """Say what is on at a position of the vehicle at this terminal, and what is listed for it and is not.

    Where a tag said what is done with the next part, ask which of those that are there is meant.
    """
    build = at.build
    if build is None:
        return stop("This terminal works on no build. Scan the vehicle first.")
    there = _at(at, position, build.id)
    if at.turned_to:
        return _which(at, position, there)
    answer = done(f"{position}: {_words(there)}{_to_do(there.loose)}", where=position, show="lift")
    if not there.loose:
        return answer
    first = there.loose[0]
    return replace(
        answer,
        part=first.part.code,
        qty=first.pieces,
        subject=first.part.id,
        question=Question(yes=partial(ask_joint, at, first)),
    )


def _at(at: At, position: str, build: int) -> Corner:
    book, found = at.shop.book, Corner()
    for part in at.shop.parts.all():
        if part.build != build:
            continue
        if on_vehicle(book, part.id)[position]:
            found.on.append(part)
            if is_unsure(book, part.id):
                found.unsure.add(part.id)
            found.loose += [each for each in joints_of(at.shop, part, position) if each.needs_somebody]
        elif on_vehicle(book, part.id, State.MOCKED_UP)[position]:
            found.trial.append(part)
        elif position in part.positions and part.needed:
            found.off.append(part)
    return found


def _words(there: Corner) -> str:
    named = [f"perhaps {name(part)}" if part.id in there.unsure else part for part in there.on]
    on = f"{len(there.on)} on: {_few(named)}." if there.on else "Nothing is on there by the books."
    hangs = f" {len(there.trial)} mocked up: {_few(there.trial)}." if there.trial else ""
    to_go = f" {len(there.off)} still to go on: {_few(there.off)}." if there.off else ""
    return f"{on}{hangs}{to_go}"


def _which(at: At, position: str, there: Corner) -> Answer:
    """Ask which part at a position is meant by what a tag said before; the only one is not asked about."""
    verb = at.turned_to
    ways = _ways(at, position, there)
    if len(ways) == 1:
        ((_, ask),) = ways.values()
        return ask()
    if not ways:
        words = f"{verb.capitalize()} at {position}: nothing there is for that. {_words(there)}"
        return stop(f"{words} Scan the part.", where=position, show="lift", card=verb)
    return Answer(
        Said.QUESTION,
        f"{verb.capitalize()} at {position}: which? Its number and Enter, or scan the part.",
        where=position,
        show="lift",
        card=verb,
        question=Question(
            choices=tuple(Choice(label, ask) for label, ask in ways.values()),
            accepts=lambda text: _scanned(at, ways, text),
        ),
    )


def _ways(at: At, position: str, there: Corner) -> dict[int, Way]:
    """Return the parts that a tag before can mean at a position."""
    take = _TURNED.get(at.turned_to)
    found = [] if take is None else take(at, position, there)
    return {part.id: (name_and_code(part), ask) for part, ask in found}


def _off(at: At, position: str, there: Corner) -> list[tuple[Part, Ask]]:
    """Return what is on by itself, or for trial, what moved last first.

    What is built in comes off with what carries it.
    """
    book = at.shop.book
    on = [part for part in there.on if _is_at(book.places(part.id, State.INSTALLED), position)]
    trial = [part for part in there.trial if _is_at(book.places(part.id, State.MOCKED_UP), position)]
    found: list[tuple[Part, Ask]] = [
        *((part, partial(ask_remove, at, part, 1, position)) for part in on),
        *((part, partial(ask_take_down, at, part, 1, position)) for part in trial),
    ]
    latest = {part.id: next(at.shop.history.latest_of_part(part.id)).transaction for part, _ in found}
    return sorted(found, key=lambda pair: -latest[pair[0].id])


def _is_at(places: Sequence[tuple[Place, int]], position: str) -> bool:
    return any(place.where == position for place, _ in places)


def _on(at: At, position: str, there: Corner, *, trial: bool = False) -> list[tuple[Part, Ask]]:
    """Return what is here to go on, and for good what hangs there for trial."""
    here = [part for part in there.off if at.shop.book.in_state(part.id, *HERE)]
    hanging = [] if trial else there.trial
    return [(part, partial(ask_install, at, part, 1, position, trial=trial)) for part in (*hanging, *here)]


def _tight(at: At, position: str, there: Corner) -> list[tuple[Part, Ask]]:
    """Return what has joints there that want somebody."""
    parts = {each.part.id: each.part for each in there.loose}
    return [(part, partial(ask_next, at, part, position)) for part in parts.values()]


_TURNED: dict[str, Callable[[At, str, Corner], list[tuple[Part, Ask]]]] = {
    "remove": _off,
    "install": _on,
    "mock up": partial(_on, trial=True),
    "tighten": _tight,
}


def _scanned(at: At, ways: dict[int, Way], text: str) -> Answer | None:
    """Take the scan of a part that is there; any other scan is no answer."""
    meant = [match.record for match in matches_of(at, read(text)) if match.kind == "part"]
    found = [ways[number] for number in meant if number in ways]
    return found[0][1]() if len(found) == 1 else None


def _to_do(loose: list[JointAt]) -> str:
    if not loose:
        return ""
    told = _few([f"{joint_name(each)}, {stands_words(each)}" for each in loose])
    return (
        f" {len(loose)} joint{' wants' if len(loose) == 1 else 's want'} somebody: {told}. Ctrl+L: the first."
    )


def _few(things: Sequence[Part | str], most: int = 4) -> str:
    named = [each if isinstance(each, str) else name(each) for each in things[:most]]
    return ", ".join(named) + (f" and {len(things) - most} more" if len(things) > most else "")

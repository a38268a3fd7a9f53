"""What is not yet as the shots of a filming day need it."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from functools import cache, partial

from shoptui.domain.carriers import standing
from shoptui.domain.days import day_words
from shoptui.domain.in_the_shop import first_step
from shoptui.domain.inert import inert
from shoptui.domain.lack import Grounds, Lack, Who
from shoptui.domain.ledger import Move
from shoptui.domain.outlook import lacks
from shoptui.domain.places import Place, State
from shoptui.domain.records import Part
from shoptui.domain.shoots import Need, Shoot, Shot
from shoptui.jobs.against import Against
from shoptui.jobs.generic_only import generic_only
from shoptui.jobs.grounds import grounds_of
from shoptui.jobs.held import why_held
from shoptui.jobs.moving import Loose, not_tight, on_trial
from shoptui.jobs.needs import asked
from shoptui.jobs.place_words import place_words
from shoptui.jobs.still_needed import Unfilmed
from shoptui.store.shop import Shop

NEXT = "next"
"""Asks for the first filming day from today on that has a shot not filmed yet."""

_WHO = {who: number for number, who in enumerate(Who)}


class NoShootError(ValueError):
    """No such filming day; the words say what there is."""


class NothingAheadError(NoShootError):
    """No filming day is ahead, so nothing can be missing for it: an answer rather than a failure."""


@dataclass(frozen=True, slots=True)
class MissingLine:
    """Pieces of one part that one shot still wants.

    Args:
        part: The part.
        number: Number of the shot in its day, 1 first.
        shot: The shot.
        need: What the shot needs.
        lack: What stands in the way.
        where: Where the pieces are, in words; empty for what was never ordered.
        act: Who acts next, what, and by when.

    """

    part: Part
    number: int
    shot: Shot
    need: Need
    lack: Lack
    where: str
    act: str

    @property
    def needs(self) -> str:
        """The condition, and the pieces where the shot names a number."""
        return f"{self.need.qty} {self.need.condition.value}" if self.need.qty else self.need.condition.value


@dataclass(frozen=True, slots=True)
class ShotStanding:
    """How one shot stands: of the parts that it asks for, how many are as it needs them.

    `on_trial` is what is mocked up on the vehicle, `not_tight` which of its joints are open, where that moves
    in the shot; `generic` which joints count as done and are done to a handbook's value alone.
    """

    number: int
    shot: Shot
    ready: int
    wanted: int
    lines: tuple[MissingLine, ...]
    on_trial: tuple[Against, ...] = ()
    not_tight: tuple[Against, ...] = ()
    generic: tuple[Against, ...] = ()

    @property
    def against_moving(self) -> tuple[Against, ...]:
        """All that speaks against moving the vehicle."""
        return (*self.on_trial, *self.not_tight)


@dataclass(frozen=True, slots=True)
class MissingReport:
    """What a filming day still wants; lines are sorted by who acts next and by days to spare."""

    shoot: Shoot
    day: date
    today: date
    shots: tuple[ShotStanding, ...]
    lines: tuple[MissingLine, ...]

    @property
    def ready(self) -> int:
        """Parts of unfilmed shots that are as needed, counted once a shot."""
        return sum(shot.ready for shot in self.shots)

    @property
    def wanted(self) -> int:
        """Parts that the unfilmed shots need, counted once a shot."""
        return sum(shot.wanted for shot in self.shots)

    @property
    def moving(self) -> tuple[ShotStanding, ...]:
        """Unfilmed shots in which the vehicle moves."""
        return tuple(shot for shot in self.shots if shot.shot.moves)

    @property
    def to_decide(self) -> tuple[Against, ...]:
        """All on which a person decides: what speaks against moving first, then what is done to no sheet."""
        moving = [each for shot in self.moving for each in shot.against_moving]
        return (*moving, *(each for shot in self.shots for each in shot.generic))


def find_shoot(shop: Shop, text: str, today: date) -> Shoot:
    """Return the filming day of a code, or the next one with a shot not filmed yet.

    Raises:
        NoShootError: There is none; `NothingAheadError` where the next one was asked for.

    """
    shoots = sorted(shop.shoots.all(), key=lambda shoot: (shoot.date, shoot.id))
    if text == NEXT:
        for shoot in shoots:
            if shoot.date >= today and not all(shot.filmed for shot in shoot.shots):
                return shoot
        raise NothingAheadError("No filming day from today on has a shot that is not filmed yet.")
    found = shop.shoots.by_code(text)
    if found is None:
        known = ", ".join(inert(shoot.code) for shoot in shoots) or "none yet"
        raise NoShootError(f"There is no filming day {inert(text)}. Filming days: {known}.")
    return found


def missing(shop: Shop, shoot: Shoot, today: date) -> MissingReport:
    """Return what the shots of a day that are not filmed yet still want."""
    grounds = grounds_of(shop, shoot.date, today)
    words = cache(lambda place: place_words(shop, place))
    unfilmed = cache(lambda: Unfilmed(shop))
    clash = partial(_clash, unfilmed, shoot, today)
    loose = Loose(shop)
    shots = tuple(
        _standing(shop, number, shot, grounds, words, clash, loose)
        for number, shot in enumerate(shoot.shots, 1)
        if not shot.filmed
    )
    lines = tuple(sorted((line for shot in shots for line in shot.lines), key=_urgency))
    return MissingReport(shoot, shoot.date, today, shots, lines)


def _standing(
    shop: Shop,
    number: int,
    shot: Shot,
    grounds: Grounds,
    words: Callable[[Place], str],
    clash: Callable[[Part, Need, Lack], str],
    loose: Loose,
) -> ShotStanding:
    lines: list[MissingLine] = []
    ready = wanted = 0
    for need in shot.needs:
        for part, wants in asked(shop, need):
            wanted += 1
            found = lacks(wants, part, standing(shop.book, part.id), grounds)
            ready += not found
            for lack in found:
                where = "" if lack.place is None else words(lack.place)
                told = _with_note(shop, part, lack)
                act = act_words(lack, grounds.today) + clash(part, wants, lack)
                lines.append(MissingLine(part, number, shot, wants, told, where, act))
    against = on_trial(shop, number, shot), not_tight(loose, number, shot), generic_only(shop, number, shot)
    return ShotStanding(number, shot, ready, wanted, tuple(lines), *against)


def _clash(
    unfilmed: Callable[[], Unfilmed], shoot: Shoot, day: date, part: Part, need: Need, lack: Lack
) -> str:
    """Say which shot has the pieces as it needs them and would lose them by what is advised; else nothing."""
    if lack.place is None or not lack.possible or lack.place.state not in _TOUCHED:
        return ""
    step = Move(part.id, lack.qty, lack.place, first_step(need.condition, part, lack.place))
    lost = unfilmed().loses(part, step)
    if lost is None:
        return ""
    on = "" if lost.shoot.id == shoot.id else f"{day_words(lost.shoot.date, day)}, "
    return f"; but {on}shot {lost.number} needs it {lost.need.condition.value}: film that first"


_TOUCHED = (State.RECEIVED, State.REMOVED, State.MOCKED_UP, State.INSTALLED)
"""Where pieces can be as one shot needs them while another needs them otherwise."""


def _with_note(shop: Shop, part: Part, lack: Lack) -> Lack:
    """Say why pieces are held, in the words of whoever set them aside: it says what to do."""
    if lack.state is not State.HELD or not lack.why.startswith(State.HELD.value):
        return lack
    told = ", ".join(inert(note) for note in why_held(shop, part.id) if note)
    return replace(lack, why=f"held: {told}") if told else lack


def act_words(lack: Lack, today: date) -> str:
    """Return who acts next, with what and by when: "lead: order 2 by Thu 5 Nov"."""
    words = f"{lack.who.value}: {lack.act}"
    if not lack.possible:
        return words
    if lack.spare is not None and lack.spare < 0:
        return f"{words}, {lack.odds}"
    if lack.latest is None:
        return words
    return f"{words}, by {day_words(max(lack.latest, today), today)}"


def _urgency(line: MissingLine) -> tuple[int, float, int, int]:
    """Who acts, what cannot be first, then the fewest days; where no day is known, between late and today."""
    lack = line.lack
    spare = -0.5 if lack.spare is None else float(lack.spare)
    return (_WHO[lack.who], spare if lack.possible else float("-inf"), line.number, line.part.id)

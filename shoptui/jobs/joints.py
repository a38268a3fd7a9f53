"""The joints of parts that are on the vehicle, and how each stands: done, open and why, or due again."""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date

from shoptui.domain.fasteners.rechecks import Event, Happened, Rule, Standing, standing
from shoptui.domain.places import State
from shoptui.domain.records import Build, Joint, Part, Reading, What
from shoptui.jobs.place_words import today
from shoptui.store.shop import Shop

KM_IN_A_MILE = 1.609344
"""Exact: 1760 yards of 0.9144 m (NIST SP 811, appendix B)."""

_HAPPENED = {
    What.TIGHTENED: Happened.TIGHTENED,
    What.SIGNED: Happened.TIGHTENED,
    What.CHECKED: Happened.CHECKED,
    What.FAILED: Happened.FAILED,
    What.LOOSENED: Happened.LOOSENED,
}

CHANGED = "its sheet changed since"
SECOND_MISSING = "second check missing"


@dataclass(frozen=True, slots=True)
class JointAt:
    """A joint of a part at one position of the vehicle.

    Args:
        part: The part.
        joint: The joint.
        position: Where; empty where the part has no position, and for what is built into another part.
        pieces: Pieces of the part that are there.
        standing: How it stands.
        counted: The readings that make it done, or will when more are added.
        second: Who signed the second check; None while nobody did.

    """

    part: Part
    joint: Joint
    position: str
    pieces: int
    standing: Standing
    counted: tuple[Reading, ...] = ()
    second: int | None = None

    @property
    def wanted(self) -> int:
        """How many fasteners it has there; 0 for a check that is signed."""
        return self.joint.fasteners * self.pieces

    @property
    def left(self) -> int:
        """How many are still to be tightened."""
        return max(0, self.wanted - sum(each.fasteners for each in self.counted))

    @property
    def is_open(self) -> bool:
        """Whether it is not done."""
        return self.standing.is_open

    @property
    def needs_somebody(self) -> bool:
        """Whether it is open, or due to be checked again."""
        return self.standing.is_open or self.standing.is_due

    @property
    def only_second(self) -> bool:
        """Whether nothing is missing but the second check."""
        return self.standing.why == SECOND_MISSING


def spots(shop: Shop, part: Part) -> Counter[str]:
    """Return position to pieces of a part that its joints hold there; what is built in has none."""
    found: Counter[str] = Counter()
    for place, qty in shop.book.places(part.id, State.INSTALLED, State.ASSEMBLED):
        found[str(place.where) if place.state is State.INSTALLED else ""] += qty
    return found


def joints_of(shop: Shop, part: Part, position: str | None = None) -> tuple[JointAt, ...]:
    """Return the joints of what is on of a part, at one position or at each of them.

    How an original was tightened before it ever came off here nobody knows, and nobody is asked.
    """
    if not part.joints or (part.original and not _was_off(shop, part)):
        return ()
    return tuple(
        _standing(shop, part, joint, spot, pieces)
        for spot, pieces in spots(shop, part).items()
        if pieces > 0 and position in (None, spot)
        for joint in part.joints
    )


def _was_off(shop: Shop, part: Part) -> bool:
    """Return whether an original came off here, or somebody tightened it."""
    if shop.readings.of_part(part.id):
        return True
    moves = (entry.move for entry in shop.history.latest_of_part(part.id))
    return any(move.source.state is State.INSTALLED for move in moves)


def all_joints(shop: Shop, builds: Iterable[int | None] | None = None) -> Iterator[JointAt]:
    """Yield the joints of all that is on vehicles that are not finished, or on those that are named."""
    if builds is None:
        builds = [None, *(build.id for build in shop.builds.all() if build.status == "open")]
    wanted = set(builds)
    # Most parts have no joint: those need not become records.
    documents = shop.database.documents("parts")
    for number in [each for each, document in documents.items() if "joints" in document]:
        part = shop.parts.get(number)
        if part.build in wanted and not part.withdrawn:
            yield from joints_of(shop, part)


def open_words(shop: Shop, part: Part, position: str) -> str:
    """Return which joints of a part are open at a position and why, empty if none is."""
    told = [
        f"{each.joint.name}: {each.standing.why}"
        for each in joints_of(shop, part)
        if each.is_open and each.position in (position, "")
    ]
    return "; ".join(told)


def _standing(shop: Shop, part: Part, joint: Joint, position: str, pieces: int) -> JointAt:
    rows = [row for row in _rows(shop, part, joint, position) if shop.readings.struck_by(row.id) is None]
    build = None if part.build is None else shop.builds.get(part.build)
    tally = _Tally(shop, joint, build)
    if rows:
        loosened = _loosened(shop, part, joint, position, rows[0].transaction)
        for transaction, row in sorted(
            [*((each.transaction, each) for each in rows), *((each, None) for each in loosened)],
            key=lambda pair: (pair[0], pair[1].id if pair[1] else 0),
        ):
            tally.take(transaction, row)
    stands = tally.standing(joint.fasteners * pieces)
    return JointAt(part, joint, position, pieces, stands, tuple(tally.counted), tally.second)


class _Tally:
    """What happened to a joint, one thing after the other."""

    def __init__(self, shop: Shop, joint: Joint, build: Build | None) -> None:
        self._shop = shop
        self._joint = joint
        self._build = build
        self._events: list[Event] = []
        self._why = ""
        self.counted: list[Reading] = []
        self.second: int | None = None

    def take(self, transaction: int, row: Reading | None) -> None:
        """Take one reading, or a clamped part that came off."""
        done = self._shop.history.transaction(transaction)
        day = done.when.astimezone().date()
        if row is None and done.undoes and all(each.transaction < done.undoes for each in self.counted):
            return  # it was put on and taken back, after it was tightened where it is again
        what = What.LOOSENED if row is None else row.what
        if what is What.SECOND:
            self.second = row.who if row else None
            return
        if row is not None and what in (What.TIGHTENED, What.SIGNED):
            if row.sheet_says != self._joint.sheet_says:
                self._why = "" if self.counted else CHANGED
                return
            self.counted.append(row)
            self._why, self.second = "", None
        elif what is not What.CHECKED:
            self.counted, self.second = [], None
            self._why = row.note if row else ""
        self._events.append(Event(_HAPPENED[what], day, self._km(row), row.fasteners or 1 if row else 1))

    def _km(self, row: Reading | None) -> float | None:
        return None if row is None else _km(row.odometer, self._build)

    def standing(self, wanted: int) -> Standing:
        """Return how the joint stands."""
        joint, build = self._joint, self._build
        rule = Rule(_km(joint.again_after or None, build), joint.again_days or None)
        now = standing(
            self._events,
            wanted,
            rule,
            today=today(self._shop),
            odometer_km=_km(build.odometer if build else None, build),
        )
        if now.is_open:
            return replace(now, why=self._why) if self._why else now
        if joint.second_check and self.second is None:
            return Standing(is_open=True, why=SECOND_MISSING)
        if now.is_due and now.left_km is not None and build and build.odometer_unit == "mi":
            return replace(now, why=f"to be checked again, {abs(now.left_km) / KM_IN_A_MILE:.0f} mi over")
        return now


def _km(distance: int | None, build: Build | None) -> float | None:
    if distance is None:
        return None
    return distance * (KM_IN_A_MILE if build and build.odometer_unit == "mi" else 1.0)


def _loosened(shop: Shop, part: Part, joint: Joint, position: str, since: int) -> Iterator[int]:
    """Yield the transactions in which a part that the joint clamps came off, after one."""
    for clamped in (part.id, *joint.clamps):
        for entry in shop.history.latest_of_part(clamped):
            if entry.transaction <= since:
                break
            source, target = entry.move.source, entry.move.target
            if source.state not in _FIXED or target.state in _FIXED:
                continue
            where = source.where if source.state is State.INSTALLED else ""
            elsewhere = clamped != part.id and (not position or where not in part.positions)
            if (where == position or elsewhere) and not shop.history.is_undone(entry.transaction):
                yield entry.transaction


_FIXED = (State.INSTALLED, State.ASSEMBLED)
"""States in which a joint holds a part."""


def readings_at(shop: Shop, each: JointAt) -> tuple[Reading, ...]:
    """Return all that was ever stated of a joint there, oldest first; what no longer counts too."""
    return tuple(_rows(shop, each.part, each.joint, each.position))


def _rows(shop: Shop, part: Part, joint: Joint, position: str) -> Iterator[Reading]:
    for row in shop.readings.of_part(part.id):
        if (row.joint, row.position) == (joint.name, position):
            yield row


def day_of(shop: Shop, reading: Reading) -> date:
    """Return the day of a reading."""
    return shop.history.transaction(reading.transaction).when.astimezone().date()

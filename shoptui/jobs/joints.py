"""The joints of parts that are on the vehicle, and how each stands: done, open and why, or due again."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from shoptui.domain.fasteners.rechecks import Standing
from shoptui.domain.joint_sheets import joints_as_allowed
from shoptui.domain.places import HANDED_OVER, State
from shoptui.domain.records import Build, Joint, Part, Reading
from shoptui.jobs.joint_tally import SECOND_MISSING, Tally, loosened
from shoptui.jobs.place_words import today
from shoptui.store.shop import Shop


@dataclass(frozen=True, slots=True)
class JointAt:
    """A joint of a part at one position of the vehicle.

    Args:
        part: The part.
        joint: The joint.
        position: Where; empty where the part has no position, and for what is built into another part.
        pieces: Pieces of the part that are there; 0 of what is no joint of it any more.
        standing: How it stands.
        counted: The readings that make it done, or will when more are added.
        second: Who signed the second check; None while nobody did.
        outside: The readings since then that are not what the sheet says: they make nothing done.
        build: Its vehicle; None where it has none.
        handed_over: Day on which it left with its vehicle: part, vehicle and standing are those of that day.

    """

    part: Part
    joint: Joint
    position: str
    pieces: int
    standing: Standing
    counted: tuple[Reading, ...] = ()
    second: int | None = None
    outside: tuple[Reading, ...] = ()
    build: Build | None = None
    handed_over: date | None = None

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
    def is_begun(self) -> bool:
        """Whether some of its fasteners are tightened and others are not."""
        return self.is_open and self.left > 0 and bool(self.counted or self.outside)

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
    if not part.joints:
        return ()
    found = _kept(shop, part, today(shop))
    return found if position is None else tuple(each for each in found if each.position == position)


def _kept(shop: Shop, part: Part, day: date) -> tuple[JointAt, ...]:
    return shop.standings.of(part, day, lambda: derived(shop, part))


def derived(shop: Shop, part: Part) -> tuple[JointAt, ...]:
    """Return the same of all its positions, from the readings and moves: `Shop.standings` keeps it."""
    if part.original and not was_off(shop, part):
        return ()
    build = None if part.build is None else shop.builds.get(part.build)
    return standing_at(shop, part, build, spots(shop, part), today(shop))


def standing_at(
    shop: Shop, part: Part, build: Build | None, where: Counter[str], day: date
) -> tuple[JointAt, ...]:
    """Return how the joints of a part stand on a day, at the positions where so many pieces of it are."""
    rows, joints = _counting(shop, part), joints_as_allowed(part)
    return tuple(
        _standing(shop, part, build, joint, spot, pieces, rows.get((joint.name, spot), ()), day)
        for spot, pieces in where.items()
        if pieces > 0
        for joint in joints
    )


def was_off(shop: Shop, part: Part) -> bool:
    """Return whether an original came off here, or somebody tightened it; not by leaving on its vehicle."""
    if shop.readings.of_part(part.id):
        return True
    moves = (entry.move for entry in shop.history.latest_of_part(part.id))
    return any(move.source.state is State.INSTALLED and move.target.where != HANDED_OVER for move in moves)


def all_joints(shop: Shop, builds: Iterable[int | None] | None = None) -> Iterator[JointAt]:
    """Yield the joints of what is on vehicles.

    Args:
        shop: The shop.
        builds: Ids of the vehicles; None for all that are not finished.

    """
    day = today(shop)
    for part in parts_with_joints(shop, builds):
        yield from _kept(shop, part, day)


def parts_with_joints(shop: Shop, builds: Iterable[int | None] | None = None) -> Iterator[Part]:
    """Yield the parts of vehicles that have joints; `builds` as in `all_joints`."""
    wanted = set(unfinished(shop) if builds is None else builds)
    # Most parts have no joint: those need not become records.
    documents = shop.database.documents("parts")
    for number in [each for each, document in documents.items() if "joints" in document]:
        part = shop.parts.get(number)
        if part.build in wanted and not part.withdrawn:
            yield part


def unfinished(shop: Shop) -> tuple[int | None, ...]:
    """Return the ids of the vehicles that are not finished, and None for what belongs to none."""
    return (None, *(build.id for build in shop.builds.all() if build.status == "open"))


def open_words(shop: Shop, part: Part, position: str) -> str:
    """Return which joints of a part are open at a position and why, empty if none is."""
    told = [
        f"{each.joint.name}: {each.standing.why}"
        for each in joints_of(shop, part)
        if each.is_open and each.position in (position, "")
    ]
    return "; ".join(told)


def _counting(shop: Shop, part: Part) -> dict[tuple[str, str], list[Reading]]:
    """Return joint and position to the readings there that were not struck out, oldest first."""
    found: dict[tuple[str, str], list[Reading]] = {}
    for row in shop.readings.of_part(part.id):
        if shop.readings.struck_by(row.id) is None:
            found.setdefault((row.joint, row.position), []).append(row)
    return found


def _standing(
    shop: Shop,
    part: Part,
    build: Build | None,
    joint: Joint,
    position: str,
    pieces: int,
    rows: Sequence[Reading],
    day: date,
) -> JointAt:
    tally = Tally(shop, joint, build)
    if rows:
        off = loosened(shop, part, joint, position, rows[0].transaction)
        for transaction, row in sorted(
            [*((each.transaction, each) for each in rows), *((each, None) for each in off)],
            key=lambda pair: (pair[0], pair[1].id if pair[1] else 0),
        ):
            tally.take(transaction, row)
    stands = tally.standing(joint.fasteners * pieces, day)
    counted, outside = tuple(tally.counted), tuple(tally.outside)
    return JointAt(part, joint, position, pieces, stands, counted, tally.second, outside, build)


def readings_at(shop: Shop, each: JointAt) -> tuple[Reading, ...]:
    """Return all that was ever stated of a joint there, oldest first; what no longer counts too."""
    return tuple(
        row
        for row in shop.readings.of_part(each.part.id)
        if (row.joint, row.position) == (each.joint.name, each.position)
    )


def joint_now(shop: Shop, each: JointAt) -> JointAt | None:
    """Return a joint as it stands now, None if it is there no more; ask before writing of it."""
    part = shop.parts.get(each.part.id)
    now = (other for other in joints_of(shop, part, each.position) if other.joint.name == each.joint.name)
    return next(now, None)


def day_of(shop: Shop, reading: Reading) -> date:
    """Return the day of a reading."""
    return shop.history.transaction(reading.transaction).when.astimezone().date()

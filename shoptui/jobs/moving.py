"""What speaks against moving a vehicle in a shot, mocked up or not tightened; a person decides."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from shoptui.domain.carriers import standing
from shoptui.domain.cautions import moves_by
from shoptui.domain.places import Place, State
from shoptui.domain.records import Part
from shoptui.domain.shoots import Shot
from shoptui.jobs.joint_words import joint_name, stands_words
from shoptui.jobs.joints import JointAt, all_joints
from shoptui.jobs.place_words import place_words
from shoptui.store.shop import Shop

DECIDES = "the person in charge"


@dataclass(frozen=True, slots=True)
class Against:
    """What speaks against moving a vehicle in a shot: pieces mocked up on it, or a joint that is open or due.

    Args:
        part: The part.
        number: Number of the shot in its day, 1 first.
        shot: The shot.
        place: Where the part is.
        qty: Pieces of the part there.
        where: That place in words; of a joint its name and position.
        stands: Why a joint, a check or a re-check is open or due; empty for what is mocked up.

    """

    part: Part
    number: int
    shot: Shot
    place: Place
    qty: int
    where: str
    stands: str = ""

    @property
    def state(self) -> State:
        """State of the ledger."""
        return self.place.state

    @property
    def needs(self) -> str:
        """What a shot needs in which the vehicle moves."""
        return "torque done" if self.stands else "nothing mocked up"

    @property
    def found(self) -> str:
        """Where it is, and how a joint stands."""
        return f"{self.where}, {self.stands}" if self.stands else self.where

    @property
    def why(self) -> str:
        """Why it is listed, in words."""
        return f"{self.found}, and the vehicle moves"

    @property
    def act(self) -> str:
        """Who acts next, and what."""
        if self.stands:
            return f"{DECIDES}: have it tightened or checked, or decide that it may move"
        return f"{DECIDES}: have it taken down, or decide that it may stay"


class Loose:
    """The joints, checks and re-checks that are open of what a vehicle moves by: for who asks of many shots.

    Of brakes, steering, suspension and wheels: by the words of a part's section and description.
    """

    def __init__(self, shop: Shop) -> None:
        self._shop = shop
        self._moves = cache(moves_by)
        self._found: dict[frozenset[int | None], tuple[JointAt, ...]] = {}

    def of(self, shot: Shot) -> tuple[JointAt, ...]:
        """Return those of the vehicles of a shot."""
        builds = frozenset(_builds(self._shop, shot))
        if builds not in self._found:
            self._found[builds] = tuple(
                each
                for each in all_joints(self._shop, builds)
                if each.needs_somebody and self._moves(each.part.section, each.part.description)
            )
        return self._found[builds]


def not_tight(loose: Loose, number: int, shot: Shot) -> tuple[Against, ...]:
    """Return what is open where the vehicle moves."""
    if not shot.moves:
        return ()
    return tuple(
        Against(
            each.part,
            number,
            shot,
            Place(State.INSTALLED, each.position),
            each.pieces,
            joint_name(each),
            stands_words(each),
        )
        for each in loose.of(shot)
    )


def on_trial(shop: Shop, number: int, shot: Shot) -> tuple[Against, ...]:
    """Return what is mocked up on the vehicles of a shot in which they move; empty if they do not.

    What is built into something that is mocked up is mocked up as well. The vehicles are those whose parts
    the shot needs; a shot that needs none means every vehicle that is not finished.
    """
    if not shot.moves:
        return ()
    builds = _builds(shop, shot)
    found = []
    for part in sorted(set(_on_or_in(shop))):
        record = shop.parts.get(part)
        if record.build not in builds or record.withdrawn:
            continue
        for place, qty in standing(shop.book, part):
            if place.state is State.MOCKED_UP and qty > 0:
                found.append(Against(record, number, shot, place, qty, place_words(shop, place)))
    return tuple(found)


def _builds(shop: Shop, shot: Shot) -> set[int | None]:
    named = {
        shop.parts.get(need.part).build if need.part is not None else need.build
        for need in shot.needs
        if need.part is None or need.part in shop.database.documents("parts")
    }
    return (named - {None}) or {build.id for build in shop.builds.all() if build.status == "open"}


def _on_or_in(shop: Shop) -> Iterator[int]:
    """Yield the parts that are mocked up, and those that are built into one of them."""
    ahead = list(shop.book.parts_in(State.MOCKED_UP))
    seen = set(ahead)
    while ahead:
        part = ahead.pop()
        yield part
        inside = [each for each in shop.book.parts_at(State.ASSEMBLED, part) if each not in seen]
        seen.update(inside)
        ahead.extend(inside)

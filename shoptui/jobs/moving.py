"""What speaks against moving a vehicle in a shot, mocked up or not tightened; a person decides."""

from collections.abc import Iterator
from functools import cache

from shoptui.domain.carriers import standing
from shoptui.domain.cautions import moves_by
from shoptui.domain.places import Place, State
from shoptui.domain.shoots import Shot
from shoptui.jobs.against import Against, Why
from shoptui.jobs.joint_words import joint_name, stands_words
from shoptui.jobs.joints import JointAt, all_joints
from shoptui.jobs.place_words import place_words
from shoptui.store.shop import Shop


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
            Why.NOT_TIGHT,
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
                found.append(
                    Against(record, number, shot, place, qty, place_words(shop, place), Why.MOCKED_UP)
                )
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

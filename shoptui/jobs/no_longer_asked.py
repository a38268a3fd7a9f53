"""Readings of joints that their part has no more: asked about before it loses one, and kept in the record."""

from collections.abc import Collection, Iterable, Iterator
from datetime import date

from shoptui.domain.fasteners.rechecks import Standing
from shoptui.domain.inert import inert
from shoptui.domain.records import Build, Joint, Part
from shoptui.jobs.asked import Sense
from shoptui.jobs.joint_words import NO_LONGER
from shoptui.jobs.joints import JointAt, spots
from shoptui.jobs.on_leaving import as_they_left
from shoptui.jobs.record_form import Ask, Following
from shoptui.store.shop import Shop

_STANDS = "readings stand"


def readings_left(sense: Sense, before: Part, after: Part, said: Collection[str]) -> Ask | Following:
    """Ask before readings lose their joint, which they find by its name; a new name is another joint.

    Args:
        sense: Where it is typed.
        before: The part as it is.
        after: As it is to be.
        said: What was answered before.

    """
    rows = sense.shop.readings.of_part(before.id)
    lost = {joint.name for joint in before.joints} - {joint.name for joint in after.joints}
    counted = {name: sum(row.joint == name for row in rows) for name in sorted(lost)}
    told = [f"{inert(name)} has {some} reading{'s' * (some != 1)}" for name, some in counted.items() if some]
    if not told or _STANDS in said:
        return Following()
    return Ask(
        f"{', '.join(told)}: a joint has what was stated under its name, and there would be none of that "
        "name any more. Its number, then Enter.",
        ((_STANDS, "do it: they count no more; the torque record still lists them"),),
    )


def no_longer_asked(shop: Shop, builds: Iterable[int | None]) -> Iterator[JointAt]:
    """Yield what has readings and is no joint any more of a part that is on, or left with its vehicle.

    It has no pieces, and is not open.
    """
    wanted = set(builds)
    documents = shop.database.documents("readings")
    for number in sorted({row["part"] for row in documents.values()}):
        part = shop.parts.get(number)
        if part.build not in wanted:
            continue
        if not part.withdrawn and spots(shop, part):
            build = None if part.build is None else shop.builds.get(part.build)
            yield from _nameless(shop, part, build)
        for then, build, _, day in as_they_left(shop, [number]):
            yield from _nameless(shop, then, build, day)


def _nameless(shop: Shop, part: Part, build: Build | None, left: date | None = None) -> Iterator[JointAt]:
    names = {joint.name for joint in part.joints}
    rows = shop.readings.of_part(part.id)
    for name, position in dict.fromkeys((row.joint, row.position) for row in rows):
        if name not in names:
            stands = Standing(is_open=False, why=NO_LONGER)
            yield JointAt(part, Joint(name, 0), position, 0, stands, build=build, handed_over=left)

"""Checks of the filming days: what no day's work can bring about, and what nobody will see."""

from collections.abc import Iterator

from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.problems import Problem
from shoptui.domain.readiness import pieces_needed
from shoptui.domain.records import Part
from shoptui.domain.shoots import Condition, Need, shot_words
from shoptui.jobs.at import name_and_code, shown
from shoptui.jobs.needs import asked
from shoptui.jobs.place_words import today
from shoptui.store.shop import Shop


def shots(shop: Shop) -> Iterator[Problem]:
    """Find shots that need the same pieces in two conditions at once."""
    for shoot in shop.shoots.all():
        for number, shot in enumerate(shoot.shots, 1):
            for part, one, other in contradictions(shop, shot.needs):
                what = f"shot {number} needs {shown(part.code)} both {one.value} and {other.value}"
                remedy = "Make two shots of it, or correct what it needs."
                yield Problem(f"filming day {inert(shoot.code)}", what, remedy)


def days(shop: Shop) -> Iterator[Problem]:
    """Find filming days that are past with shots not filmed, and days without a shot."""
    now = today(shop)
    for shoot in shop.shoots.all():
        where = f"filming day {inert(shoot.code)}"
        left = [shot_words(number, shot) for number, shot in enumerate(shoot.shots, 1) if not shot.filmed]
        if not shoot.shots:
            yield Problem(where, "it has no shots", "Write down its shots, or what they need.")
        elif left and shoot.date < now:
            what = f"{day_words(shoot.date, now)} is past, and {', '.join(left)} not marked filmed"
            yield Problem(where, what, "Mark what was filmed; move the rest to another day.")


def sponsored(shop: Shop) -> Iterator[Problem]:
    """Find sponsors' parts that no shot shows."""
    for part in unseen(shop):
        what = "a sponsor wants it seen, and no shot needs it"
        yield Problem(f"part {shown(part.code)}", what, "Put it into a shot.")


def unseen(shop: Shop) -> Iterator[Part]:
    """Yield the sponsors' parts of unfinished builds that no shot needs; none while there are no shots."""
    documents = shop.database.documents("parts")
    # Most parts are no sponsor's, and most shops have none: what shots need is not worked out for those.
    wanted = [number for number, document in documents.items() if document.get("sponsor")]
    needs = [need for shoot in shop.shoots.all() for shot in shoot.shots for need in shot.needs]
    if not wanted or not needs:
        return
    seen = {need.part for need in needs} | {
        part.id for need in needs if need.part is not None for part, _ in asked(shop, need)
    }
    sections = {(need.build, need.section.casefold()) for need in needs if need.part is None}
    running = {build.id for build in shop.builds.all() if build.status == "open"}
    for part in map(shop.parts.get, wanted):
        section = (part.build, part.section.casefold())
        if part.build in running and not part.withdrawn and part.id not in seen and section not in sections:
            yield part


def contradiction_words(shop: Shop, needs: tuple[Need, ...]) -> tuple[str, ...]:
    """Return what cannot be in one shot: `Hub (H-1) cannot be both sealed and installed`."""
    return tuple(
        f"{name_and_code(part)} cannot be both {one.value} and {other.value}"
        for part, one, other in contradictions(shop, needs)
    )


def contradictions(shop: Shop, needs: tuple[Need, ...]) -> Iterator[tuple[Part, Condition, Condition]]:
    """Yield parts of which the pieces needed in two conditions are more than the line has."""
    of_part: dict[int, dict[Condition, int]] = {}
    for need in needs:
        for part, asks in asked(shop, need):
            wants = pieces_needed(asks, part, shop.book.places(part.id))
            conditions = of_part.setdefault(part.id, {})
            conditions[need.condition] = max(wants, conditions.get(need.condition, 0))
    for number, conditions in of_part.items():
        part = shop.parts.get(number)
        every = pieces_needed(Need(Condition.ON_HAND, part=number), part, shop.book.places(number))
        found = list(conditions)
        for place, one in enumerate(found):
            for other in found[place + 1 :]:
                both = conditions[one] + conditions[other]
                if not _go_together(one, other) and both > every:
                    yield part, one, other


_AS_IS = {Condition.SEALED, Condition.BEFORE_WORK, Condition.ON_HAND}
_FITTED = {Condition.INSTALLED, Condition.TORQUE_DONE}
_TOGETHER = (
    _AS_IS,
    _FITTED,
    {Condition.BACK_FROM_WORK, *_FITTED},
    {Condition.BACK_FROM_WORK, Condition.ON_HAND},
    {Condition.BACK_FROM_WORK, Condition.MOCKED_UP},
    {Condition.BACK_FROM_WORK, Condition.REMOVED},
    {Condition.BEFORE_WORK, Condition.MOCKED_UP},
    {Condition.BEFORE_WORK, Condition.REMOVED},
    {Condition.ON_HAND, Condition.REMOVED},
    {Condition.STILL_IN_PLACE, *_FITTED},
)


def _go_together(one: Condition, other: Condition) -> bool:
    return any({one, other} <= each for each in _TOGETHER)

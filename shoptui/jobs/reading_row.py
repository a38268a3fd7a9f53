"""A row of the readings: what is stated of a joint now, by whom, at which reading of the odometer."""

from shoptui.domain.inert import inert
from shoptui.domain.records import Part, Person, Reading, What
from shoptui.jobs.at import At
from shoptui.jobs.joints import JointAt


def at_part(part: Part) -> str:
    """Return a part as the words of a transaction name it."""
    return inert(part.description) or inert(part.code)


def row(at: At, each: JointAt, what: What, person: Person | None, note: str = "") -> Reading:
    """Return what is stated of a joint now, by whom, at which reading of the odometer."""
    build = None if each.part.build is None else at.shop.builds.get(each.part.build)
    return Reading(
        0,
        what,
        each.part.id,
        each.joint.name,
        each.position,
        who=person.id if person else None,
        odometer=build.odometer if build else None,
        odometer_unit=build.odometer_unit if build and build.odometer is not None else "",
        sheet_says=each.joint.sheet_says,
        note=note,
    )

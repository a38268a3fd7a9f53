"""What is next on a vehicle when the joints of one part are done: at the same corner first."""

from collections.abc import Sequence

from shoptui.domain.records import Part
from shoptui.jobs.at import At, name
from shoptui.jobs.joint_words import joint_name, stands_words
from shoptui.jobs.joints import JointAt, all_joints


def left_over(at: At, part: Part, position: str = "") -> tuple[JointAt, ...]:
    """Return the joints of a part's vehicle that are open or due, those at one position first."""
    if part.build is None:
        return ()
    left = [each for each in all_joints(at.shop, [part.build]) if each.needs_somebody]
    return tuple(sorted(left, key=lambda each: (each.position != position, each.part.id != part.id)))


def left_words(left: Sequence[JointAt], position: str = "") -> str:
    """Say what is next on the vehicle, and that nothing is where that is so."""
    if not left:
        return "No joint of the vehicle wants anybody now."
    told = f"{of_part(left[0])}, {stands_words(left[0])}"
    there = [each for each in left if each.position == position]
    if position and there:
        rest = f", and {len(there) - 1} more there" if len(there) > 1 else ""
        return f"Next at {position}: {told}{rest}."
    nothing = f"Nothing more at {position}. " if position else ""
    rest = f", and {len(left) - 1} more" if len(left) > 1 else ""
    return f"{nothing}Next on the vehicle: {told}{rest}."


def of_part(each: JointAt) -> str:
    """Return a joint with its part: `Wheel nuts at LF of Wheel`."""
    return f"{joint_name(each)} of {name(each.part)}"

"""What is asked about a joint before it is taken: a value that is far off, an engagement that is short."""

from shoptui.domain.fasteners.far_off import MISREAD, far_off
from shoptui.domain.fasteners.hardware import read_designation
from shoptui.domain.inert import inert
from shoptui.domain.joint_engagement import engagement_doubt
from shoptui.domain.joint_sheets import asked_or_none
from shoptui.domain.records import Joint


def value_doubt(joint: Joint) -> str:
    """Say that a sheet's value is far from what its bolts are given; no full stop, empty if it is not.

    >>> value_doubt(Joint("studs", 4, "M14 10.9", value="9 N m"))
    '9 N m is less than a tenth of what M14 - 10.9 is usually given'
    """
    asked = asked_or_none(joint) if joint.value else None
    if asked is None:
        return ""
    return far_off(asked.value, read_designation(joint.designation), turned=asked.by_angle)


def joint_doubt(joint: Joint) -> str:
    """Say all that is to be asked about a joint, empty if nothing is."""
    value = value_doubt(joint)
    told = (f"{inert(joint.name)}: {value}. {MISREAD}" if value else "", engagement_doubt(joint))
    return " ".join(filter(None, told))

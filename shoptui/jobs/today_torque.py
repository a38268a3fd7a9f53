"""What needs somebody with a torque wrench: joints that are open or due again."""

from collections.abc import Iterator

from shoptui.domain.inert import inert
from shoptui.jobs.at import name_and_code
from shoptui.jobs.joint_words import joint_name, stands_words
from shoptui.jobs.joints import JointAt, all_joints
from shoptui.jobs.today_line import URGENT, WARNING, TodayLine
from shoptui.store.shop import Shop


def torque_lines(shop: Shop) -> Iterator[TodayLine]:
    """Yield a line for each joint of a part that is on, with all positions where it is open, or due again."""
    found: dict[tuple[int, bool, str], list[JointAt]] = {}
    for each in all_joints(shop):
        if each.needs_somebody:
            found.setdefault((each.part.id, not each.is_open, each.joint.name), []).append(each)
    for (number, due, _), joints in found.items():
        kind, mark = ("check again", URGENT) if due else ("torque", WARNING)
        yield TodayLine(kind, _words(joints), "lift", number, mark)


def _words(joints: list[JointAt]) -> str:
    """Return one joint with all its positions, and how it stands at any of them.

    So `Wheel (WH): Wheel nuts at LF RF LR RR, to be checked again, 50 km over`.
    """
    first, *others = joints
    where = "".join(f" {inert(each.position)}" for each in others)
    stands = "; ".join(dict.fromkeys(map(stands_words, joints)))
    return f"{name_and_code(first.part)}: {joint_name(first)}{where}, {stands}"

"""What needs somebody with a torque wrench: joints that are open or due again, and the tools themselves."""

from collections.abc import Iterator
from datetime import date
from itertools import groupby

from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.records import Wrench
from shoptui.domain.wrenches import next_check
from shoptui.jobs.at import name_and_code
from shoptui.jobs.joint_words import joint_name, stands_words
from shoptui.jobs.joints import JointAt, all_joints
from shoptui.jobs.today_line import NOTE, SOON, URGENT, WARNING, TodayLine
from shoptui.jobs.wrench_words import why_not_now
from shoptui.store.shop import Shop


def torque_lines(shop: Shop) -> Iterator[TodayLine]:
    """Yield one line for each part that is on with a joint open or due to be checked again."""
    waiting = (each for each in all_joints(shop) if each.needs_somebody)
    for number, joints in groupby(waiting, key=lambda each: each.part.id):
        found = list(joints)
        due = [each for each in found if not each.is_open]
        for kind, mark, some in (
            ("torque", WARNING, [each for each in found if each.is_open]),
            ("check again", URGENT, due),
        ):
            if some:
                yield TodayLine(kind, _words(some), "lift", number, mark)


def _words(joints: list[JointAt]) -> str:
    told = "; ".join(f"{joint_name(each)}, {stands_words(each)}" for each in joints)
    return f"{name_and_code(joints[0].part)}: {told}"


def wrench_lines(shop: Shop, day: date) -> Iterator[TodayLine]:
    """Yield the torque tools that may not be used, and those that are to be checked soon."""
    for wrench in shop.wrenches.all():
        words = _wrench(shop, wrench, day)
        if words:
            mark = WARNING if wrench.barred or why_not_now(shop, wrench) else NOTE
            called = inert(wrench.name or wrench.code)
            yield TodayLine("wrench", f"{called} ({inert(wrench.code)}): {words}", "setup", 0, mark)


def _wrench(shop: Shop, wrench: Wrench, day: date) -> str:
    if why := why_not_now(shop, wrench):
        return inert(why)
    due = next_check(wrench)
    return f"to be checked by {day_words(due, day)}" if due is not None and due <= day + SOON else ""

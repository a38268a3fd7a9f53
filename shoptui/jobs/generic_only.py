"""Joints that a shot needs done, and that are done to a handbook's value alone: never to a specification."""

from itertools import groupby

from shoptui.domain.fasteners.torque import GENERIC
from shoptui.domain.inert import inert
from shoptui.domain.places import Place, State
from shoptui.domain.shoots import Condition, Shot
from shoptui.jobs.against import Against, Why
from shoptui.jobs.joint_words import is_generic
from shoptui.jobs.joints import joints_of
from shoptui.jobs.needs import asked
from shoptui.store.shop import Shop


def generic_only(shop: Shop, number: int, shot: Shot) -> tuple[Against, ...]:
    """Return the joints of what a shot needs with torque done, one for each with all its positions."""
    found = []
    wanted = (need for need in shot.needs if need.condition is Condition.TORQUE_DONE)
    for part in {part.id: part for need in wanted for part, _ in asked(shop, need)}.values():
        joints = [each for each in joints_of(shop, part) if not each.is_open and is_generic(each.joint)]
        joints.sort(key=lambda each: each.joint.name)
        for name, same in groupby(joints, key=lambda each: each.joint.name):
            spots = list(same)
            at = ", ".join(inert(each.position) for each in spots if each.position)
            place = Place(State.INSTALLED, spots[0].position)
            where = f"{inert(name)} at {at}" if at else inert(name)
            qty = sum(each.pieces for each in spots)
            found.append(Against(part, number, shot, place, qty, where, Why.GENERIC, f"done, {GENERIC}"))
    return tuple(found)

"""Checks of hardware: what nothing takes, what does not fit the joints of its part, what is on no vehicle."""

from collections import Counter
from collections.abc import Iterator

from shoptui.domain.fasteners.hardware import thread_of
from shoptui.domain.inert import inert
from shoptui.domain.places import State
from shoptui.domain.problems import Problem
from shoptui.domain.records import Joint, Part
from shoptui.jobs.at import name, name_and_code, shown
from shoptui.jobs.fastened import FASTENED
from shoptui.jobs.hardware import all_kinds
from shoptui.store.shop import Shop


def unused_hardware(shop: Shop) -> Iterator[Problem]:
    """Find kinds that no part takes and that nobody wants kept."""
    taken = {line.part for part in _parts(shop) for line in part.hardware}
    for part in all_kinds(shop):
        if part.id not in taken and not part.minimum:
            what = f"no part takes {inert(part.words)}, and no minimum says that it is kept"
            remedy = "Name it in the form of the part that it fastens, or give it a minimum."
            yield Problem(f"hardware {shown(part.code)}", what, remedy)


def hardware_of_joints(shop: Shop) -> Iterator[Problem]:
    """Find parts whose hardware has another thread than their joints, another count, or may be used again."""
    for part in _parts(shop):
        kinds = [(shop.parts.get(line.part), line.qty) for line in part.hardware]
        threaded = [
            (kind, str(thread_of(kind.designation)), qty) for kind, qty in kinds if _is_threaded(kind)
        ]
        for thread, joints in _by_thread(part).items() if threaded else ():
            same = [(kind, qty) for kind, own, qty in threaded if own == thread]
            where = f"part {shown(part.code)}"
            if not same:
                has = ", ".join(dict.fromkeys(own for _, own, _ in threaded))
                what = f"{_named(joints)} has the thread {thread}, and its hardware has {has}"
                yield Problem(where, what, "Correct the joint by its sheet, or the hardware.")
                continue
            yield from _count(where, thread, joints, same)


def _count(where: str, thread: str, joints: list[Joint], same: list[tuple[Part, int]]) -> Iterator[Problem]:
    """Find too few for joints of one thread, and ones that stay although a sheet wants new ones."""
    wanted, most = sum(joint.fasteners for joint in joints), max(qty for _, qty in same)
    if most < wanted:
        what = f"{_named(joints)} takes {wanted} of {thread}, and its hardware has {most}"
        yield Problem(where, what, "Correct how many one piece takes.")
    kept = [kind for kind, _ in same if not kind.one_use]
    if kept and any(joint.one_use for joint in joints):
        what = f"{_named(joints)} takes new ones each time, and {name_and_code(kept[0])} is not for one use"
        yield Problem(where, what, "Say so in the form of that hardware, or have another kind.")


def _by_thread(part: Part) -> dict[str, list[Joint]]:
    found: dict[str, list[Joint]] = {}
    for joint in part.joints:
        if joint.fasteners and (thread := thread_of(joint.designation)):
            found.setdefault(str(thread), []).append(joint)
    return found


def _is_threaded(kind: Part) -> bool:
    return thread_of(kind.designation) is not None


def _named(joints: list[Joint]) -> str:
    return " and ".join(f"the joint {inert(joint.name)}" for joint in joints)


def hardware_on_nothing(shop: Shop) -> Iterator[Problem]:
    """Find hardware that is booked on a part of which none is on a vehicle or built into another part."""
    on: Counter[int] = Counter()
    for number in sorted(shop.book.parts_in(State.INSTALLED)):
        for place, qty in shop.book.places(number, State.INSTALLED):
            if isinstance(place.where, int) and place.where in shop.database.documents("parts"):
                on[place.where] += qty
    for number, qty in on.items():
        if shop.book.in_state(number, *FASTENED) <= 0:
            part = shop.parts.get(number)
            what = f"{qty} pieces of hardware are booked on {name(part)}, which is neither on nor built in"
            yield Problem(f"part {shown(part.code)}", what, "Count the drawers that they may lie in.")


def _parts(shop: Shop) -> Iterator[Part]:
    """Yield the parts that some hardware fastens; of thousands only those are made records."""
    for number, document in shop.database.documents("parts").items():
        if document.get("hardware") and not document.get("withdrawn"):
            yield shop.parts.get(number)

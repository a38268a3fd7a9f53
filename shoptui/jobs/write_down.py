"""What was stated of a joint is written down: in one transaction, one row for each value."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from decimal import Decimal

from shoptui.domain.fasteners.sheet_values import DEGREES
from shoptui.domain.joint_sheets import Asked
from shoptui.domain.records import Reading, What, Wrench
from shoptui.domain.wrenches import may_deviate
from shoptui.jobs.answers import Answer
from shoptui.jobs.at import At
from shoptui.jobs.joint_words import joint_name
from shoptui.jobs.joints import JointAt, joint_now
from shoptui.jobs.reading_row import at_part, row
from shoptui.jobs.renew import new_words, renewed
from shoptui.jobs.stated import Stated, doubts


@dataclass(frozen=True, slots=True)
class Task:
    """One joint that is being tightened.

    Args:
        each: The joint, as it stood when it was asked about.
        asked: What its sheet asks for.
        wrench: The tool in hand, None for none.
        then: What comes after it, given what is said before.
        again: Asks for the same joint once more, given why nothing was written down.
        at_tool: What the tool is set to with an extension, in its own unit; None without one.

    """

    each: JointAt
    asked: Asked
    wrench: Wrench | None
    then: Callable[[str], Answer]
    again: Callable[[str], Answer]
    at_tool: Decimal | None = None

    @property
    def deviation(self) -> float:
        """What the tool in hand may deviate, in per cent; 0 without one."""
        return may_deviate(self.wrench) if self.wrench else 0.0


def written(at: At, task: Task, said: Stated, expected: str) -> Answer:
    """Write it down in one transaction, unless somebody else did meanwhile."""
    each = task.each
    with at.doing() as tx:
        now = joint_now(at.shop, each)
        if now is None or now.joint != each.joint or now.left < said.count:
            return task.then("This joint was changed or done meanwhile; nothing was written down.")
        tx.say(f"{_words(said)}: {joint_name(each)} of {at_part(each.part)}")
        tx.enter(renewed(at.shop, now, said.count))
        for reading in _readings(at, task, said, expected):
            tx.state(reading)
    return task.then(f"{joint_name(each)}: {_words(said)}.")


def _words(said: Stated) -> str:
    values = ", ".join(f"{value:f}" for value in said.values)
    return f"{said.count} {said.how.value} to {values} {said.unit}".replace("measured to", "read as")


def _before_last(asked: Asked) -> str:
    """Return the torque and the angles before the one that is read."""
    return " + ".join(map(str, (asked.value, *asked.angles[:-1])))


def _readings(at: At, task: Task, said: Stated, expected: str) -> Iterator[Reading]:
    """Yield one row for a statement about all of them, one for each value where each has its own.

    What was asked about a value stands beside that value alone.
    """
    person, wrench = at.person, task.wrench
    notes = (*said.notes, f"after {_before_last(task.asked)}") if said.unit == DEGREES else said.notes
    left = said.new or 0
    counts = [said.count] if len(said.values) == 1 else [1] * len(said.values)
    for value, count in zip(said.values, counts, strict=True):
        new = min(count, left)
        left -= new
        fresh = () if said.new is None else new_words(new, count - new)
        own = doubts(replace(said, values=(value,)), task.asked, expected, task.deviation)
        yield replace(
            row(at, task.each, What.TIGHTENED, person, "; ".join((*notes, *fresh, *own))),
            fasteners=count,
            value=f"{value:f}",
            unit=said.unit,
            how=said.how,
            wrench=wrench.id if wrench else None,
            deviation_percent=task.deviation if wrench else None,
            checked=wrench.checked if wrench else None,
        )

"""A statement about a joint on its way into the readings: what is asked about first, then written down."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from decimal import Decimal

from shoptui.domain.fasteners.sheet_values import DEGREES
from shoptui.domain.fasteners.units import Unit
from shoptui.domain.inert import inert
from shoptui.domain.joint_sheets import Asked
from shoptui.domain.records import How, Reading, What, Wrench
from shoptui.domain.wrenches import may_deviate, why_unsuited
from shoptui.jobs.answers import Answer, Choice, Question, Said
from shoptui.jobs.at import At
from shoptui.jobs.joint_words import joint_name
from shoptui.jobs.joints import JointAt, joint_now
from shoptui.jobs.reading_row import at_part, row
from shoptui.jobs.renew import new_ones_booked, new_words, renewed
from shoptui.jobs.stated import COUNT, Stated, doubts, outside, stated
from shoptui.jobs.wrench_words import in_hand, why_not_now

REASON = "why it is used"


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


def write(at: At, task: Task, said: Stated, expected: str = "") -> Answer:
    """Write a statement down, when all that there is to ask about it has been answered.

    Args:
        at: Where it is said.
        task: The joint.
        said: What was stated.
        expected: Unit that was expected; empty where the statement is the sheet's own value.

    """
    for ask in (_who_and_what_with, _tool, _is_read, _values, _how_many, _new_ones):
        if (answer := ask(at, task, said, expected or said.unit)) is not None:
            return answer
    return _written(at, task, said, expected or said.unit)


def may_be_at_once(each: JointAt, asked: Asked) -> bool:
    """Return whether one statement may stand for all fasteners of a joint."""
    return not (asked.by_angle or each.joint.one_use or each.joint.second_check)


def _question(task: Task, words: str, question: Question) -> Answer:
    part = task.each.part
    return Answer(
        Said.QUESTION,
        f"{joint_name(task.each)}: {words}",
        part=part.code,
        qty=task.each.pieces,
        show="lift",
        subject=part.id,
        card="tighten",
        where=task.each.position,
        joint=task.each.joint.name,
        question=question,
    )


def _agreed(said: Stated, key: str, note: str = "") -> Stated:
    notes = (*said.notes, note) if note else said.notes
    return replace(said, agreed=said.agreed | {key}, notes=notes)


def _who_and_what_with(at: At, task: Task, said: Stated, expected: str) -> Answer | None:
    """Ask who it is and what with; where a second person checks it, a name is needed."""
    if "unnamed" in said.agreed:
        return None
    nobody = at.person is None and any(True for _ in at.shop.people.all())
    toolless = task.wrench is None
    if not (nobody or toolless):
        return None
    wanted = " and ".join(filter(None, ("your badge" if nobody else "", "the wrench" if toolless else "")))

    def take(text: str) -> Answer | None:
        if in_hand(at, text) is None:
            return None
        return write(at, replace(task, wrench=at.wrench), said, expected)

    needed = nobody and task.each.joint.second_check
    without = Choice(
        f"write it down without {wanted}", lambda: write(at, task, _agreed(said, "unnamed"), expected)
    )
    why = " A name is needed: somebody else has to check it." if needed else ""
    choices = () if needed else (without,)
    return _question(task, f"Scan {wanted}.{why}", Question(choices=choices, accepts=take))


def _tool(at: At, task: Task, said: Stated, expected: str) -> Answer | None:
    """Ask why a tool is used that does not suit, or that is past its date; a barred one is never used."""
    wrench = task.wrench
    if wrench is None or REASON in said.agreed:
        return None
    wrench = at.shop.wrenches.get(wrench.id)
    called = inert(wrench.code)
    if wrench.barred:
        return _refused(at, task, f"{called} is barred ({inert(wrench.barred)})")
    why = why_not_now(at.shop, wrench)
    if not why and not task.asked.by_angle and task.asked.target is not None:
        lever = task.at_tool is not None
        value = task.at_tool if task.at_tool is not None else task.asked.target
        why = why_unsuited(wrench, value, Unit(wrench.unit) if lever else task.asked.value.unit)
    if not why:
        return None
    if not at.shop.settings.any_wrench:
        return _refused(at, task, f"{called}: {why}, which the shop's settings do not allow")

    def reason(text: str) -> Answer:
        return write(at, task, _agreed(said, REASON, f"{why}; used because: {text.strip()}"), expected)

    return _question(task, f"{called}: {why}. Type why it is used all the same.", Question(words=reason))


def _refused(at: At, task: Task, why: str) -> Answer:
    """Lay the tool down and ask for the joint again, so that another tool is just scanned."""
    at.take_up(None)
    return task.again(f"{why}: nothing was written down, and no wrench is in hand.")


def _is_read(_at: At, task: Task, said: Stated, _expected: str) -> Answer | None:
    """Ask for values where the tool taken in hand is read: nobody has set it to what the sheet says."""
    wrench = task.wrench
    if wrench is None or wrench.is_set or said.how is not How.SET:
        return None
    return task.again(f"{inert(wrench.code)} is read, not set: nothing was written down.")


def _values(at: At, task: Task, said: Stated, expected: str) -> Answer | None:
    """Ask about values that are not as the sheet says; none is ever turned into another."""
    if "values" in said.agreed:
        return None
    deviation = may_deviate(task.wrench) if task.wrench else 0
    found = doubts(said, task.asked, expected, deviation)
    if not found:
        return None
    told = "; ".join(found)
    stays = "; the joint stays open" if outside(said, task.asked, deviation) else ""
    return _question(
        task,
        f"{told}. Enter: write down what was typed{stays}.",
        Question(yes=lambda: write(at, task, _agreed(said, "values"), expected)),
    )


def _how_many(at: At, task: Task, said: Stated, expected: str) -> Answer | None:
    """Ask whether one value is that of all fasteners that are left, where it may be, or of one."""
    left = task.each.left
    if COUNT in said.agreed or said.count >= left or not may_be_at_once(task.each, task.asked):
        return None
    sure = _agreed(said, COUNT)

    def each_its_own(text: str) -> Answer | None:
        typed = stated(text, left, expected, said.how)
        if isinstance(typed, str):
            return task.again(typed)
        return None if typed is None else write(at, task, replace(typed, notes=said.notes), expected)

    one = Choice("one of them, the others are still open", lambda: write(at, task, sure, expected))
    return _question(
        task,
        f"{said.values[0]:f} {said.unit} on all {left}? Enter: on all; or type each, blanks between.",
        Question(
            yes=lambda: write(at, task, replace(sure, count=left), expected),
            choices=(one,),
            accepts=each_its_own,
            words=each_its_own,
        ),
    )


def _new_ones(at: At, task: Task, said: Stated, expected: str) -> Answer | None:
    """Ask for new fasteners where they may be used once only."""
    if not task.each.joint.one_use or "new" in said.agreed:
        return None
    booked = new_ones_booked(at.shop, task.each, said.count)
    short = said.count - booked
    told = "Enter: yes, new."
    if short:
        told = f"{booked} new are booked. Enter: yes, and {short} of them not booked."
    return _question(
        task,
        f"these may be used once only. {said.count} new ones? {told}",
        Question(yes=lambda: write(at, task, replace(_agreed(said, "new"), new=booked), expected)),
    )


def _written(at: At, task: Task, said: Stated, expected: str) -> Answer:
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
    deviation = may_deviate(wrench) if wrench else 0
    left = said.new or 0
    counts = [said.count] if len(said.values) == 1 else [1] * len(said.values)
    for value, count in zip(said.values, counts, strict=True):
        new = min(count, left)
        left -= new
        fresh = () if said.new is None else new_words(new, count - new)
        own = doubts(replace(said, values=(value,)), task.asked, expected, deviation)
        yield replace(
            row(at, task.each, What.TIGHTENED, person, "; ".join((*notes, *fresh, *own))),
            fasteners=count,
            value=f"{value:f}",
            unit=said.unit,
            how=said.how,
            wrench=wrench.id if wrench else None,
            deviation_percent=deviation if wrench else None,
            checked=wrench.checked if wrench else None,
        )

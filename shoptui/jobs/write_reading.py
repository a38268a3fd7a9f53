"""A statement about a joint on its way into the readings: what is asked about first."""

from dataclasses import replace

from shoptui.domain.fasteners.units import Unit
from shoptui.domain.inert import inert
from shoptui.domain.joint_sheets import Asked
from shoptui.domain.records import How
from shoptui.domain.wrenches import why_unsuited
from shoptui.jobs.answers import Answer, Choice, Question
from shoptui.jobs.at import At
from shoptui.jobs.joint_question import ask_of_joint
from shoptui.jobs.joint_words import joint_name
from shoptui.jobs.joints import JointAt
from shoptui.jobs.renew import new_ones_booked
from shoptui.jobs.stated import COUNT, Stated, above, doubts, outside, stated
from shoptui.jobs.wrench_words import in_hand, why_not_now
from shoptui.jobs.write_down import Task, written

REASON = "why it is used"


def write(at: At, task: Task, said: Stated, expected: str = "") -> Answer:
    """Write a statement down, when all that there is to ask about it has been answered.

    Args:
        at: Where it is said.
        task: The joint.
        said: What was stated.
        expected: Unit that was expected; empty where the statement is the sheet's own value.

    """
    for ask in (_who_and_what_with, _tool, _is_read, _values, _how_many, _after_too_much, _new_ones):
        if (answer := ask(at, task, said, expected or said.unit)) is not None:
            return answer
    return written(at, task, said, expected or said.unit)


def may_be_at_once(each: JointAt, asked: Asked) -> bool:
    """Return whether one statement may stand for all fasteners of a joint."""
    return not (asked.by_angle or each.joint.one_use or each.joint.second_check)


def _question(at: At, task: Task, words: str, question: Question) -> Answer:
    """Ask about a statement; no, and a tool that is scanned, go back to its joint."""

    def or_a_tool(text: str) -> Answer | None:
        answer = question.accepts(text) if question.accepts is not None else None
        if answer is None and at.shop.wrenches.by_code(text) is not None:
            return task.again(f"Nothing was written down. {in_hand(at, text)}".strip())
        return answer

    return ask_of_joint(
        task.each,
        f"{joint_name(task.each)}: {words}",
        replace(question, accepts=or_a_tool, no=lambda: task.again("Nothing was written down."), again=False),
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
        if (words := in_hand(at, text)) is None:
            return None
        answer = write(at, replace(task, wrench=at.wrench), said, expected)
        barred = words if at.shop.wrenches.by_code(text) is not None else ""
        return replace(answer, text=f"{barred} {answer.text}".strip()) if answer.asks else answer

    needed = nobody and task.each.joint.second_check
    without = Choice(
        f"write it down without {wanted}", lambda: write(at, task, _agreed(said, "unnamed"), expected)
    )
    why = " A name is needed: somebody else has to check it." if needed else ""
    choices = () if needed else (without,)
    return _question(at, task, f"Scan {wanted}.{why}", Question(choices=choices, accepts=take))


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

    return _question(at, task, f"{called}: {why}. Type why it is used all the same.", Question(words=reason))


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
    found = doubts(said, task.asked, expected, task.deviation)
    if not found:
        return None
    told = "; ".join(found)
    if task.wrench is not None and task.wrench.unit == said.unit and task.at_tool in said.values:
        value = f"{task.asked.target:f} {task.asked.value.unit}"
        told += f". {task.at_tool} is shown at the wrench, with its extension: that is {value} at the bolt"
    stays = "; the joint stays open" if outside(said, task.asked, task.deviation) else ""
    return _question(
        at,
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
        at,
        task,
        f"{said.values[0]:f} {said.unit} on all {left}? Enter: on all; or type each, blanks between.",
        Question(
            yes=lambda: write(at, task, replace(sure, count=left), expected),
            choices=(one,),
            accepts=each_its_own,
            words=each_its_own,
        ),
    )


def _after_too_much(at: At, task: Task, said: Stated, expected: str) -> Answer | None:
    """Ask what was done to a fastener that was given too much: a wrench set lower clicks at once on it."""
    each = task.each
    much = [reading for reading in each.outside if above(reading, task.asked)]
    if not much or each.joint.one_use or "less" in said.agreed:
        return None
    within = [
        value
        for value in said.values
        if not outside(replace(said, values=(value,)), task.asked, task.deviation)
    ]
    good = len(within) if len(said.values) > 1 else said.count * len(within)
    if good <= each.left - len(much):
        return None  # these can be the others
    last = f"{inert(much[-1].value)} {inert(much[-1].unit)}"

    def after(what: str) -> Answer:
        return write(at, task, _agreed(said, "less", f"after {last}: {what}"), expected)

    return _question(
        at,
        task,
        f"it was given {last} before, which is too much. What was done to that fastener? "
        "(Mistyped: Escape, and strike it out, Ctrl+K.)",
        Question(
            choices=(
                Choice("it was loosened, and tightened anew", lambda: after("loosened first")),
                Choice("another was put in, and tightened", lambda: after("another was put in")),
            )
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
        at,
        task,
        f"these may be used once only. {said.count} new ones? {told}",
        Question(yes=lambda: write(at, task, replace(_agreed(said, "new"), new=booked), expected)),
    )

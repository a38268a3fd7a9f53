"""The joints of a part that is on, one after the other: what is to be done, and the answer to it."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from decimal import Decimal
from functools import partial

from shoptui.domain.fasteners.sheet_values import DEGREES
from shoptui.domain.inert import inert
from shoptui.domain.joint_sheets import NO_SHEET, Asked, asked_or_none
from shoptui.domain.records import How, Part, Person, Wrench
from shoptui.jobs import recheck, sign
from shoptui.jobs.accept import accept_choices
from shoptui.jobs.answers import Answer, Choice, Question, ask_on_card, done, stop
from shoptui.jobs.at import At, name
from shoptui.jobs.at_tool import at_tool, lever_notes, taken_up, tool_choices, tool_words
from shoptui.jobs.joint_question import CARD, ask_of_joint
from shoptui.jobs.joint_words import fasteners_words, joint_name, value_words
from shoptui.jobs.joints import JointAt, joint_now, joints_of, spots
from shoptui.jobs.left_over import left_over, left_words, of_part
from shoptui.jobs.loosen import LOOSEN, ask_loosen, can_be_loosened, loosen_choices
from shoptui.jobs.positions import position_of
from shoptui.jobs.read_again import Unread, ask_unread
from shoptui.jobs.stated import Stated, stated
from shoptui.jobs.write_down import Task
from shoptui.jobs.write_reading import may_be_at_once, write


def ask_joints(at: At, part: Part, _qty: int = 1) -> Answer:
    """Open the card of a part's joints, at the one asked about last, else at one that was begun."""
    if not part.joints:
        return stop(f"{name(part)} has no joints; they are written down in its form (Ctrl+E at Parts).")
    on = joints_of(at.shop, part)
    if not on:
        why = "It never came off here" if spots(at.shop, part) else "It is not on"
        words = f"{why}, so no joint of it is to be tightened."
        return stop(f"{name(part)}: {words}", part=part.code, subject=part.id)
    waiting = [each for each in on if each.needs_somebody]
    if not waiting:
        return _ask_done(at, part)
    last, corner = at.card_joint if part.id == at.card_part else ("", "")
    waiting.sort(key=lambda each: (each.position != corner, each.joint.name != last, not each.is_begun))
    return ask_joint(at, waiting[0])


def _ask_done(at: At, part: Part) -> Answer:
    """Say that nothing of a part is open; its joints can be loosened, or the vehicle's next one opened."""
    choices = loosen_choices(at, part)
    corner = next(iter(spots(at.shop, part)), "")
    if left := left_over(at, part, corner):
        choices = (Choice(f"next: {of_part(left[0])}", partial(ask_joint, at, left[0])), *choices)
    words = f"{name(part)}: every joint of it is done. {left_words(left, corner)}"
    if not choices:
        return stop(words, part=part.code, subject=part.id)
    return ask_on_card(part, CARD, f"{words} A number and Enter.", Question(choices=choices))


def ask_next(at: At, part: Part, position: str, lead: str = "") -> Answer:
    """Ask for the first joint at a position that is open, or due; say so when none is, and what is next.

    Args:
        at: Where the lift stands.
        part: The part.
        position: Where it is on.
        lead: What was done just now, said before.

    """
    part = at.shop.parts.get(part.id)
    waiting = [each for each in joints_of(at.shop, part, position) if each.needs_somebody]
    if not waiting:
        where = f" at {inert(position)}" if position else ""
        left = left_words(left_over(at, part, position), position)
        return done(
            f"{lead} All joints of {name(part)}{where} are done. {left}".strip(),
            part=part.code,
            state="installed",
            where=position,
            show="lift",
            subject=part.id,
        )
    return ask_joint(at, waiting[0], lead)


def ask_joint(at: At, each: JointAt, lead: str = "", scanned: Person | None = None) -> Answer:
    """Ask for one joint: to be read again, tightened, signed, checked by somebody else, or checked again.

    Args:
        at: Where the lift stands.
        each: The joint.
        lead: What was done just now, said before.
        scanned: Whose badge was scanned a moment ago and may have been read twice; None for nobody's.

    """
    if each.joint.read_in is not None:
        return ask_unread(at, Unread(each, partial(_card, at, each), partial(_same, at, each)), lead)
    if each.is_open and not each.only_second and each.joint.fasteners:
        return _ask_tighten(at, each, lead)
    then = partial(_then, at, each)
    if each.standing.is_due:
        words, asked = recheck.question(at, each, then)
    else:
        words, asked = sign.question(at, sign.Signing(each, then, partial(_same, at, each)), scanned)
    return _card(at, each, f"{lead} {words}", asked)


def _then(at: At, each: JointAt, lead: str) -> Answer:
    return ask_next(at, each.part, each.position, lead)


def _same(at: At, each: JointAt, lead: str, scanned: Person | None = None) -> Answer:
    """Ask for the same joint, as it stands now."""
    now = joint_now(at.shop, each)
    return _then(at, each, lead) if now is None else ask_joint(at, now, lead, scanned)


def _ask_tighten(at: At, each: JointAt, lead: str) -> Answer:
    shop, wrench = at.shop, at.wrench
    asked = asked_or_none(each.joint)
    value = value_words(shop, each.joint)
    left = "" if each.left == each.wanted and not each.outside else f"{each.standing.why}. "
    words = [f"{lead} {left}{joint_name(each)}: {fasteners_words(each.joint, each.left)}, {value}."]
    if asked is None:
        words.append("Write it down in the part's form (Ctrl+E at Parts)." if value == NO_SHEET else "")
        return _card(at, each, " ".join(words), Question())
    tool, then = at_tool(at, asked), partial(_then, at, each)
    words.append(tool_words(at, asked))
    again, set_to = partial(ask_joint, at, each), tool if isinstance(tool, Decimal) else None
    task = Task(each, asked, wrench, then, again, set_to)
    # Nobody has set what nobody can say: an extension at no tool, or one that does not fit it.
    unsaid = isinstance(tool, str) or (wrench is None and at.memory.lever is not None)
    is_read = each.outside or (wrench is not None and not wrench.is_set)
    all_set = None
    if wrench is not None and wrench.barred:
        pass
    elif not (is_read or unsaid) and asked.target is not None and may_be_at_once(each, asked):
        said = Stated((asked.target,), asked.value.unit, each.left, How.SET, lever_notes(at, asked))
        all_set = partial(write, at, task, said)
        how_many = f"all {each.left}" if each.left > 1 else "it"
        value = f"{asked.target:f} {asked.value.unit}"
        if set_to is None:
            words.append(f"Enter: {how_many}, set to {value}; or type what it was.")
        else:
            words.append(f"Enter: {how_many} set so, {value} at the bolt; or type what it was at the bolt.")
    else:
        words.append(_typing(each, asked, wrench, at))
    choices = (*accept_choices(at, each, then), *tool_choices(at, asked, again))
    if not asked.by_angle and asked.value.low <= len([*choices, *_others(at, each)]):
        words.append("Type its unit too: a number alone picks an answer.")
    return _card(
        at,
        each,
        " ".join(filter(None, words)),
        Question(
            yes=all_set,
            choices=choices,
            accepts=partial(_accepted, at, task),
            words=partial(_accepted, at, task),
        ),
    )


def _typing(each: JointAt, asked: Asked, wrench: Wrench | None, at: At) -> str:
    if asked.by_angle:
        turns = len(asked.angles)
        what = f"the last of {turns} angles" if turns > 1 else "the angle"
        what += f" of each ({asked.angles[-1]})" if each.left > 1 else f" ({asked.angles[-1]})"
    elif asked.target is None and may_be_at_once(each, asked):
        what = f"the value that was picked, in {unit_meant(at, wrench)}"
    elif at.memory.lever is not None:
        what = f"what each was tightened to at the bolt, not at the wrench, in {unit_meant(at, wrench)}"
    else:
        what = f"what each was tightened to, in {unit_meant(at, wrench)}"
    return f"Type {what}." if each.left == 1 else f"Type {what}, blanks between."


def unit_meant(at: At, wrench: Wrench | None) -> str:
    """Return the unit in which a value is meant that is typed without one: that of the tool in hand."""
    return wrench.unit if wrench is not None else at.shop.settings.units


def _accepted(at: At, task: Task, text: str) -> Answer | None:
    """Take what answers the question: a tool, a badge, a position, an extension, values."""
    each = task.each
    if (words := taken_up(at, text)) is not None:
        return ask_joint(at, each, words)
    return _there(at, each, text) or _typed(at, task, text)


def _typed(at: At, task: Task, text: str) -> Answer | None:
    """Take values that were typed, in the unit that is meant here."""
    each, wrench, by_angle = task.each, task.wrench, task.asked.by_angle
    expected = DEGREES if by_angle else unit_meant(at, wrench)
    setting = wrench is not None and wrench.is_set and not by_angle
    said = stated(text, each.left, expected, How.SET if setting else How.MEASURED)
    if said is None:
        return None
    if isinstance(said, str):
        return ask_joint(at, each, said)
    return write(at, task, replace(said, notes=lever_notes(at, task.asked)), expected)


def _card(at: At, each: JointAt, words: str, question: Question) -> Answer:
    """Return a question about a joint, with the other joints at that position to choose from."""
    return ask_of_joint(
        each,
        words.strip(),
        replace(
            question,
            # The part may be scanned to put the next one on: that must not say that this one is tight.
            again=False,
            choices=(*question.choices, *_others(at, each)),
            accepts=partial(_or_around, at, each, question.accepts),
        ),
        state="installed",
    )


def _or_around(
    at: At, each: JointAt, accepts: Callable[[str], Answer | None] | None, text: str
) -> Answer | None:
    """Take what answers the question, else a tool for what comes, or a position whose joints are meant."""
    answer = accepts(text) if accepts is not None else None
    if answer is None and (wrench := at.shop.wrenches.by_code(text)) is not None:
        # The joint stays asked about: the badge that comes next is meant for it.
        said = taken_up(at, text)
        return ask_joint(at, each, said or f"{inert(wrench.code)} is in hand.")
    return answer or _there(at, each, text)


def _there(at: At, each: JointAt, text: str) -> Answer | None:
    """Take a position at which the part is on; any other is no answer, and shows that corner."""
    position = position_of(each.part, text)
    if position is None or position.name not in spots(at.shop, each.part):
        return None
    return ask_next(at, each.part, position.name)


def _others(at: At, each: JointAt) -> Iterator[Choice]:
    for other in joints_of(at.shop, each.part, each.position):
        if other.needs_somebody and other.joint.name != each.joint.name:
            yield Choice(f"first: {inert(other.joint.name)}", partial(ask_joint, at, other))
    if can_be_loosened(at, each.part):
        yield Choice(LOOSEN, partial(ask_loosen, at, each.part))

"""Looking at a joint again: good, failed, or loosened on purpose; never tightened where that spoils it."""

from collections.abc import Callable
from dataclasses import replace
from functools import partial

from shoptui.domain.fasteners.rechecks import why_not_tightened_again
from shoptui.domain.inert import inert
from shoptui.domain.joint_sheets import asked_or_none
from shoptui.domain.records import What
from shoptui.jobs.answers import Answer, Choice, Question
from shoptui.jobs.at import At
from shoptui.jobs.at_tool import lever_line, lever_notes, taken_up, tool_choices
from shoptui.jobs.joint_question import ask_here
from shoptui.jobs.joint_words import joint_name, value_words
from shoptui.jobs.joints import JointAt, all_joints, joint_now
from shoptui.jobs.reading_row import at_part, row
from shoptui.jobs.wrench_words import why_not_now
from shoptui.store.shop import Shop

Then = Callable[[str], Answer]


def question(at: At, each: JointAt, then: Then) -> tuple[str, Question]:
    """Return what is asked of a joint that is due to be checked again."""
    asked = asked_or_none(each.joint)
    never = why_not_tightened_again(each.joint.prepared, by_angle=asked is not None and asked.by_angle)
    lever = "" if never or asked is None else lever_line(at, asked)
    with_it = ", ".join(filter(None, (value_words(at.shop, each.joint), lever)))
    how = never or f"with {with_it}, no fastener may turn"
    good = partial(ask_checked, at, each, then)
    found = partial(ask_found, at, each, then)

    def around(text: str) -> Answer | None:
        return None if (said := taken_up(at, text)) is None else then(said)

    words = f"{joint_name(each)}: {each.standing.why}"
    if not each.joint.fasteners:
        # What is signed wants more than the key of the deed before it, also when it is signed once more.
        who = "" if at.person is None else f", signed by {inert(at.person.name)}"
        choices = (Choice(f"it is still so{who}", good), Choice("it is not: open it again", found))
        return f"{words}. 1 and Enter: it is still so.", Question(choices=choices, accepts=around)
    loose = Choice("one turned, or is loose: open it again", found)
    return f"{words}; {how}. Enter: checked and good.", Question(yes=good, choices=(loose,), accepts=around)


def ask_checked(at: At, each: JointAt, then: Then, lead: str = "") -> Answer:
    """Write down that a joint is good; first ask for the wrench where it was looked at with one."""
    asked = asked_or_none(each.joint)
    good = partial(state, at, each, then, What.CHECKED)
    if asked is None or why_not_tightened_again(each.joint.prepared, by_angle=asked.by_angle):
        return good()
    if at.wrench is not None and not at.wrench.barred:
        return good()

    def taken(text: str) -> Answer | None:
        return None if (said := taken_up(at, text)) is None else ask_checked(at, each, then, said)

    return _question(
        at,
        each,
        f"{lead} scan the wrench that it was checked with.".lstrip(),
        Question(
            choices=(
                *tool_choices(at, asked, partial(ask_checked, at, each, then)),
                Choice("write it down without the wrench", good),
            ),
            accepts=taken,
        ),
    )


def ask_found(at: At, each: JointAt, then: Then) -> Answer:
    """Ask what was found where a joint failed; it is open again also where nobody types it."""
    failed = partial(state, at, each, then, What.FAILED)
    return _question(
        at,
        each,
        "type what was found, and why if it is known. Enter: it is open again, without words.",
        Question(yes=failed, words=lambda text: failed(text.strip())),
    )


def _question(at: At, each: JointAt, words: str, question: Question) -> Answer:
    return ask_here(at, each.part, f"{joint_name(each)}: {words}", question, each)


def state(at: At, each: JointAt, then: Then, what: What, note: str = "") -> Answer:
    """Write down that a joint was checked, failed, or was loosened; ask first of what is signed there."""
    if what is What.CHECKED:
        now = joint_now(at.shop, each)
        if now is None or now.is_open:
            why = f", {inert(now.standing.why)}" if now is not None else ""
            return then(f"{joint_name(each)} is open{why}: nothing was written down.")
    elif signed := _signed_beside(at.shop, each):
        told = ", ".join(joint_name(other) for other in signed)
        return _question(
            at,
            each,
            f"{told} {'is' if len(signed) == 1 else 'are'} signed. Enter: to be signed again after this.",
            Question(
                yes=partial(_written, at, each, then, what, note, signed),
                choices=(Choice("it stays signed", partial(_written, at, each, then, what, note)),),
            ),
        )
    return _written(at, each, then, what, note)


def _signed_beside(shop: Shop, each: JointAt) -> tuple[JointAt, ...]:
    """Return the signed checks of what a joint holds: of its part there, and those that hold its part."""
    if not each.joint.fasteners:
        return ()
    spot = (each.part.id, each.position)
    return tuple(
        other
        for other in all_joints(shop, [each.part.build])
        if other.counted
        and not other.joint.fasteners
        and ((other.part.id, other.position) == spot or each.part.id in other.joint.clamps)
    )


def _written(
    at: At, each: JointAt, then: Then, what: What, note: str = "", signed: tuple[JointAt, ...] = ()
) -> Answer:
    words = f"{what.value}: {joint_name(each)} of {at_part(each.part)}"
    stated = row(at, each, what, at.person, note)
    if what is What.CHECKED and each.joint.fasteners and at.wrench is not None and not at.wrench.barred:
        asked = asked_or_none(each.joint)
        notes = (why_not_now(at.shop, at.wrench), *(lever_notes(at, asked) if asked else ()))
        stated = replace(stated, wrench=at.wrench.id, note="; ".join(filter(None, notes)))
    with at.doing(f"{words}, {note}" if note else words) as tx:
        tx.state(stated)
        for other in signed:
            tx.state(row(at, other, What.LOOSENED, at.person, f"{joint_name(each)} {what}"))
    told = "".join(f"{joint_name(other)} is to be signed again. " for other in signed)
    return then(f"{told}{words[0].upper()}{words[1:]}.")

"""Accepting a reading outside the sheet: with a reason, by somebody else who may sign second checks."""

from collections.abc import Callable
from dataclasses import replace
from functools import partial

from shoptui.domain.inert import inert
from shoptui.domain.records import Person, Reading, What
from shoptui.jobs.answers import Answer, Choice, Question
from shoptui.jobs.at import At
from shoptui.jobs.joint_question import ask_of_joint
from shoptui.jobs.joint_tally import outside_words
from shoptui.jobs.joint_words import joint_name
from shoptui.jobs.joints import JointAt, joint_now
from shoptui.jobs.reading_row import at_part, row
from shoptui.jobs.wrench_words import in_hand

Then = Callable[[str], Answer]


def accept_choices(at: At, each: JointAt, then: Then) -> tuple[Choice, ...]:
    """Return the choice to accept what was read last outside the sheet; none where nothing was."""
    if not each.outside:
        return ()
    last = each.outside[-1]
    label = f"accept {inert(last.value)} {inert(last.unit)} as it is ..."
    return (Choice(label, partial(_ask_reason, at, each, last, then)),)


def _ask_reason(at: At, each: JointAt, reading: Reading, then: Then) -> Answer:
    amiss = outside_words(at.shop, each.joint, reading)
    return _question(
        each,
        f"{amiss}. Type why it is accepted all the same.",
        Question(words=lambda text: _ask_badge(at, each, reading, then, text.strip())),
    )


def _ask_badge(at: At, each: JointAt, reading: Reading, then: Then, reason: str, refused: str = "") -> Answer:
    """Ask for a badge, never that of who tightened it; a badge that may not leaves the question open."""

    def take(text: str) -> Answer | None:
        if at.shop.wrenches.by_code(text) is not None:
            return again(f"{in_hand(at, text)} ".lstrip())
        person = at.shop.people.by_code(text)
        if person is None:
            return None
        if person.id == reading.who:
            return again(f"{inert(person.name)} tightened it: ")
        if not person.second_check:
            return again(f"{inert(person.name)} may not sign that: ")
        return _accepted(at, each, reading, then, reason, person)

    again = partial(_ask_badge, at, each, reading, then, reason)
    who = "somebody" if reading.who is None else "somebody else"
    words = f"{refused}{who} who may sign second checks scans the badge."
    return _question(each, words, Question(accepts=take))


def _accepted(at: At, each: JointAt, reading: Reading, then: Then, reason: str, person: Person) -> Answer:
    """Write it down, unless the reading was struck out or another came meanwhile."""
    with at.doing() as tx:
        now = joint_now(at.shop, each)
        if now is None or not now.outside or now.outside[-1] != reading:
            return then("What was read was changed meanwhile; nothing was accepted.")
        amiss = outside_words(at.shop, now.joint, reading)
        tx.say(f"accepted as it is: {joint_name(each)} of {at_part(each.part)}, {amiss}")
        tx.state(
            replace(
                row(at, now, What.ACCEPTED, person, f"{amiss}; accepted because: {reason}"),
                fasteners=reading.fasteners,
                value=reading.value,
                unit=reading.unit,
            )
        )
    return then(f"{joint_name(each)}: accepted by {inert(person.name)}.")


def _question(each: JointAt, words: str, question: Question) -> Answer:
    return ask_of_joint(each, f"{joint_name(each)}: {words}", question)

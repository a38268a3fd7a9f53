"""Accepting a reading outside the sheet: with a reason, by somebody who may sign second checks."""

from collections.abc import Callable
from dataclasses import replace
from functools import partial

from shoptui.domain.inert import inert
from shoptui.domain.records import Person, Reading, What
from shoptui.jobs.answers import Answer, Choice, Question, Said
from shoptui.jobs.at import At
from shoptui.jobs.joint_tally import outside_words
from shoptui.jobs.joint_words import joint_name
from shoptui.jobs.joints import JointAt
from shoptui.jobs.reading_row import at_part, row

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


def _ask_badge(at: At, each: JointAt, reading: Reading, then: Then, reason: str) -> Answer:
    def take(text: str) -> Answer | None:
        person = at.shop.people.by_code(text)
        if person is None:
            return None
        if not person.second_check:
            return then(f"{inert(person.name)} may not sign that: not accepted.")
        return _accepted(at, each, reading, then, reason, person)

    return _question(each, "somebody who may sign second checks scans the badge.", Question(accepts=take))


def _accepted(at: At, each: JointAt, reading: Reading, then: Then, reason: str, person: Person) -> Answer:
    amiss = outside_words(at.shop, each.joint, reading)
    stated = replace(
        row(at, each, What.ACCEPTED, person, f"{amiss}; accepted because: {reason}"),
        fasteners=reading.fasteners,
        value=reading.value,
        unit=reading.unit,
    )
    with at.doing(f"accepted as it is: {joint_name(each)} of {at_part(each.part)}, {amiss}") as tx:
        tx.state(stated)
    return then(f"{joint_name(each)}: accepted by {inert(person.name)}.")


def _question(each: JointAt, words: str, question: Question) -> Answer:
    part = each.part
    return Answer(
        Said.QUESTION,
        f"{joint_name(each)}: {words}",
        part=part.code,
        qty=each.pieces,
        show="lift",
        subject=part.id,
        card="tighten",
        question=question,
    )

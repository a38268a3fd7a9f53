"""Checks that are signed, and the second check of a joint: by somebody else, who may."""

from collections.abc import Callable
from functools import partial

from shoptui.domain.inert import inert
from shoptui.domain.records import Person, What
from shoptui.jobs.answers import Answer, Choice, Question
from shoptui.jobs.at import At, name
from shoptui.jobs.joint_tally import outside_words
from shoptui.jobs.joint_words import joint_name, source_words
from shoptui.jobs.joints import JointAt, joints_of
from shoptui.jobs.positions import is_on, not_on_yet
from shoptui.jobs.reading_row import at_part, row

Then = Callable[[str], Answer]


def question(at: At, each: JointAt, then: Then) -> tuple[str, Question]:
    """Return what is asked where a joint is to be signed, or checked by a second person."""
    if each.only_second:
        words = "second check: somebody else who may sign scans the badge."
        if each.outside:
            words += (
                f" Beware, it was tightened before: {outside_words(at.shop, each.joint, each.outside[-1])}."
            )
        return f"{joint_name(each)}: {words}", Question(accepts=partial(_second, at, each, then))
    person, beware = at.person, _not_ready(at, each)
    source = source_words(at.shop, each.joint)
    by = f" ({source})" if source else ""
    if person is None:
        so = (
            f"{beware}. Scan your badge to sign it all the same"
            if beware
            else "scan your badge to sign that it is so"
        )
        words = f"{joint_name(each)}{by}: {so}."
        return words, Question(accepts=partial(_first, at, each, then))
    sign = partial(_signed, at, each, then, What.SIGNED, person)
    if beware:
        words = f"{joint_name(each)}{by}: {beware}. A number and Enter, or your badge, signs it all the same."
        label = f"sign it all the same, {inert(person.name)}"
        return words, Question(choices=(Choice(label, sign),), accepts=partial(_first, at, each, then))
    words = f"{joint_name(each)}{by}: Enter signs that it is so, {inert(person.name)}."
    return words, Question(yes=sign, accepts=partial(_first, at, each, then))


def _not_ready(at: At, each: JointAt) -> str:
    """Say what is not on, or not tight, of what a check that is signed speaks of; empty if all is."""
    shop, part = at.shop, each.part
    held = (shop.parts.get(number) for joint in part.joints for number in joint.clamps)
    off = [other for other in held if not other.withdrawn and not is_on(shop.book, other, each.position)]
    told = [
        f"{name(other)} is not on" for other in dict.fromkeys((*not_on_yet(shop, part, each.position), *off))
    ]
    told += [
        f"{inert(other.joint.name)} open, {inert(other.standing.why)}"
        for other in joints_of(shop, part, each.position)
        if other.is_open and other.joint.fasteners
    ]
    return "; ".join(told)


def _first(at: At, each: JointAt, then: Then, text: str) -> Answer | None:
    person = at.shop.people.by_code(text)
    if person is None:
        return None
    at.shop.remember(at.terminal, person=person.id, badge_at=at.shop.clock())
    return _signed(at, each, then, What.SIGNED, person)


def _second(at: At, each: JointAt, then: Then, text: str) -> Answer | None:
    """Take a badge for the second check: never that of whoever tightened it."""
    person = at.shop.people.by_code(text)
    if person is None:
        return None
    if any(reading.who == person.id for reading in each.counted):
        return then(f"{inert(person.name)} tightened it: somebody else has to check it.")
    if not person.second_check:
        return then(f"{inert(person.name)} may not sign a second check (Set-up, F12, People).")
    return _signed(at, each, then, What.SECOND, person)


def _signed(at: At, each: JointAt, then: Then, what: What, person: Person) -> Answer:
    """Write down who signed; the person at this terminal stays who it was."""
    deed = "second check" if what is What.SECOND else "signed"
    beware = "" if what is What.SECOND else _not_ready(at, each)
    with at.doing(f"{deed}: {joint_name(each)} of {at_part(each.part)}, {inert(person.name)}") as tx:
        tx.state(row(at, each, what, person, f"although {beware}" if beware else ""))
    return then(f"{joint_name(each)}: {deed} by {inert(person.name)}.")

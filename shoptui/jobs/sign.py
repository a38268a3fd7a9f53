"""Checks that are signed, and the second check of a joint: by somebody else, who may."""

from collections.abc import Callable
from dataclasses import dataclass
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
from shoptui.jobs.wrench_words import in_hand


@dataclass(frozen=True, slots=True)
class Signing:
    """A joint that is to be signed, or checked by a second person.

    A signature is never given by Enter alone: that is also the key of the deed before it.

    Args:
        each: The joint, as it stood when it was asked about.
        then: What comes after it, given what is said before.
        again: Asks for it as it stands then, given what is said before, and whose badge was scanned a moment
            ago and may have been read twice.

    """

    each: JointAt
    then: Callable[[str], Answer]
    again: Callable[[str, Person | None], Answer]


def question(at: At, signing: Signing, scanned: Person | None = None) -> tuple[str, Question]:
    """Return what is asked where a joint is to be signed, or checked by a second person.

    Args:
        at: Where it is asked.
        signing: The joint.
        scanned: Whose badge answered the question before, and was scanned again; None for nobody's.

    """
    each = signing.each
    if each.only_second:
        return _ask_second(at, signing, scanned)
    source = source_words(at.shop, each.joint)
    named = f"{joint_name(each)} ({source})" if source else joint_name(each)
    beware, person = _not_ready(at, each), at.person or scanned
    so = "it all the same" if beware else "that it is so"
    lead = f"{named}: {beware}. " if beware else f"{named}: "
    if person is None:
        words = f"{lead}{'S' if beware else 's'}can your badge to sign {so}."
        return words, Question(accepts=partial(_first, at, signing), badge_again=partial(_twice, at, signing))
    if at.person is None:
        lead += f"the badge of {inert(person.name)} was scanned a moment ago; "
    label = (
        f"sign it all the same, {inert(person.name)}"
        if beware
        else f"it is so, signed by {inert(person.name)}"
    )
    sign = Choice(label, partial(_first_by, at, signing, person))
    return (
        f"{lead}1 and Enter signs {so}, {inert(person.name)}.",
        Question(
            choices=(sign,), accepts=partial(_is_here, at, signing), badge_again=partial(_twice, at, signing)
        ),
    )


def _ask_second(at: At, signing: Signing, scanned: Person | None) -> tuple[str, Question]:
    each, choices = signing.each, tuple[Choice, ...]()
    words = "second check: somebody else who may sign scans the badge."
    if scanned is not None:
        who = inert(scanned.name)
        words = f"second check: the badge of {who} was scanned a moment ago; 1 and Enter signs, {who}."
        choices = (Choice(f"second check, signed by {who}", partial(_second_by, at, signing, scanned)),)
    if each.outside:
        words += f" Beware, it was tightened before: {outside_words(at.shop, each.joint, each.outside[-1])}."
    return f"{joint_name(each)}: {words}", Question(
        choices=choices, accepts=partial(_second, at, signing), badge_again=partial(_second_twice, signing)
    )


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


def _first(at: At, signing: Signing, text: str) -> Answer | None:
    """Take the badge that was asked for, where nobody is known."""
    person = at.shop.people.by_code(text)
    return None if person is None else _first_by(at, signing, person)


def _first_by(at: At, signing: Signing, person: Person) -> Answer:
    if at.person is None:
        at.is_here(person)
    return _signed(at, signing, What.SIGNED, person)


def _is_here(at: At, signing: Signing, text: str) -> Answer | None:
    """Take a badge where somebody is known already: it only says who is here now, and signs nothing."""
    if at.shop.people.by_code(text) is None:
        return None
    return signing.again(in_hand(at, text) or "", None)


def _twice(at: At, signing: Signing, person: Person) -> Answer:
    """Take a badge that may have been read twice: it signs nothing, nor does it change who is here."""
    if at.person is None:
        return signing.again("", person)
    return signing.again(
        f"The badge of {inert(person.name)} was scanned a moment ago; it signs no more.", None
    )


def _second(at: At, signing: Signing, text: str) -> Answer | None:
    """Take a badge for the second check: never that of whoever tightened it."""
    person = at.shop.people.by_code(text)
    return None if person is None else _second_by(at, signing, person)


def _second_by(at: At, signing: Signing, person: Person) -> Answer:
    if why := _why_not_second(signing.each, person):
        return signing.again(why, None)
    return _signed(at, signing, What.SECOND, person)


def _second_twice(signing: Signing, person: Person) -> Answer:
    why = _why_not_second(signing.each, person)
    return signing.again(why, None if why else person)


def _why_not_second(each: JointAt, person: Person) -> str:
    """Say why somebody cannot do the second check, empty if nothing speaks against it."""
    if any(reading.who == person.id for reading in each.counted):
        return f"{inert(person.name)} tightened it: somebody else has to check it."
    if not person.second_check:
        return f"{inert(person.name)} may not sign a second check (Set-up, F12, People)."
    return ""


def _signed(at: At, signing: Signing, what: What, person: Person) -> Answer:
    """Write down who signed; the person at this terminal stays who it was."""
    each = signing.each
    deed = "second check" if what is What.SECOND else "signed"
    beware = "" if what is What.SECOND else _not_ready(at, each)
    with at.doing(f"{deed}: {joint_name(each)} of {at_part(each.part)}, {inert(person.name)}") as tx:
        tx.state(row(at, each, what, person, f"although {beware}" if beware else ""))
    return signing.then(f"{joint_name(each)}: {deed} by {inert(person.name)}.")

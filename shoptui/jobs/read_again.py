"""A joint whose sheet has a newer edition: before it is tightened somebody says, by name, what that says."""

import re
from collections.abc import Callable
from dataclasses import dataclass, replace

from shoptui.domain import cells
from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.units import Unit
from shoptui.domain.inert import inert
from shoptui.domain.joint_doubts import joint_doubt
from shoptui.domain.joint_sheets import asked_or_none, names_unit, value_text
from shoptui.domain.records import Joint
from shoptui.jobs.answers import Answer, Question
from shoptui.jobs.at import At
from shoptui.jobs.at_tool import taken_up
from shoptui.jobs.joint_fields import joint_refused
from shoptui.jobs.joint_words import edition_day, joint_name, value_words
from shoptui.jobs.joints import JointAt, joint_now
from shoptui.jobs.reading_row import at_part
from shoptui.jobs.stated import states_figures
from shoptui.jobs.wrench_words import in_hand


@dataclass(frozen=True, slots=True)
class Unread:
    """A joint that is to be read again.

    Args:
        each: The joint, as it stood when it was asked about.
        card: Asks about it, given words and what answers them.
        again: Asks for it as it stands then, given what is said before.

    """

    each: JointAt
    card: Callable[[str, Question], Answer]
    again: Callable[[str], Answer]


LONGEST_FIGURE = 5
"""Digits of a torque, in pound-inches; a longer number is a code. Common practice, no source."""

_PAGE = re.compile(r"(?P<value>.*?)[\s,;]*\bpage\s+(?P<page>\S.{0,19})", re.IGNORECASE)


def ask_unread(at: At, unread: Unread, lead: str) -> Answer:
    """Ask what the newer edition says: Enter says the same, typed words are what it says now.

    Args:
        at: Where the lift stands.
        unread: The joint.
        lead: What was done just now, said before.

    """
    joint = unread.each.joint
    told = f"{value_words(at.shop, joint)} is" if joint.value else "what is written down is"
    told += " from the older edition"
    told += f" (kept {kept})" if (kept := edition_day(at.shop, joint.read_in)) else ""
    page = f", page {inert(joint.page, 20)}" if joint.page else ""
    file = "" if joint.sheet is None else f", {inert(at.shop.files.get(joint.sheet).name, 40)}{page}"
    how = "; or type what it says now, with its unit" if joint.fasteners else ""
    by = "" if at.person is None else f", {inert(at.person.name, 40)}"
    return unread.card(
        f"{lead} {joint_name(unread.each)}: {told}. Read the new one{file}. Enter: the same{by}{how}.",
        Question(
            yes=lambda: _who(at, unread, joint),
            accepts=lambda text: _scanned(at, unread, text),
            words=lambda text: _typed(at, unread, text),
        ),
    )


def _scanned(at: At, unread: Unread, text: str) -> Answer | None:
    """Take a badge or a tool for what comes, and figures; whatever else was scanned is no answer."""
    if (words := taken_up(at, text)) is not None:
        return unread.again(words)
    code = text.strip().isdigit() and len(text.strip()) > LONGEST_FIGURE
    return _typed(at, unread, text) if states_figures(text) and not code else None


def _typed(at: At, unread: Unread, text: str) -> Answer | None:
    """Take what the newer edition says: a value as the form takes it, a page, or both."""
    joint, usual = unread.each.joint, Unit(at.shop.settings.units)
    match = _PAGE.fullmatch(text.strip())
    value, page = (match["value"], match["page"]) if match else (text.strip(), joint.page)
    says = replace(joint, page=page)
    if value and not value[0].isdigit():
        return None
    try:
        if value and (read := value_text(value, usual)) != joint.value:
            says = replace(says, value=read, aim="")  # what was aimed at was picked for the other value
    except FastenerError as error:
        return unread.again(f"{error} Nothing was written down.")
    before = asked_or_none(joint)
    if value and before is not None and before.value.unit is not usual and not names_unit(value):
        named = f"{inert(value, 40)} {usual} or {inert(value, 40)} {before.value.unit}"
        return unread.again(f"Its unit too: {named}? Nothing was written down.")
    refusal = joint_refused(replace(unread.each.part, joints=(says,)))
    if refusal is not None:
        return unread.again(f"{inert(text, 40)}: {refusal.words}")
    if says.value != joint.value and (doubt := joint_doubt(says)):
        return unread.card(
            f"{doubt} Enter: take it as it is.",
            Question(
                yes=lambda: _who(at, unread, says), no=lambda: unread.again("Nothing was written down.")
            ),
        )
    return _who(at, unread, says)


def _who(at: At, unread: Unread, says: Joint) -> Answer:
    """Ask who read it where no badge says so: nobody else answers for it later."""
    if at.person is not None:
        return _read(at, unread, says, at.person.name)

    def badge(text: str) -> Answer | None:
        return None if in_hand(at, text) is None else _who(at, unread, says)

    def named(text: str) -> Answer | None:
        if not any(map(str.isalpha, text)):
            return None
        try:
            typed = cells.words(text)
        except cells.CellError as error:
            return unread.again(f"{error} Nothing was written down.")
        known = (each.name for each in at.shop.people.all() if each.name.casefold() == typed.casefold())
        return _read(at, unread, says, next(known, typed))

    return unread.card(
        f"{joint_name(unread.each)}: who read it in the new edition? Scan your badge, or type your name.",
        Question(accepts=badge, words=named, no=lambda: unread.again("Nothing was written down.")),
    )


def _read(at: At, unread: Unread, says: Joint, who: str) -> Answer:
    """Write down what the newer edition says and who read it, unless the joint was changed meanwhile."""
    each, before = unread.each, unread.each.joint
    told = value_words(at.shop, says) if says.value else "nothing else"
    same = "the same" if says.value == before.value else f"{told} now"
    page = f", page {inert(says.page, 20)}" if says.page != before.page else ""
    words = f"the newer edition says {same}{page}, read by {inert(who, 40)}"
    with at.doing() as tx:
        now = joint_now(at.shop, each)
        if now is None or now.joint != before:
            return unread.again("This joint was changed meanwhile; nothing was written down.")
        tx.say(f"{joint_name(each)} of {at_part(each.part)}: {words}")
        part = at.shop.parts.get(each.part.id)
        said = replace(says, read_in=None, read_by=who)
        tx.change(part, joints=tuple(said if joint == before else joint for joint in part.joints))
    return unread.again(f"{joint_name(each)}: {words}.")

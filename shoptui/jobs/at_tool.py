"""What the tool in hand is set to for a joint, with an extension at its drive or without one."""

import re
from collections.abc import Callable
from decimal import Decimal
from functools import partial
from itertools import islice

from shoptui.domain.fasteners.extensions import set_to
from shoptui.domain.fasteners.figures import FastenerError, significant
from shoptui.domain.fasteners.units import Unit, converted
from shoptui.domain.inert import inert
from shoptui.domain.joint_sheets import Asked
from shoptui.domain.records import Lever, Wrench
from shoptui.domain.wrenches import why_unsuited
from shoptui.jobs.answers import Answer, Choice
from shoptui.jobs.at import At
from shoptui.jobs.stated import extension
from shoptui.jobs.wrench_words import in_hand, why_not_now

MOST_WRENCHES = 3
"""Tools that suit, as many as are named."""

_OFF = re.compile(r"(?:no ext(?:ension)?|ext(?:ension)?\s+(?:0+|off))", re.IGNORECASE)


def lever_words(lever: Lever) -> str:
    """Return an extension in words: `extension 60 mm at 45 deg`."""
    return f"extension {lever.length_mm:g} mm at {lever.angle_deg:g} deg"


def lever_said(at: At, text: str) -> str | None:
    """Put an extension that was typed at the tool, or take it off; return what to say, None if none was.

    It stays there, closing the program or not, until it is said to be off or another tool is taken.
    """
    if _OFF.fullmatch(text.strip()):
        return lever_off(at)
    found = extension(text)
    if found is None or isinstance(found, str):
        return found
    lever = Lever(*map(float, found))
    wrench = at.wrench
    if wrench is not None and not wrench.length_mm:
        return f"For an extension the length of {inert(wrench.code)} has to be written down (Set-up, F12)."
    try:
        if wrench is not None:
            set_to(1.0, wrench.length_mm, lever.length_mm, lever.angle_deg)
    except FastenerError as error:
        return str(error)
    at.shop.remember(at.terminal, lever=lever)
    return ""


def taken_up(at: At, text: str) -> str | None:
    """Take a tool, a badge or an extension in hand; return what to say of it, None if it is none of these."""
    said = in_hand(at, text)
    return lever_said(at, text) if said is None else said


def lever_off(at: At) -> str:
    """Take the extension off the tool."""
    at.shop.remember(at.terminal, lever=None)
    return "Without an extension."


def at_tool(at: At, asked: Asked) -> Decimal | str | None:
    """Return what the tool is set to with its extension, in its unit; a sentence where nobody can say.

    None stands for a tool without one, and where there is nothing to set.
    """
    lever, wrench = at.memory.lever, at.wrench
    if lever is None or wrench is None or asked.target is None:
        return None
    if not wrench.length_mm:
        return "For an extension its length has to be written down (Set-up, F12)."
    wanted = float(converted(asked.target, asked.value.unit, Unit(wrench.unit)).exact)
    try:
        value = set_to(wanted, wrench.length_mm, lever.length_mm, lever.angle_deg)
    except FastenerError as error:
        return str(error)
    return Decimal(significant(value))


def tool_words(at: At, asked: Asked) -> str:
    """Say which tool is in hand and what it is set to, or that one is to be scanned."""
    wrench, lever = at.wrench, at.memory.lever
    if wrench is None:
        return f"Scan the wrench{f'; its {lever_words(lever)}' if lever else ''}."
    called = inert(wrench.code)
    if why := why_not_now(at.shop, wrench):
        called += f" ({inert(why)})"
    if wrench.barred:
        return f"{called} must not be used: scan another."
    value = at_tool(at, asked)
    if isinstance(value, Decimal) and lever is not None:
        shown = f"set {value} {wrench.unit}" if wrench.is_set else f"it then reads {value} {wrench.unit}"
        return f"With {called} and its {lever_words(lever)}, {shown}, at that angle only."
    if asked.target is None or value is not None:
        return f"With {called}. {value or ''}".rstrip()
    own = Unit(wrench.unit)
    scale = converted(asked.target, asked.value.unit, own)
    ask = " With an extension, type ext and its mm and degrees: ext 60 45." if wrench.length_mm else ""
    set_so = "" if own is asked.value.unit else f", set to {scale.rounded:f} {own}"
    return f"With {called}{set_so}.{ask}"


def tool_choices(at: At, asked: Asked, ask: Callable[[str], Answer]) -> tuple[Choice, ...]:
    """Return the tools that suit, where none is in hand: a finger cannot scan; or that its lever is off."""
    off = (Choice("the extension is off", lambda: ask(lever_off(at))),) if at.memory.lever else ()
    wrench = at.wrench
    if wrench is not None and not wrench.barred:
        return off
    tools = suiting(at, asked)
    return (*(Choice(f"with {inert(each.code)}", partial(_taken, at, each.id, ask)) for each in tools), *off)


def _taken(at: At, number: int, ask: Callable[[str], Answer]) -> Answer:
    at.take_up(at.shop.wrenches.get(number))
    return ask("")


def suiting(at: At, asked: Asked) -> tuple[Wrench, ...]:
    """Return the first tools that may be used and have the value between their marks."""
    good = (wrench for wrench in at.shop.wrenches.all() if not why_not_for(at, wrench, asked))
    return tuple(islice(good, MOST_WRENCHES))


def why_not_for(at: At, wrench: Wrench, asked: Asked) -> str:
    """Say why a tool does not suit, empty if it does."""
    value = asked.target or asked.value.low
    return why_not_now(at.shop, wrench) or why_unsuited(wrench, value, asked.value.unit)


def lever_line(at: At, asked: Asked) -> str:
    """Return the line of a card about the extension at the tool: what is set; empty without one."""
    value, lever, wrench = at_tool(at, asked), at.memory.lever, at.wrench
    if value is None or lever is None or wrench is None:
        return ""
    if isinstance(value, str):
        return value
    return f"{'set' if wrench.is_set else 'reads'} {value} {wrench.unit}: {lever_words(lever)}"


def lever_notes(at: At, asked: Asked) -> tuple[str, ...]:
    """Return what a reading says of the extension that it was taken with: its own value is at the bolt."""
    lever, wrench, value = at.memory.lever, at.wrench, at_tool(at, asked)
    if lever is None or wrench is None or not isinstance(value, Decimal):
        return ()
    bolt = f"{asked.target:f} {asked.value.unit} at the bolt"
    return (f"{lever_words(lever)}, {value} {wrench.unit} at the wrench for {bolt}",)

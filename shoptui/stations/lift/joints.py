"""The joints of a part as lines of its card, in the order of the work."""

from collections.abc import Iterator

from shoptui.domain.fasteners.extensions import CAUTION
from shoptui.domain.fasteners.fit import RULE_OF_THUMB
from shoptui.domain.fasteners.passes import MOST_PASSES
from shoptui.domain.fasteners.patterns import Pattern, drawn, order
from shoptui.domain.inert import inert
from shoptui.domain.joint_engagement import engagement_of
from shoptui.domain.joint_sheets import Asked, asked_or_none, handbook_of, joints_as_allowed
from shoptui.domain.records import Joint, Part
from shoptui.jobs.at import At
from shoptui.jobs.at_tool import lever_line, suiting, why_not_for
from shoptui.jobs.joint_words import (
    fasteners_words,
    joint_name,
    reading_words,
    source_words,
    stands_words,
    value_words,
)
from shoptui.jobs.joints import JointAt, joints_of
from shoptui.stations.card import Fact
from shoptui.stations.marks import Tone


def tighten_facts(at: At, part: Part, _qty: int, asked: tuple[str, str] = ("", "")) -> Iterator[Fact]:
    """Yield the card of the joints of a part that is on: each with its sheet, and how it stands.

    Args:
        at: Where the lift stands.
        part: The part.
        asked: Name and position of the joint that is asked about: what the hand needs now stands on top.

    """
    told = set[str]()

    def rank(each: JointAt) -> tuple[bool, bool]:
        return (each.joint.name, each.position) != asked, not each.needs_somebody

    for each in sorted(joints_of(at.shop, part), key=rank):
        yield Fact(joint_name(each))
        yield Fact("", f"{_mark(each)} {stands_words(each)}", _tone(each))
        if each.joint.name not in told:  # at its other positions its sheet says the same
            told.add(each.joint.name)
            yield from joint_facts(at, each.joint, each.wanted)
        for reading in (*each.counted, *each.outside):
            yield Fact("", reading_words(at.shop, reading), Tone.QUIET)


def to_tighten(at: At, part: Part, qty: int) -> Iterator[Fact]:
    """Yield the joints of a part that goes on, as they are to be tightened."""
    for joint in joints_as_allowed(part):
        yield Fact(f"Joint: {inert(joint.name)}")
        yield from joint_facts(at, joint, joint.fasteners * qty)


def part_joints(at: At, part: Part) -> Iterator[Fact]:
    """Yield the joints of a part for its own card: what each is, and how it stands where the part is on."""
    if part.joints:
        yield Fact()
        yield Fact("Joints")
    for joint in joints_as_allowed(part):
        told = fasteners_words(joint, joint.fasteners)
        value = f", {value_words(at.shop, joint)}" if joint.fasteners else ""
        yield Fact("", f"{inert(joint.name)}: {told}{value}")
        yield from engagement_facts(joint)
        if (found := engagement_of(joint)) is not None:
            yield Fact("", f"engagement ({inert(joint.engagement)}): {'; '.join(found.told)}")
    for each in joints_of(at.shop, part):
        yield Fact("", f"{_mark(each)} {joint_name(each)}, {stands_words(each)}", _tone(each))


def joint_facts(at: At, joint: Joint, count: int) -> Iterator[Fact]:
    """Yield what a joint's sheet asks for: what the hand needs first, then what is to be read once."""
    yield Fact("", fasteners_words(joint, count))
    asked = asked_or_none(joint)
    if joint.fasteners:
        yield Fact("value", value_words(at.shop, joint), Tone.PLAIN if joint.value else Tone.WARN)
    if asked is not None:
        yield from _work(at, joint, asked, count)
    yield from engagement_facts(joint)
    if joint.one_use:
        yield Fact("used once", "new fasteners each time")
    if joint.second_check:
        yield Fact("second check", "by somebody else, who may sign")
    source = source_words(at.shop, joint)
    if source or joint.fasteners:
        yield Fact("sheet", source or "! nobody wrote down which sheet says so", _or_warn(source))
    if asked is not None and lever_line(at, asked):
        yield Fact("extension", f"! {CAUTION}", Tone.WARN)
    if asked is not None and asked.generic and (found := handbook_of(joint)) is not None:
        yield Fact("assumed", "; ".join(found.tightening.assumptions))


def engagement_facts(joint: Joint) -> Iterator[Fact]:
    """Yield what is short or bottoms out, and what a spacer leaves; nothing where all is well."""
    found = engagement_of(joint)
    if found is None:
        return
    for words in found.findings:
        yield Fact("", f"! {words} ({RULE_OF_THUMB})", Tone.WARN)
    if found.spaced:
        yield Fact("", found.spaced)


def _or_warn(words: str) -> Tone:
    return Tone.PLAIN if words else Tone.WARN


def _work(at: At, joint: Joint, asked: Asked, count: int) -> Iterator[Fact]:
    """Yield steps, order and wrench, and what that is set to with an extension."""
    if 1 < len(asked.steps) <= MOST_PASSES or asked.by_angle:
        yield Fact("steps", ", then ".join(asked.steps))
    if joint.pattern and joint.fasteners > 1:
        pattern = Pattern(joint.pattern)
        told = " ".join(map(str, order(pattern, joint.fasteners)))
        yield Fact(
            "order", f"{pattern}: {told}" + (f", of each {joint.fasteners}" * (count > joint.fasteners))
        )
    yield Fact("wrench", *_suits(at, asked))
    if words := lever_line(at, asked):
        yield Fact("extension", words, Tone.WARN)
    if joint.pattern and joint.fasteners > 1:
        yield from (Fact("", f"    {line}") for line in drawn(Pattern(joint.pattern), joint.fasteners))


def _suits(at: At, asked: Asked) -> tuple[str, Tone]:
    """Return which wrenches suit, the one in hand first."""
    hand = at.wrench
    if hand is not None and (why := why_not_for(at, hand, asked)):
        return f"! {inert(hand.code)} in hand: {why}", Tone.BAD
    if hand is not None:
        return f"{inert(hand.code)}, in hand", Tone.GOOD
    if not (good := suiting(at, asked)):
        value = asked.target or asked.value.low
        return f"! none in the books suits {value:f} {asked.value.unit}", Tone.WARN
    return " or ".join(inert(wrench.code) for wrench in good), Tone.PLAIN


def _mark(each: JointAt) -> str:
    return "-" if each.needs_somebody else "+"


def _tone(each: JointAt) -> Tone:
    return Tone.WARN if each.needs_somebody else Tone.GOOD

"""The joints of a part as lines of its card, in the order of the work."""

from collections.abc import Iterator

from shoptui.domain.fasteners.passes import MOST_PASSES
from shoptui.domain.fasteners.patterns import Pattern, drawn, order
from shoptui.domain.inert import inert
from shoptui.domain.joint_sheets import Asked, handbook_of
from shoptui.domain.records import Joint, Part, Wrench
from shoptui.domain.wrenches import why_unsuited
from shoptui.jobs.at import At
from shoptui.jobs.joint_words import (
    asked_or_none,
    fasteners_words,
    joint_name,
    reading_words,
    source_words,
    stands_words,
    value_words,
)
from shoptui.jobs.joints import JointAt, joints_of
from shoptui.jobs.wrench_words import why_not_now
from shoptui.stations.card import Fact
from shoptui.stations.marks import Tone

MOST_WRENCHES = 3


def tighten_facts(at: At, part: Part, _qty: int) -> tuple[Fact, ...]:
    """Return the card of the joints of a part that is on: each with its sheet, and how it stands."""
    facts: list[Fact] = []
    for each in sorted(joints_of(at.shop, part), key=lambda each: not each.needs_somebody):
        facts.append(Fact(joint_name(each)))
        facts.append(Fact("", f"{_mark(each)} {stands_words(each)}", _tone(each)))
        facts.extend(joint_facts(at, each.joint, each.wanted))
        facts.extend(
            Fact("", reading_words(at.shop, reading), Tone.QUIET)
            for reading in (*each.counted, *each.outside)
        )
    return tuple(facts)


def to_tighten(at: At, part: Part, qty: int) -> Iterator[Fact]:
    """Yield the joints of a part that goes on, as they are to be tightened."""
    for joint in part.joints:
        yield Fact(f"Joint: {inert(joint.name)}")
        yield from joint_facts(at, joint, joint.fasteners * qty)


def part_joints(at: At, part: Part) -> Iterator[Fact]:
    """Yield the joints of a part for its own card: what each is, and how it stands where the part is on."""
    if part.joints:
        yield Fact()
        yield Fact("Joints")
    for joint in part.joints:
        told = fasteners_words(joint, joint.fasteners)
        value = f", {value_words(at.shop, joint)}" if joint.fasteners else ""
        yield Fact("", f"{inert(joint.name)}: {told}{value}")
    for each in joints_of(at.shop, part):
        yield Fact("", f"{_mark(each)} {joint_name(each)}, {stands_words(each)}", _tone(each))


def joint_facts(at: At, joint: Joint, count: int) -> Iterator[Fact]:
    """Yield what a joint's sheet asks for: what, value, steps, order, wrench, source."""
    yield Fact("", fasteners_words(joint, count))
    asked = asked_or_none(joint)
    if joint.fasteners:
        yield Fact("value", value_words(at.shop, joint), Tone.PLAIN if joint.value else Tone.WARN)
    if asked is not None:
        yield from _work(at, joint, asked, count)
    if joint.one_use:
        yield Fact("used once", "new fasteners each time")
    if joint.second_check:
        yield Fact("second check", "by somebody else, who may sign")
    source = source_words(at.shop, joint)
    if source or joint.fasteners:
        yield Fact("sheet", source or "! nobody wrote down which sheet says so", _or_warn(source))


def _or_warn(words: str) -> Tone:
    return Tone.PLAIN if words else Tone.WARN


def _work(at: At, joint: Joint, asked: Asked, count: int) -> Iterator[Fact]:
    if 1 < len(asked.steps) <= MOST_PASSES or asked.by_angle:
        yield Fact("steps", ", then ".join(asked.steps))
    if joint.pattern and joint.fasteners > 1:
        pattern = Pattern(joint.pattern)
        told = " ".join(map(str, order(pattern, joint.fasteners)))
        yield Fact(
            "order", f"{pattern}: {told}" + (f", of each {joint.fasteners}" * (count > joint.fasteners))
        )
        yield from (Fact("", f"    {line}") for line in drawn(pattern, joint.fasteners))
    if asked.generic and (found := handbook_of(joint)) is not None:
        yield Fact("assumed", "; ".join(found.tightening.assumptions))
    yield Fact("wrench", *_suits(at, asked))


def _suits(at: At, asked: Asked) -> tuple[str, Tone]:
    """Return which wrenches suit, the one in hand first."""
    value = asked.target or asked.value.low
    good = [wrench for wrench in at.shop.wrenches.all() if not _why_not(at, wrench, asked)]
    hand = at.wrench
    if hand is not None and (why := _why_not(at, hand, asked)):
        return f"! {inert(hand.code)} in hand: {why}", Tone.BAD
    if hand is not None:
        return f"{inert(hand.code)}, in hand", Tone.GOOD
    if not good:
        return f"! none in the books suits {value:f} {asked.value.unit}", Tone.WARN
    return " or ".join(inert(wrench.code) for wrench in good[:MOST_WRENCHES]), Tone.PLAIN


def _why_not(at: At, wrench: Wrench, asked: Asked) -> str:
    value = asked.target or asked.value.low
    return why_not_now(at.shop, wrench) or why_unsuited(wrench, value, asked.value.unit)


def _mark(each: JointAt) -> str:
    return "-" if each.needs_somebody else "+"


def _tone(each: JointAt) -> Tone:
    return Tone.WARN if each.needs_somebody else Tone.GOOD

"""Loosening a joint that is done while its part stays on: to check, to shim, after a mistake."""

from functools import partial

from shoptui.domain.inert import inert
from shoptui.domain.places import State
from shoptui.domain.records import Part, What
from shoptui.jobs.answers import Answer, Choice, Question, done, stop
from shoptui.jobs.at import At, name, pieces
from shoptui.jobs.joint_question import ask_here, facts_here
from shoptui.jobs.joint_words import joint_name
from shoptui.jobs.joints import JointAt, joints_of
from shoptui.jobs.recheck import state
from shoptui.jobs.renew import new_for

LOOSEN = "loosen a joint, the part stays on ..."
REASONS = ("to look or to measure", "to shim or to adjust", "it was tightened by mistake")
"""Why a joint is loosened, most often; anything else can be typed."""


def _tight(at: At, part: Part, position: str | None = None) -> tuple[JointAt, ...]:
    """Return the joints of which something is tightened or signed."""
    return tuple(each for each in joints_of(at.shop, part, position) if each.counted)


def can_be_loosened(at: At, part: Part, position: str | None = None) -> bool:
    """Return whether any joint of a part is tightened, at one position or any, so that it can be loosened."""
    return bool(_tight(at, part, position))


def loosen_choices(at: At, part: Part) -> tuple[Choice, ...]:
    """Return a choice for each joint of a part that can be loosened."""
    return tuple(
        Choice(f"{_verb(each)}: {joint_name(each)} ...", partial(_ask_why, at, each))
        for each in _tight(at, part)
    )


def _verb(each: JointAt) -> str:
    return "loosen" if each.joint.fasteners else "open again"


def ask_loosen(at: At, part: Part, *, position: str | None = None, joint: str = "", why: str = "") -> Answer:
    """Ask which joint is loosened and why, as far as that was not said.

    Args:
        at: Where it is done.
        part: The part.
        position: Where, if that was said.
        joint: Its name; empty where it is to be asked.
        why: The reason; empty where it is to be asked.

    """
    part = at.shop.parts.get(part.id)
    wanted = joint.strip().casefold()
    tight = [each for each in _tight(at, part, position) if wanted in ("", each.joint.name.casefold())]
    if not tight:
        named = f"joint {inert(joint.strip())}" if wanted else "joint"
        where = f" at {inert(position)}" if position else ""
        words = f"{name(part)}: no {named}{where} is tightened, so none can be loosened."
        return stop(words, part=part.code, subject=part.id)
    if len(tight) > 1:
        choices = (Choice(joint_name(each), partial(_with_reason, at, each, why)) for each in tight)
        words = f"{name(part)}: which joint is loosened? A number and Enter."
        return ask_here(at, part, words, Question(choices=tuple(choices)))
    return _with_reason(at, tight[0], why)


def _with_reason(at: At, each: JointAt, why: str) -> Answer:
    return loosened(at, each, why) if why.strip() else _ask_why(at, each)


def _ask_why(at: At, each: JointAt) -> Answer:
    """Ask for the reason: it stands beside the joint until that is tightened again."""
    deed = "loosened" if each.joint.fasteners else "open again"
    return ask_here(
        at,
        each.part,
        f"{joint_name(each)}: why is it {deed}? A number and Enter, or type why.{_scrap_words(at, each)}",
        Question(
            choices=tuple(Choice(reason, partial(loosened, at, each, reason)) for reason in REASONS),
            words=lambda text: loosened(at, each, text),
        ),
        each,
    )


def loosened(at: At, each: JointAt, why: str) -> Answer:
    """Open a joint again with a reason; what was for one use is renewed when it is tightened again.

    No question follows: nobody tightens it in the same breath, and an Enter too many must not say so.
    """
    names = [other.joint.name for other in _tight(at, at.shop.parts.get(each.part.id), each.position)]
    if each.joint.name not in names:
        return stop(f"{joint_name(each)} is open already; nothing was written down.", part=each.part.code)
    words = f"It is open until it is {'tightened' if each.joint.fasteners else 'signed'} again."
    scrap = _scrap_words(at, each)

    def then(lead: str) -> Answer:
        return done(f"{lead} {words}{scrap}", state=State.INSTALLED.value, **facts_here(at, each.part, each))

    return state(at, each, then, What.LOOSENED, why.strip())


def _scrap_words(at: At, each: JointAt) -> str:
    """Say of fasteners for one use that new ones are wanted, and how many of them are here."""
    if not each.joint.one_use:
        return ""
    found = new_for(at.shop, each)
    here = (
        "" if found is None else f"; {min(each.wanted, found[1])} of {pieces(each.wanted, found[0])} are here"
    )
    return f" What was in it is scrap, it takes new ones{here}."

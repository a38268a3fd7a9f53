"""What is asked of a joint: on its part's card at the lift, or wherever else it is asked."""

from typing import Any

from shoptui.domain.records import Part
from shoptui.jobs.answers import Answer, Question, Said, ask_on_card
from shoptui.jobs.at import At
from shoptui.jobs.joints import JointAt

CARD = "tighten"
"""What a part's card at the lift is turned to while its joints are worked on."""


def ask_of_joint(each: JointAt, text: str, question: Question, *, state: str = "") -> Answer:
    """Return a question about a joint, on the card of its part at the lift."""
    return ask_on_card(
        each.part,
        CARD,
        text,
        question,
        qty=each.pieces,
        state=state,
        where=each.position,
        joint=each.joint.name,
    )


def ask_here(at: At, part: Part, text: str, question: Question, each: JointAt | None = None) -> Answer:
    """Return a question about a joint of a part, or which joint; at the lift it is on the card."""
    return Answer(Said.QUESTION, text, question=question, **facts_here(at, part, each))


def facts_here(at: At, part: Part, each: JointAt | None = None) -> dict[str, Any]:
    """Return the facts of an answer about a joint; at the lift its part's card is turned to the joints."""
    lift = at.station == "lift"
    return {
        "kind": "part",
        "part": part.code,
        "qty": each.pieces if each else 1,
        "where": each.position if each else "",
        "show": "lift" if lift else "",
        "subject": part.id,
        "card": CARD if lift else "",
        "joint": each.joint.name if each else "",
    }

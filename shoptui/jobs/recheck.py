"""Looking at a joint again: good, failed, or loosened on purpose; never tightened where that spoils it."""

from collections.abc import Callable
from functools import partial

from shoptui.domain.fasteners.rechecks import why_not_tightened_again
from shoptui.domain.records import What
from shoptui.jobs.answers import Answer, Choice, Question
from shoptui.jobs.at import At
from shoptui.jobs.joint_words import asked_or_none, joint_name, value_words
from shoptui.jobs.joints import JointAt
from shoptui.jobs.write_reading import at_part, row

Then = Callable[[str], Answer]


def question(at: At, each: JointAt, then: Then) -> tuple[str, Question]:
    """Return what is asked of a joint that is due to be checked again."""
    asked = asked_or_none(each.joint)
    never = why_not_tightened_again(each.joint.prepared, by_angle=asked is not None and asked.by_angle)
    how = never or f"with {value_words(at.shop, each.joint)}, no fastener may turn"
    words = f"{joint_name(each)}: {each.standing.why}; {how}. Enter: checked and good."
    return words, Question(
        yes=partial(state, at, each, then, What.CHECKED),
        choices=(
            Choice("one turned, or is loose: open it again", partial(state, at, each, then, What.FAILED)),
        ),
    )


def state(at: At, each: JointAt, then: Then, what: What, note: str = "") -> Answer:
    """Write down that a joint was checked, failed, or was loosened."""
    words = f"{what.value}: {joint_name(each)} of {at_part(each.part)}"
    with at.doing(words) as tx:
        tx.state(row(at, each, what, at.person, note))
    return then(f"{words[0].upper()}{words[1:]}.")

"""How the fasteners of a joint engage, where somebody measured what they go through and into."""

from contextlib import suppress

from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.fit import RULE_OF_THUMB, Fit, fit
from shoptui.domain.fasteners.measures import measures
from shoptui.domain.fasteners.reading import designation
from shoptui.domain.inert import inert
from shoptui.domain.records import Joint


def engagement_of(joint: Joint) -> Fit | None:
    """Return how a joint's fasteners engage; None where nobody measured, or nobody can read it.

    >>> engagement_of(Joint("nuts", 5, "M12x1.5", engagement="length 26, grip 8, spacer 8")).spaced
    'a spacer of 8 mm leaves 10 of 18 mm of thread, 6.7 of 12 turns'
    """
    if not joint.engagement:
        return None
    if not joint.designation:
        return Fit(None, ("not judged: no designation says the thread",))
    with suppress(FastenerError):
        return fit(designation(joint.designation), measures(joint.engagement))
    return None


def engagement_doubt(joint: Joint) -> str:
    """Say what is short or bottoms out in a joint, empty if nothing does."""
    found = engagement_of(joint)
    if found is None or not found.findings:
        return ""
    return f"{inert(joint.name)}: {'; '.join(found.findings)} ({RULE_OF_THUMB})."

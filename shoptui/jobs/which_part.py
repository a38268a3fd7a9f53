"""Which part is meant by a scan or by words that answer a question about a part."""

from collections.abc import Callable
from dataclasses import replace
from functools import partial

from shoptui.domain.inert import inert
from shoptui.domain.records import Part
from shoptui.jobs.answers import Answer, Choice, Question
from shoptui.jobs.at import At, name
from shoptui.jobs.find import parts_named

MOST_OFFERED = 6


def no_such_part(asked: Answer, text: str) -> Answer:
    """Ask again where words name no part: they are no answer to anything else."""
    return replace(asked, text=f"No part is called “{inert(text)}”. {asked.text}")


def which_part(
    at: At, asked: Answer, text: str, build: int | None, take: Callable[[Part], Answer]
) -> Answer | None:
    """Go on with the part that is named; where several are, ask which; None where none is.

    Args:
        at: Where it is done.
        asked: The question that is being answered; asked again where the words name too many.
        text: What was scanned or typed.
        build: Id of the build whose parts are meant before any others.
        take: Goes on with the part.

    """
    found = parts_named(at.shop, text, build)
    if not found:
        return None
    if len(found) == 1:
        return take(found[0])
    if len(found) > MOST_OFFERED:
        return replace(asked, text=f"{len(found)} parts are called so: say more of it.")
    return replace(
        asked,
        text=f"{len(found)} parts are called so. {asked.text.split('?')[0]}? Its number, then Enter.",
        question=Question(choices=tuple(Choice(name(each), partial(take, each)) for each in found)),
    )

"""A torque tool is scanned: taken in hand at the lift, shown elsewhere; dropped, checked, or gone."""

from functools import partial

from shoptui.domain.inert import inert
from shoptui.domain.records import Wrench
from shoptui.jobs.answers import Answer, Choice, Question, Said, done, stop
from shoptui.jobs.at import At
from shoptui.jobs.wrench_check import ask_failed, ask_of_check, ask_of_tool, lay_down, passed
from shoptui.jobs.wrench_words import why_not_now, wrench_words
from shoptui.store.command_tags import command_named

DROPPED = "dropped"
FELL = "wrench dropped"
"""Word of the command tag that bars a tool."""

_GONE = ("sold", "lost", "scrapped")


def wrench_scanned(at: At, wrench: Wrench) -> Answer:
    """Take a tool for the next readings at the lift, show its card elsewhere.

    The same scan again asks what happened to it; the tag `wrench dropped` bars it at once.
    """
    if at.station == "lift" and at.wrench is not None and at.wrench.id == wrench.id:
        return ask_what_happened(at, wrench)
    words = wrench_words(at, wrench)
    again = Question(accepts=lambda text: _again(at, wrench, text))
    facts = {"kind": "wrench", "subject": wrench.id}
    unfit = why_not_now(at.shop, wrench)
    if at.station == "lift" and wrench.barred:
        # The hand holds this one: a reading must not be written to the one before it.
        at.take_up(None)
        words = f"{words} No wrench is in hand now: scan another."
    if at.station != "lift" or wrench.barred:
        if unfit:
            return Answer(Said.STOP, words, question=again, **facts)  # type: ignore[arg-type]
        return Answer(Said.DONE, words, question=again, **facts)  # type: ignore[arg-type]
    at.take_up(wrench)
    return done(f"{inert(wrench.code)} is in hand for the next readings. {words}", **facts)


def _again(at: At, wrench: Wrench, text: str) -> Answer | None:
    if _says_fell(text):
        return dropped(at, wrench)
    found = at.shop.wrenches.by_code(text)
    return ask_what_happened(at, wrench) if found is not None and found.id == wrench.id else None


def _says_fell(text: str) -> bool:
    command = command_named(text)
    return command is not None and command.word == FELL


def ask_what_happened(at: At, wrench: Wrench) -> Answer:
    """Ask what happened to a tool: it was dropped, passed a check or failed one, or is gone."""
    return ask_of_tool(
        wrench,
        f"{wrench_words(at, wrench)} What happened to it? A number and Enter.",
        Question(
            choices=(
                Choice("it was dropped: bar it until it is checked", partial(dropped, at, wrench)),
                Choice("it was checked today, and is good", partial(passed, at, wrench)),
                Choice("it was checked, and failed ...", partial(ask_failed, at, wrench)),
                Choice(
                    "it was checked: type the day, or what was found ...", partial(ask_of_check, at, wrench)
                ),
                Choice("it is gone: sold, lost or scrapped ...", partial(_ask_where_to, at, wrench)),
            ),
            accepts=lambda text: dropped(at, wrench) if _says_fell(text) else None,
        ),
    )


def fell(at: At) -> Answer:
    """Bar the tool in hand, which fell; where none is, ask for its scan."""
    if at.station == "lift" and at.wrench is not None:
        return dropped(at, at.wrench)

    def scanned(text: str) -> Answer | None:
        wrench = at.shop.wrenches.by_code(text)
        return None if wrench is None else dropped(at, wrench)

    return Answer(
        Said.QUESTION, "Scan the wrench that fell: it is barred then.", question=Question(accepts=scanned)
    )


def dropped(at: At, wrench: Wrench) -> Answer:
    """Bar a tool that fell, without exception, until it is checked."""
    wrench = at.shop.wrenches.get(wrench.id)
    if wrench.barred:
        return stop(f"{inert(wrench.code)} is barred already: {inert(wrench.barred)}.", kind="wrench")
    with at.doing(f"wrench {inert(wrench.code)} was dropped") as tx:
        tx.change(wrench, barred=DROPPED)
    lay_down(at, wrench)
    words = f"{inert(wrench.code)} is barred until it is checked; scan it twice then."
    return done(words, kind="wrench", subject=wrench.id)


def _ask_where_to(at: At, wrench: Wrench) -> Answer:
    return ask_of_tool(
        wrench,
        f"{inert(wrench.code)} is here no more. Why? Its readings stay. A number and Enter.",
        Question(choices=tuple(Choice(why, partial(_leaves, at, wrench, why)) for why in _GONE)),
    )


def _leaves(at: At, wrench: Wrench, why: str) -> Answer:
    """Write down that a tool is gone: nobody checks it any more; found again, it is barred until a check."""
    wrench = at.shop.wrenches.get(wrench.id)
    with at.doing(f"wrench {inert(wrench.code)} was {why}") as tx:
        tx.change(wrench, barred=why, gone=True)
    lay_down(at, wrench)
    words = f"{inert(wrench.code)} is gone: {why}. If it is here again, it is barred until it is checked."
    return done(words, kind="wrench", subject=wrench.id)

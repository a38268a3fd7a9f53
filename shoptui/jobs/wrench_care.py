"""A torque tool is scanned: taken in hand at the lift, shown elsewhere; dropped, checked, or failed."""

from functools import partial

from shoptui.domain.inert import inert
from shoptui.domain.records import What, Wrench
from shoptui.domain.wrenches import opens_again
from shoptui.jobs.answers import Answer, Choice, Question, Said, done, stop
from shoptui.jobs.at import At
from shoptui.jobs.joint_words import joint_name
from shoptui.jobs.joints import JointAt, all_joints, day_of
from shoptui.jobs.place_words import today
from shoptui.jobs.reading_row import row
from shoptui.jobs.wrench_words import why_not_now, wrench_words

DROPPED = "dropped"
FAILED = "failed its check"


def wrench_scanned(at: At, wrench: Wrench) -> Answer:
    """Take a tool for the next readings at the lift, show its calibration elsewhere.

    The same scan again asks what happened to it: so a tool that fell is barred by two scans and a number.
    """
    if at.station == "lift" and at.wrench is not None and at.wrench.id == wrench.id:
        return ask_what_happened(at, wrench)
    words = wrench_words(at, wrench)
    again = Question(accepts=lambda text: _again(at, wrench, text))
    facts = {"kind": "wrench", "subject": wrench.id}
    unfit = why_not_now(at.shop, wrench)
    if at.station == "lift" and wrench.barred:
        # The hand holds this one: a reading must not be written to the one before it.
        at.shop.remember(at.terminal, wrench=None)
        words = f"{words} No wrench is in hand now: scan another."
    if at.station != "lift" or wrench.barred:
        if unfit:
            return Answer(Said.STOP, words, question=again, **facts)  # type: ignore[arg-type]
        return Answer(Said.DONE, words, question=again, **facts)  # type: ignore[arg-type]
    at.shop.remember(at.terminal, wrench=wrench.id)
    return done(f"{inert(wrench.code)} is in hand for the next readings. {words}", **facts)


def _again(at: At, wrench: Wrench, text: str) -> Answer | None:
    found = at.shop.wrenches.by_code(text)
    return ask_what_happened(at, wrench) if found is not None and found.id == wrench.id else None


def ask_what_happened(at: At, wrench: Wrench) -> Answer:
    """Ask what happened to a tool: it was dropped, passed a check, or failed one."""
    return Answer(
        Said.QUESTION,
        f"{wrench_words(at, wrench)} What happened to it? A number and Enter.",
        kind="wrench",
        subject=wrench.id,
        question=Question(
            choices=(
                Choice("it was dropped: bar it until it is checked", partial(dropped, at, wrench)),
                Choice("it was checked today, and is good", partial(passed, at, wrench)),
                Choice("it was checked, and failed", partial(failed, at, wrench)),
            )
        ),
    )


def dropped(at: At, wrench: Wrench) -> Answer:
    """Bar a tool that fell, without exception, until it is checked."""
    wrench = at.shop.wrenches.get(wrench.id)
    if wrench.barred:
        return stop(f"{inert(wrench.code)} is barred already: {inert(wrench.barred)}.", kind="wrench")
    with at.doing(f"wrench {inert(wrench.code)} was dropped") as tx:
        tx.change(wrench, barred=DROPPED)
    _lay_down(at, wrench)
    words = f"{inert(wrench.code)} is barred until it is checked; scan it again then."
    return done(words, kind="wrench", subject=wrench.id)


def passed(at: At, wrench: Wrench) -> Answer:
    """Write down a check that a tool passed today: it may be used again."""
    with at.doing(f"wrench {inert(wrench.code)} was checked and is good") as tx:
        tx.change(at.shop.wrenches.get(wrench.id), barred="", checked=today(at.shop), cycles=0)
    return done(f"{inert(wrench.code)} was checked today and may be used.", kind="wrench", subject=wrench.id)


def failed(at: At, wrench: Wrench) -> Answer:
    """Bar a tool that failed its check; what it tightened since its last good one is open again."""
    wrench = at.shop.wrenches.get(wrench.id)
    person, code = at.person, inert(wrench.code)
    with at.doing() as tx:
        doubted = [each for each in all_joints(at.shop) if _is_doubted(at, each, wrench)]
        tx.change(wrench, barred=FAILED)
        for each in doubted:
            tx.state(row(at, each, What.FAILED, person, f"wrench {code} failed its check"))
        tx.say(f"wrench {code} failed its check, {len(doubted)} joints are open again")
    _lay_down(at, wrench)
    told = ", ".join(f"{joint_name(each)} of {inert(each.part.description)}" for each in doubted[:3])
    more = f" and {len(doubted) - 3} more" if len(doubted) > 3 else ""  # noqa: PLR2004 - as many as fit a line
    opened = f"Open again, tightened with it since its last good check: {told}{more}." if told else ""
    return done(f"{code} is barred. {opened}".rstrip(), kind="wrench", subject=wrench.id)


def _is_doubted(at: At, each: JointAt, wrench: Wrench) -> bool:
    return any(
        reading.wrench == wrench.id and opens_again(day_of(at.shop, reading), wrench.checked)
        for reading in each.counted
    )


def _lay_down(at: At, wrench: Wrench) -> None:
    if at.wrench is not None and at.wrench.id == wrench.id:
        at.shop.remember(at.terminal, wrench=None)

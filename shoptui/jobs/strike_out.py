"""What else can be said of joints: one was loosened or looked at, a reading is struck out with a reason."""

from collections.abc import Iterator
from functools import partial

from shoptui.domain.inert import inert
from shoptui.domain.records import Part, Reading, What
from shoptui.jobs.answers import Answer, Choice, Question, ask_about, done, stop
from shoptui.jobs.at import At, name
from shoptui.jobs.joint_words import joint_name, reading_words, stands_words
from shoptui.jobs.joints import JointAt, joint_now, joints_of, readings_at
from shoptui.jobs.loosen import ask_loosen
from shoptui.jobs.recheck import ask_checked, question
from shoptui.jobs.show_file import show_file
from shoptui.jobs.tighten import ask_joint
from shoptui.store.readings import strike

CHECK = "a joint was looked at, or loosened ..."
STRIKE = "strike out a reading ..."


def torque_choices(at: At, part: Part) -> Iterator[Choice]:
    """Yield what can be said of the joints of a part beside tightening them, and their sheets to look at."""
    for number in dict.fromkeys(joint.sheet for joint in part.joints if joint.sheet is not None):
        file = at.shop.files.get(number)
        yield Choice(f"show the sheet {inert(file.name, 40)}", partial(show_file, at, file))
    joints = joints_of(at.shop, part)
    if any(each.counted for each in joints):
        yield Choice(CHECK, partial(_ask_which_joint, at, part))
    if any(_standing(at, each) for each in joints):
        yield Choice(STRIKE, partial(_ask_which_reading, at, part))


def _standing(at: At, each: JointAt) -> tuple[Reading, ...]:
    return tuple(
        reading
        for reading in readings_at(at.shop, each)
        if reading.what is not What.STRUCK and at.shop.readings.struck_by(reading.id) is None
    )


def _ask(part: Part, words: str, choices: Iterator[Choice]) -> Answer:
    return ask_about(part, f"{name(part)}: {words} Its number, then Enter.", Question(choices=tuple(choices)))


def _ask_which_joint(at: At, part: Part) -> Answer:
    joints = [each for each in joints_of(at.shop, at.shop.parts.get(part.id)) if each.counted]
    return _ask(
        part,
        "which joint?",
        (Choice(f"{joint_name(each)}", partial(_ask_what, at, each)) for each in joints),
    )


def _ask_what(at: At, each: JointAt) -> Answer:
    """Ask whether a joint is good, failed, or was loosened on purpose."""

    def then(lead: str) -> Answer:
        return done(lead, part=each.part.code, subject=each.part.id)

    _, asked = question(at, each, then)
    loosened = Choice(
        "it is loosened: open it again ...",
        partial(ask_loosen, at, each.part, position=each.position, joint=each.joint.name),
    )
    good = Choice("checked, and good", partial(ask_checked, at, each, then))
    checked = () if each.is_open else (good,)
    words = f"{joint_name(each)}, {stands_words(each)}: what was found?"
    return _ask(each.part, words, iter((*checked, *asked.choices, loosened)))


def _ask_which_reading(at: At, part: Part) -> Answer:
    found = [
        (each, reading)
        for each in joints_of(at.shop, at.shop.parts.get(part.id))
        for reading in _standing(at, each)
    ]
    found.sort(key=lambda pair: -pair[1].id)
    return _ask(
        part,
        "which reading is struck out?",
        (
            Choice(
                f"{joint_name(each)}: {reading_words(at.shop, reading)}",
                partial(_ask_reason, at, each, reading),
            )
            for each, reading in found
        ),
    )


def _ask_reason(at: At, each: JointAt, reading: Reading) -> Answer:
    def reason(text: str) -> Answer:
        return strike_out(at, each, reading, text.strip())

    return ask_about(
        each.part,
        f"{joint_name(each)}: {reading_words(at.shop, reading)}. Type why it is struck out; it can still be "
        "read.",
        Question(words=reason),
    )


def strike_out(at: At, each: JointAt, reading: Reading, reason: str) -> Answer:
    """Strike a reading out: it stays in the record with the reason, and no longer counts."""
    if at.shop.readings.struck_by(reading.id) is not None:
        return stop("It is struck out already. Nothing changed.")
    person = at.person
    with at.doing(f"struck out a reading of {joint_name(each)}: {reason}") as tx:
        tx.state(strike(reading, reason, person.id if person else None))
    now = joint_now(at.shop, each) or each
    words = f"Struck out: {joint_name(each)}, {reason}."
    if at.station == "lift" and now.is_open:
        return ask_joint(at, now, words)
    return done(words, part=each.part.code, subject=each.part.id)

"""One position of the vehicle: what is on there, what is not tightened, and what is still to go on."""

from dataclasses import replace
from functools import partial

from shoptui.domain.places import State
from shoptui.jobs.answers import Answer, Question, done, stop
from shoptui.jobs.at import At, name
from shoptui.jobs.joint_words import joint_name, stands_words
from shoptui.jobs.joints import JointAt, joints_of
from shoptui.jobs.positions import on_vehicle
from shoptui.jobs.tighten import ask_joint


def corner(at: At, position: str) -> Answer:
    """Say what is on at a position of the vehicle at this terminal, and what is listed for it and is not."""
    build = at.build
    if build is None:
        return stop("This terminal works on no build. Scan the vehicle first.")
    book = at.shop.book
    on, trial, off = [], [], []
    loose: list[JointAt] = []
    for part in at.shop.parts.all():
        if part.build != build.id:
            continue
        if on_vehicle(book, part.id)[position]:
            on.append(name(part))
            loose += [each for each in joints_of(at.shop, part, position) if each.needs_somebody]
        elif on_vehicle(book, part.id, State.MOCKED_UP)[position]:
            trial.append(name(part))
        elif position in part.positions and part.needed:
            off.append(name(part))
    there = f"{len(on)} on: {_few(on)}." if on else "Nothing is on there by the books."
    hangs = f" {len(trial)} mocked up: {_few(trial)}." if trial else ""
    to_go = f" {len(off)} still to go on: {_few(off)}." if off else ""
    answer = done(f"{position}: {there}{hangs}{to_go}{_to_do(loose)}", where=position, show="lift")
    if not loose or at.turned_to:
        return answer  # what a command said of the next part still stands
    first = loose[0]
    return replace(
        answer,
        part=first.part.code,
        qty=first.pieces,
        subject=first.part.id,
        question=Question(yes=partial(ask_joint, at, first)),
    )


def _to_do(loose: list[JointAt]) -> str:
    if not loose:
        return ""
    told = _few([f"{joint_name(each)}, {stands_words(each)}" for each in loose])
    return (
        f" {len(loose)} joint{' wants' if len(loose) == 1 else 's want'} somebody: {told}. Ctrl+L: the first."
    )


def _few(names: list[str], most: int = 4) -> str:
    return ", ".join(names[:most]) + (f" and {len(names) - most} more" if len(names) > most else "")

"""What a command or position tag does, at the station where it is scanned."""

from collections.abc import Callable
from functools import partial

from shoptui.jobs.amiss import DAMAGED, over, set_aside
from shoptui.jobs.answers import Answer, Said, done, stop
from shoptui.jobs.at import At
from shoptui.jobs.box_list import WRONG
from shoptui.jobs.close_box import close_box, short
from shoptui.jobs.corner import corner
from shoptui.jobs.lift_card import TURNS, ask_card, can_come_off
from shoptui.jobs.print_lacking import print_said
from shoptui.jobs.racks import count_said, done_said
from shoptui.jobs.substitute import substitute
from shoptui.jobs.undo import undo
from shoptui.jobs.wrench_care import FELL, fell
from shoptui.store.command_tags import CommandTag


def command_answer(at: At, command: CommandTag, qty: int = 1) -> Answer:
    """Do what a command tag says; a position with no part chosen shows that corner of the vehicle.

    Args:
        at: Where it is scanned.
        command: The tag.
        qty: Pieces that it is said of, typed before it.

    """
    if command.position:
        return _position(at, command.word)
    if command.word in AT_THE_DOOR:
        return _at_the_door(at, command.word, qty)
    do = _COMMANDS.get(command.word)
    return do(at) if do else stop("No question is open, so there is nothing to answer.")


def _done(at: At) -> Answer:
    if at.station == "receiving":
        return close_box(at)
    return done_said(at) or _put_card_down()


def _at_the_door(at: At, word: str, qty: int) -> Answer:
    if at.station == "receiving":
        return AT_THE_DOOR[word](at, qty)
    return stop(f"“{word}” is for things from a box: go to Receiving (F3).")


def _position(at: At, word: str) -> Answer:
    if at.station == "lift":
        return corner(at, word)
    return stop(f"{word} is a position on the vehicle: it means something at the Lift (F4).")


def _turn_card(verb: str, at: At) -> Answer:
    """Turn the open card, or with none open that of the next part."""
    if at.station != "lift":
        return stop(f"“{verb}” is for a part at the Lift (F4).")
    part = None if at.card_part is None else at.shop.parts.get(at.card_part)
    words = ""
    if part is not None and (verb != "remove" or can_come_off(at, part)):
        answer = ask_card(at, part, at.card_qty, verb)
        if answer.said is not Said.STOP:
            return answer
        words = f"{answer.text} "
    # What came off just now, or has no joints, is still in hand: the next thing is meant.
    return done(f"{words}{verb.capitalize()}: scan the part.", card=verb)


def _put_card_down() -> Answer:
    return done("Nothing is in hand now.")


AT_THE_DOOR: dict[str, Callable[[At, int], Answer]] = {
    "damaged": partial(set_aside, why=DAMAGED),
    "wrong": partial(set_aside, why=WRONG),
    "over": over,
    "short": lambda at, _qty: short(at),
    "substitute": lambda at, _qty: substitute(at),
}
"""What is said of things from a box."""

_COMMANDS: dict[str, Callable[[At], Answer]] = {
    "undo": undo,
    "done": _done,
    "count": count_said,
    "print": print_said,
    FELL: fell,
    **{verb: partial(_turn_card, verb) for verb in TURNS},
}

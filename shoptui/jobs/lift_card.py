"""Which card a part's scan opens at the lift."""

from collections.abc import Callable
from dataclasses import replace
from functools import partial

from shoptui.domain.inert import inert
from shoptui.domain.places import State
from shoptui.domain.readiness import work_left
from shoptui.domain.records import Part
from shoptui.domain.verbs import HERE
from shoptui.jobs.answers import Answer, Choice, Question, ask_on_card
from shoptui.jobs.assemble import ask_assemble
from shoptui.jobs.at import At, name
from shoptui.jobs.install import ask_install
from shoptui.jobs.joint_question import CARD
from shoptui.jobs.joints import joints_of
from shoptui.jobs.place_words import place_words
from shoptui.jobs.positions import position_of
from shoptui.jobs.remove import ask_remove
from shoptui.jobs.take_apart import ask_take_apart, carriers
from shoptui.jobs.take_down import ask_take_down
from shoptui.jobs.tighten import ask_joints

TURNS = ("install", "mock up", "remove", "assemble", CARD)
"""What a command tag or a key can turn the lift's card to."""

BUILT_IN = "built in"
"""The turn of a card that shows what carries the part."""


def ask_card(at: At, part: Part, qty: int = 1, verb: str = "") -> Answer:
    """Open a part's card, turned to what was said, else to what its scan is for."""
    return _CARDS[verb or turn_of(at, part)](at, part, qty)


def turn_of(at: At, part: Part) -> str:
    """Return what a part's scan is for: install while any hangs for trial or is on hand, else remove.

    What is on with a joint that is open or due is there to be tightened first; one that was begun, or whose
    card lies open as it was just installed, goes before another that is to go on. What hangs for trial and is
    still to be worked on comes down. What is built into another is shown with that. What the books have
    elsewhere can be in the hand too.
    """
    book = at.shop.book
    if _lies_open(at, part):
        return CARD
    if book.in_state(part.id, State.MOCKED_UP):
        return "take down" if _still_to_be(at, part) else "install"
    here = book.in_state(part.id, *HERE)
    if book.in_state(part.id, State.INSTALLED):
        joints = joints_of(at.shop, part)
        if any(each.is_begun for each in joints):
            return CARD
        if part.original or not here:
            return CARD if any(each.needs_somebody for each in joints) else "remove"
    return BUILT_IN if book.in_state(part.id, State.ASSEMBLED) and not here else "install"


def _lies_open(at: At, part: Part) -> bool:
    """Return whether a part's card lies open at joints of it that still need somebody."""
    if (at.card_part, at.card_verb) != (part.id, CARD):
        return False
    _, where = at.card_joint
    return any(each.needs_somebody for each in joints_of(at.shop, part, where))


def _ask_built_in(at: At, part: Part, qty: int) -> Answer:
    """Show what carries a part that is built in: that one is most likely meant, else it is taken apart."""
    inside = carriers(at, part)
    place = at.shop.book.places(part.id, State.ASSEMBLED)[0][0]
    carrier = inside[0]
    return ask_on_card(
        part,
        BUILT_IN,
        f"{name(part)} is {place_words(at.shop, place)}. Enter: the card of {name(carrier)}. "
        "1 and Enter: take it apart.",
        Question(
            # Of its own code: the inner part scanned once more must not put the carrier on.
            yes=lambda: ask_card(at, at.shop.parts.get(carrier.id)).of("part", carrier.code),
            choices=(Choice("take it apart", partial(ask_take_apart, at, part, qty)),),
        ),
        qty=qty,
        state=State.ASSEMBLED.value,
    )


def _still_to_be(at: At, part: Part) -> str:
    """Return the outside work that what hangs for trial needs next, empty for none."""
    hanging = at.shop.book.places(part.id, State.MOCKED_UP)
    left = work_left(part, hanging[0][0].condition) if hanging else ()
    return left[0].work if left else ""


def can_come_off(at: At, part: Part) -> bool:
    """Return whether any of a part is on the vehicle, or built into another."""
    return at.shop.book.in_state(part.id, State.INSTALLED, State.MOCKED_UP, State.ASSEMBLED) > 0


def _ask_down(at: At, part: Part, qty: int) -> Answer:
    """Take down what hangs for trial; what is still to be worked on can stay for good all the same."""
    asked = ask_take_down(at, part, qty)
    work = _still_to_be(at, part)
    if asked.question is None or asked.question.yes is None or not work:
        return asked
    choices = [Choice("install it for good all the same", partial(ask_install, at, part, qty))]
    if at.shop.book.in_state(part.id, *HERE):
        choices.append(Choice("install one from the shelf", partial(ask_install, at, part, qty, fresh=True)))
    return replace(
        asked,
        text=f"It is mocked up, and still to be {inert(work)}. {asked.text}",
        question=replace(asked.question, choices=tuple(choices)),
    )


def _ask_tight(at: At, part: Part, qty: int) -> Answer:
    """Ask for the joints of what is on; another one that is here can go on all the same."""
    asked = ask_joints(at, part, qty)
    if asked.question is None or not at.shop.book.in_state(part.id, *HERE):
        return asked
    first = asked.question.accepts

    def accepts(text: str) -> Answer | None:
        answer = first(text) if first is not None else None
        position = position_of(part, text)
        if answer is None and position is not None and position.name in part.positions:
            return ask_install(at, part, qty, position.name)
        return answer

    another = Choice("another one goes on", partial(ask_install, at, part, qty))
    choices = (*asked.question.choices, another)
    return replace(asked, question=replace(asked.question, choices=choices, accepts=accepts))


def _ask_off(at: At, part: Part, qty: int) -> Answer:
    """What comes off is installed, hangs for trial, or is built into another part."""
    book = at.shop.book
    if not book.in_state(part.id, State.INSTALLED):
        if book.in_state(part.id, State.MOCKED_UP):
            return ask_take_down(at, part, qty)
        if book.in_state(part.id, State.ASSEMBLED):
            return ask_take_apart(at, part, qty)
    return ask_remove(at, part, qty)


def _ask_bench(at: At, part: Part, qty: int) -> Answer:
    """Build it into another; where none is left to build in, take it apart."""
    book = at.shop.book
    if book.in_state(part.id, State.ASSEMBLED) and not book.in_state(part.id, *HERE):
        return ask_take_apart(at, part, qty)
    return ask_assemble(at, part, qty)


_CARDS: dict[str, Callable[[At, Part, int], Answer]] = {
    "install": ask_install,
    "mock up": partial(ask_install, trial=True),
    "remove": _ask_off,
    "take down": _ask_down,
    "assemble": _ask_bench,
    CARD: _ask_tight,
    "take apart": ask_take_apart,
    BUILT_IN: _ask_built_in,
}

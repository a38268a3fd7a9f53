"""What a script puts on the vehicle and takes off, builds into other parts and takes out of them."""

import argparse

from shoptui.cli.doing import do_with_part
from shoptui.cli.named import bin_of, part_of
from shoptui.cli.opening import CannotDoError
from shoptui.domain.inert import inert
from shoptui.domain.places import State
from shoptui.domain.records import Part
from shoptui.jobs.answers import Answer
from shoptui.jobs.assemble import ask_into
from shoptui.jobs.at import At, name
from shoptui.jobs.fit_card import fit_card
from shoptui.jobs.install import ask_install
from shoptui.jobs.install import install as put_on
from shoptui.jobs.loosen import ask_loosen
from shoptui.jobs.positions import position_of
from shoptui.jobs.remove import ask_remove, remove_or_ask
from shoptui.jobs.take_apart import ask_take_apart
from shoptui.jobs.take_down import ask_take_down
from shoptui.jobs.take_down import take_down as take_down_from


def install(arguments: argparse.Namespace) -> int:
    """Install pieces for good."""
    return _put_on(arguments, trial=False)


def mock_up(arguments: argparse.Namespace) -> int:
    """Put pieces on for trial."""
    return _put_on(arguments, trial=True)


def _put_on(arguments: argparse.Namespace, *, trial: bool) -> int:
    def job(at: At, part: Part) -> Answer:
        position = _position(part, arguments.at)
        card = fit_card(at, part, arguments.qty, position, trial=trial)
        if card.doubtful:
            return ask_install(at, part, arguments.qty, position, trial=trial)
        return put_on(at, part, arguments.qty, position=card.position, trial=trial)

    return do_with_part(arguments, job)


def remove(arguments: argparse.Namespace) -> int:
    """Take pieces off the vehicle."""

    def job(at: At, part: Part) -> Answer:
        _into(at, arguments.to)
        position = _position(part, arguments.at) or _only(at, part, State.INSTALLED)
        if position is None:
            return ask_remove(at, part, arguments.qty)
        return remove_or_ask(at, part, arguments.qty, position)

    return do_with_part(arguments, job)


def loosen(arguments: argparse.Namespace) -> int:
    """Open a joint again while its part stays on."""

    def job(at: At, part: Part) -> Answer:
        spot = _position(part, arguments.at)
        return ask_loosen(at, part, position=spot, joint=arguments.joint, why=arguments.reason)

    return do_with_part(arguments, job)


def take_down(arguments: argparse.Namespace) -> int:
    """Take down what is mocked up, back to where it came from."""

    def job(at: At, part: Part) -> Answer:
        position = _position(part, arguments.at) or _only(at, part, State.MOCKED_UP)
        if position is None:
            return ask_take_down(at, part, arguments.qty)
        return take_down_from(at, part, arguments.qty, position=position)

    return do_with_part(arguments, job)


def assemble(arguments: argparse.Namespace) -> int:
    """Build pieces into another part."""

    def job(at: At, part: Part) -> Answer:
        return ask_into(at, part, arguments.qty, part_of(at, arguments.into))

    return do_with_part(arguments, job)


def take_apart(arguments: argparse.Namespace) -> int:
    """Take pieces out of the part that carries them."""

    def job(at: At, part: Part) -> Answer:
        _into(at, arguments.to)
        carrier = part_of(at, arguments.out_of) if arguments.out_of else None
        return ask_take_apart(at, part, arguments.qty, carrier)

    return do_with_part(arguments, job)


def _position(part: Part, text: str | None) -> str | None:
    """Return the position that was given; None where none was."""
    if text is None:
        return None
    position = position_of(part, text)
    if position is None:
        listed = f" or one of {', '.join(map(inert, part.positions))}" if part.positions else ""
        raise CannotDoError(
            f"{name(part)} has no position {inert(text)}: LF, RF, LR, RR, front, rear, left, right{listed} "
            "was expected."
        )
    return position.name


def _only(at: At, part: Part, state: State) -> str | None:
    """Return the one position that pieces have in a state; None where they have none or several."""
    spots = {str(place.where) for place, _ in at.shop.book.places(part.id, state)}
    return spots.pop() if len(spots) == 1 else None


def _into(at: At, code: str) -> None:
    """Let what comes off go to a bin or bag that was given."""
    if code:
        at.bin_given = bin_of(at.shop, code).code

"""Positions on the vehicle, as they are scanned or typed."""

from dataclasses import dataclass

from shoptui.domain.records import Part
from shoptui.store.command_tags import command_named


@dataclass(frozen=True, slots=True)
class Position:
    """A position by its name as the lists have it."""

    name: str


def position_of(part: Part, text: str) -> Position | None:
    """Return the position that a scan or a typed word names; None for what is none.

    The usual ones have tags; any other name that the part is listed for can be typed.
    """
    command = command_named(text)
    if command is not None:
        return Position(command.word) if command.position else None
    wanted = text.strip().casefold()
    return next((Position(each) for each in part.positions if each.casefold() == wanted), None)

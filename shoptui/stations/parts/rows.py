"""The parts of a build as rows."""

from shoptui.domain.places import State
from shoptui.jobs.at import name, shown
from shoptui.jobs.part_list import PartLine
from shoptui.stations.listed import Column, Row
from shoptui.stations.marks import Tone

PART_COLUMNS = (
    Column("part"),
    Column("section", 16),
    Column("needed", 6, right=True),
    Column("state", 20, toned=True),
    Column("code", 10, since=96),
    Column("number", 14, since=110),
)


def part_row(line: PartLine) -> Row:
    """Return the row of a part."""
    part = line.part
    words, tone = part_state(line)
    needed = str(part.needed) if part.needed else ""
    return Row(
        part.id,
        (name(part), part.section, needed, words, shown(part.code), part.number),
        tone,
        " ".join((part.tag, part.maker, *part.other_numbers)),
    )


def part_state(line: PartLine) -> tuple[str, Tone]:
    """Return where the pieces of a part are, in as few words as there are, and how that looks."""
    if line.part.kit:
        return "kit", Tone.QUIET
    words = [f"! {line.to_order} to order"] if line.to_order else []
    words.extend(f"{qty} {state}" for state, qty in line.states.items() if qty > 0)
    if line.to_order or line.states[State.HELD]:
        return ", ".join(words), Tone.BAD
    if line.part.needed and line.states[State.INSTALLED] >= line.part.needed:
        return ", ".join(words), Tone.GOOD
    return ", ".join(words) or "-", Tone.PLAIN

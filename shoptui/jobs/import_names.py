"""A part as lists and files name it: by code or tag, maker's number, or description, the surest first."""

from shoptui.domain.inert import inert
from shoptui.domain.names import Names
from shoptui.domain.records import Part
from shoptui.domain.tables import Reading
from shoptui.jobs.at import shown
from shoptui.store.shop import Shop

LISTED = 4
"""Parts that a sentence names."""


def add_part_names(names: Names[Part], part: Part) -> None:
    """Enter a part under its names; a tag is as sure as a code, with or without its dash."""
    names.add(part, part.code, part.number, part.description)
    names.add(part, part.tag)


def part_names(shop: Shop) -> Names[Part]:
    """Return the names of all parts of a shop."""
    names: Names[Part] = Names()
    for part in shop.parts.all():
        add_part_names(names, part)
    return names


def part_found(reading: Reading, line: int, column: str, names: Names[Part], name: str) -> Part | None:
    """Return the one part that a name means; none or several are a trouble."""
    found = names.find(name)
    if len(found) == 1:
        return found[0]
    if found:
        several = ", ".join(shown(part.code) for part in found[:LISTED])
        sentence = f"{inert(name)} stands for {len(found)} parts ({several}); give the code of one."
    else:
        sentence = (
            f"No part has {inert(name)} as its code, tag, maker's number or description; "
            "import the list of parts first."
        )
    reading.trouble(line, column, sentence)
    return None

"""Take in filming days: shots, and what each needs."""

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from datetime import date

from shoptui.domain.cells import Pieces, pieces, yes
from shoptui.domain.inert import inert
from shoptui.domain.names import Names, code_key
from shoptui.domain.records import Part
from shoptui.domain.shoots import Condition, Need, Shoot, Shot
from shoptui.domain.tables import Reading, Row
from shoptui.jobs.import_names import part_found
from shoptui.jobs.toml_rows import toml_row
from shoptui.store.shop import Shop
from shoptui.store.transaction import Transaction

SHOOTS = ("code", "title", "date", "call_time")
SHOTS = ("title", "moves", "filmed")
NEEDS = ("part", "section", "build", "condition", "qty")

CONDITIONS = tuple(condition.value for condition in Condition)


@dataclass(slots=True)
class ShootFile:
    """The filming days of one file on their way into the shop.

    Args:
        shop: The shop.
        tx: Where they go.
        reading: Gathers what is wrong.
        names: The parts by their names.
        shot_lines: Lines on which shots begin, in their order.
        read_day: Reads a day.
        lines: Code to the line of the file that has it.

    """

    shop: Shop
    tx: Transaction
    reading: Reading
    names: Names[Part]
    shot_lines: Iterator[int]
    read_day: Callable[[str], date]
    lines: dict[str, int] = field(default_factory=dict)


def put_shoot(file: ShootFile, line: int, values: object) -> None:
    """Add one filming day, or change the one of its code, which keeps what the file does not say.

    Nothing else in the shop points at a filming day, so a day that moved is imported again.
    """
    reading = file.reading
    row = toml_row(reading, line, values, SHOOTS, ("shots",))
    code, title = reading.text(row, "code", limit=40), reading.text(row, "title")
    there = file.shop.shoots.by_code(code) if code else None
    when = reading.take(row, "date", file.read_day, there.date if there else None)
    if when is None and "date" not in row.cells:
        reading.trouble(line, "date", "The day is needed; it is not there.")
    if not code:
        reading.trouble(line, "code", "A code is needed.")
    elif (first := file.lines.setdefault(code_key(code), line)) != line:
        reading.trouble(line, "code", f"{inert(code)} is already on line {first}.")
    call = reading.text(row, "call_time", limit=5)
    shots = _shots(file, line, values)
    if when is None:
        return
    if there is None:
        file.tx.add(Shoot(0, code, title or code, when, call, shots or ()))
        return
    file.tx.change(
        there,
        title=title or there.title,
        date=when,
        call_time=call or there.call_time,
        shots=there.shots if shots is None else _still_filmed(there.shots, shots),
    )


def _shots(file: ShootFile, line: int, values: object) -> tuple[Shot, ...] | None:
    """Return the shots of a filming day, None where the file says nothing of them."""
    shots = values.get("shots") if isinstance(values, dict) else None
    if shots is not None and not isinstance(shots, list):
        file.reading.trouble(line, "shots", "Tables headed [[shoots.shots]] were expected.")
    if not isinstance(shots, list):
        return None
    return tuple(
        _shot(file.shop, file.reading, next(file.shot_lines, line), shot, file.names) for shot in shots
    )


def _still_filmed(before: tuple[Shot, ...], after: tuple[Shot, ...]) -> tuple[Shot, ...]:
    """Return shots, each filmed if one of its title was: what is in the can does not depend on a file."""
    filmed = Counter(shot.title.casefold() for shot in before if shot.filmed)
    kept = []
    for shot in after:
        title = shot.title.casefold()
        kept.append(replace(shot, filmed=shot.filmed or filmed[title] > 0))
        filmed[title] -= 1
    return tuple(kept)


def _shot(shop: Shop, reading: Reading, line: int, values: object, names: Names[Part]) -> Shot:
    row = toml_row(reading, line, values, SHOTS, ("needs",))
    title = reading.text(row, "title")
    if not title and "title" not in row.cells:
        reading.trouble(line, "title", "A title is needed; it is not there.")
    needs = values.get("needs", []) if isinstance(values, dict) else []
    if not isinstance(needs, list):
        reading.trouble(
            line, "needs", 'A list such as [{ part = "...", condition = "on hand" }] was expected.'
        )
        needs = []
    rows = [toml_row(reading, line, need, NEEDS) for need in needs]
    return Shot(
        title,
        tuple(need for each in rows if (need := _need(shop, reading, each, names)) is not None),
        moves=reading.take(row, "moves", yes, default=False),
        filmed=reading.take(row, "filmed", yes, default=False),
    )


def _need(shop: Shop, reading: Reading, row: Row, names: Names[Part]) -> Need | None:
    said = reading.text(row, "condition")
    if said not in CONDITIONS:
        reading.trouble(
            row.line,
            "condition",
            f"One of {', '.join(CONDITIONS)} was expected; {inert(said) or 'nothing'} came.",
        )
        return None
    qty = reading.take(row, "qty", pieces, Pieces(0)).total
    if "part" in row.cells:
        part = part_found(reading, row.line, "part", names, reading.text(row, "part"))
        return None if part is None else Need(Condition(said), part=part.id, qty=qty)
    section, code = reading.text(row, "section"), reading.text(row, "build")
    build = shop.builds.by_code(code) if code else None
    there = build and any(part.build == build.id and part.section == section for part in shop.parts.all())
    if build is None or not there:
        reading.trouble(
            row.line,
            "needs",
            "A part, or a build with a section of it that has parts, was expected; "
            f"build {inert(code) or 'none'} and section {inert(section) or 'none'} came.",
        )
        return None
    return Need(Condition(said), build=build.id, section=section, qty=qty)

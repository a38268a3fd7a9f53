"""Take in filming days: shots, and what each needs."""

from collections.abc import Callable, Iterator
from datetime import date

from shoptui.domain.cells import Pieces, pieces, yes
from shoptui.domain.inert import inert
from shoptui.domain.names import Names
from shoptui.domain.records import Part
from shoptui.domain.shoots import Condition, Need, Shoot, Shot
from shoptui.domain.tables import Reading, Row
from shoptui.jobs.toml_rows import toml_row
from shoptui.store.shop import Shop
from shoptui.store.transaction import Transaction

SHOOTS = ("code", "title", "date", "call_time")
SHOTS = ("title", "moves", "filmed")
NEEDS = ("part", "section", "build", "condition", "qty")

CONDITIONS = tuple(condition.value for condition in Condition)


def add_shoot(
    shop: Shop,
    tx: Transaction,
    reading: Reading,
    line: int,
    values: object,
    shot_lines: Iterator[int],
    read_day: Callable[[str], date],
) -> None:
    """Add one filming day from a table of TOML, noting what is wrong in it."""
    row = toml_row(reading, line, values, SHOOTS, ("shots",))
    code, title = reading.text(row, "code", limit=40), reading.text(row, "title")
    when = reading.take(row, "date", read_day, None)
    if when is None and "date" not in row.cells:
        reading.trouble(line, "date", "The day is needed; it is not there.")
    if not code or shop.shoots.by_code(code) is not None:
        reading.trouble(line, "code", f"{inert(code)} is already there." if code else "A code is needed.")
    shots = values.get("shots", []) if isinstance(values, dict) else []
    if not isinstance(shots, list):
        reading.trouble(line, "shots", "Tables headed [[shoots.shots]] were expected.")
        shots = []
    names = _part_names(shop)
    found = tuple(_shot(shop, reading, next(shot_lines, line), shot, names) for shot in shots)
    if when is not None and shop.shoots.by_code(code) is None:
        tx.add(Shoot(0, code, title or code, when, reading.text(row, "call_time", limit=5), found))


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
        part = _part(reading, row, names)
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


def _part(reading: Reading, row: Row, names: Names[Part]) -> Part | None:
    name = reading.text(row, "part")
    found = names.find(name)
    if len(found) == 1:
        return found[0]
    reading.trouble(
        row.line,
        "part",
        f"{inert(name)} stands for {len(found)} parts; give a code."
        if found
        else f"No part is called {inert(name)}; import the parts before the filming days.",
    )
    return None


def _part_names(shop: Shop) -> Names[Part]:
    names: Names[Part] = Names()
    for part in shop.parts.all():
        names.add(part, part.code, part.tag, part.number, part.description)
    return names

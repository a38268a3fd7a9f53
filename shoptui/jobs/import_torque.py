"""Torque from a shop's file: wrenches, and joints of parts that are there, read as their forms read them."""

from typing import Any

from shoptui.domain.inert import inert
from shoptui.domain.joint_doubts import joint_doubt
from shoptui.domain.joint_sheets import names_unit
from shoptui.domain.records import Joint, Wrench
from shoptui.domain.tables import Row
from shoptui.domain.tags import Kind
from shoptui.jobs.asked import Asked, Sense
from shoptui.jobs.import_names import part_found
from shoptui.jobs.joint_fields import JOINTS, joint_refused
from shoptui.jobs.shop_file import ShopFile
from shoptui.jobs.toml_rows import key_line, toml_row
from shoptui.jobs.wrench_fields import WRENCH


def put_joint(coming: ShopFile, line: int, values: object) -> None:
    """Add a joint to a part, behind those that it has."""
    shop, tx, reading, names = coming.shop, coming.tx, coming.reading, coming.parts
    row = toml_row(reading, line, values, ("part", *(each.name for each in JOINTS.fields)))
    named = row.cells.get("part", "")
    if not named:
        reading.trouble(line, "part", "This is needed; it is not there.")
        return
    part = part_found(reading, line, "part", names, named)
    found = _read(coming, Sense(shop, part), row, JOINTS.fields)
    if found is not None and found["value"] and not names_unit(row.cells["value"]):
        said = inert(row.cells["value"], 40)
        words = f"A unit behind the torque is needed in a file, such as 110 N m; {said} came."
        reading.trouble(key_line(coming.text, line, "value"), "value", words)
    if part is None or found is None:
        return
    part = shop.parts.get(part.id)
    joints = (*part.joints, Joint(**found))
    after = tx.change(part, joints=joints)
    refusal = joint_refused(after)
    if refusal is not None and refusal.place == len(part.joints):  # one before it had its own trouble
        at, words = key_line(coming.text, line, refusal.field), refusal.words
        reading.trouble(at, refusal.field, words[0].upper() + words[1:])
    if words := joint_doubt(joints[-1]):
        coming.doubts.append(f"Line {line}: {words}")


def put_wrench(coming: ShopFile, line: int, values: object) -> None:
    """Add a torque tool."""
    shop, tx, reading, taken = coming.shop, coming.tx, coming.reading, coming.taken
    fields = tuple(each for each in WRENCH.fields if each.name != "code")
    row = toml_row(reading, line, values, ("code", "tag", *(each.name for each in fields)))
    found = _read(coming, Sense(shop), row, fields)
    code = taken.code(reading, row, "code")
    tag = taken.tag(reading, row, "tag", (Kind.WRENCH,))
    if found is None:
        return
    wrench = Wrench(id=0, code=code, tag=tag, **found)
    if refusal := WRENCH.refused(Sense(shop), wrench):
        reading.trouble(key_line(coming.text, line, refusal.field), refusal.field, refusal.words)
        return
    tx.add(wrench)


def _read(coming: ShopFile, sense: Sense, row: Row, fields: tuple[Asked, ...]) -> dict[str, Any] | None:
    """Return what the fields of a form read from a row's cells; None where one of them cannot be read."""
    found: dict[str, Any] = {}
    for asked in fields:
        if asked.name not in row.cells and asked.name in _USUAL:
            found[asked.name] = _USUAL[asked.name]
            continue
        try:
            found[asked.name] = asked.read(sense, row.cells.get(asked.name, "").replace("\n", "; "))
        except ValueError as error:
            coming.reading.trouble(key_line(coming.text, row.line, asked.name), asked.name, str(error))
    return found if len(found) == len(fields) else None


_USUAL = {"unit": "N m", "kind": "setting", "gone": False}
"""What a tool is where nothing else is said."""

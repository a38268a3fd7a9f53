"""The forms of all records; parts, orders and wrenches have modules of their own."""

from dataclasses import replace
from typing import Any

from shoptui.domain import vin
from shoptui.domain.cells import CellError
from shoptui.domain.inert import inert
from shoptui.domain.records import Bin, Build, Person, Supplier
from shoptui.jobs import ask_for
from shoptui.jobs.ask_for_records import code, old_names, part
from shoptui.jobs.asked import Asked, Sense
from shoptui.jobs.at import shown
from shoptui.jobs.hand_over import FINISHED
from shoptui.jobs.import_cells import ODOMETER_UNITS, odometer, vehicle_number
from shoptui.jobs.odometer import turned
from shoptui.jobs.order_fields import ORDER
from shoptui.jobs.part_fields import PART
from shoptui.jobs.put_away import bin_name
from shoptui.jobs.record_form import RecordForm
from shoptui.jobs.whole_record import name_there, supplier_refused
from shoptui.jobs.wrench_fields import WRENCH
from shoptui.store.shelves import short


def _named(record: Any) -> str:  # noqa: ANN401 - a record with a name
    return inert(record.name or record.code)


def _status() -> Asked:
    """Ask for a build's status, but for finishing it: that asks what is open, and lets parts leave."""
    words = ask_for.choice(
        "status", "Status", ("open", FINISHED), "Ctrl+G in the list of builds hands it over"
    )

    def read(sense: Sense, typed: str) -> str:
        said: str = words.read(sense, typed)
        if said == FINISHED and (sense.record is None or sense.record.status != FINISHED):
            raise CellError(
                "A vehicle is finished by handing it over: Ctrl+G in the list of builds asks what is open."
            )
        return said

    return replace(words, read=read)


BUILD = RecordForm(
    Build,
    "build",
    "builds",
    (
        ask_for.text("title", "Title", "what the project is called", needed=True),
        code("the short name, as on lists; empty: its tag"),
        ask_for.text("vehicle", "Vehicle", "make, year and body in words; may be empty"),
        ask_for.read_by(
            "vin",
            "VIN",
            "17 characters; older vehicles have none",
            lambda typed: vehicle_number(typed) if typed else "",
        ),
        ask_for.read_by(
            "odometer",
            "Odometer",
            "a reading in whole km or mi; may be empty",
            lambda typed: odometer(typed) if typed.strip() else None,
            lambda value: "" if value is None else str(value),
            one_value=True,
        ),
        ask_for.choice("odometer_unit", "Odometer in", ODOMETER_UNITS),
        ask_for.amount("labour_rate_minor", "Labour rate", "an amount for an hour; may be empty", own=True),
        _status(),
    ),
    lambda build: f"build {inert(build.title or build.code)}",
    asks=turned,
    doubt=name_there,
    note=lambda build: vin.note(build.vin) if build.vin else "",
)

SUPPLIER = RecordForm(
    Supplier,
    "supplier",
    "suppliers",
    (
        ask_for.text("name", "Name", "as people call it", needed=True),
        code("a short name; empty: made from the name"),
        ask_for.number("lead_days", "Lead time", "usual working days from order to box", most=999),
    ),
    _named,
    supplier_refused,
)

PERSON = RecordForm(
    Person,
    "person",
    "people",
    (
        ask_for.text("name", "Name", "as spoken", needed=True),
        code(),
        ask_for.yes_or_no("second_check", "May sign", "yes: may sign a second check"),
    ),
    _named,
    doubt=name_there,
)


def _old_names(before: Bin, after: Bin) -> dict[str, tuple[str, ...]]:
    """Keep the name that stands on a bin's sticker: nobody writes all of them anew when a rack is renamed."""
    if before.code in (after.code, before.tag):
        return {}
    names = dict.fromkeys((*before.old_names, before.code))
    return {"old_names": tuple(name for name in names if short(name) != short(after.code))}


def _stickers(bin_: Bin) -> str:
    names = ", ".join(map(shown, bin_.old_names))
    return f"A sticker that says {names} still means it." if names else ""


BIN = RecordForm(
    Bin,
    "bin",
    "bins",
    (
        code("as people say it: B-04; empty: its tag"),
        ask_for.choice("kind", "Kind", ("rack bin", "drawer", "bag", "bench")),
        ask_for.text("words", "Where it stands", "such as rack B, shelf 4; may be empty"),
        ask_for.text("room", "Room"),
        part("part", "Hardware of", "of a bag: the part that it belongs to; may be empty", needed=False),
        old_names(),
    ),
    bin_name,
    follows=_old_names,
    note=_stickers,
    leaves_out=lambda found: () if found.kind == "bag" else ("part",),
)

FORMS: dict[type, RecordForm] = {
    form.kind: form for form in (BUILD, PART, ORDER, SUPPLIER, PERSON, WRENCH, BIN)
}
"""Kind of record to what is asked of it."""

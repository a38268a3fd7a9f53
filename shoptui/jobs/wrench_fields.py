"""What is asked of a torque tool, in its form and in a file."""

from dataclasses import replace
from typing import Any

from shoptui.domain.fasteners.units import Unit, unit
from shoptui.domain.inert import inert
from shoptui.domain.records import Wrench
from shoptui.domain.wrenches import kind_of_tool, wider_than_type
from shoptui.jobs import ask_for
from shoptui.jobs.ask_for_records import code
from shoptui.jobs.asked import Asked, Sense
from shoptui.jobs.record_form import RecordForm
from shoptui.jobs.whole_record import Refusal, name_there
from shoptui.jobs.wrench_words import PAPERS_FIRST, wrench_facts

UNITS = tuple(map(str, (Unit.N_M, Unit.LBF_FT, Unit.LBF_IN, Unit.KGF_M)))
"""Those that torque tools have; others are read as well."""


def _unit() -> Asked:
    """Ask for the unit of a scale, which people write in many ways."""
    return replace(
        ask_for.choice("unit", "Unit", UNITS), read=lambda _, typed: str(unit(inert(typed.strip(), 40)))
    )


def _deviation() -> Asked:
    """Ask for a deviation; its sign and its per cent are understood."""
    asked = ask_for.decimal(
        "deviation_percent", "Deviation, %", "its papers' own, either way; empty: by type", most=100
    )

    def read(sense: Sense, typed: str) -> Any:  # noqa: ANN401 - as the field's own
        bare = typed.strip().removesuffix("%").rstrip().removeprefix("\u00b1").removeprefix("+/-")
        return asked.read(sense, bare.strip() or typed)

    return replace(asked, read=read)


def _refused(sense: Sense, after: Wrench) -> Refusal | None:
    """Refuse a scale that ends before it begins, and a barred tool that nobody checked."""
    if after.high <= after.low:
        words = f"More than the lowest mark, {after.low:g}, was expected; {after.high:g} came."
        return Refusal("high", words)
    before = sense.record
    if before is not None and before.barred and not after.barred:
        words = f"It is barred ({inert(before.barred)}) until a check is good: scan it twice, and say so."
        return Refusal("barred", words)
    if after.gone and not after.barred:
        return Refusal("barred", "It is gone: why was expected, such as sold or lost.")
    return None


def _follows(before: Wrench, after: Wrench) -> dict[str, Any]:
    """A day typed here is all that is known of a check."""
    return {} if before.checked == after.checked else {"checked_after": 0}


def _note(wrench: Wrench) -> str:
    wider = wider_than_type(wrench)
    return f"{wider[0].upper()}{wider[1:]}: {PAPERS_FIRST}." if wider else ""


WRENCH = RecordForm(
    Wrench,
    "wrench",
    "wrenches",
    (
        ask_for.text("name", "Name", "in words", needed=True),
        code(),
        _unit(),
        ask_for.decimal("low", "Lowest mark", "in that unit"),
        ask_for.decimal("high", "Highest mark", "in that unit"),
        ask_for.read_by(
            "kind",
            "Type",
            "II A, I B ... of ISO 6789; else setting or indicating",
            kind_of_tool,
            one_value=True,
        ),
        _deviation(),
        ask_for.decimal("length_mm", "Length, mm", "middle of the grip to the drive, for extensions"),
        ask_for.day("checked", "Last checked", past=True),
        ask_for.number("interval_months", "Check every", "months; 12 is usual", least=1, most=120, empty=12),
        ask_for.number(
            "cycles", "Uses before", "since that check, beside the readings", most=1_000_000, empty=0
        ),
        ask_for.text("barred", "Barred, because", "dropped, sold; only a good check clears it"),
        ask_for.yes_or_no("gone", "Gone", "yes: sold, lost or scrapped; its readings stay"),
    ),
    lambda wrench: inert(wrench.name or wrench.code),
    _refused,
    doubt=name_there,
    follows=_follows,
    note=_note,
    card=wrench_facts,
)

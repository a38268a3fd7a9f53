"""The form of a bin."""

from collections.abc import Mapping
from dataclasses import replace

from shoptui.domain.records import Bin
from shoptui.jobs.answers import Answer
from shoptui.jobs.at import At, shown
from shoptui.jobs.edit import edit, make, written
from shoptui.jobs.record_forms import BIN
from shoptui.stations.field import Field
from shoptui.stations.form import Form
from shoptui.stations.known_names import KnownNames


def bin_form(at: At, old: Bin | None) -> Form:
    """Return the form that makes a bin, or that renames one or says where it stands now."""
    now = old or Bin(0, "", "")
    before = written(at.shop, now)

    def save(values: Mapping[str, str]) -> Answer:
        answer = make(at, Bin, values) if old is None else edit(at, old, values, before=before)
        return replace(answer, show="racks")

    return Form(
        f"Bin {shown(now.code)}" if old else "A new bin, drawer or bag",
        tuple(
            Field(
                asked.name,
                asked.label,
                asked.hint or ", ".join(asked.choices),
                before[asked.name],
                names=KnownNames(asked.choices) if asked.choices else None,
                closed=bool(asked.choices),
            )
            for asked in BIN.fields
        ),
        save,
        about=f"Tag {shown(now.tag)}. What is in it goes with it." if old else "It gets a tag of its own.",
        draft=f"bins {now.id or 'new'}",
    )

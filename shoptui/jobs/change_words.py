"""How the change of a record is said: fields from what to what, and what is worth saying of it then."""

from collections.abc import Mapping
from typing import Any

from shoptui.jobs.asked import Sense
from shoptui.jobs.record_form import RecordForm

SHOWN = 60
"""Letters of a value in a sentence."""


def label(form: RecordForm, name: str) -> str:
    """Return what a field is called on the form."""
    asked = form.asked(name)
    return asked.label if asked else name


def change_words(form: RecordForm, sense: Sense, now: Any, changes: Mapping[str, Any]) -> str:  # noqa: ANN401
    """Say what was changed: one field from what to what, several by their names."""
    asked = [each for each in form.asked_of(now) if each.name in changes]
    if len(asked) > 1:
        *some, last = (each.label.lower() for each in asked)
        return f"changed {', '.join(some)} and {last} of {form.called(now)}"
    (only,) = asked
    was, will = (
        only.shown(only.write(sense, value), SHOWN) for value in (getattr(now, only.name), changes[only.name])
    )
    return f"changed {only.label.lower()} of {form.called(now)} from {was} to {will}"


def after_words(form: RecordForm, record: Any) -> str:  # noqa: ANN401 - any record that has a form
    """Return what is worth saying of a record once it is saved, behind a blank; empty if nothing."""
    words = form.note(record)
    return f" {words}" if words else ""

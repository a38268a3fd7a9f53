"""The form of the Racks that makes bins in rows."""

from collections.abc import Mapping
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from shoptui.jobs.answers import Answer, Question, Said, done
from shoptui.jobs.bins_in_rows import EXAMPLE, Rows, bins_in_rows, bins_of, rows_said
from shoptui.jobs.label_kinds import KINDS, lacks
from shoptui.stations.field import Field
from shoptui.stations.form import Form
from shoptui.stations.labels.print_form import PrintForm
from shoptui.stations.labels.what import things

if TYPE_CHECKING:
    from shoptui.stations.app import ShopApp


def rows_form(app: "ShopApp") -> Form:
    """Return the form; once the bins are made it offers to print their labels."""
    at = app.scanning.at
    rooms = sorted({each.room for each in at.shop.bins.all() if each.room})

    def save(values: Mapping[str, str]) -> Answer:
        answer = bins_in_rows(at, values["rows"], " ".join(values["room"].split()))
        question = answer.question
        if question is None or question.yes is None:
            return answer
        make = question.yes
        return replace(answer, question=Question(yes=lambda: _made(app, rows_said(values["rows"]), make())))

    return Form(
        "Bins in rows",
        (
            Field("rows", "Rows", EXAMPLE, check=rows_said),
            Field("room", "Room", f"such as {rooms[0]}; may be empty" if rooms else "may be empty"),
        ),
        save,
        about="The rack's name, then ranges of letters or numbers: what they make is said before it is made.",
    )


def _made(app: "ShopApp", rows: Rows, answer: Answer) -> Answer:
    if answer.said is Said.DONE:
        app.jobs.later(partial(_offer, app, rows, answer.text))
    return answer


def _offer(app: "ShopApp", rows: Rows, before: str) -> Answer:
    """Ask whether the labels of the bins shall be printed."""
    at = app.scanning.at
    lacking = [each for each in bins_of(at.shop, rows) if lacks(at.shop, each)]

    def yes() -> Answer:
        app.push_screen(PrintForm(at, things(at, KINDS["bins"], listed=lacking, called="those made now")))
        return done("Ctrl+G prints them.")

    return Answer(
        Said.QUESTION, f"{before} Enter: print them.", kind="labels", show="racks", question=Question(yes=yes)
    )

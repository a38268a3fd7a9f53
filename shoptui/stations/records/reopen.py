"""Opens a form again by the name under which its draft is kept."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from shoptui.domain.records import Part
from shoptui.domain.shoots import Shoot
from shoptui.jobs.answers import Answer, Question, Said, done
from shoptui.jobs.at import At
from shoptui.jobs.record_forms import FORMS
from shoptui.stations.filming.forms import day_form
from shoptui.stations.form import Form
from shoptui.stations.parts.copy_form import copy_form
from shoptui.stations.parts.forms import add_form, order_form, send_out_form
from shoptui.stations.records.record_form import new_form, new_hardware, record_form

if TYPE_CHECKING:
    from shoptui.stations.app import ShopApp


def form_named(at: At, draft: str) -> Form | None:
    """Return a form by the name of its draft, None if what it is for is no longer there."""
    word, _, which = draft.partition(" ")
    number = int(which) if which.isdecimal() else 0
    for kind in FORMS:
        if at.shop.shelves[kind].table == word:
            if which == "new":
                return new_form(at, kind)
            found = _there(at, kind, number)
            return None if found is None else record_form(at, found)
    opens = _OTHERS.get(word)
    return opens(at, number) if opens else None


def _there(at: At, kind: type, number: int) -> object:
    try:
        found = at.shop.shelves[kind].get(number)
    except KeyError:
        return None
    return None if found.withdrawn else found


def _day(at: At, number: int) -> Form | None:
    shoot = _there(at, Shoot, number)
    return day_form(at, shoot if isinstance(shoot, Shoot) else None) if shoot or not number else None


def _of_part(opens: Callable[[At, Part], Form]) -> Callable[[At, int], Form | None]:
    def form(at: At, number: int) -> Form | None:
        part = _there(at, Part, number)
        return opens(at, part) if isinstance(part, Part) else None

    return form


_OTHERS: dict[str, Callable[[At, int], Form | None]] = {
    "order": _of_part(order_form),
    "send-out": _of_part(send_out_form),
    "add": lambda at, _: add_form(at),
    "copy": lambda at, _: copy_form(at),
    "hardware": lambda at, _: new_hardware(at),
    "shoots": _day,
}


def offer_draft(app: "ShopApp") -> Answer | None:
    """Ask whether a form that was left half typed when the program closed shall be opened again."""
    memory = app.scanning.at.memory
    if not memory.draft:
        return None
    form = form_named(app.scanning.at, memory.form)
    if form is None:
        app.shop.remember(app.terminal, form="", draft=())
        return None

    def yes() -> Answer:
        app.push_screen(form)
        return done("The form is open again.")

    return Answer(
        Said.QUESTION,
        f"A form was left half typed: {form.form_title}. Enter opens it again; else it waits.",
        question=Question(yes=yes),
    )

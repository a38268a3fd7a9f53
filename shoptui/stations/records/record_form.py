"""The form of any record, made from what is asked of it."""

from collections.abc import Callable
from functools import cache, partial
from typing import Any

from shoptui.domain.records import HARDWARE, Part
from shoptui.jobs.asked import Asked, AskedLines, Sense
from shoptui.jobs.at import At, name_and_code, shown
from shoptui.jobs.edit import blank, edit, make, sense_of, written
from shoptui.jobs.hardware import all_kinds
from shoptui.jobs.record_forms import FORMS
from shoptui.stations.field import Field, Lines
from shoptui.stations.form import Form
from shoptui.stations.known_names import KnownNames


def record_form(at: At, record: Any) -> Form:  # noqa: ANN401 - any record that has a form
    """Return the form that changes a record."""
    kind = FORMS[type(record)]
    fields = _fields(kind.asked_of(record), sense_of(at.shop, record), written(at.shop, record))
    form = Form(
        f"Change {kind.called(record)}",
        fields,
        lambda values: edit(at, record, values, before=form.before),
        about=f"Its tag: {shown(record.tag)}" if getattr(record, "tag", "") else "",
        draft=f"{at.shop.shelves[type(record)].table} {record.id}",
    )
    return form


def new_form(at: At, kind: type) -> Form:
    """Return the form that makes a record."""
    record = blank(at.shop, kind)
    asked = FORMS[kind].asked_of(record)
    return Form(
        f"A new {FORMS[kind].one}",
        _fields(asked, sense_of(at.shop, record), written(at.shop, record)),
        lambda values: make(at, kind, values),
        draft=f"{at.shop.shelves[kind].table} new",
    )


def new_hardware(at: At) -> Form:
    """Return the form that writes down a kind of hardware."""
    record = blank(at.shop, Part, build=None, kind=HARDWARE)
    return Form(
        "A new kind of hardware",
        _fields(FORMS[Part].asked_of(record), sense_of(at.shop, record), written(at.shop, record)),
        lambda values: make(at, Part, values, build=None, kind=HARDWARE),
        draft="hardware new",
    )


def _fields(asked: tuple[Asked, ...], sense: Sense, values: dict[str, str]) -> tuple[Field, ...]:
    """Return the fields of a form; the names that several of them offer are gathered once."""

    @cache
    def names(which: str) -> KnownNames:
        return _NAMES[which](sense)

    return tuple(_field(each, sense, values.get(each.name, ""), names) for each in asked)


def _field(asked: Asked, sense: Sense, value: str, names: Callable[[str], KnownNames]) -> Field:
    known = KnownNames(asked.choices) if asked.choices else names(asked.names) if asked.names else None

    def check(typed: str) -> object:
        # What stood there already is not read again: an older program may have been less strict.
        return typed == value.strip() or asked.read(sense, typed)

    return Field(
        asked.name,
        asked.label,
        asked.hint,
        value,
        names=known,
        closed=asked.names != "sections",
        one_value=asked.one_value,
        check=check,
        lines=_lines(asked.lines, sense, names) if asked.lines else None,
    )


def _lines(lines: AskedLines, sense: Sense, names: Callable[[str], KnownNames]) -> Lines:
    values = {
        each.name: "no" if "no" in each.choices else each.choices[0] for each in lines.fields if each.choices
    }
    fields = tuple(_field(each, sense, values.get(each.name, ""), names) for each in lines.fields)
    return Lines(fields, lines.one, lines.words, check=partial(lines.wrong, sense))


def _parts(sense: Sense) -> KnownNames:
    """Return the parts of the build, of all builds where there is none; their numbers find them too."""
    parts = [part for part in sense.shop.parts.all() if sense.build is None or part.build == sense.build]
    called = {part.id: name_and_code(part) for part in parts}
    codes = [(code, called[part.id]) for part in parts for code in (part.code, part.tag, part.number) if code]
    return KnownNames(tuple(sorted(called.values(), key=str.casefold)), tuple(codes))


def _hardware(sense: Sense) -> KnownNames:
    """Return all kinds of hardware, whatever build the form is about."""
    kinds = tuple(all_kinds(sense.shop))
    codes = [(code, name_and_code(part)) for part in kinds for code in (part.code, part.tag) if code]
    return KnownNames(tuple(sorted(map(name_and_code, kinds), key=str.casefold)), tuple(codes))


def _suppliers(sense: Sense) -> KnownNames:
    found = sorted(sense.shop.suppliers.all(), key=lambda each: each.name.casefold())
    return KnownNames(tuple(each.name for each in found), tuple((each.code, each.name) for each in found))


def _sections(sense: Sense) -> KnownNames:
    return KnownNames(tuple(sorted({part.section for part in sense.shop.parts.all() if part.section})))


_NAMES: dict[str, Callable[[Sense], KnownNames]] = {
    "parts": _parts,
    "hardware": _hardware,
    "suppliers": _suppliers,
    "sections": _sections,
}

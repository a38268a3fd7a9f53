"""The history of one record as sentences."""

from contextlib import suppress
from typing import Any

from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.ledger import Move
from shoptui.domain.places import AS_BOUGHT, SEALED, State
from shoptui.domain.records import Part, Reading
from shoptui.jobs.asked import Asked, Sense
from shoptui.jobs.at import name_and_code
from shoptui.jobs.given import line_words, other_line
from shoptui.jobs.joint_words import reading_deed
from shoptui.jobs.place_words import bin_words, place_words, today
from shoptui.jobs.record_forms import FORMS
from shoptui.store.documents import read_field
from shoptui.store.history import MADE, Edit, Entry, Transaction
from shoptui.store.shop import Shop

_LONG = 200
"""Cells that a note or a value may take in a sentence."""


def story(shop: Shop, record: Any) -> tuple[str, ...]:  # noqa: ANN401 - any record
    """Return what happened to a record, oldest first: one sentence a transaction, with when, who and what.

    What was taken back stays in the story and says so.
    """
    told: dict[int, list[str]] = {}
    if isinstance(record, Part):
        for entry in shop.history.moves_of_part(record.id):
            told.setdefault(entry.transaction, []).append(_moved(shop, entry))
        for reading in shop.readings.of_part(record.id, strikes=True):
            told.setdefault(reading.transaction, []).append(_stated(shop, reading))
    for edit in shop.history.edits_of(shop.shelves[type(record)].table, record.id):
        told.setdefault(edit.transaction, []).append(_edited(shop, record, edit))
    return tuple(_sentence(shop, shop.history.transaction(number), told[number]) for number in sorted(told))


def who_and_when(shop: Shop, transaction: Transaction) -> str:
    """Return when something was done, by whom and where: `Wed 25 Nov 10:12, the lead at office`."""
    when = transaction.when.astimezone()
    who = transaction.terminal
    if transaction.who is not None:
        with suppress(KeyError):
            who = f"{shop.people.get(transaction.who).name} at {transaction.terminal}"
    return f"{day_words(when.date(), today(shop))} {when:%H:%M}, {inert(who)}"


def _sentence(shop: Shop, transaction: Transaction, deeds: list[str]) -> str:
    words = ", ".join(deeds)
    if transaction.undoes is not None:
        words = f"taken back: {inert(transaction.words.removeprefix('undid: '), _LONG)}"
    undone = " (undone later)" if shop.history.is_undone(transaction.id) else ""
    return f"{who_and_when(shop, transaction)}: {words}{undone}"


def _stated(shop: Shop, reading: Reading) -> str:
    """Return what a reading states, by whom where that is not who was at the terminal: a second check is."""
    deed = reading_deed(shop, reading)
    if reading.who in (None, shop.history.transaction(reading.transaction).who):
        return deed
    return f"{deed}, by {inert(shop.people.get(reading.who).name)}"


def _moved(shop: Shop, entry: Entry) -> str:
    move = entry.move
    note = f" ({inert(move.note, _LONG)})" if move.note else ""
    other = other_line(shop, entry)
    if other is None:
        return f"{move.qty} {_deed(shop, move)}{note}"
    if move.target.state is State.GONE:
        return f"{move.qty} given to {line_words(shop, other)}{note}"
    return f"{move.qty} from {line_words(shop, other)}, {place_words(shop, move.target)}{note}"


def _deed(shop: Shop, move: Move) -> str:  # noqa: C901, PLR0911, PLR0912 - one for each thing that a person does
    source, target = move.source, move.target
    match source.state, target.state:
        case _, State.ORDERED:
            return place_words(shop, target)
        case State.ORDERED, State.NOT_OURS:
            return f"cancelled, {place_words(shop, source)}"
        case State.NOT_OURS, State.INSTALLED if source.where == AS_BOUGHT:
            return f"{place_words(shop, target)} as bought"
        case State.SENT_OUT, State.RECEIVED:
            return f"back{_how(target.condition)}, {bin_words(shop, target.where)}"
        case ((State.ORDERED | State.NOT_OURS), State.RECEIVED):
            return f"received{_how(target.condition)}, {bin_words(shop, target.where)}"
        case (State.RECEIVED, State.RECEIVED) | (State.HELD, State.HELD) | (State.REMOVED, State.REMOVED):
            if source.condition == SEALED != target.condition:
                return "opened"
            if source == target:
                return "noted"
            return f"put away {bin_words(shop, target.where)}"
        case _, State.HELD:
            return f"held, {bin_words(shop, target.where)}"
        case State.HELD, State.RECEIVED:
            return "released for use"
        case State.REMOVED, State.RECEIVED:
            return f"returned to stock, {bin_words(shop, target.where)}"
        case _, State.SENT_OUT:
            return f"sent out, {place_words(shop, target)}"
        case _, State.INSTALLED if isinstance(target.where, int):
            return f"went on with {_fastened(shop, target.where)}"
        case State.INSTALLED, State.REMOVED if isinstance(source.where, int):
            return f"came off with {_fastened(shop, source.where)}, {bin_words(shop, target.where)}"
        case State.INSTALLED, State.REMOVED:
            where = f" from {inert(str(source.where))}" if source.where else ""
            return f"removed{where}, {bin_words(shop, target.where)}"
    return place_words(shop, target)


def _fastened(shop: Shop, number: int) -> str:
    """Return the part that hardware fastens."""
    try:
        return name_and_code(shop.parts.get(number))
    except KeyError:
        return "a part that is not in the books"


def _how(condition: str) -> str:
    return f", {inert(condition)}" if condition else ""


def _edited(shop: Shop, record: Any, edit: Edit) -> str:  # noqa: ANN401 - any record
    if edit.field == MADE:
        return "written down"
    if edit.field == "withdrawn":
        return "taken off the list" if edit.after else "put back on the list"
    form = FORMS.get(type(record))
    asked = form.asked(edit.field) if form else None
    if asked is None:
        name = edit.field.replace("_", " ")
        return f"{name} changed from {_plain(edit.before)} to {_plain(edit.after)}"
    was, now = (_value(shop, record, asked, each) for each in (edit.before, edit.after))
    return f"{asked.label.lower()} changed from {was} to {now}"


def _value(shop: Shop, record: Any, asked: Asked, value: object) -> str:  # noqa: ANN401 - any record
    """Return a value as the record's form would show it; in the history what is not written is empty."""
    if value is None:
        return "nothing"
    sense = Sense(shop, record, getattr(record, "build", None), getattr(record, "currency", ""))
    return asked.shown(asked.write(sense, read_field(type(record), asked.name, value)), _LONG)


def _plain(value: object) -> str:
    """Return a value that no form asks for, in words."""
    if value in (None, "", []):
        return "nothing"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return ", ".join(_plain(each) for each in value)
    if isinstance(value, dict):
        return " ".join(f"{key.replace('_', ' ')} {inert(str(each))}" for key, each in value.items())
    return inert(str(value), _LONG)

"""The history of one part as sentences."""

from collections.abc import Mapping
from contextlib import suppress

from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.ledger import Move
from shoptui.domain.places import AS_BOUGHT, SEALED, State
from shoptui.domain.records import Part
from shoptui.jobs.place_words import bin_words, place_words, today
from shoptui.store.documents import Document
from shoptui.store.history import MADE, Edit, Transaction
from shoptui.store.shop import Shop

_LONG = 200
"""Cells that a note or a value may take in a sentence."""


def story(shop: Shop, part: Part) -> tuple[str, ...]:
    """Return what happened to a part, oldest first: one sentence a transaction, with when, who and what.

    What was taken back stays in the story and says so.
    """
    told: dict[int, list[str]] = {}
    for entry in shop.history.moves_of_part(part.id):
        told.setdefault(entry.transaction, []).append(_moved(shop, entry.move))
    for edit in shop.history.edits_of("parts", part.id):
        told.setdefault(edit.transaction, []).append(_edited(shop, edit))
    return tuple(_sentence(shop, shop.history.transaction(number), told[number]) for number in sorted(told))


def _sentence(shop: Shop, transaction: Transaction, deeds: list[str]) -> str:
    when = transaction.when.astimezone()
    who = transaction.terminal
    if transaction.who is not None:
        with suppress(KeyError):
            who = f"{shop.people.get(transaction.who).name} at {transaction.terminal}"
    words = ", ".join(deeds)
    if transaction.undoes is not None:
        words = f"taken back: {inert(transaction.words.removeprefix('undid: '), _LONG)}"
    undone = " (undone later)" if shop.history.is_undone(transaction.id) else ""
    return f"{day_words(when.date(), today(shop))} {when:%H:%M}, {inert(who)}: {words}{undone}"


def _moved(shop: Shop, move: Move) -> str:
    note = f" ({inert(move.note, _LONG)})" if move.note else ""
    return f"{move.qty} {_deed(shop, move)}{note}"


def _deed(shop: Shop, move: Move) -> str:  # noqa: C901, PLR0911 - one return for each thing that a person does
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
            return f"put away {bin_words(shop, target.where)}"
        case _, State.HELD:
            return f"held, {bin_words(shop, target.where)}"
        case State.HELD, State.RECEIVED:
            return "released for use"
        case State.REMOVED, State.RECEIVED:
            return f"returned to stock, {bin_words(shop, target.where)}"
        case _, State.SENT_OUT:
            return f"sent out, {place_words(shop, target)}"
        case State.INSTALLED, State.REMOVED:
            where = f" from {inert(str(source.where))}" if source.where else ""
            return f"removed{where}, {bin_words(shop, target.where)}"
    return place_words(shop, target)


def _how(condition: str) -> str:
    return f", {inert(condition)}" if condition else ""


def _edited(shop: Shop, edit: Edit) -> str:
    if edit.field == MADE:
        return "written down"
    if edit.field == "withdrawn":
        return "taken off the list" if edit.after else "put back on the list"
    name = edit.field.replace("_", " ")
    return f"{name} changed from {_value(shop, edit, edit.before)} to {_value(shop, edit, edit.after)}"


_POINT_AT_PARTS = ("install_after", "replaces")


def _value(shop: Shop, edit: Edit, value: object) -> str:  # noqa: PLR0911 - one return for each kind of value
    """Return a value in words; what points at a record is its name."""
    if value in (None, "", []):
        return "nothing"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return ", ".join(_value(shop, edit, each) for each in value)
    if isinstance(value, dict):
        return " ".join(f"{key.replace('_', ' ')} {inert(str(each))}" for key, each in value.items())
    if isinstance(value, int) and edit.field in _POINT_AT_PARTS:
        return _named(shop.database.documents("parts"), value, "description")
    if isinstance(value, int) and edit.field == "build":
        return _named(shop.database.documents("builds"), value, "code")
    return inert(str(value), _LONG)


def _named(documents: Mapping[int, Document], number: int, field: str) -> str:
    document = documents.get(number, {})
    return inert(str(document.get(field) or document.get("code") or f"number {number}"))

"""Change a record as a form says it, or make a new one: one transaction, only what was changed."""

from collections.abc import Callable, Mapping
from dataclasses import MISSING, dataclass, field, fields, replace
from functools import partial
from typing import Any

from shoptui.domain.amounts import currency
from shoptui.domain.ledger import CannotMoveError
from shoptui.jobs.answers import Answer, Choice, Question, Said, done, stop
from shoptui.jobs.asked import Sense
from shoptui.jobs.at import At
from shoptui.jobs.change_words import SHOWN, after_words, change_words, label
from shoptui.jobs.order import code_for
from shoptui.jobs.place_words import today
from shoptui.jobs.record_form import Ask, Following, RecordForm
from shoptui.jobs.record_forms import FORMS
from shoptui.jobs.story import who_and_when
from shoptui.store.shop import Shop
from shoptui.store.transaction import Transaction


def written(shop: Shop, record: Any) -> dict[str, str]:  # noqa: ANN401 - any record that has a form
    """Return what stands in the fields of a record's form."""
    sense = sense_of(shop, record)
    asked = FORMS[type(record)].asked_of(record)
    return {each.name: each.write(sense, getattr(record, each.name)) for each in asked}


def sense_of(shop: Shop, record: Any, values: Mapping[str, str] | None = None) -> Sense:  # noqa: ANN401
    """Return how words are read in a record's form: in its build, and in the currency that it says."""
    said = (values or {}).get("currency", "").strip() or getattr(record, "currency", "")
    try:
        unit = currency(said) if said else ""
    except ValueError:
        unit = ""  # its own field says so
    return Sense(shop, record if record.id else None, getattr(record, "build", None), unit)


def make(at: At, kind: type, values: Mapping[str, str], /, *, sure: bool = False, **fixed: object) -> Answer:
    """Make a record; one of a name that is there already is asked about.

    Args:
        at: Where it is done.
        kind: The record's dataclass.
        values: What stands in the form's fields, by their names.
        sure: Whether it is meant all the same.
        fixed: What it has beside them: the build of a part.

    """
    form = FORMS[kind]
    empty = blank(at.shop, kind, **fixed)
    sense = sense_of(at.shop, empty, values)
    changes = _read(form, sense, empty, values, {})
    if isinstance(changes, Answer):
        return changes
    record = replace(empty, **changes)
    record = replace(record, **{**form.follows(empty, record), **changes})
    if refusal := form.refused(sense, record):
        return stop(f"{label(form, refusal.field)}: {refusal.words}", field=refusal.field)
    if not sure and (words := form.doubt(sense, record)):
        yes = partial(make, at, kind, values, sure=True, **fixed)
        question = Question(yes=yes)
        return Answer(Said.QUESTION, f"{words} Enter: make one more.", kind=form.one, question=question)
    if not record.code and not hasattr(record, "tag"):
        record = replace(record, code=code_for(at.shop, _code_words(at, record)))
    try:
        with at.doing(f"new {form.one}: {form.called(record)}") as tx:
            made = tx.add(record)
            tx.enter(form.moves(sense, None, made))
    except CannotMoveError as error:
        return stop(f"{error} Nothing changed.", field="lines")
    words = f"New: {form.called(made)}.{after_words(form, made)}"
    return done(words, kind=form.one, subject=made.id)


def blank(shop: Shop, kind: type, /, **fixed: object) -> Any:  # noqa: ANN401 - any record that has a form
    """Return a record of which nothing is known yet but what is usual: an order is placed today.

    Args:
        shop: The shop.
        kind: The record's dataclass.
        fixed: What is known of it.

    """
    names = {each.name for each in fields(kind)}
    unknown = {each.name: "" for each in fields(kind) if each.default is MISSING}
    usual: dict[str, object] = {"id": 0, "supplier": 0, "build": None}
    usual |= {"currency": shop.settings.currency, "placed": today(shop)} if "placed" in names else {}
    known = {name: value for name, value in usual.items() if name in names}
    return kind(**{**unknown, **known, **dict(FORMS[kind].fixed), **fixed})


def _code_words(at: At, record: Any) -> str:  # noqa: ANN401 - an order or a supplier
    if hasattr(record, "name"):
        return str(record.name)
    placed = record.placed or today(at.shop)
    return record.number or f"{at.shop.suppliers.get(record.supplier).code} {placed.isoformat()}"


@dataclass(frozen=True, slots=True)
class _Edit:
    """One try to change a record.

    `mine` are fields in which what is typed here goes before what somebody else saved meanwhile, and `theirs`
    those that stay as they are now. `said` is what was answered to what the form of the record asks.
    """

    values: Mapping[str, str]
    before: Mapping[str, str]
    mine: frozenset[str] = field(default=frozenset())
    theirs: frozenset[str] = field(default=frozenset())
    said: frozenset[str] = field(default=frozenset())


def edit(at: At, record: Any, values: Mapping[str, str], *, before: Mapping[str, str]) -> Answer:  # noqa: ANN401
    """Change the fields in which something else stands than when the form was opened, and no others.

    A field that somebody changed meanwhile is shown first: who, from what, to what.

    Args:
        at: Where it is done.
        record: The record; it is read again as it is now.
        values: What stands in the form's fields, by their names.
        before: What stood in them when the form was opened.

    """
    return _edit(at, record, _Edit(values, before))


def _edit(at: At, record: Any, tried: _Edit) -> Answer:  # noqa: ANN401 - any record that has a form
    """Try in one transaction, so that nobody changes it meanwhile; a question or a stop writes nothing."""
    try:
        with at.doing() as tx:
            return _in(tx, at, at.shop.shelves[type(record)].get(record.id), tried)
    except CannotMoveError as error:
        return stop(f"{error} Nothing changed.", field="lines")


def _in(tx: Transaction, at: At, now: Any, tried: _Edit) -> Answer:  # noqa: ANN401 - any record that has a form
    form = FORMS[type(now)]
    if now.withdrawn:
        return stop(f"{form.called(now)} was taken off the list meanwhile: nothing was changed.")
    sense = sense_of(at.shop, now, tried.values)
    changes = _read(form, sense, now, tried.values, tried.before)
    if isinstance(changes, Answer):
        return changes
    changes = {name: value for name, value in changes.items() if name not in tried.theirs}
    for name in changes:
        if name not in tried.mine and (asked := _changed_meanwhile(at, now, name, tried)) is not None:
            return asked
    if not changes:
        return done(f"Nothing was changed: {form.called(now)} is as it was.", kind=form.one, subject=now.id)
    after = replace(now, **changes)
    if refusal := form.refused(sense, after):
        return stop(f"{label(form, refusal.field)}: {refusal.words}", field=refusal.field)
    following = form.asks(sense, now, after, tried.said)
    return (
        _ask(at, form, now, tried, following)
        if isinstance(following, Ask)
        else _change(tx, form, sense, now, changes, following)
    )


def _ask(at: At, form: RecordForm, now: Any, tried: _Edit, ask: Ask) -> Answer:  # noqa: ANN401
    """Ask what a change means; the answer tries it again, with what is known then."""

    def said(way: str) -> Callable[[], Answer]:
        return lambda: _edit(at, now, replace(tried, said=tried.said | {way}))

    choices = tuple(Choice(label, said(way)) for way, label in ask.ways)
    return Answer(Said.QUESTION, ask.words, kind=form.one, subject=now.id, question=Question(choices=choices))


def _change(
    tx: Transaction,
    form: RecordForm,
    sense: Sense,
    now: Any,  # noqa: ANN401 - any record that has a form
    changes: Mapping[str, Any],
    following: Following,
) -> Answer:
    """Change a record, and what follows from that."""
    after = replace(now, **changes)
    words = change_words(form, sense, now, changes)
    tx.say(words)
    tx.enter(form.moves(sense, now, after))
    after = tx.change(now, **{**form.follows(now, after), **changes, **following.changes})
    for other, theirs in following.others:
        tx.change(other, **theirs)
    told = f"{words[0].upper()}{words[1:]}. {following.words}".rstrip()
    return done(f"{told}{after_words(form, after)}", kind=form.one, subject=now.id)


def _read(
    form: RecordForm,
    sense: Sense,
    record: Any,  # noqa: ANN401 - any record that has a form
    values: Mapping[str, str],
    before: Mapping[str, str],
) -> dict[str, Any] | Answer:
    """Return the values that differ from a record's, of the fields that were typed in."""
    changes = {}
    for asked in form.asked_of(record):
        typed = values.get(asked.name)
        if typed is None or typed == before.get(asked.name):
            continue
        try:
            value = asked.read(sense, typed.strip())
        except ValueError as error:
            return stop(f"{asked.label}: {error}", field=asked.name)
        if value != getattr(record, asked.name):
            changes[asked.name] = value
    return changes


def _changed_meanwhile(at: At, now: Any, name: str, tried: _Edit) -> Answer | None:  # noqa: ANN401
    """Ask about a field that somebody else changed since the form was opened here."""
    form = FORMS[type(now)]
    asked = form.asked(name)
    if asked is None:
        return None
    stands = asked.write(sense_of(at.shop, now), getattr(now, name))
    if stands == tried.before.get(name):
        return None
    shelf = at.shop.shelves[type(now)]
    edits = [each for each in at.shop.history.edits_of(shelf.table, now.id) if each.field == name]
    who = who_and_when(at.shop, at.shop.history.transaction(edits[-1].transaction)) if edits else "somebody"
    theirs, mine = asked.shown(stands, SHOWN), asked.shown(tried.values[name], SHOWN)

    before = asked.shown(tried.before.get(name, ""), SHOWN)
    keep, take = replace(tried, theirs=tried.theirs | {name}), replace(tried, mine=tried.mine | {name})
    return Answer(
        Said.QUESTION,
        f"{asked.label} of {form.called(now)} was changed meanwhile ({who}) from "
        f"{before} to {theirs}. Which shall it be? Its number, then Enter.",
        kind=form.one,
        subject=now.id,
        field=name,
        question=Question(
            choices=(
                Choice(f"theirs: {theirs}", lambda: _edit(at, now, keep)),
                Choice(f"what is typed here: {mine}", lambda: _edit(at, now, take)),
            )
        ),
    )

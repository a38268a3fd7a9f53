"""The forms of the Parts station: order, send out, add."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date
from functools import partial
from typing import TypeVar

from shoptui.domain import cells, part_cells, verbs
from shoptui.domain.amounts import minor_digits, money
from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.places import State
from shoptui.domain.records import Part
from shoptui.jobs.add_part import add_part
from shoptui.jobs.answers import Answer, Said
from shoptui.jobs.at import At, name
from shoptui.jobs.hardware import to_buy
from shoptui.jobs.order import order
from shoptui.jobs.part_list import still_to_order
from shoptui.jobs.place_words import today
from shoptui.jobs.send_out import next_work, send_out
from shoptui.stations.field import Field
from shoptui.stations.form import Form
from shoptui.stations.known_names import KnownNames

V = TypeVar("V")
Deposit = tuple[int | None, date | None]
NO_DEPOSIT: Deposit = (None, None)
DAY_HINT = "such as 30 Nov, 2026-11-30, or +5: in 5 days; may be empty"
_none_or_some = partial(cells.quantity, least=0)


def _to_come(at: At, text: str) -> date:
    """Read a day that is not past, or days from today."""
    base = today(at.shop)
    if (found := cells.day(text, base)) < base:
        raise ValueError(f"The day {day_words(found, base)} is in the past; a day to come was expected.")
    return found


def _amount(currency: str, text: str) -> int | None:
    """Read an amount in the shop's currency, in its minor unit."""
    try:
        amount, unit = money(text, currency)
    except ValueError:
        unit = ""
    if unit != currency:
        example = f"{30:.{minor_digits(currency)}f}"
        raise ValueError(
            f"An amount such as {example} or 30 {currency} was expected; {inert(text, 40)} came."
        )
    return amount


def _deposit(at: At, currency: str, text: str) -> Deposit:
    """Read a deposit, and the day until which the old part has to be back where one is named."""
    amount, _, day = text.partition(" by ")
    return _amount(currency, amount.strip()), _to_come(at, day.strip()) if day.strip() else None


def _read(values: Mapping[str, str], name: str, read: Callable[[str], V], empty: V) -> V:
    """Read one field, which the form has checked by the same reader."""
    text = values[name].strip()
    return read(text) if text else empty


def _suppliers(at: At) -> KnownNames:
    known = sorted(at.shop.suppliers.all(), key=lambda supplier: supplier.name.casefold())
    return KnownNames(
        tuple(supplier.name for supplier in known),
        tuple((supplier.code, supplier.name) for supplier in known),
    )


def order_form(at: At, part: Part) -> Form:
    """Return the form that orders pieces of a part; of hardware, what is to be bought in whole packs."""
    wanted = to_buy(at.shop, part) if part.is_hardware else still_to_order(at.shop, part)
    currency = at.shop.settings.currency
    due, total, deposit = partial(_to_come, at), partial(_amount, currency), partial(_deposit, at, currency)

    def save(values: Mapping[str, str]) -> Answer:
        amount, core_due = _read(values, "deposit", deposit, NO_DEPOSIT)
        return order(
            at,
            at.shop.parts.get(part.id),
            _read(values, "qty", cells.quantity, 0),
            supplier=values["supplier"].strip(),
            number=values["number"].strip(),
            due=_read(values, "due", due, None),
            total_minor=_read(values, "total", total, None),
            deposit_minor=amount,
            core_due=core_due,
        )

    return Form(
        f"Order: {name(part)}",
        (
            Field("supplier", "Supplier", "a few letters of the name", names=_suppliers(at)),
            Field("number", "Order number", "as on the supplier's papers; may be empty"),
            Field("qty", "Pieces", "how many", value=str(wanted or 1), check=cells.quantity),
            Field("due", "Due", DAY_HINT, check=due),
            Field("total", f"Total, {currency}", "what the whole line costs; may be empty", check=total),
            Field(
                "deposit",
                f"Core deposit, {currency}",
                "such as 45.00 by +30: the old part back in 30 days",
                check=deposit,
            ),
        ),
        save,
        draft=f"order {part.id}",
        about=f"To buy {wanted}, in packs of {part.pieces}."
        if part.is_hardware
        else f"Needed {part.needed}, to order {wanted}.",
    )


def send_out_form(at: At, part: Part) -> Form:
    """Return the form that sends pieces of a part to an outside shop."""
    here = at.shop.book.in_state(part.id, *verbs.HERE)
    held = at.shop.book.in_state(part.id, State.HELD)
    due = partial(_to_come, at)

    def save(values: Mapping[str, str]) -> Answer:
        return send_out(
            at,
            at.shop.parts.get(part.id),
            _read(values, "qty", cells.quantity, 0),
            to=values["to"].strip(),
            work=values["work"].strip(),
            due=_read(values, "due", due, None),
            number=values["number"].strip(),
        )

    return Form(
        f"Send out: {name(part)}",
        (
            Field("to", "Outside shop", "a few letters of the name", names=_suppliers(at)),
            Field(
                "work",
                "What is done",
                "the word for it afterwards: painted",
                value=next_work(at.shop, part),
            ),
            Field("qty", "Pieces", "how many", value=str(max(1, here)), check=cells.quantity),
            Field("due", "Due back", DAY_HINT, check=due),
            Field("number", "Their job number", "may be empty"),
        ),
        save,
        draft=f"send-out {part.id}",
        about=f"{here} here" + (f", {held} held." if held else "."),
    )


def add_form(at: At) -> Form:
    """Return the form that adds a part without a code."""
    build = at.build

    def save(values: Mapping[str, str]) -> Answer:
        added = add_part(
            at,
            description=values["description"],
            section=values["section"],
            needed=_read(values, "needed", _none_or_some, 0),
            positions=_read(values, "positions", part_cells.positions, ()),
            number=values["number"],
        )
        return replace(added, show="parts") if added.said is Said.DONE else added

    sections = sorted({part.section for part in at.shop.parts.all() if part.section})
    return Form(
        f"Add a part to {build.code if build else 'the shop stock'}",
        (
            Field("description", "What it is", "in a few words"),
            Field("section", "Section", "brakes, frame, interior ...", names=KnownNames(tuple(sections))),
            Field(
                "needed",
                "Needed",
                "pieces wanted on the vehicle",
                value="1",
                check=_none_or_some,
            ),
            Field(
                "positions",
                "Positions",
                "LF RF LR RR front rear left right; may be empty",
                check=part_cells.positions,
            ),
            Field("number", "Maker's number", "may be empty"),
        ),
        save,
        draft="add part",
        about="It gets a tag of its own; stick a blank one on it and scan that when it is here.",
    )

"""The forms of the Parts station: order, send out, add."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial
from typing import TypeVar

from shoptui.domain import cells, part_cells, verbs
from shoptui.domain.lack import days_words
from shoptui.domain.places import State
from shoptui.domain.records import Part
from shoptui.jobs.add_part import add_part
from shoptui.jobs.answers import Answer, Said
from shoptui.jobs.at import At, name
from shoptui.jobs.core_deposit import Deposit, day_to_come, deposit, own_amount
from shoptui.jobs.hardware import to_buy
from shoptui.jobs.order import order
from shoptui.jobs.part_list import still_to_order
from shoptui.jobs.send_out import next_work, send_out, usual_days
from shoptui.stations.field import Field
from shoptui.stations.form import Form
from shoptui.stations.known_names import KnownNames

V = TypeVar("V")
NO_DEPOSIT: Deposit = (None, None)
DAY_HINT = "30 Nov, 2026-11-30, or +5: in 5 days; may be empty"
_none_or_some = partial(cells.quantity, least=0)


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
    shop = at.shop
    due, total, core = partial(day_to_come, shop), partial(own_amount, shop), partial(deposit, shop)

    def save(values: Mapping[str, str]) -> Answer:
        amount, core_due = _read(values, "deposit", core, NO_DEPOSIT)
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
            Field(
                "qty",
                "Pieces",
                "how many",
                value=str(wanted or 1),
                one_value=True,
                check=cells.quantity,
            ),
            Field("due", "Due", DAY_HINT, check=due),
            Field("total", f"Total, {currency}", "what the whole line costs; may be empty", check=total),
            Field(
                "deposit",
                f"Core deposit, {currency}",
                "such as 45.00 by +30: the old part back in 30 days",
                check=core,
            ),
        ),
        save,
        draft=f"order {part.id}",
        about=f"To buy {wanted}{f', in packs of {part.pieces}' if part.pieces > 1 else ''}."
        if part.is_hardware
        else f"Needed {part.needed}, to order {wanted}.",
    )


def send_out_form(at: At, part: Part) -> Form:
    """Return the form that sends pieces of a part to an outside shop."""
    here = at.shop.book.in_state(part.id, *verbs.HERE)
    held = at.shop.book.in_state(part.id, State.HELD)
    days = usual_days(at.shop, part)
    due_hint = f"30 Nov or +5; empty: in {days_words(days)}" if days else DAY_HINT
    due = partial(day_to_come, at.shop)

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
                one_value=True,
            ),
            Field(
                "qty",
                "Pieces",
                "how many",
                value=str(max(1, here)),
                one_value=True,
                check=cells.quantity,
            ),
            Field("due", "Due back", due_hint, check=due),
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
                one_value=True,
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

"""Core deposits: which cores are to be sent back until when, and what came back for them.

That a core was sent back is never stored: it follows from the pieces that are gone with that reason.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum

from shoptui.domain.days import day_words
from shoptui.domain.places import State
from shoptui.domain.records import Charge, Order, Part
from shoptui.domain.written import amount_words
from shoptui.jobs.answers import Answer, done, stop
from shoptui.jobs.at import At, name_and_code
from shoptui.jobs.place_words import order_name
from shoptui.store.shop import Shop

DEPOSIT = "core deposit"
SENT_BACK = "core sent back"


CAN_BE_SENT = (State.REMOVED, State.HELD, State.INSTALLED)
"""States in which a worn piece is here."""


class CoreState(StrEnum):
    """How a core deposit stands."""

    OPEN = "due"
    OVERDUE = "overdue"
    SENT = "sent back, no refund yet"


@dataclass(frozen=True, slots=True)
class Core:
    """One core deposit that nothing came back for yet.

    Args:
        order: The order that it was paid with.
        number: Place of the charge among the order's, counted from 0.
        charge: The charge.
        part: The part that was bought for it.
        state: How it stands.
        amount: What is expected back, in words.

    """

    order: Order
    number: int
    charge: Charge
    part: Part
    state: CoreState
    amount: str


def _amount(shop: Shop, minor: int, charge: Charge, order: Order) -> str:
    return amount_words(minor, charge.currency or order.currency or shop.settings.currency, "")


def open_cores(shop: Shop, day: date) -> tuple[Core, ...]:
    """Return the deposits that nothing came back for, the soonest due first."""
    sent = Counter[int]()
    cores = []
    for order, number, charge, part in sorted(_deposits(shop), key=lambda each: each[2].due or date.max):
        if part.id not in sent:
            sent[part.id] = _sent_back(shop, part)
        is_back = sent[part.id] > 0
        sent[part.id] -= is_back
        if charge.refunded_minor is None:
            late = charge.due is not None and charge.due < day
            state = CoreState.SENT if is_back else CoreState.OVERDUE if late else CoreState.OPEN
            back = charge.amount_minor if charge.refund_minor is None else charge.refund_minor
            cores.append(Core(order, number, charge, part, state, _amount(shop, back, charge, order)))
    return tuple(cores)


def _deposits(shop: Shop) -> Iterator[tuple[Order, int, Charge, Part]]:
    for order in shop.orders.all():
        for number, charge in enumerate(order.charges):
            if charge.kind == DEPOSIT and charge.part is not None:
                yield order, number, charge, shop.parts.get(charge.part)


def _sent_back(shop: Shop, part: Part) -> int:
    """Return the cores sent back for a part: worn pieces of its own line, and originals it replaces."""
    gone = shop.book.parts_at(State.GONE, SENT_BACK)
    return sum(gone.get(number, 0) for number in (part.id, *part.replaces))


def piece_of(shop: Shop, core: Core) -> Part:
    """Return the part whose piece is to be sent back: an original that it replaces, else one of its own."""
    off = [number for number in core.part.replaces if shop.book.in_state(number, *CAN_BE_SENT)]
    return shop.parts.get(off[0]) if off else core.part


def cores_of(shop: Shop, part: Part, day: date) -> tuple[Core, ...]:
    """Return the open deposits that a part is concerned in: bought for it, or the core itself."""
    return tuple(core for core in open_cores(shop, day) if part.id in (core.part.id, *core.part.replaces))


def core_words(core: Core, day: date) -> str:
    """Return a deposit in words: "core of Caliper, LF (P-...) due Fri 25 Dec, 45.00 EUR, order 1042"."""
    due = core.charge.due
    when = "no day set" if due is None else f"{'was due' if due < day else 'due'} {day_words(due, day)}"
    stands = core.state.value if core.state is CoreState.SENT else when
    return f"core of {name_and_code(core.part)}: {stands}, {core.amount}, order {order_name(core.order)}"


def refund(at: At, core: Core, minor: int | None = None) -> Answer:
    """Write down what came back for a core; None is what was expected."""
    expected = core.charge.refund_minor
    came = minor if minor is not None else core.charge.amount_minor if expected is None else expected
    if came < 0:
        return stop(f"An amount of 0 or more was expected, not {came}.")
    order = at.shop.orders.get(core.order.id)
    if core.number >= len(order.charges) or order.charges[core.number] != core.charge:
        return stop(f"The charges of order {order_name(order)} were changed meanwhile. Nothing changed.")
    charges = tuple(
        replace(charge, refunded_minor=came) if number == core.number else charge
        for number, charge in enumerate(order.charges)
    )
    amount = _amount(at.shop, came, core.charge, order)
    words = f"{amount} came back for the core of {name_and_code(core.part)}, order {order_name(order)}"
    with at.doing(words) as tx:
        tx.change(order, charges=charges)
    sent = "" if core.state is CoreState.SENT else " By the books the core itself was not sent back yet."
    return done(f"{words}.{sent}", kind="part", part=core.part.code, subject=core.part.id)

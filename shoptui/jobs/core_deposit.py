"""A core deposit in words, and noting one for an old part that came off."""

from datetime import date

from shoptui.domain import cells
from shoptui.domain.amounts import minor_digits, money
from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.recognise import read
from shoptui.domain.records import Charge, Order, Part
from shoptui.domain.written import amount_words
from shoptui.jobs.answers import Answer, Question, ask_about, done
from shoptui.jobs.at import At, name
from shoptui.jobs.cores import DEPOSIT
from shoptui.jobs.place_words import order_name, today
from shoptui.store.command_tags import command_named
from shoptui.store.shop import Shop

Deposit = tuple[int | None, date | None]


def day_to_come(shop: Shop, text: str) -> date:
    """Read a day that is not past, or days from today; raises ValueError with a sentence."""
    base = today(shop)
    if (found := cells.day(text, base)) < base:
        raise ValueError(f"The day {day_words(found, base)} is in the past; a day to come was expected.")
    return found


def own_amount(shop: Shop, text: str) -> int | None:
    """Read an amount in the shop's currency, in its minor unit; raises ValueError with a sentence."""
    currency = shop.settings.currency
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


def deposit(shop: Shop, text: str) -> Deposit:
    """Read a deposit, and the day until which the old part has to be back where one is named."""
    amount, _, day = text.partition(" by ")
    return own_amount(shop, amount.strip()), day_to_come(shop, day.strip()) if day.strip() else None


def bought_for(shop: Shop, core: Part) -> tuple[Order, Part] | None:
    """Return the last purchase that brought what replaces an old part, or the part itself, and which part."""
    wanted = {part.id for part in shop.parts.all() if core.id in part.replaces} or {core.id}
    for order in sorted(shop.orders.all(), key=lambda each: each.id, reverse=True):
        for line in order.lines if order.kind == "purchase" else ():
            if line.part in wanted:
                return order, shop.parts.get(line.part)
    return None


def ask_deposit(at: At, core: Part, order: Order, bought: Part) -> Answer:
    """Ask what was paid for a core and by when it has to be back, and note it with the order."""
    ask = (
        f"Core of {name(core)}, order {order_name(order)}: what deposit, and back by when? "
        "Type it, such as 45.00 by +30, then Enter."
    )

    def asked(words: str) -> Answer:
        return ask_about(core, words, Question(accepts=take))

    def take(text: str) -> Answer | None:
        try:
            amount, due = deposit(at.shop, text)
        except ValueError as error:
            # A scan begins something else; what was mistyped is asked again.
            other = command_named(text) or at.shop.codes.find(read(text))
            return None if other else asked(f"{error} {ask}")
        return asked(ask) if amount is None else _note(at, order, bought, amount, due)

    return asked(ask)


def _note(at: At, order: Order, bought: Part, amount: int, due: date | None) -> Answer:
    shop = at.shop
    order = shop.orders.get(order.id)
    unit = shop.settings.currency
    currency = unit if unit != (order.currency or unit) else ""
    told = f"core deposit {amount_words(amount, unit, '')} for {name(bought)}, order {order_name(order)}"
    with at.doing(f"noted {told}") as tx:
        charge = Charge(DEPOSIT, amount, currency=currency, part=bought.id, due=due)
        tx.change(order, charges=(*order.charges, charge))
    until = f" The core has to be back by {day_words(due, today(shop))}." if due else ""
    return done(f"Noted: {told}.{until}", kind="part", part=bought.code, subject=bought.id)

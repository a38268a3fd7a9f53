"""Order pieces of a part from a supplier, and cancel what has not come."""

from dataclasses import replace
from datetime import date

from shoptui.domain import verbs
from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.ledger import CannotMoveError, Move
from shoptui.domain.places import Place, State
from shoptui.domain.records import Charge, Order, OrderLine, Part, Supplier
from shoptui.jobs.answers import Answer, Question, ask_about, stop
from shoptui.jobs.at import At, name
from shoptui.jobs.carry_out import carry_out
from shoptui.jobs.cores import DEPOSIT
from shoptui.jobs.kit import contents
from shoptui.jobs.part_list import still_to_order
from shoptui.jobs.place_words import order_name, today
from shoptui.store.shop import Shop
from shoptui.store.transaction import Transaction

PURCHASE = "purchase"
OUTSIDE = "outside"


def order(
    at: At,
    part: Part,
    qty: int,
    *,
    supplier: int | str,
    number: str = "",
    due: date | None = None,
    total_minor: int | None = None,
    deposit_minor: int | None = None,
    core_due: date | None = None,
    more: bool = False,
) -> Answer:
    """Order pieces or kits; the order is made if the supplier has none of that number, else it gets a line.

    Asks first where it is more than is to order: a figure too many is easily typed.

    Args:
        at: Where it is done.
        part: The part.
        qty: Pieces.
        supplier: Id, code or name; a name that nobody knows yet makes a supplier.
        number: The supplier's order number, may be empty.
        due: Day it is expected.
        total_minor: What the whole line costs, minor units; None is not known.
        deposit_minor: Deposit for the old part that is to be sent back, minor units; None for none.
        core_due: Day until which that has to be back.
        more: Whether more than is to order is meant.

    """
    shop = at.shop
    if core_due is not None and deposit_minor is None:
        return stop("A day for the core was given, but no deposit.", field="deposit")
    if refusal := _refused(shop, qty, supplier, due):
        return refusal
    if not more and (words := _more_than_wanted(shop, part, qty)):
        return ask_about(
            part,
            f"{words} Enter: order {qty} all the same.",
            Question(
                yes=lambda: order(
                    at,
                    shop.parts.get(part.id),
                    qty,
                    supplier=supplier,
                    number=number,
                    due=due,
                    total_minor=total_minor,
                    deposit_minor=deposit_minor,
                    core_due=core_due,
                    more=True,
                )
            ),
            qty=qty,
        )

    def moves(tx: Transaction) -> tuple[Move, ...]:
        seller = find_or_make_supplier(shop, tx, supplier)
        placed = find_or_make_order(shop, tx, PURCHASE, seller, number, due)
        line = OrderLine(part.id, qty, total_minor)
        tx.change(
            placed,
            lines=(*placed.lines, line),
            due=due or placed.due,
            charges=(*placed.charges, *_deposit(part, deposit_minor, core_due)),
        )
        return promises(shop, part, qty, placed)

    deed = f"ordered from {supplier_name(shop, supplier)}"
    day = today(shop)
    hint = f"Due {day_words(due, day)}." if due else ""
    if core_due is not None:
        hint = f"{hint} Its core has to be back by {day_words(core_due, day)}.".strip()
    return carry_out(at, part, qty, deed, moves, hint=hint)


def _more_than_wanted(shop: Shop, part: Part, qty: int) -> str:
    """Say how many are to order where that is fewer, counted as they are sold; stock wants no number."""
    if part.build is None:
        return ""
    each = 1 if part.kit else part.pieces
    wanted = max(
        # As many kits as the part that lacks most takes.
        (-(-still_to_order(shop, inside) // pieces) for inside, pieces in contents(shop, part)),
        default=0,
    )
    if qty <= -(-wanted // each) * each:
        return ""
    kits = "kit " if part.kit else ""
    return f"{name(part)}: {wanted or 'none'} {kits}{'is' if wanted <= 1 else 'are'} to order, not {qty}."


def _deposit(part: Part, deposit_minor: int | None, core_due: date | None) -> tuple[Charge, ...]:
    return () if deposit_minor is None else (Charge(DEPOSIT, deposit_minor, part=part.id, due=core_due),)


def promises(shop: Shop, part: Part, qty: int, order: Order) -> tuple[Move, ...]:
    """Return the moves that promise pieces of a line under an order: a kit's line promises its contents."""
    return tuple(
        move
        for inside, pieces in contents(shop, part, qty)
        for move in verbs.order(inside.id, pieces, supplier=order.supplier, order=order.id)
    )


def cancel(at: At, part: Part, qty: int, *, order: int) -> Answer:
    """Take back what was ordered, by the order's id, and has not come; it is then to be ordered again."""
    shop = at.shop
    placed = shop.orders.get(order)
    if placed.kind != PURCHASE:
        return stop(f"{order_name(placed)} is work at an outside shop: take the pieces back instead.")
    there = shop.book.at(part.id, Place(State.ORDERED, order))
    if qty > there:
        return stop(f"{there} still to come on order {order_name(placed)}; {qty} cannot be cancelled.")

    def moves(tx: Transaction) -> tuple[Move, ...]:
        now = shop.orders.get(order)
        tx.change(now, lines=_less(now.lines, part.id, qty))
        return verbs.cancel(shop.book, part.id, qty, supplier=now.supplier, order=order)

    return carry_out(at, part, qty, f"cancelled on order {order_name(placed)}", moves)


def find_or_make_supplier(shop: Shop, tx: Transaction, supplier: int | str) -> Supplier:
    """Return a supplier by id, code or name; a name that nobody knows yet makes one.

    Raises:
        CannotMoveError: No name was given.

    """
    if isinstance(supplier, int):
        return shop.suppliers.get(supplier)
    name = " ".join(supplier.split())
    if not name:
        raise CannotMoveError("A supplier was expected: give a name or a code.")
    known = known_supplier(shop, name)
    return known or tx.add(Supplier(0, code_for(shop, name), name))


def find_or_make_order(
    shop: Shop,
    tx: Transaction,
    kind: str,
    supplier: Supplier,
    number: str,
    due: date | None,
    work: str = "",
) -> Order:
    """Return a supplier's order of a number, made if there is none; without a number always a new one."""
    number = number.strip()
    day = today(shop)
    for known in shop.orders.all():
        if number and (known.kind, known.supplier, known.number) == (kind, supplier.id, number):
            return known
    code = code_for(shop, number or f"{supplier.code} {day.isoformat()}")
    currency = shop.settings.currency if kind == PURCHASE else ""
    return tx.add(
        Order(0, code, kind, supplier.id, number, placed=day, due=due, currency=currency, work=work)
    )


def supplier_name(shop: Shop, supplier: int | str) -> str:
    """Return a supplier's name, inert."""
    known = shop.suppliers.get(supplier) if isinstance(supplier, int) else known_supplier(shop, supplier)
    return inert(str(supplier) if known is None else known.name or known.code)


def code_for(shop: Shop, wanted: str) -> str:
    """Return a code that nothing else in the shop has: the wanted one, or that with a number behind it."""
    shelves = [
        shelf for shelf in shop.shelves.values() if shelf.table not in ("terminals", "settings", "codes")
    ]
    code, count = wanted, 1
    while any(shelf.by_code(code) for shelf in shelves):
        count += 1
        code = f"{wanted}-{count}"
    return code


def known_supplier(shop: Shop, words: str) -> Supplier | None:
    """Return the supplier of a code or a name, however it is spelt in capitals; None for a new one."""
    name = " ".join(words.split()).casefold()
    by_code = shop.suppliers.by_code(words)
    return by_code or next((each for each in shop.suppliers.all() if each.name.casefold() == name), None)


def _refused(shop: Shop, qty: int, supplier: int | str, due: date | None) -> Answer | None:
    if qty < 1:
        return stop(f"A quantity of 1 or more was expected, not {qty}.", field="qty")
    if isinstance(supplier, str) and not supplier.strip():
        return stop("A supplier was expected: give a name or a code.", field="supplier")
    if due is not None and due < today(shop):
        day = day_words(due, today(shop))
        now = day_words(today(shop), today(shop))
        return stop(f"The due day {day} is in the past; today is {now}.", field="due")
    return None


def _less(lines: tuple[OrderLine, ...], part: int, qty: int) -> tuple[OrderLine, ...]:
    """Take pieces off the last lines of a part; a line's price shrinks with it, to the nearest minor unit."""
    kept: list[OrderLine] = []
    for line in reversed(lines):
        taken = min(line.qty, qty) if line.part == part else 0
        qty -= taken
        left = line.qty - taken
        if left:
            total = line.total_minor
            less = total if total is None or not taken else round(total * left / line.qty)
            kept.append(replace(line, qty=left, total_minor=less))
    return tuple(reversed(kept))

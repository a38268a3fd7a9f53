"""What is asked of an order: its lines, and what it cost beside them."""

from shoptui.domain.records import CHARGES, Charge, Order, OrderLine
from shoptui.jobs import ask_for
from shoptui.jobs.ask_for_records import code, part, supplier
from shoptui.jobs.asked import AskedLines
from shoptui.jobs.order_change import order_moves
from shoptui.jobs.place_words import order_name
from shoptui.jobs.record_form import RecordForm
from shoptui.jobs.whole_record import order_refused

LINE = AskedLines(
    OrderLine,
    (
        part("part", "Part"),
        ask_for.number("qty", "Pieces", "how many", least=1),
        ask_for.amount("total_minor", "Total", "what the whole line costs; may be empty"),
    ),
    "line",
    ask_for.line_words(("qty", "{} "), ("part", "{}"), ("total_minor", ", {}")),
)

CHARGE = AskedLines(
    Charge,
    (
        ask_for.choice("kind", "What for", CHARGES),
        ask_for.amount("amount_minor", "Amount", "as on the paper", needed=True),
        ask_for.unit_of_money("currency", "Its currency"),
        ask_for.amount("bank_minor", "The bank took", "in the shop's currency; may be empty", own=True),
        ask_for.yes_or_no("reclaimable", "Reclaimed", "yes: a tax that comes back"),
        part("part", "Core of", "the part whose core a deposit is for", needed=False),
        ask_for.day("due", "Core back by"),
        ask_for.amount("refund_minor", "Refund expected"),
        ask_for.amount("refunded_minor", "Refund received"),
    ),
    "charge",
    ask_for.line_words(
        ("kind", "{} "),
        ("amount_minor", "{}"),
        ("currency", " {}"),
        ("bank_minor", ", the bank took {}"),
        ("reclaimable", ", reclaimed"),
        ("part", ", {}"),
        ("due", ", due {}"),
        ("refund_minor", ", {} comes back"),
        ("refunded_minor", ", {} came back"),
    ),
)

ORDER = RecordForm(
    Order,
    "order",
    "orders",
    (
        supplier("supplier", "Supplier"),
        ask_for.text("number", "Order number", "as on the supplier's papers; may be empty", limit=60),
        code("the shop's name for it; empty: as it was"),
        ask_for.day("placed", "Placed", past=True),
        ask_for.day("due", "Due"),
        ask_for.text("work", "What is done", "the word for it afterwards: painted"),
        ask_for.unit_of_money("currency", "Currency"),
        ask_for.listing("lines", "Lines", LINE),
        ask_for.listing("charges", "Charges", CHARGE),
    ),
    lambda order: f"order {order_name(order)}",
    order_refused,
    moves=order_moves,
    fixed=(("kind", "purchase"),),
    # Pieces at an outside shop are no lines to change here.
    leaves_out=lambda order: ("lines", "supplier") if order.kind == "outside" else ("work",),
)

"""Boxes and their lines as rows and cards."""

from collections.abc import Iterator
from datetime import date

from shoptui.domain.days import day_words
from shoptui.domain.places import OURS
from shoptui.domain.records import Box, Part
from shoptui.jobs.at import At, name, pieces, shown
from shoptui.jobs.attach import file_words, files_of
from shoptui.jobs.box_list import BoxLines, ExpectedLine, orders_of
from shoptui.jobs.held import why_held
from shoptui.jobs.kit import contents, kit_words
from shoptui.jobs.parcels import who_has
from shoptui.jobs.place_words import order_name, piece_words, today
from shoptui.stations.card import Fact
from shoptui.stations.listed import Column, Row
from shoptui.stations.marks import Tone
from shoptui.store.shop import Shop

BOX_COLUMNS = (
    Column("box", 10),
    Column("state", 11, toned=True),
    Column("due", 10),
    Column("to come", 7, right=True),
    Column("order", 10),
    Column("from, inside"),
)
LINE_COLUMNS = (
    Column("part"),
    Column("number", 14, since=70),
    Column("expected", 8, right=True),
    Column("here", 4, right=True),
    Column("state", 10, toned=True),
)
ORDER_COLUMNS = tuple(Column("order", 14) if column.title == "number" else column for column in LINE_COLUMNS)
"""Where a box brings more than one order: whose a line is says more there than the maker's number."""


def box_state(box: Box, due: date | None, day: date) -> tuple[str, Tone]:  # noqa: PLR0911 - one a state
    """Return the word for a box, and how it looks."""
    if box.open_at:
        return "open", Tone.GOOD
    if box.closed:
        return "closed", Tone.QUIET
    if box.opened:
        return "half done", Tone.WARN
    if box.arrived:
        return "arrived", Tone.WARN
    if due is not None and due < day:
        return "! overdue", Tone.BAD
    if due == day:
        return "due today", Tone.WARN
    return "expected", Tone.PLAIN


def box_row(shop: Shop, entry: BoxLines) -> Row:
    """Return the row of a box."""
    day = today(shop)
    box = entry.box
    state, tone = box_state(box, entry.due, day)
    orders = [shop.orders.get(number) for number in box.orders]
    parts = [shop.parts.get(line.part) for line in entry.lines]
    inside = ", ".join(part.description for part in parts)
    sellers = ", ".join(dict.fromkeys(shop.suppliers.get(order.supplier).name for order in orders))
    return Row(
        box.id,
        (
            shown(box.code),
            state,
            day_words(entry.due, day) if entry.due else "",
            str(sum(line.short for line in entry.lines)),
            ", ".join(order_name(order) for order in orders),
            f"{sellers}: {inside}" if sellers else inside,
        ),
        tone,
        " ".join((*box.tracking, *(part.number for part in parts))),
    )


def line_state(line: ExpectedLine) -> tuple[str, Tone]:
    """Return the word for a line of a box, and how it looks."""
    if line.is_kit:
        return "kit", Tone.QUIET
    if line.over:
        return f"{line.over} over", Tone.BAD
    if line.wrong:
        return f"{line.wrong} wrong", Tone.BAD
    if line.held:
        return f"{line.held} held", Tone.BAD
    if line.short:
        return f"{line.short} to come", Tone.WARN if line.received else Tone.PLAIN
    return "+ complete", Tone.GOOD


def has_orders(box: Box) -> bool:
    """Whether a box brings more than one order."""
    return len({*box.orders, *box.also_orders}) > 1


def line_row(shop: Shop, box: Box, line: ExpectedLine) -> Row:
    """Return the row of one line of a box."""
    part = shop.parts.get(line.part)
    state, tone = line_state(line)
    counts = ("", "") if line.is_kit else (str(line.expected), str(line.received))
    said = _orders(shop, box, part) if has_orders(box) else part.number
    cells = (name(part), said, *counts, state)
    return Row(part.id, cells, tone, " ".join((part.code, part.number, *part.other_numbers)))


def _orders(shop: Shop, box: Box, part: Part) -> str:
    return ", ".join(order_name(order) for order in orders_of(shop, box, part.id))


def box_facts(shop: Shop, entry: BoxLines) -> tuple[str, tuple[Fact, ...]]:
    """Return title and lines of a box's card."""
    day = today(shop)
    box = entry.box
    state, tone = box_state(box, entry.due, day)
    facts = [Fact("state", state, tone)]
    if entry.due:
        facts.append(Fact("due", day_words(entry.due, day)))
    orders = [shop.orders.get(number) for number in box.orders]
    facts.extend(
        Fact("order", f"{order_name(order)}, {shop.suppliers.get(order.supplier).name}") for order in orders
    )
    facts.extend(Fact("tracking", number) for number in box.tracking)
    if box.open_at:
        facts.append(Fact("open at", who_has(At(shop, ""), box)))
    facts.append(
        Fact("slip", "written down" if box.contents else "none: what its orders promise is expected")
    )
    facts.extend((Fact(), Fact("What should be in it")))
    for line in entry.lines:
        word, tone = line_state(line)
        part = shop.parts.get(line.part)
        count = "" if line.is_kit else f"{line.received} of {line.expected}  "
        facts.append(Fact("", f"{count}{name(part)}  {word}", tone))
    if not entry.lines:
        facts.append(Fact("", "Nothing is known of it: scan each thing."))
    return f"Box {shown(box.code)}", tuple(facts)


def line_facts(at: At, line: ExpectedLine) -> tuple[str, tuple[Fact, ...]]:
    """Return title and lines of the card of one line of a box, or of a thing that is not expected in it."""
    shop = at.shop
    part = shop.parts.get(line.part)
    word, tone = (
        line_state(line) if line.expected or line.received or line.is_kit else ("not expected", Tone.WARN)
    )
    facts = [
        Fact("state", word, tone),
        *(() if line.is_kit else (Fact("expected", str(line.expected)), Fact("here", str(line.received)))),
        Fact("number", f"{part.maker} {part.number}".strip()),
        Fact("order", _orders(shop, at.box, part) if at.box else ""),
        Fact("section", part.section),
        Fact("needed", str(part.needed) if part.needed else ""),
        *(Fact("held", note, Tone.WARN) for note in why_held(shop, part.id)),
        *(Fact("file", file_words(file)) for file in files_of(at, part)),
        Fact(),
        *(_in_the_kit(shop, part) if part.kit else _where(shop, part)),
    ]
    return name(part), tuple(fact for fact in facts if fact.text or not fact.label or fact.label[0].isupper())


def _where(shop: Shop, part: Part) -> Iterator[Fact]:
    yield Fact("Where it is")
    for place, qty in shop.book.places(part.id, *OURS):
        yield Fact("", piece_words(shop, place, qty))


def _in_the_kit(shop: Shop, kit: Part) -> Iterator[Fact]:
    yield Fact("What is in it")
    yield Fact("", kit_words(shop, kit))
    for part, qty in contents(shop, kit):
        yield Fact("", pieces(qty, part))

"""Where pieces are and how they are, in words that everybody in the shop understands."""

from datetime import date

from shoptui.domain.carriers import CARRIES
from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.places import AS_BOUGHT, SEALED, UNSORTED, Place, State
from shoptui.domain.records import Bin, Order
from shoptui.jobs.at import shown
from shoptui.store.shop import Shop

_BENCH = "on the bench, unsorted"


def today(shop: Shop) -> date:
    """Return the day that it is in the shop, by the shop's clock and the machine's time zone."""
    return shop.clock().astimezone().date()


def place_words(shop: Shop, place: Place) -> str:  # noqa: PLR0911 - one line a state
    """Return where a place is: "in bin A3 (rack A, shelf 3)", "installed at LF", "ordered from ..."."""
    where = place.where
    match place.state:
        case State.ORDERED:
            order = _order(shop, where)
            return "ordered" if order is None else f"ordered from {_order_words(shop, order)}"
        case State.SENT_OUT:
            order = _order(shop, where)
            return "sent out" if order is None else f"at {_order_words(shop, order, 'job')}"
        case State.NOT_OURS:
            return AS_BOUGHT if where == AS_BOUGHT else f"not ours, from {_supplier_name(shop, where)}"
        case State.GONE:
            return f"gone, {inert(str(where))}" if where else "gone"
        case State.ASSEMBLED:
            return f"built into {_carrier_words(shop, where)}"
        case State.INSTALLED if isinstance(where, int):
            return f"on {_carrier_words(shop, where)}"
        case State.MOCKED_UP | State.INSTALLED:
            return f"{place.state.value} at {inert(str(where))}" if where else place.state.value
    lead = "" if place.state is State.RECEIVED else f"{place.state.value}, "
    return lead + bin_words(shop, where)


def bin_words(shop: Shop, where: int | str) -> str:
    """Return the words of a bin, or of the bench where nothing was put away yet."""
    if where == UNSORTED:
        return _BENCH
    try:
        bin_ = shop.bins.get(int(where))
    except (KeyError, ValueError):
        return f"in a bin that is not in the books ({inert(str(where))})"
    return f"in {bin_name(bin_)}"


def bin_name(bin_: Bin) -> str:
    """Return a bin's name with its words: "bin A3 (rack A, shelf 3)", "bag G-7K3QX2"."""
    kind = "bin" if bin_.kind == "rack bin" else bin_.kind
    told = ", ".join(inert(words) for words in (bin_.words, bin_.room) if words)
    return f"{kind} {shown(bin_.code)}" + (f" ({told})" if told else "")


def piece_words(shop: Shop, place: Place, qty: int) -> str:
    """Return how many pieces are where and how: "2 received, sealed, in bin A3 (rack A, shelf 3)"."""
    told = place_words(shop, place)
    condition = inert(place.condition)
    if place.state in (State.RECEIVED, State.HELD, State.REMOVED):
        how = f"{condition}, " if condition else ""
        return f"{qty} {place.state.value}, {how}{bin_words(shop, place.where)}"
    return f"{qty} {told}" + (f", {condition}" if condition and condition != SEALED else "")


def order_name(order: Order) -> str:
    """Return an order by its number, or by the shop's name for it where it has none."""
    return inert(order.number or order.code)


def _order_words(shop: Shop, order: Order, kind: str = "order") -> str:
    words = f"{_supplier_name(shop, order.supplier)}, {kind} {order_name(order)}"
    return words if order.due is None else f"{words}, due {day_words(order.due, today(shop))}"


def _order(shop: Shop, where: int | str) -> Order | None:
    try:
        return shop.orders.get(int(where))
    except (KeyError, ValueError):
        return None


def _supplier_name(shop: Shop, where: int | str) -> str:
    try:
        supplier = shop.suppliers.get(int(where))
    except (KeyError, ValueError):
        return inert(str(where)) or "an unknown supplier"
    return inert(supplier.name or supplier.code)


def _carrier_words(shop: Shop, where: int | str) -> str:
    """Return a part that carries another, and where it is; of several pieces, where each of them is."""
    try:
        carrier = shop.parts.get(int(where))
    except (KeyError, ValueError):
        return "a part that is not in the books"
    words = inert(carrier.words) or inert(carrier.code)
    there = [
        (place, qty)
        for place, qty in shop.book.places(carrier.id)
        if place.state in CARRIES and qty > 0 and place.where != carrier.id
    ]
    if len(there) == 1:
        return f"{words}, which is {_carrier_place(shop, there[0][0])}"
    told = ", ".join(f"{qty} {_carrier_place(shop, place)}" for place, qty in there)
    return f"{words} ({told})" if told else words


def _carrier_place(shop: Shop, place: Place) -> str:
    """In few words, and not followed further: the carrier's own card says more."""
    try:
        if place.state is State.ASSEMBLED:
            return f"built into {inert(shop.parts.get(int(place.where)).description)}"
        if place.state in (State.RECEIVED, State.HELD, State.REMOVED) and place.where != UNSORTED:
            return f"in {shown(shop.bins.get(int(place.where)).code)}"
    except (KeyError, ValueError):
        return f"{place.state.value}, at a place that is not in the books"
    return place_words(shop, place)

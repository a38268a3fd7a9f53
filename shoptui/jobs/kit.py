"""Kits: one code for all of their contents. A kit has no balance; the parts that are in it have."""

from shoptui.domain.places import State
from shoptui.domain.records import Part
from shoptui.jobs.at import name
from shoptui.store.shop import Shop

_WORDS = (
    (State.ORDERED, "ordered"),
    (State.RECEIVED, "here"),
    (State.HELD, "held"),
    (State.SENT_OUT, "sent out"),
    (State.MOCKED_UP, "on for trial"),
    (State.INSTALLED, "on the vehicle"),
    (State.REMOVED, "taken off"),
)


def contents(shop: Shop, part: Part, qty: int = 1) -> tuple[tuple[Part, int], ...]:
    """Return what so many of a line are in the ledger: a kit's contents, else the part itself."""
    if not part.kit:
        return ((part, qty),)
    inside: dict[int, int] = {}
    for line in part.kit:
        inside[line.part] = inside.get(line.part, 0) + line.qty * qty
    return tuple((shop.parts.get(number), pieces) for number, pieces in inside.items())


def kits_with(shop: Shop, part: Part) -> tuple[Part, ...]:
    """Return the kits that a part is in."""
    kits = (shop.parts.get(number) for number in sorted(shop.in_kits.get(part.id, ())))
    return tuple(kit for kit in kits if not kit.withdrawn)


def kit_words(shop: Shop, kit: Part) -> str:
    """Return how a kit's contents stand: `kit of 14: 13 here, 1 ordered`."""
    inside = contents(shop, kit)
    told = []
    for state, word in _WORDS:
        if qty := sum(shop.book.in_state(part.id, state) for part, _ in inside):
            told.append(f"{qty} {word}")
    return f"kit of {sum(qty for _, qty in inside)}: {', '.join(told) or 'not ordered yet'}"


def refused(shop: Shop, kit: Part, inside: tuple[Part, ...]) -> str:
    """Say why a line cannot be a kit with these contents, in a sentence; empty where it can."""
    if kit.id and any(qty for _, qty in shop.book.places(kit.id)):
        return f"{name(kit)} has pieces of its own in the books; a kit has none, only its contents have."
    for part in inside:
        if part.id == kit.id:
            return f"{name(kit)} cannot be in itself."
        if part.kit:
            return f"{name(part)} is a kit itself; list what is in it instead."
        if part.build != kit.build:
            return f"{name(part)} is on the list of another build."
    if holder := next(iter(kits_with(shop, kit)), None) if inside and kit.id else None:
        return f"{name(kit)} is in the kit {name(holder)}; a kit in a kit is not possible."
    return ""

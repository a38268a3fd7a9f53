"""Bins, drawers and bags: what lies in one, and how an empty one comes off the list."""

from shoptui.domain.inert import inert
from shoptui.domain.places import Place
from shoptui.domain.records import Bin, Part
from shoptui.domain.verbs import ON_A_SHELF
from shoptui.jobs.answers import Answer, done, stop
from shoptui.jobs.at import At, pieces
from shoptui.jobs.put_away import bin_name
from shoptui.store.shop import Shop

Inside = tuple[tuple[Part, Place, int], ...]


def inside(shop: Shop, where: int | str) -> Inside:
    """Return what lies in a bin, or on the bench: part, place and pieces, by state."""
    return tuple(
        (shop.parts.get(part), place, qty)
        for state in ON_A_SHELF
        for part in shop.book.parts_at(state, where)
        for place, qty in shop.book.places(part, state)
        if place.where == where
    )


def withdraw_bin(at: At, old: Bin) -> Answer:
    """Take an empty bin off the list; its name and tag are free again."""
    left = inside(at.shop, old.id)
    if left:
        first = ", ".join(pieces(qty, part) for part, _, qty in left[:3])
        more = f" and {len(left) - 3} more" if len(left) > 3 else ""  # noqa: PLR2004
        return stop(f"{bin_name(old)} is not empty: {first}{more}. Move all of it to another bin first.")
    counting = [each.code for each in at.shop.terminals.all() if each.counting == old.id]
    if counting:
        return stop(f"{bin_name(old)} is being counted at {inert(counting[0])}: finish that first.")
    with at.doing(f"withdrew {bin_name(old)}") as tx:
        tx.change(old, withdrawn=True)
    return done(f"{bin_name(old)} is withdrawn. What was in it before still says so.", show="racks")

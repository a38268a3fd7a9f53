"""Of which parts a shot's need asks something: one part, a kit's contents, or all of a section."""

from collections.abc import Iterator
from dataclasses import replace

from shoptui.domain.readiness import concerns
from shoptui.domain.records import Part
from shoptui.domain.shoots import Need
from shoptui.jobs.kit import contents
from shoptui.jobs.part_list import is_of_finished
from shoptui.store.shop import Shop


def asked(shop: Shop, need: Need) -> Iterator[tuple[Part, Need]]:
    """Yield the parts of which a need asks something, each with what is asked of it.

    A kit has no pieces of its own: what a shot needs of it is needed of what is in it. A section asks of its
    parts, and so of a kit's contents by their own sections. A finished build is asked for nothing.
    """
    if need.part is None:
        for number in shop.sections.of(need.build, need.section):
            part = shop.parts.get(number)
            if concerns(need, part) and not is_of_finished(shop, part):
                yield part, need
    elif need.part in shop.database.documents("parts"):  # else the store's check says so
        for part, qty in contents(shop, shop.parts.get(need.part)):
            if not is_of_finished(shop, part):
                yield part, replace(need, part=part.id, qty=need.qty * qty)


def asked_of(shop: Shop, need: Need, part: Part) -> Need | None:
    """Return what a need asks of a part, None if nothing."""
    if need.part is None:
        return need if concerns(need, part) and not is_of_finished(shop, part) else None
    if need.part != part.id and need.part not in shop.in_kits.get(part.id, ()):
        return None
    return next((each for found, each in asked(shop, need) if found.id == part.id), None)

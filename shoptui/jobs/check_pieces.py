"""Checks of where the pieces are: what may be in the ledger, but is hardly meant."""

from collections import Counter
from collections.abc import Iterator

from shoptui.domain.carriers import carriers_of, standing
from shoptui.domain.inert import inert
from shoptui.domain.places import OTHER_BUILD, Place, State
from shoptui.domain.problems import Problem, cycles
from shoptui.domain.records import Part
from shoptui.jobs.at import name_and_code, shown
from shoptui.jobs.held import why_held
from shoptui.store.shop import Shop

_ON = (State.MOCKED_UP, State.INSTALLED)
_IN_THE_SHOP = (State.RECEIVED, State.HELD, State.REMOVED, State.MOCKED_UP)


def built_in(shop: Shop) -> Iterator[Problem]:
    """Find pieces built into a part of which none is here, and parts built into each other."""
    into: dict[int, list[int]] = {}
    for number in sorted(shop.book.parts_in(State.ASSEMBLED)):
        for place, qty in shop.book.places(number, State.ASSEMBLED):
            if qty > 0 and isinstance(place.where, int):
                into.setdefault(number, []).append(place.where)
    for ring in cycles(into):
        names = " into ".join(_code(shop, number) for number in (*ring, ring[0]))
        yield Problem(
            f"part {_code(shop, ring[0])}", f"built in a ring: {names}", "Take one of them out again."
        )
    for number, carriers in into.items():
        for carrier in dict.fromkeys(carriers):
            if not carriers_of(shop.book, carrier):
                what = f"it is built into {_code(shop, carrier)}, of which none is here"
                remedy = "Take it out, or write down where the part is that it is in."
                yield Problem(f"part {_code(shop, number)}", what, remedy)


def on_the_vehicle(shop: Shop) -> Iterator[Problem]:
    """Find pieces at positions that their line does not list, and more of them on than it wants."""
    for number in sorted(shop.book.parts_in(State.INSTALLED) | shop.book.parts_in(State.MOCKED_UP)):
        part = _part(shop, number)
        if part is None or part.original:
            continue
        for place, qty in shop.book.places(number, *_ON):
            if qty > 0 and part.positions and place.where not in part.positions:
                where = inert(str(place.where)) or "no position"
                what = f"{qty} {place.state.value} at {where}; it is listed for {', '.join(part.positions)}"
                yield Problem(f"part {shown(part.code)}", what, "Correct the list, or where it is on.")
        on = shop.book.in_state(number, State.INSTALLED)
        if part.build is not None and on > part.needed:
            what = f"{on} are installed, and the list wants {part.needed}"
            yield Problem(f"part {shown(part.code)}", what, "Correct what is needed, or what is on.")


def held_without_a_word(shop: Shop) -> Iterator[Problem]:
    """Find held pieces of which nobody said why."""
    for number in sorted(shop.book.parts_in(State.HELD)):
        notes = why_held(shop, number)
        if not notes or not all(note.strip() for note in notes):
            what = "pieces of it are held, and nobody wrote down why"
            yield Problem(
                f"part {_code(shop, number)}", what, "Release them, or hold them again with a word."
            )


def finished_builds(shop: Shop) -> Iterator[Problem]:
    """Find what a finished vehicle got from another build and never took away."""
    finished = {build.id: build for build in shop.builds.all() if build.status != "open"}
    for number in sorted(shop.book.parts_at(State.NOT_OURS, OTHER_BUILD)):
        part = _part(shop, number)
        build = finished.get(part.build) if part is not None and part.build is not None else None
        if part is None or build is None:
            continue
        here = Counter[State]()
        for place, qty in standing(shop.book, number):
            if place.state in _IN_THE_SHOP:
                here[place.state] += qty
        if shop.book.at(number, Place(State.NOT_OURS, OTHER_BUILD)) < 0 and here.total() > 0:
            what = f"it was given to {inert(build.title or build.code)}, which is finished, and is still here"
            yield Problem(
                f"part {shown(part.code)}", what, "Give it back, or to a build that is not finished."
            )


def kits(shop: Shop) -> Iterator[Problem]:
    """Find kits that hold themselves or another kit, and kits with pieces of their own."""
    contents = {part.id: tuple(line.part for line in part.kit) for part in shop.parts.all() if part.kit}
    in_rings: set[int] = set()
    for ring in cycles(contents):
        in_rings.update(ring)
        names = " in ".join(_code(shop, number) for number in (*reversed(ring), ring[-1]))
        yield Problem(f"kit {_code(shop, ring[0])}", f"it holds itself: {names}", "Correct what is in it.")
    for number, inside in contents.items():
        for other in inside:
            if other in contents and number not in in_rings:
                what = f"the kit {_code(shop, other)} is in it"
                yield Problem(f"kit {_code(shop, number)}", what, "List the parts of both in one kit.")
        here = shop.book.in_state(number, *_IN_THE_SHOP, *_ON)
        if here > 0:
            what = f"{here} of it are here, but a kit stands for what is in it"
            yield Problem(f"kit {_code(shop, number)}", what, "Count its parts, and count the kit short.")


def _part(shop: Shop, number: int) -> Part | None:
    """Return a part; None for one that is not in the books, which another check finds."""
    return shop.parts.get(number) if number in shop.database.documents("parts") else None


def _code(shop: Shop, number: int) -> str:
    part = _part(shop, number)
    return f"number {number}" if part is None else name_and_code(part)

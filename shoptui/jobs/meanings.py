"""What a known code means: the station and the thing scanned say it together."""

from shoptui.domain.lookup import Match
from shoptui.domain.places import UNSORTED, Place, State
from shoptui.domain.recognise import Reading
from shoptui.domain.records import Bin, Part
from shoptui.domain.verbs import HERE
from shoptui.jobs.answers import Answer, Choice, Question, Said, done, stop
from shoptui.jobs.at import At, name, pieces, shown
from shoptui.jobs.install import ask_install
from shoptui.jobs.parcels import open_box, open_order
from shoptui.jobs.place_words import order_name, piece_words, place_words
from shoptui.jobs.put_away import bin_name, move_to_bin, put_away
from shoptui.jobs.receive import receive
from shoptui.jobs.remove import ask_remove


def meaning_of(at: At, match: Match, reading: Reading, count: int) -> Answer:
    """Do what the scan of a known code means at the station in front."""
    match match.kind:
        case "part":
            pieces_meant = count * (match.qty if match.qty > 1 else reading.count or 1)
            return part_meaning(at, at.shop.parts.get(match.record), pieces_meant).of("part", "")
        case "bin":
            found = at.shop.bins.get(match.record)
            return _bin(at, found).of("bag" if found.kind == "bag" else "bin", "")
        case "box" | "order":
            return _parcel(at, match).of(match.kind, "")
        case "vehicle":
            build = at.shop.builds.get(match.record)
            at.shop.remember(at.terminal, build=build.id)
            return done(f"This terminal works on {build.title} now.", kind="vehicle", subject=build.id)
        case _:
            person = at.shop.people.get(match.record)
            at.shop.remember(at.terminal, person=person.id, badge_at=at.shop.clock())
            return done(f"{person.name} is at this terminal now.", kind="badge", subject=person.id)


def part_meaning(at: At, part: Part, qty: int, *, verb: str = "") -> Answer:
    """Receive it, open its card at the lift, or show where it is."""
    if at.station == "receiving":
        return receive(at, part, qty)
    if at.station == "lift":
        return _at_the_lift(at, part, qty, verb)
    places = [(place, n) for place, n in at.shop.book.places(part.id) if place.state is not State.NOT_OURS]
    words = "; ".join(piece_words(at.shop, place, n) for place, n in places[:3])
    offer = Question(accepts=lambda text: _to_bin(at, part, qty, text)) if at.station == "racks" else None
    hint = " Scan a bin to put it there." if offer and _here(at, part) else ""
    only = places[0][0] if len(places) == 1 else None
    return done(
        f"{name(part)}: {words or 'not ordered yet'}.{hint}",
        part=part.code,
        qty=sum(n for _, n in places),
        state=only.state.value if only else "",
        where=place_words(at.shop, only) if only else "",
        show="racks" if at.station == "racks" else "parts",
        subject=part.id,
        question=offer if hint else None,
    )


def _at_the_lift(at: At, part: Part, qty: int, verb: str) -> Answer:
    """Install while any is on hand, else remove; what the books have elsewhere can be in the hand too."""
    book = at.shop.book
    on = book.in_state(part.id, State.INSTALLED)
    if verb == "remove" or (verb != "install" and on and not book.in_state(part.id, *HERE)):
        return ask_remove(at, part, qty)
    return ask_install(at, part, qty)


def _here(at: At, part: Part) -> list[tuple[Place, int]]:
    return list(at.shop.book.places(part.id, State.RECEIVED, State.REMOVED, State.HELD))


def _to_bin(at: At, part: Part, qty: int, text: str) -> Answer | None:
    """Move a part that was shown at Racks into the bin scanned next: from the bench, else ask from where."""
    into = at.shop.bins.by_code(text)
    if into is None:
        return None
    here = [(place, n) for place, n in _here(at, part) if place.where != into.id]
    bench = [(place, n) for place, n in here if place.where == UNSORTED]
    if not here:
        return stop(f"{name(part)} is in {bin_name(into)} already.", part=part.code, subject=part.id)
    if len(here) == 1 or bench:
        place, n = (bench or here)[0]
        return move_to_bin(at, part, place, n if qty == 1 else min(qty, n), into)
    return Answer(
        Said.QUESTION,
        f"{name(part)} lies in {len(here)} places. From which into {bin_name(into)}? Its number, then Enter: "
        + "; ".join(f"{i} {place_words(at.shop, place)}" for i, (place, _) in enumerate(here, 1)),
        part=part.code,
        subject=part.id,
        question=Question(choices=tuple(_from(at, part, place, n, into) for place, n in here)),
    )


def _from(at: At, part: Part, place: Place, qty: int, into: Bin) -> Choice:
    return Choice(place_words(at.shop, place), lambda: move_to_bin(at, part, place, qty, into))


def _bin(at: At, found: Bin) -> Answer:
    if at.station == "receiving":
        return put_away(at, found)
    if at.station == "lift":
        at.shop.remember(at.terminal, bin=found.id)
        return done(f"Removed things go to {bin_name(found)} now.", where=bin_name(found), subject=found.id)
    inside = bin_contents(at, found)
    listed = ", ".join(pieces(qty, part) for part, _, qty in inside[:3])
    more = f" and {len(inside) - 3} more" if len(inside) > 3 else ""  # noqa: PLR2004
    return done(
        f"{bin_name(found)}: {listed + more if inside else 'empty'}.",
        where=bin_name(found),
        qty=sum(qty for _, _, qty in inside),
        show="racks",
        subject=found.id,
    )


def bin_contents(at: At, found: Bin) -> list[tuple[Part, Place, int]]:
    """Return what is in a bin: part, place and pieces, by state."""
    return [
        (at.shop.parts.get(part), place, qty)
        for state in (State.RECEIVED, State.HELD, State.REMOVED)
        for part in at.shop.book.parts_at(state, found.id)
        for place, qty in at.shop.book.places(part, state)
        if place.where == found.id
    ]


def _parcel(at: At, match: Match) -> Answer:
    if at.station == "lift":
        thing = (
            f"box {shown(at.shop.boxes.get(match.record).code)}"
            if match.kind == "box"
            else f"order {order_name(at.shop.orders.get(match.record))}"
        )
        return stop(f"This is {thing}: boxes are opened at Receiving (F3).", subject=match.record)
    receiving = At(at.shop, at.terminal, "receiving", at.build_given, at.who_given)
    if match.kind == "box":
        return open_box(receiving, at.shop.boxes.get(match.record))
    return open_order(receiving, at.shop.orders.get(match.record))

"""What a known code means: the station and the thing scanned say it together."""

from shoptui.domain.lookup import Match
from shoptui.domain.recognise import Reading
from shoptui.domain.records import Bin, Part
from shoptui.jobs.answers import Answer, done, stop
from shoptui.jobs.at import At, shown
from shoptui.jobs.bags import bag_words, was_built_in
from shoptui.jobs.fastened import kept_for
from shoptui.jobs.kit_shown import kit_meaning
from shoptui.jobs.lift_card import ask_card
from shoptui.jobs.parcels import open_box, open_order
from shoptui.jobs.place_words import order_name
from shoptui.jobs.put_away import bin_name, put_away
from shoptui.jobs.racks import bin_looked_into, part_at_the_racks, where_it_is
from shoptui.jobs.receive import receive
from shoptui.jobs.substitute import another
from shoptui.jobs.wrench_care import wrench_scanned


def meaning_of(at: At, match: Match, reading: Reading, count: int) -> Answer:
    """Do what the scan of a known code means at the station in front."""
    match match.kind:
        case "part":
            part, qty = at.shop.parts.get(match.record), count * match.pieces(reading)
            not_ordered = another(at, part, reading.text, qty) if at.station == "receiving" else None
            return (not_ordered or part_meaning(at, part, qty)).of("part", "")
        case "bin":
            found = at.shop.bins.get(match.record)
            return _bin(at, found).of("bag" if found.kind == "bag" else "bin", "")
        case "box" | "order":
            return _parcel(at, match).of(match.kind, "")
        case "vehicle":
            build = at.shop.builds.get(match.record)
            at.shop.remember(at.terminal, build=build.id)
            return done(f"This terminal works on {build.title} now.", kind="vehicle", subject=build.id)
        case "wrench":
            return wrench_scanned(at, at.shop.wrenches.get(match.record))
        case _:
            person = at.shop.people.get(match.record)
            at.is_here(person)
            return done(f"{person.name} is at this terminal now.", kind="badge", subject=person.id)


def part_meaning(at: At, part: Part, qty: int, *, verb: str = "") -> Answer:
    """Receive it, open its card at the lift, or show where it is."""
    if at.station == "receiving":
        return receive(at, part, qty)
    if part.kit:
        return kit_meaning(at, part, qty, verb or at.turned_to)
    if at.station == "racks":
        return part_at_the_racks(at, part, qty)
    if part.is_hardware:
        return where_it_is(at, part, "hardware")
    if at.station == "lift":
        return ask_card(at, part, qty, verb or at.said_for(part.id))
    return where_it_is(at, part, "parts")


def _bin(at: At, found: Bin) -> Answer:
    if at.station == "receiving":
        return put_away(at, found)
    if at.station == "lift":
        if (part := kept_for(at.shop, found)) is not None:
            return ask_card(at, part, verb="assemble" if was_built_in(at.shop, part) else "")
        if free := bag_words(at.shop, found):
            return done(f"{bin_name(found)}: {free}", where=bin_name(found), subject=found.id)
        at.shop.remember(at.terminal, bin=found.id)
        return done(f"Removed things go to {bin_name(found)} now.", where=bin_name(found), subject=found.id)
    return bin_looked_into(at, found)


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

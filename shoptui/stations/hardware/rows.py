"""Kinds of hardware as rows, and the card of one."""

from collections.abc import Iterator

from shoptui.domain.fasteners.hardware import thread_of
from shoptui.domain.inert import inert
from shoptui.jobs.at import At, name, name_and_code, shown
from shoptui.jobs.edit import written
from shoptui.jobs.hardware import Stand, Taker, takers
from shoptui.stations.card import Fact
from shoptui.stations.listed import Column, Row
from shoptui.stations.marks import Tone
from shoptui.stations.parts.facts import pieces_and_story

HARDWARE_COLUMNS = (
    Column("hardware"),
    Column("need", 4, right=True),
    Column("new", 4, right=True),
    Column("used", 4, right=True),
    Column("ordered", 7, right=True),
    Column("stands", 11, toned=True),
    Column("buy", 4, right=True),
    Column("where", 24, since=96),
)


def hardware_row(each: Stand) -> Row:
    """Return the row of a kind."""
    words, tone = stand_words(each)
    stock, part = each.stock, each.part
    needed, new, used, ordered, buy = (
        str(number or "")
        for number in (each.need.needed, stock.new, stock.used, stock.on_order, each.need.to_buy)
    )
    cells = (name(part), needed, new, used, ordered, words, buy, ", ".join(each.where))
    return Row(
        part.id,
        cells,
        tone,
        " ".join((part.code, part.tag, part.number, part.finish, part.designation.replace(" ", ""))),
    )


def stand_words(each: Stand) -> tuple[str, Tone]:
    """Return how a kind stands in few words, and how that looks."""
    if each.need.short:
        return f"! {each.need.short} short", Tone.BAD
    if each.short:
        return "! minimum", Tone.WARN
    return ("+ enough", Tone.GOOD) if each.need.needed else ("-", Tone.PLAIN)


def hardware_facts(at: At, each: Stand) -> tuple[str, tuple[Fact, ...]]:
    """Return title and lines of the card of a kind."""
    part = each.part
    facts = [fact for fact in _known(at, each) if fact.text]
    facts.append(Fact("What takes it"))
    found = [Fact("", taker_words(each)) for each in takers(at.shop, part)]
    facts.extend(found)
    if not found:
        facts.append(Fact("", "No part says so yet: the form of a part (Parts, F8) has its hardware."))
    return name(part), (*facts, Fact(), *pieces_and_story(at, part))


def _kept(each: Stand) -> str:
    kept = each.stock.kept
    return f", {kept} more in bags of parts that are theirs" if kept else ""


def _packs(each: Stand) -> str:
    pack = each.part.pieces
    return f", in packs of {pack}" if pack > 1 else ""


def taker_words(each: Taker) -> str:
    """Return what a part takes of a kind, and for how many of it some is still needed."""
    renew = f", {each.renew} to be new again" if each.renew else ""
    return f"{each.qty} for each {name_and_code(each.part)}, {each.ahead or 'none'} still to go on{renew}"


def _known(at: At, each: Stand) -> Iterator[Fact]:
    part = each.part
    thread = thread_of(part.designation)
    words, tone = stand_words(each)
    yield Fact("code", shown(part.code))
    yield Fact("tag", shown(part.tag) if part.tag != part.code else "")
    yield Fact("designation", inert(part.designation))
    yield Fact("", thread.remark if thread else "", Tone.WARN)
    yield Fact("finish", inert(part.finish))
    yield Fact("one-time use", "what came off is scrap, what goes on is new" if part.one_use else "")
    yield Fact("maker", inert(" ".join(filter(None, (part.maker, part.number)))))
    yield Fact("pack", f"{part.pieces} in one" if part.pieces > 1 else "")
    yield Fact("minimum", f"{part.minimum} to be left when the work is done" if part.minimum else "")
    yield Fact("price", written(at.shop, part)["price"])
    yield Fact("needed", f"{each.need.needed}, {each.need.on_hand} here for it{_kept(each)}")
    yield Fact("stands", "" if words == "-" else words, tone)
    yield Fact("to buy", f"{each.need.to_buy}{_packs(each)}" if each.short else "", tone)
    yield Fact("notes", inert(part.notes, 400))

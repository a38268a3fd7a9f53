"""Checks of the codes: each must say which of two things is meant, or a scan of it must be able to ask."""

from collections.abc import Iterator

from shoptui.domain.codes import gtins, normal
from shoptui.domain.inert import inert
from shoptui.domain.problems import Problem
from shoptui.jobs.at import shown
from shoptui.store.command_tags import command_named
from shoptui.store.shelves import short
from shoptui.store.shop import Shop

ONE = {
    "builds": "build",
    "parts": "part",
    "orders": "order",
    "boxes": "box",
    "suppliers": "supplier",
    "bins": "bin",
    "people": "person",
    "wrenches": "wrench",
    "files": "file",
    "shoots": "filming day",
    "codes": "learned code",
    "terminals": "terminal",
}
"""What a record of each table is called."""

_SCANNED = ("builds", "parts", "orders", "boxes", "bins", "people")

_Bearers = dict[tuple[str, int], int]
"""Table and id of all that one learned code stands for, with the pieces."""


def codes(shop: Shop) -> Iterator[Problem]:
    """Find codes that stand for two things, between which a scan cannot decide."""
    named = _names(shop)
    for key, things in named.items():
        if len(things) > 1:
            yield _ambiguous(inert(key), things)
    yield from _hidden(shop, named)
    for (key, _), found in _learned(shop).items():
        if len(found) > 1 and not _scan_can_ask(shop, key, found):
            yield _ambiguous(inert(key), [_told(shop, kind, number) for kind, number in found])


def _names(shop: Shop) -> dict[str, list[str]]:
    """Return all names and tags with what has them."""
    named: dict[str, list[str]] = {}
    for shelf in shop.shelves.values():
        if shelf.table in _SCANNED:
            for record in shelf.all():
                told = f"{ONE[shelf.table]} {shown(record.code)}"
                names = (record.code, getattr(record, "tag", ""), *getattr(record, "old_names", ()))
                for key in {short(each) for each in names if each}:
                    named.setdefault(key, []).append(told)
    return named


def _hidden(shop: Shop, named: dict[str, list[str]]) -> Iterator[Problem]:
    """Find learned codes that never count, since a name or a command goes before them."""
    for code in shop.learned.all():
        told = _told(shop, code.kind, code.record)
        if others := [each for each in named.get(short(code.code), ()) if each != told]:
            yield _ambiguous(inert(code.code), [told, *others])
        elif command_named(code.code):
            what = f"it stands for {told}, but is a command or a position, which goes before"
            yield Problem(f"code {inert(code.code)}", what, "Give that another code.")


def _learned(shop: Shop) -> dict[tuple[str, int | None], _Bearers]:
    """Return what each learned code stands for in each build.

    The same code in two builds is told apart by the build at the lift, and by the open box.
    """
    learned: dict[tuple[str, int | None], _Bearers] = {}
    for code in shop.learned.all():
        build = _build_of(shop, code.kind, code.record)
        bearers = learned.setdefault((code.normal or normal(code.code), build), {})
        bearers[code.kind, code.record] = code.qty
    return learned


def _ambiguous(code: str, things: list[str]) -> Problem:
    both = ", ".join(sorted(things))
    return Problem(f"code {code}", f"it stands for {both}", "Give one of them another code.")


def _scan_can_ask(shop: Shop, key: str, found: _Bearers) -> bool:
    """Left and right of one thing may have one maker's barcode: a scan asks which, by name or position."""
    if any(kind != "parts" for kind, _ in found):
        return False
    if gtins(key):
        return True
    places = {shop.parts.get(number).positions for _, number in found}
    return len(places) == len(found) and () not in places


def _build_of(shop: Shop, kind: str, number: int) -> int | None:
    documents = shop.database.documents("parts")
    return documents[number].get("build") if kind == "parts" and number in documents else None


def _told(shop: Shop, kind: str, number: int) -> str:
    document = shop.database.documents(kind).get(number, {})
    return f"{ONE.get(kind, inert(kind))} {shown(str(document.get('code', number)))}"

"""The health of the whole store: what does not add up, points nowhere or contradicts itself."""

from collections.abc import Callable, Generator, Iterator

from shoptui.domain.inert import inert
from shoptui.domain.problems import Problem
from shoptui.domain.references import Reference, move_references
from shoptui.jobs.check_codes import codes
from shoptui.jobs.check_hardware import hardware_of_joints, hardware_on_nothing, unused_hardware
from shoptui.jobs.check_pieces import built_in, finished_builds, held_without_a_word, kits, on_the_vehicle
from shoptui.jobs.check_records import (
    boxes,
    doubled_parts,
    install_after,
    orders,
    references,
    terminals,
    vins,
)
from shoptui.jobs.check_shots import days, shots, sponsored
from shoptui.jobs.check_torque import doubted, engaged, joints, readings, sheets
from shoptui.jobs.place_words import place_words
from shoptui.jobs.wrench_lines import wrenches
from shoptui.store.documents import place_document
from shoptui.store.history import MADE, move_of
from shoptui.store.shop import Shop

Balance = tuple[int | str, ...]
"""Part, state, where and condition, as they are filed."""

_LEDGER = "the ledger"
_RESTORE = "Restore the folder from a copy made before, or ask who wrote to it by other means."


def check(shop: Shop) -> tuple[Problem, ...]:
    """Return the store's problems; empty if it is sound. Reads everything, changes nothing."""
    return tuple(problem for each in _CHECKS for problem in each(shop))


def checking(shop: Shop) -> Generator[tuple[int, int], None, tuple[Problem, ...]]:
    """Check as `check` does, step by step: yield before each how many are done, and of how many.

    When something was changed between two steps, what was found before is no longer true beside what comes
    after: it then begins anew.
    """
    while True:
        found: list[Problem] = []
        begun = shop.database.position
        for done, each in enumerate(_CHECKS):
            yield done, len(_CHECKS)
            if shop.database.position != begun:
                break
            found += each(shop)
        else:
            return tuple(found)


def _balances(shop: Shop) -> Iterator[Problem]:
    """Add the moves up anew: the fed index must say the same, no place may be below zero, sums are zero."""
    for part, place, qty in shop.book.below_zero():
        words = place_words(shop, place)
        yield Problem(
            _part(shop, part),
            f"{qty} pieces {words}: no place of ours can hold fewer than none",
            "Count it and enter what is there.",
        )
    for number in shop.database.documents("parts"):
        if total := shop.book.sum(number):
            yield Problem(_part(shop, number), f"its places add up to {total}, not to 0", _RESTORE)
    if _summed_anew(shop) != _as_fed(shop):
        yield Problem(
            _LEDGER, "the balances differ from the sum of the moves", "Close the program, open it again."
        )


def _summed_anew(shop: Shop) -> dict[Balance, int]:
    balances: dict[Balance, int] = {}
    for document in shop.database.documents("moves").values():
        part, qty = document["part"], document["qty"]
        for place, change in ((document["from"], -qty), (document["to"], qty)):
            key = (part, *place)
            balances[key] = balances.get(key, 0) + change
    return {key: qty for key, qty in balances.items() if qty}


def _as_fed(shop: Shop) -> dict[Balance, int]:
    parts = {document["part"] for document in shop.database.documents("moves").values()}
    return {
        (part, *place_document(place)): qty for part in parts for place, qty in shop.book.places(part) if qty
    }


def _moves(shop: Shop) -> Iterator[Problem]:
    transactions = shop.database.documents("transactions")
    boxes_known = {document["code"] for document in shop.database.documents("boxes").values()}
    told: set[Reference] = set()
    looked_at: set[tuple[object, object]] = set()
    for number, document in shop.database.documents("moves").items():
        source, target = document["from"], document["to"]
        if document["transaction"] not in transactions:
            what = f"it belongs to transaction {document['transaction']}, which is not there"
            yield Problem(f"move {number}", what, _RESTORE)
        if document["qty"] < 1:
            yield Problem(f"move {number}", f"it moves {document['qty']} pieces", _RESTORE)
        ends = {("part", document["part"]), (source[0], source[1]), (target[0], target[1])} - looked_at
        looked_at |= ends  # most moves point where others did
        for table, record in move_references(move_of(document)) if ends else ():
            if record not in shop.database.documents(table) and (table, record) not in told:
                told.add((table, record))
                what = f"it points at {_one(table)} {record}, which is not there"
                yield Problem(f"move {number}", what, _RESTORE)
        ref = document.get("ref")
        if ref and ref not in boxes_known:
            yield Problem(f"move {number}", f"its box {inert(ref)} is not there", _RESTORE)


def _edits(shop: Shop) -> Iterator[Problem]:
    transactions = shop.database.documents("transactions")
    for number, document in shop.database.documents("edits").items():
        if document["transaction"] not in transactions:
            what = f"it belongs to transaction {document['transaction']}, which is not there"
            yield Problem(f"change {number}", what, _RESTORE)
        if document["field"] == MADE and document["record"] not in shop.database.documents(document["table"]):
            what = f"{_one(document['table'])} {document['record']} was made and is not there"
            yield Problem(f"change {number}", what, _RESTORE)
    for number, document in transactions.items():
        undone = document.get("undoes")
        if undone is not None and undone not in transactions:
            what = f"it takes back transaction {undone}, which is not there"
            yield Problem(f"transaction {number}", what, _RESTORE)


def _files(shop: Shop) -> Iterator[Problem]:
    for number, document in shop.database.documents("files").items():
        digest = str(document.get("sha256", ""))
        if not (shop.database.folder / "files" / digest[:2] / digest[2:]).is_file():
            name = inert(str(document.get("name", number)))
            yield Problem(f"file {name}", "its bytes are not in the folder", "Attach it again.")


def _one(table: str) -> str:
    return {"parts": "part", "boxes": "box", "codes": "learned code"}.get(table, table.removesuffix("s"))


def _part(shop: Shop, number: int) -> str:
    try:
        return f"part {shop.parts.get(number).code}"
    except KeyError:
        return f"part {number}"


_CHECKS: tuple[Callable[[Shop], Iterator[Problem]], ...] = (
    _balances,
    _moves,
    _edits,
    references,
    install_after,
    codes,
    doubled_parts,
    vins,
    orders,
    boxes,
    built_in,
    on_the_vehicle,
    held_without_a_word,
    finished_builds,
    kits,
    unused_hardware,
    hardware_of_joints,
    hardware_on_nothing,
    shots,
    days,
    sponsored,
    terminals,
    joints,
    sheets,
    engaged,
    doubted,
    readings,
    wrenches,
    _files,
)

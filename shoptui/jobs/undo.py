"""Take back the last thing done at a terminal."""

from typing import Any

from shoptui.domain.ledger import CannotMoveError
from shoptui.domain.records import Reading
from shoptui.domain.references import Reference, move_references, record_references
from shoptui.jobs.answers import Answer, done, stop
from shoptui.jobs.at import At
from shoptui.jobs.count import bin_counted, take_back
from shoptui.store.documents import read_field
from shoptui.store.history import MADE, Edit, Entry, Transaction
from shoptui.store.readings import strike
from shoptui.store.shelves import Shelf
from shoptui.store.shop import Shop
from shoptui.store.transaction import Transaction as Open


class _GroundGoneError(ValueError):
    """What was done has been built upon since."""


def undo(at: At) -> Answer:
    """Take back this terminal's last transaction that is not undone and is no undo itself.

    Works across restarts. Refused, in words and with nothing changed, if a place would fall below zero, a
    later transaction changed the same field, or one points at a record that it made. A later one that was
    itself taken back does not stand in the way. While a bin is counted, what was counted last is taken back.
    """
    shop = at.shop
    shop.refresh()
    if bin_counted(at) is not None and at.memory.counted:
        return take_back(at)
    last = last_to_undo(shop, at.terminal)
    if last is None:
        return stop("There is nothing to undo at this terminal.")
    try:
        with at.doing(f"undid: {last.words}", undoes=last.id) as tx:
            if shop.history.is_undone(last.id):
                raise _GroundGoneError("it is undone already")  # noqa: TRY301 - the way out
            _take_back(shop, tx, last)
            _strike_readings(at, tx, last)
    except (_GroundGoneError, CannotMoveError) as error:
        reason = str(error).rstrip(".")
        return stop(f"Cannot undo “{last.words}”: {reason}. Nothing changed.")
    _lay_cards_down(shop)
    return done(f"Undone: {last.words}")


def last_to_undo(shop: Shop, terminal: str) -> Transaction | None:
    """Return what undo would take back at a terminal, None if there is nothing."""
    for transaction in shop.history.at_terminal(terminal):
        if transaction.undoes is None and not shop.history.is_undone(transaction.id):
            return transaction
    return None


def _take_back(shop: Shop, tx: Open, last: Transaction) -> None:
    shelves = {shelf.table: shelf for shelf in shop.shelves.values()}
    moves = list(shop.history.moves_since(last.id))
    edits = list(shop.history.edits_since(last.id))
    own_moves = [entry for entry in moves if entry.transaction == last.id]
    own_edits = [edit for edit in edits if edit.transaction == last.id]
    later_moves = [entry for entry in moves if _stands(shop, entry.transaction, last.id)]
    later_edits = [edit for edit in edits if _stands(shop, edit.transaction, last.id)]
    made = {(edit.table, edit.record) for edit in own_edits if edit.field == MADE}
    _refuse_changed_fields(shop, shelves, own_edits, later_edits, made)
    _refuse_pointed_at(shop, shelves, made, later_moves, later_edits)
    _refuse_moved_on(shop, own_moves, later_moves)
    tx.enter(entry.move.inverse() for entry in own_moves)
    for edit in own_edits:
        shelf = shelves[edit.table]
        record = shelf.get(edit.record)
        if edit.field == MADE:
            tx.change(record, withdrawn=True)
        elif (edit.table, edit.record) not in made:
            tx.change(record, **{edit.field: read_field(shelf.kind, edit.field, edit.before)})


def _lay_cards_down(shop: Shop) -> None:
    """Let no terminal's card lie open at a part whose making was taken back."""
    for terminal in list(shop.terminals.all()):
        if terminal.card_part is not None and shop.parts.get(terminal.card_part).withdrawn:
            shop.remember(
                terminal.code, card_part=None, card_verb="", card_joint="", card_where="", card_said=""
            )


def _strike_readings(at: At, tx: Open, last: Transaction) -> None:
    """Strike out what it stated of joints: a reading is never changed, and stays to be read."""
    person = at.person
    for reading in list(at.shop.readings.of_transaction(last.id)):
        if at.shop.readings.struck_by(reading.id) is None:
            tx.state(strike(reading, "taken back", person.id if person else None))


def _stands(shop: Shop, transaction: int, after: int) -> bool:
    """Whether a transaction is later and still in force: neither undone nor an undo."""
    if transaction <= after or shop.history.is_undone(transaction):
        return False
    return shop.history.transaction(transaction).undoes is None


def _refuse_changed_fields(
    shop: Shop, shelves: dict[str, Shelf[Any]], own: list[Edit], later: list[Edit], made: set[Reference]
) -> None:
    fields = {(edit.table, edit.record, edit.field) for edit in own}
    for edit in later:
        if (edit.table, edit.record, edit.field) in fields or (edit.table, edit.record) in made:
            what = edit.field.replace("_", " ")
            name = shelves[edit.table].get(edit.record).code
            raise _GroundGoneError(f"the field “{what}” of {name} was changed since, by {_told(shop, edit)}")


def _refuse_pointed_at(
    shop: Shop,
    shelves: dict[str, Shelf[Any]],
    made: set[Reference],
    later_moves: list[Entry],
    later_edits: list[Edit],
) -> None:
    if not made:
        return
    boxes = {shelves["boxes"].get(number).code for table, number in made if table == "boxes"}
    for entry in later_moves:
        if entry.move.ref in boxes or made.intersection(move_references(entry.move)):
            raise _GroundGoneError(f"what it made is used by {_told(shop, entry)}")
    for edit in later_edits:
        record = shelves[edit.table].get(edit.record)
        if made.intersection(record_references(record)):
            raise _GroundGoneError(f"what it made is used by {_told(shop, edit)}")
    for table, number in made:
        for used in shop.readings.latest_with(number) if table == "wrenches" else ():
            if shop.readings.struck_by(used.id) is None:
                raise _GroundGoneError(f"what it made is used by {_told(shop, used)}")


def _refuse_moved_on(shop: Shop, own: list[Entry], later: list[Entry]) -> None:
    """Say which later thing took the pieces away; the ledger alone could only say that they are gone."""
    try:
        shop.book.check(entry.move.inverse() for entry in own)
    except CannotMoveError:
        targets = {(entry.move.part, entry.move.target) for entry in own}
        for entry in later:
            if (entry.move.part, entry.move.source) in targets:
                raise _GroundGoneError(f"its pieces were moved since, by {_told(shop, entry)}") from None
        raise


def _told(shop: Shop, entry: Entry | Edit | Reading) -> str:
    transaction = shop.history.transaction(entry.transaction)
    moment = transaction.when.astimezone()
    return f"“{transaction.words}” ({transaction.terminal}, {moment:%H:%M})"

"""Feeds the index of codes from the documents that carry them."""

from collections.abc import Iterator

from shoptui.domain.lookup import By, CodeIndex
from shoptui.store.database import Database
from shoptui.store.documents import Document

TAGGED = {
    "parts": "part",
    "bins": "bin",
    "builds": "vehicle",
    "people": "badge",
    "boxes": "box",
    "wrenches": "wrench",
}
"""Tables whose records carry a code and a tag of ours, and what a scan of one is taken for."""

Entry = tuple[str, int, str, int, By]


def feed_codes(database: Database, index: CodeIndex) -> None:
    """Keep the index in step with all tables whose records can be scanned."""
    for table in (*TAGGED, "orders", "codes"):
        _feed(database, table, index)


def _feed(database: Database, table: str, index: CodeIndex) -> None:
    def changed(number: int, before: Document | None, after: Document | None) -> None:
        for kind, record, code, qty, by in _entries(table, number, before):
            index.drop(kind, record, code, qty, by=by)
        for kind, record, code, qty, by in _entries(table, number, after):
            index.put(kind, record, code, qty, by=by)

    database.listen(table, changed)


def _entries(table: str, number: int, document: Document | None) -> Iterator[Entry]:
    """Yield all codes by which a record is found."""
    if document is None or document.get("withdrawn"):
        return
    if table == "codes":
        kind, qty = TAGGED[document["kind"]], document.get("qty", 1)
        yield kind, document["record"], document["code"], qty, By.LEARNED
    elif table == "orders":
        for code in {document["number"], document["code"]}:
            yield "order", number, code, 1, By.NUMBER
    else:
        for by, codes in _own(document).items():
            for code in codes:
                yield TAGGED[table], number, code, 1, by


def _own(document: Document) -> dict[By, set[str]]:
    """Return the codes that stand in a record itself; a code given twice is one."""
    own = {
        By.TAG: {document.get("tag", ""), document.get("code", ""), *document.get("old_names", ())},
        By.TRACKING: set(document.get("tracking", ())),
        By.MAKERS_NUMBER: {document.get("number", ""), *document.get("other_numbers", ())},
    }
    return {by: codes - {""} for by, codes in own.items()}

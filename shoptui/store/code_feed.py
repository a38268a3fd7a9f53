"""Feeds the index of codes from the documents that carry them."""

from collections.abc import Iterator

from shoptui.domain.lookup import By, CodeIndex
from shoptui.store.database import Database, Document

TAGGED = {"parts": "part", "bins": "bin", "builds": "vehicle", "people": "badge", "boxes": "box"}
"""Tables whose records carry a code and a tag of ours, and what a scan of one is taken for."""

Entry = tuple[str, int, str, int, By]


def feed_codes(database: Database, index: CodeIndex) -> None:
    """Keep the index in step with all tables whose records can be scanned."""
    for table in (*TAGGED, "orders", "codes"):
        _feed(database, table, index)


def _feed(database: Database, table: str, index: CodeIndex) -> None:
    def changed(number: int, before: Document | None, after: Document | None) -> None:
        for kind, record, code, qty, by in _entries(table, number, before):
            index.drop(kind, record, code, by=by)
        for kind, record, code, qty, by in _entries(table, number, after):
            index.put(kind, record, code, qty, by=by)

    database.listen(table, changed)


def _entries(table: str, number: int, document: Document | None) -> Iterator[Entry]:
    if document is None or document.get("withdrawn"):
        return
    if table == "codes":
        yield TAGGED[document["kind"]], document["record"], document["code"], document.get("qty", 1), By.LEARNED
        return
    if table == "orders":
        yield "order", number, document["number"], 1, By.NUMBER
        if document["code"] != document["number"]:
            yield "order", number, document["code"], 1, By.NUMBER
        return
    kind = TAGGED[table]
    for name in ("tag", "code"):
        if document.get(name) and (name == "tag" or document["code"] != document.get("tag")):
            yield kind, number, document[name], 1, By.TAG
    if table == "boxes":
        for code in document.get("tracking", ()):
            yield kind, number, code, 1, By.TRACKING
    if table == "parts":
        for code in (document.get("number", ""), *document.get("other_numbers", ())):
            if code:
                yield kind, number, code, 1, By.MAKERS_NUMBER

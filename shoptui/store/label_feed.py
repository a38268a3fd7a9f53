"""What has a label that came out well, and which tags are on paper: fed from the documents that say so."""

from collections import Counter
from collections.abc import Iterator

from shoptui.domain.codes import tag
from shoptui.domain.records import LabelRun
from shoptui.domain.references import Reference
from shoptui.domain.tags import Kind
from shoptui.store.database import Database
from shoptui.store.documents import Document, from_document


class LabelIndex:
    """Things with their labels.

    A part also has one where a blank tag was bound to it: that was scanned, so it hangs there.

    Args:
        database: Followed from now on.

    """

    def __init__(self, database: Database) -> None:
        self._labels: Counter[Reference] = Counter()
        self._on_paper: Counter[str] = Counter()
        database.listen("label_runs", self._run_changed)
        database.listen("codes", self._code_changed)

    def has(self, table: str, number: int) -> bool:
        """Return whether a record has a label that came out well."""
        return self._labels[table, number] > 0

    def on_paper(self, tag_: str) -> bool:
        """Return whether a tag was ever printed as a blank one; an undo takes no paper back."""
        return self._on_paper[tag_] > 0

    def _run_changed(self, number: int, before: Document | None, after: Document | None) -> None:
        for document, sign in ((before, -1), (after, 1)):
            if document is None:
                continue
            run = from_document(LabelRun, number, document)
            for tag_ in run.tags:
                self._on_paper[tag_] += sign
            for record in () if run.withdrawn else run.labelled:
                self._labels[run.table, record] += sign

    def _code_changed(self, _number: int, before: Document | None, after: Document | None) -> None:
        for document, sign in ((before, -1), (after, 1)):
            for reference in _bound(document):
                self._labels[reference] += sign


def _bound(document: Document | None) -> Iterator[Reference]:
    """Yield the part that a learned code stands for, if it is one of our part tags."""
    if document is None or document.get("withdrawn") or document["kind"] != "parts":
        return
    own = tag(document["code"])
    if own is not None and own.kind is Kind.PART:
        yield document["kind"], document["record"]

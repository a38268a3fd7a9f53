"""What has a label that came out well, and which tags are on paper: fed from the documents that say so."""

from collections import Counter
from collections.abc import Iterator, KeysView

from shoptui.domain.codes import tag
from shoptui.domain.records import LabelRun
from shoptui.domain.references import Reference
from shoptui.domain.tags import TAG_LENGTH, Kind
from shoptui.store.database import Database
from shoptui.store.documents import Document, from_document


class LabelIndex:
    """Things with their labels.

    A part also has one where a blank tag was bound to it: that was scanned, so it hangs there.

    Args:
        database: Followed from now on.

    """

    def __init__(self, database: Database) -> None:
        self._labels: dict[str, Counter[int]] = {}
        self._on_paper: Counter[str] = Counter()
        database.listen("label_runs", self._run_changed)
        database.listen("codes", self._code_changed)

    def of(self, table: str) -> KeysView[int]:
        """Return the ids of the records of a table that have a label that came out well."""
        return self._labels.get(table, Counter()).keys()

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
                self._count((run.table, record), sign)

    def _code_changed(self, _number: int, before: Document | None, after: Document | None) -> None:
        for document, sign in ((before, -1), (after, 1)):
            for reference in _bound(document):
                self._count(reference, sign)

    def _count(self, reference: Reference, sign: int) -> None:
        table, number = reference
        counts = self._labels.setdefault(table, Counter())
        counts[number] += sign
        if not counts[number]:
            del counts[number]


def _bound(document: Document | None) -> Iterator[Reference]:
    """Yield the part that a learned code stands for, if it is one of our part tags."""
    if document is None or document.get("withdrawn") or document["kind"] != "parts":
        return
    # As it is compared a tag of ours is nothing but its characters: most codes are seen to be none at once.
    own = tag(document["normal"]) if len(document["normal"]) == TAG_LENGTH else None
    if own is not None and own.kind is Kind.PART:
        yield document["kind"], document["record"]

"""The records of one table as dataclasses, read on demand and kept until they change."""

from collections.abc import Iterator
from typing import Generic, Protocol, TypeVar

from shoptui.domain.tags import without_blanks_and_dashes
from shoptui.store.database import Database
from shoptui.store.documents import Document, from_document


class Record(Protocol):
    """What every record has."""

    @property
    def id(self) -> int: ...  # noqa: D102 - named by the class
    @property
    def code(self) -> str: ...  # noqa: D102 - named by the class
    @property
    def withdrawn(self) -> bool: ...  # noqa: D102 - named by the class


R = TypeVar("R", bound=Record)


def short(text: str) -> str:
    """Return a code as codes are compared: without blanks and dashes, in one case.

    >>> short("p-7k3 qxm")
    'P7K3QXM'
    """
    return without_blanks_and_dashes(text).upper()


class Shelf(Generic[R]):
    """One table's records."""

    def __init__(self, database: Database, table: str, kind: type[R]) -> None:
        self.table = table
        self.kind = kind
        self._documents = database.documents(table)
        self._records: dict[int, R] = {}
        self._by_code: dict[str, int] = {}
        database.listen(table, self._changed)

    def _changed(self, number: int, before: Document | None, after: Document | None) -> None:
        self._records.pop(number, None)
        for key in _keys(before):
            if self._by_code.get(key) == number:
                del self._by_code[key]
        for key in _keys(after):
            self._by_code.setdefault(key, number)

    def get(self, number: int) -> R:
        """Return a record.

        Raises:
            KeyError: There is none with that id.

        """
        record = self._records.get(number)
        if record is None:
            record = self._records[number] = from_document(self.kind, number, self._documents[number])
        return record

    def all(self) -> Iterator[R]:
        """Yield the records that were not withdrawn, in the order in which they were made."""
        for number in list(self._documents):
            record = self.get(number)
            if not record.withdrawn:
                yield record

    def by_code(self, text: str) -> R | None:
        """Return the record of a code or tag, case, blanks and dashes forgiven."""
        number = self._by_code.get(short(text))
        return None if number is None else self.get(number)

    def __len__(self) -> int:
        """Return how many there are, withdrawn ones included."""
        return len(self._documents)


def _keys(document: Document | None) -> set[str]:
    if document is None or document.get("withdrawn"):
        return set()
    names = (document.get("code"), document.get("tag"), *document.get("old_names", ()))
    return {short(name) for name in names if name}

"""Whether a short name, a tag or a code may be given to something new."""

from dataclasses import dataclass

from shoptui.domain.codes import gtins, normal, tag
from shoptui.domain.inert import inert
from shoptui.domain.names import code_key
from shoptui.domain.tables import Reading, Row
from shoptui.domain.tags import Kind, Tag, TagError
from shoptui.jobs.at import shown
from shoptui.store.command_tags import command_named
from shoptui.store.shop import Shop

ROW_DIGITS = 3
"""Most digits of a row's number; such a code would pick a row instead."""

_CALLED = {"parts": "part", "bins": "bin", "builds": "vehicle", "people": "person", "boxes": "box"}


class NamesTaken:
    """The names of a shop that a scan or a typed line finds, and those that a file is about to give.

    A name stands for one thing in the whole shop, so that a typed one never needs a question.
    """

    def __init__(self, shop: Shop) -> None:
        self._shelves = (
            ("part", shop.parts),
            ("bin", shop.bins),
            ("box", shop.boxes),
            ("vehicle", shop.builds),
            ("person", shop.people),
            ("order", shop.orders),
        )
        self._given: dict[str, int] = {}
        self._learned = {each.normal or normal(each.code) for each in shop.learned.all()}

    def given(self, code: str) -> int:
        """Return the line of the file that gives a name or tag, 0 if none does."""
        return self._given.get(code_key(code), 0)

    def stands_for(self, code: str) -> tuple[str, int]:
        """Return the table and the id of what has a name or tag in the shop, the id 0 if nothing has."""
        for _, shelf in self._shelves:
            if (record := shelf.by_code(code)) is not None:
                return shelf.table, record.id
        return "", 0

    def code(self, reading: Reading, row: Row, column: str) -> str:
        """Return a short name from a cell; none, and a trouble, if it is taken."""
        code = reading.text(row, column, limit=40)
        if code.isdigit():
            reading.trouble(
                row.line, column, f"{inert(code)} is only digits, which pick a row; add a letter."
            )
            return ""
        if command_named(code):
            reading.trouble(
                row.line, column, f"{inert(code)} is a command or a position; choose another name."
            )
            return ""
        return code if code and self._claim(reading, row, column, code) else ""

    def tag(self, reading: Reading, row: Row, column: str, kinds: tuple[Kind, ...]) -> str:
        """Return a tag from a cell; none, and a trouble, if it is no tag, of another kind, or taken."""
        text = reading.text(row, column, limit=40)
        if not text:
            return ""
        try:
            tag = Tag.parse(text)
        except TagError as error:
            reading.trouble(row.line, column, str(error))
            return ""
        if tag.kind not in kinds:
            reading.trouble(
                row.line, column, f"A tag that begins with {kinds[0].value} was expected; {inert(text)} came."
            )
            return ""
        return str(tag) if self._claim(reading, row, column, str(tag)) else ""

    def _claim(self, reading: Reading, row: Row, column: str, code: str) -> bool:
        key = code_key(code)
        if key in self._given:
            reading.trouble(row.line, column, f"{shown(code)} is already on line {self._given[key]}.")
            return False
        self._given[key] = row.line
        for called, shelf in self._shelves:
            if shelf.by_code(code) is not None:
                reading.trouble(row.line, column, f"{shown(code)} is already there, as a {called}.")
                return False
        if self._learned and normal(code) in self._learned:
            reading.trouble(row.line, column, f"{shown(code)} is a code of something else already.")
            return False
        return True


@dataclass(frozen=True, slots=True)
class Bearer:
    """What a code is given to: a record of the shop, or a part on a line of the file (`record` is 0)."""

    table: str
    record: int
    build: int | None = None
    line: int = 0

    @property
    def key(self) -> tuple[str, int, int]:
        """What makes it this one and no other."""
        return self.table, self.record, 0 if self.record else self.line


class CodesTaken:
    """The learned codes of a shop, and those that a file is about to give.

    Parts may share a GTIN, as left and right of one thing do, and parts of two builds any printed code: a
    scan asks which is meant. Everything else that stands for two things is a slip.
    """

    def __init__(self, shop: Shop, names: NamesTaken) -> None:
        self._shop = shop
        self._names = names
        self._bearers: dict[str, list[Bearer]] = {}
        builds = {part.id: part.build for part in shop.parts.all()}
        for each in shop.learned.all():
            build = builds.get(each.record) if each.kind == "parts" else None
            bearer = Bearer(each.kind, each.record, build)
            self._bearers.setdefault(each.normal or normal(each.code), []).append(bearer)

    def claim(self, reading: Reading, line: int, column: str, code: str, bearer: Bearer) -> bool:
        """Return whether a code may be given; if not, the trouble says why."""
        if problem := self._problem(code, bearer):
            reading.trouble(line, column, f"{shown(code)} {problem}")
            return False
        self._bearers.setdefault(normal(code), []).append(bearer)
        return True

    def is_name_of(self, code: str, bearer: Bearer) -> bool:
        """Whether a code is the bearer's own name or tag, by which a scan finds it anyway."""
        if bearer.record:
            return self._names.stands_for(code) == (bearer.table, bearer.record)
        return self._names.given(code) == bearer.line

    def _problem(self, code: str, bearer: Bearer) -> str:
        if code.isdigit() and len(code) <= ROW_DIGITS:
            return "is only a row's number: a code has four digits or more, or a letter."
        if command_named(code):
            return "is a command or a position; it cannot stand for anything else."
        table, number = self._names.stands_for(code)
        if number and (table, number) != (bearer.table, bearer.record):
            return f"is the name of {self._named(table, number)} already."
        if (line := self._names.given(code)) and not number and line != bearer.line:
            return f"is the name of what stands on line {line}."
        return self._shared(code, bearer)

    def _shared(self, code: str, bearer: Bearer) -> str:
        for other in self._bearers.get(normal(code), ()):
            if other.key == bearer.key:
                return "is already there." if bearer.record else "stands twice in this row."
            if not _may_share(code, bearer, other):
                return f"already stands for {self._of(other)}."
        return ""

    def _of(self, bearer: Bearer) -> str:
        return (
            self._named(bearer.table, bearer.record) if bearer.record else f"the part on line {bearer.line}"
        )

    def _named(self, table: str, number: int) -> str:
        code = str(self._shop.database.documents(table)[number].get("code", number))
        return f"{_CALLED.get(table, 'order')} {shown(code)}"


def _may_share(code: str, one: Bearer, other: Bearer) -> bool:
    if not one.table == other.table == "parts" or tag(code):
        return False
    return one.build != other.build or bool(gtins(code))

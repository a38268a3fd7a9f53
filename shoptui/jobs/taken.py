"""Whether a short name or a tag may be given to something new."""

from shoptui.domain.inert import inert
from shoptui.domain.names import code_key
from shoptui.domain.tables import Reading, Row
from shoptui.domain.tags import Kind, Tag, TagError
from shoptui.store.command_tags import command_named
from shoptui.store.shop import Shop


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
            reading.trouble(row.line, column, f"{inert(code)} is already on line {self._given[key]}.")
            return False
        self._given[key] = row.line
        for called, shelf in self._shelves:
            if shelf.by_code(code) is not None:
                reading.trouble(row.line, column, f"{inert(code)} is already there, as a {called}.")
                return False
        return True

"""What a form asks for one field of a record: how it is read as a person types it, and how it is written."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from types import MappingProxyType
from typing import Any

from shoptui.domain.cells import CellError
from shoptui.domain.inert import inert
from shoptui.domain.row_text import row_text, rows_in
from shoptui.jobs.answers import Answer, Question, Said, stop
from shoptui.jobs.place_words import today
from shoptui.store.shop import Shop

Read = Callable[["Sense", str], Any]
Write = Callable[["Sense", Any], str]
Words = Callable[[Mapping[str, str]], str]
Refused = Callable[
    ["Sense", Any, Sequence[Mapping[str, str]], Mapping[str, str]],
    "tuple[str, str] | None",
]


@dataclass(frozen=True)
class Sense:
    """Where words in a form are read: some mean another thing in another shop, or on another day.

    Args:
        shop: The shop.
        record: The record that is changed, None for a new one.
        build: Id of the build whose parts are meant first, None for any.
        currency: In which an amount without one is meant.

    """

    shop: Shop
    record: Any = None
    build: int | None = None
    currency: str = ""

    @cached_property
    def today(self) -> date:
        """The day that it is."""
        return today(self.shop)

    @property
    def usual(self) -> str:
        """The currency that is meant where none is said."""
        return self.currency or self.shop.settings.currency


@dataclass(frozen=True, slots=True)
class Asked:
    """One field.

    Args:
        name: Name of the record's field.
        label: In words.
        hint: What is expected.
        read: Reads what was typed; raises ValueError with a sentence.
        write: Writes a value as it would be typed.
        names: Whose names are offered: `parts`, `suppliers`, `sections`; empty for none.
        choices: All that can be meant; empty where anything can.
        lines: The fields of each line, where the field is a list.
        one_value: Whether it holds one value, such as a number or a choice: what is typed replaces it.

    """

    name: str
    label: str
    hint: str
    read: Read
    write: Write
    names: str = ""
    choices: tuple[str, ...] = ()
    lines: "AskedLines | None" = None
    one_value: bool = False

    def shown(self, typed: str, limit: int) -> str:
        """Return what stands in the field as a sentence has it, safe to show."""
        if self.lines is not None:
            typed = "; ".join(self.lines.words(row) for row in rows_in(typed))
        return inert(typed, limit) if typed else "nothing"


@dataclass(frozen=True, slots=True)
class AskedLines:
    """The lines of a list in a record: each is a small record of its own.

    Args:
        kind: The line's dataclass.
        fields: What is asked of one.
        one: What one is called.
        words: Says one.
        doubt: Says what is to be asked before one is taken, empty if nothing.
        refused: Says what cannot be about one: field and sentence, None if it can. It is given the line, the
            others as they are typed, and what stands in the other fields of the form.
        along: Returns the lines with what no field asks for, and what the record has of it.

    """

    kind: type
    fields: tuple[Asked, ...]
    one: str
    words: Words
    doubt: Callable[[Any], str] = lambda _: ""
    refused: Refused = lambda _sense, _line, _others, _beside: None
    along: Callable[[Sense, tuple[Any, ...]], tuple[Any, ...]] = lambda _sense, lines: lines

    def read(self, sense: Sense, text: str) -> tuple[Any, ...]:
        """Read all lines; raises ValueError with the line that is wrong."""
        found = []
        for number, row in enumerate(rows_in(text), 1):
            values = {}
            own = self._own(sense, row.get("currency", ""))
            for asked in self.fields:
                try:
                    values[asked.name] = asked.read(own, row.get(asked.name, "").strip())
                except ValueError as error:
                    raise CellError(f"{self.one} {number}, {asked.label}: {error}") from error
            found.append(self.kind(**values))
        return self.along(sense, tuple(found))

    def wrong(
        self,
        sense: Sense,
        row: Mapping[str, str],
        others: Sequence[Mapping[str, str]] = (),
        beside: Mapping[str, str] = MappingProxyType({}),
    ) -> Answer | None:
        """Say what is wrong with one line, and in which field, or ask about it; None where nothing is.

        Args:
            sense: Where it is typed.
            row: The line.
            others: The other lines of the list.
            beside: What stands in the other fields of the form.

        """
        own = self._own(sense, row.get("currency", ""))
        values = {}
        for asked in self.fields:
            try:
                values[asked.name] = asked.read(own, row.get(asked.name, "").strip())
            except ValueError as error:
                return stop(f"{asked.label}: {error}", field=asked.name)
        line = self.kind(**values)
        if refusal := self.refused(sense, line, others, beside):
            name, words = refusal
            label = next(asked.label for asked in self.fields if asked.name == name)
            return stop(f"{label}: {words}", field=name)
        if words := self.doubt(line):
            return Answer(Said.QUESTION, f"{words} Enter: take it as it is.", question=Question())
        return None

    def write(self, sense: Sense, value: tuple[Any, ...]) -> str:
        """Write all lines."""
        return row_text(
            {
                asked.name: asked.write(
                    self._own(sense, getattr(line, "currency", "")), getattr(line, asked.name)
                )
                for asked in self.fields
            }
            for line in value
        )

    @staticmethod
    def _own(sense: Sense, currency: str) -> Sense:
        """Amounts of a line that names a currency are in that one."""
        unit = currency.strip().upper()
        return replace(sense, currency=unit) if unit else sense

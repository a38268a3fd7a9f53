"""The page of a list within a form: its lines, a form for each, and what can be done with them."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, ClassVar

from textual.binding import BindingType
from textual.widget import Widget

from shoptui.domain.inert import inert
from shoptui.domain.row_text import Row, row_text, rows_in
from shoptui.jobs.answers import Answer, Question, Said, done
from shoptui.stations import listed
from shoptui.stations.field import Lines
from shoptui.stations.keys import here
from shoptui.stations.long_list import LongList
from shoptui.stations.shell import Shell

if TYPE_CHECKING:
    from textual.screen import Screen

NEW = -1
"""Key of the row that adds a line."""

Ask = Callable[[Row, Callable[[Row], Answer], Callable[[Row], None]], "Screen[bool]"]
"""Makes the form of a line, given the line, what takes it when it is done, and what takes it half typed."""


class LinesPage(Shell[None]):
    """The lines; the form alone saves them.

    Args:
        title: Whose lines.
        lines: What they are.
        text: The lines, as `row_text` writes them.
        ask: Makes the form of a line.
        changed: Takes the lines as they are now into the form, which keeps them as it keeps what is typed.
        beside: What stands in the other fields of the form.

    """

    BINDINGS: ClassVar[list[BindingType]] = [
        here("ctrl+g", "keep", "Keep", "Back to the form with these lines", "lines.keep"),
        here("ctrl+n", "add", "Add", "Add a line", "lines.add"),
        here("ctrl+d", "drop", "Drop", "Take the line off the list", "lines.drop"),
        here("ctrl+t", "up", "One up", "Move the line one up", "lines.up"),
        here("ctrl+z", "take_back", "Undo", "Take back the last change of the list", "lines.undo"),
    ]

    def __init__(
        self,
        title: str,
        lines: Lines,
        text: str,
        ask: Ask,
        changed: Callable[[str], None],
        beside: Mapping[str, str],
    ) -> None:
        super().__init__()
        self._beside = beside
        self._title = title
        self._lines = lines
        self._ask = ask
        self._changed = changed
        self._rows = list(rows_in(text))
        self._before: list[list[Row]] = []

    def heading(self) -> str:
        """Return whose lines they are."""
        return f"{self._title}: {self._lines.one}s"

    def body(self) -> Iterable[Widget]:
        """One list."""
        yield LongList(listed.Column(self._lines.one))

    def on_mount(self) -> None:
        """Show the lines; what was typed for another list stays behind."""
        self.shop_app.clear_line()
        self._show()
        self.set_focus(self.query_one(LongList))
        if not self._rows:
            self.action_add()

    def _show(self) -> None:
        rows = [listed.Row(number, (self._lines.words(row),)) for number, row in enumerate(self._rows)]
        rows.append(listed.Row(NEW, (f"Add a {self._lines.one}",)))
        self.query_one(LongList).set_rows(rows)

    def on_long_list_opened(self, message: LongList.Opened) -> None:
        """Open the form of a line, or of a new one."""
        message.stop()
        number = message.row.key
        self._open(number if isinstance(number, int) else NEW)

    def _open(self, number: int) -> None:
        row = {} if number == NEW else self._rows[number]
        form = self._ask(
            row,
            lambda values: self._take(number, values),
            lambda values: self._changed(row_text(self._with(number, values))),
        )
        # What was half typed in a line goes out of the form again with the line that was not taken.
        self.app.push_screen(form, lambda taken: None if taken else self._changed(row_text(self._rows)))

    def _with(self, number: int, values: Row) -> list[Row]:
        rows = [*self._rows, values] if number == NEW else list(self._rows)
        rows[number] = values
        return rows

    def _take(self, number: int, values: Row) -> Answer:
        others = [row for place, row in enumerate(self._rows) if place != number]
        answer = self._lines.check(values, others, self._beside) if self._lines.check else None
        if answer is None:
            return self._put(number, values)
        if answer.said is Said.QUESTION:
            return replace(answer, question=Question(yes=lambda: self._put(number, values)))
        return answer

    def _put(self, number: int, values: Row) -> Answer:
        rows = self._with(number, values)
        self._change(rows, len(rows) - 1 if number == NEW else number)
        return done(f"{inert(self._lines.words(values), 200)}: in the list. It is saved with the form.")

    def _change(self, rows: list[Row], cursor: int) -> None:
        self._before.append(self._rows)
        self._now(rows)
        self.query_one(LongList).point(cursor)

    def _now(self, rows: list[Row]) -> None:
        self._rows = rows
        self._changed(row_text(rows))
        self._show()

    @property
    def _here(self) -> int | None:
        row = self.query_one(LongList).row if self.is_mounted else None
        return row.key if row is not None and isinstance(row.key, int) and row.key != NEW else None

    def on_long_list_pointed(self) -> None:
        """Grey what needs a line."""
        self.refresh_bindings()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Grey what needs a line, or something to take back."""
        if action in ("drop", "up") and self._here is None:
            return None
        if action == "take_back" and not self._before:
            return None
        return super().check_action(action, parameters)

    def action_add(self) -> None:
        """Add a line."""
        self._open(NEW)

    def action_drop(self) -> None:
        """Take the line under the cursor off the list."""
        if (number := self._here) is not None:
            self._change([row for place, row in enumerate(self._rows) if place != number], number)

    def action_up(self) -> None:
        """Move the line under the cursor one up."""
        if number := self._here:
            rows = list(self._rows)
            rows[number - 1], rows[number] = rows[number], rows[number - 1]
            self._change(rows, number - 1)

    def action_take_back(self) -> None:
        """Take back the last change of the list."""
        if self._before:
            self._now(self._before.pop())

    def action_keep(self) -> None:
        """Go back to the form with the lines as they are."""
        self.step_back()

    def step_back(self) -> None:
        """Go back to the form, which has the lines already."""
        self.shop_app.clear_line()
        self.dismiss()

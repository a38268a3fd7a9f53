"""The panel of an open question: what it can be answered with, numbered, above the line.

It blocks nothing: scans still answer the question or drop it, and the screen behind it stays as it was.
"""

from dataclasses import dataclass
from enum import Enum, auto
from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget

from shoptui.domain.inert import inert
from shoptui.jobs.answers import Answer
from shoptui.stations.marks import CURSOR

LEAST_SHOWN = 7
BESIDE = 12
"""Rows of the screen that the panel leaves to what it is asked about, and to the line."""

QUESTION_KEYS = Binding.Group("Question")


class Way(Enum):
    """How a row of the panel answers."""

    YES = auto()
    CHOICE = auto()
    NO = auto()


@dataclass(frozen=True, slots=True)
class Reply:
    """One row of the panel; `number` is what a person types, 0 for none."""

    way: Way
    label: str
    number: int = 0


def replies(answer: Answer | None) -> tuple[Reply, ...]:
    """Return the rows for a question: its choices, its yes, and always a no."""
    if answer is None or answer.question is None:
        return ()
    question = answer.question
    rows = [Reply(Way.CHOICE, choice.label, number) for number, choice in enumerate(question.choices, 1)]
    if question.yes is not None:
        rows.insert(0, Reply(Way.YES, "Yes"))
    if question.accepts is not None and not rows:
        rows.append(Reply(Way.NO, "No: leave it as it is. Or scan or type the answer."))
    else:
        rows.append(Reply(Way.NO, "No: leave it as it is"))
    return tuple(rows)


class QuestionPanel(Widget, can_focus=True):
    """Shows the ways to answer; arrows and Enter, a number and Enter, or a tap pick one."""

    DEFAULT_CSS = """
    QuestionPanel {
        height: auto;
        display: none;
        background: $surface;
        color: $foreground;
        border-top: solid $border;
        &.-open { display: block; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", "Up", show=False, tooltip="One up", id="question.up", group=QUESTION_KEYS),
        Binding(
            "down", "move(1)", "Down", show=False, tooltip="One down", id="question.down", group=QUESTION_KEYS
        ),
    ]

    rows: reactive[tuple[Reply, ...]] = reactive((), layout=True)
    cursor: reactive[int] = reactive(-1)
    """-1 until somebody moved it: then Enter means yes, or nothing."""

    class Replied(Message):
        """A row was picked."""

        def __init__(self, reply: Reply) -> None:
            super().__init__()
            self.reply = reply

    def ask(self, answer: Answer | None) -> None:
        """Open the panel for a question, or close it."""
        rows = replies(answer)
        self.cursor = -1
        self.rows = rows
        self.set_class(bool(rows), "-open")

    @property
    def _most(self) -> int:
        """How many rows there is room for."""
        return max(LEAST_SHOWN, self.screen.size.height - BESIDE)

    @property
    def _top(self) -> int:
        return (
            max(0, min(self.cursor - self._most + 1, len(self.rows) - self._most)) if self.cursor >= 0 else 0
        )

    def render(self) -> Content:
        """Draw the rows in view."""
        width = max(1, self.size.width)
        lines = []
        for place, reply in list(enumerate(self.rows))[self._top : self._top + self._most]:
            key = {Way.YES: "Enter", Way.NO: "Esc"}.get(reply.way, f"{reply.number}")
            here = place == self.cursor
            mark = f"{CURSOR if here else ' '} {key:>5}  "
            lines.append(
                Content.assemble((mark, "bold"), (inert(reply.label, limit=300), "bold" if here else ""))
            )
        more = len(self.rows) - self._top - self._most
        if len(self.rows) > self._most:
            words = f"{more} more below; a tap here shows them" if more > 0 else "a tap here shows the first"
            lines.append(Content.styled(f"{'':9}({words})", "bold"))
        return Content("\n").join(line.truncate(width, ellipsis=True) for line in lines)

    def picked(self, typed: str) -> Reply | None:
        """Return the row of a typed number."""
        return next((reply for reply in self.rows if reply.number and str(reply.number) == typed), None)

    def default(self) -> Reply | None:
        """Return what Enter picks: the row that was moved to, else yes."""
        if 0 <= self.cursor < len(self.rows):
            return self.rows[self.cursor]
        return next((reply for reply in self.rows if reply.way is Way.YES), None)

    def action_move(self, rows: int) -> None:
        """Move the cursor."""
        if self.rows:
            self.cursor = max(0, min(self.cursor + rows, len(self.rows) - 1))

    def _look_further(self) -> None:
        """Show the next rows, and after the last the first again."""
        last = self._top + self._most >= len(self.rows)
        self.cursor = 0 if last else min(self._top + 2 * self._most - 1, len(self.rows) - 1)

    def on_mouse_scroll_down(self, event: events.MouseScrollDown) -> None:
        """Look further down."""
        event.stop()
        self.action_move(1 if self.cursor >= 0 else self._most + 1)

    def on_mouse_scroll_up(self, event: events.MouseScrollUp) -> None:
        """Look further up."""
        event.stop()
        self.action_move(-1)

    def on_click(self, event: events.Click) -> None:
        """Pick what was tapped, or look further; the border is the first line."""
        place = event.y - 1 + self._top
        if event.y > self._most:
            self._look_further()
            return
        if 0 <= place < len(self.rows):
            self.post_message(self.Replied(self.rows[place]))

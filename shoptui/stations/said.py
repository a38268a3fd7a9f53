"""The line above the line: what the last scan was taken for and what it did."""

from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING, cast

from textual.app import App, ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget
from textual.widgets import Static

from shoptui.domain.inert import inert
from shoptui.jobs.answers import Answer, Said
from shoptui.stations.marks import ANSWER_MARKS
from shoptui.stations.page import Page

if TYPE_CHECKING:
    from shoptui.stations.app import ShopApp

LONGEST = 600
"""Cells of an answer that are shown; a sentence is never that long, a hostile code may be."""

LABEL_STYLES = {
    Said.DONE: "bold $text-success on $success-muted",
    Said.QUESTION: "bold $text-warning on $warning-muted",
    Said.STOP: "bold $text-error on $error-muted",
    Said.UNKNOWN: "bold $text-warning on $warning-muted",
}


SIXTEEN_COLOUR_STYLES = {
    Said.DONE: "bold reverse $success",
    Said.QUESTION: "bold reverse $warning",
    Said.STOP: "bold reverse $error",
    Said.UNKNOWN: "bold reverse $warning",
}
"""Where the terminal's own colours are used, which know no muted ones."""


def answer_words(answer: Answer, app: App[object]) -> Content:
    """Return mark, word and sentence of an answer; without colour the label is reversed."""
    label = f" {ANSWER_MARKS[answer.said]} {answer.said.upper()} "
    styles = SIXTEEN_COLOUR_STYLES if app.native_ansi_color else LABEL_STYLES
    style = "bold reverse" if app.no_color else styles[answer.said]
    words = cast("ShopApp", app).keyboard.follow(answer.text, app.current_mode)
    return Content.assemble((label, style), " ", inert(words, limit=LONGEST))


@dataclass(frozen=True, slots=True)
class Heard:
    """An answer and when it was given."""

    when: datetime
    answer: Answer


class LastSaid(Widget):
    """The last answer."""

    DEFAULT_CSS = """
    LastSaid {
        height: auto;
        min-height: 1;
        max-height: 3;
        color: $foreground;
        &.-asks { max-height: 5; }  /* what is asked is not answered by half of it */
    }
    """

    answer: reactive[Answer | None] = reactive(None)

    class Tapped(Message):
        """Somebody wants to read the earlier answers."""

    def watch_answer(self) -> None:
        """Make room for more lines, or give it back; an answer as long as the last one moves nothing.

        Laying out the whole screen for each scan takes longer than all the rest of showing it.
        """
        self.set_class(self.answer is not None and self.answer.asks, "-asks")
        if len(self.render().wrap(max(1, self.size.width))) != self.size.height:
            self.refresh(layout=True)

    def render(self) -> Content:
        """Draw the answer."""
        return Content("") if self.answer is None else answer_words(self.answer, self.app)

    def on_click(self) -> None:
        """Ask for the earlier answers."""
        self.post_message(self.Tapped())


class EarlierAnswers(Page):
    """The last twenty answers, newest first."""

    def __init__(self, heard: tuple[Heard, ...]) -> None:
        super().__init__()
        self._heard = heard

    def compose(self) -> ComposeResult:
        """Lay the answers out."""
        with VerticalScroll() as page:
            page.border_title = f"The last answers. {self.BACK_WORDS}"
            for heard in self._heard:
                clock = Content(f"{heard.when.astimezone():%H:%M:%S} ")
                yield Static(clock + answer_words(heard.answer, self.app))
            if not self._heard:
                yield Static("Nothing was said yet.", markup=False)

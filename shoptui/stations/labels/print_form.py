"""The form that prints labels: which, on what, from where on, how often, where to."""

import asyncio
from collections.abc import Mapping
from dataclasses import replace
from functools import partial
from typing import Any, ClassVar

from textual import events, on
from textual.binding import BindingType
from textual.widgets import Input, Static

from shoptui.domain import cells
from shoptui.domain.inert import inert
from shoptui.jobs.answers import Answer, Question, Said, Work, stop
from shoptui.jobs.at import At
from shoptui.jobs.label_output import Onto
from shoptui.jobs.label_preview import preview
from shoptui.jobs.label_printers import own_labels, stock_named
from shoptui.jobs.print_and_ask import then_ask
from shoptui.jobs.usual_outlet import next_free, outlet_of, outlet_typed, usual_onto
from shoptui.labels.printing import queues
from shoptui.labels.stock import Stock, stock_names
from shoptui.stations.field import Field
from shoptui.stations.form import Form
from shoptui.stations.keys import here
from shoptui.stations.known_names import KnownNames
from shoptui.stations.labels.look import LabelPage
from shoptui.stations.labels.what import What
from shoptui.stations.name_field import NameInput

WHERE = "a printer; empty: the usual one. Or a file: ~/labels.pdf"
START = "position of the first free label on the sheet; 1: a whole one"


class Printing(Form):
    """A form that prints what it says."""

    SAVE_WORDS = "Print"
    BINDINGS: ClassVar[list[BindingType]] = [
        here("ctrl+g", "save", "Print", "Print what the form says", "form.save"),
    ]

    _under_way = False

    def action_save(self) -> None:
        """Print once, however often it is pressed."""
        if self._under_way:
            self.shop_app.hearing.hear(stop("It is being printed already. Escape stops it."))
        else:
            super().action_save()

    def _followed(self, answer: Answer) -> Answer:
        """Stay until it is printed: what could not be is put right here, and tried again."""
        work = answer.work
        if not isinstance(work, Work):
            return super()._followed(answer)
        self._under_way = True
        return replace(answer, work=replace(work, finish=partial(self._finished, work)))

    def _finished(self, work: Work, result: Any) -> Answer:  # noqa: ANN401 - whatever the work returned
        self._under_way = False
        answer = work.finish(result)
        if answer.said is not Said.STOP and self.is_attached:
            self.close(saved=True)
        return answer


class PrintForm(Printing):
    """Asks how some labels are printed, prints them, and then asks how they came out.

    Args:
        at: Where it is done.
        what: What is printed.

    """

    BINDINGS: ClassVar[list[BindingType]] = [
        here("ctrl+o", "look", "Look", "See how the first label will look", "form.look"),
    ]

    def __init__(self, at: At, what: What) -> None:
        self._at = at
        self._what = what
        self._queues: tuple[str, ...] = ()
        usual = usual_onto(at, what.layout)
        self._offered = str(usual.start)
        """The position that was offered for the stock: it follows the stock until another one is typed."""
        super().__init__(what.title, (*what.fields, *_fields(at, usual)), self._print_labels, about=" ")

    def on_mount(self) -> None:
        """Say what comes of it, and look for printers: the system may take its time to name them."""
        self._say()
        self.call_after_refresh(self._begin_with_which)
        self.run_worker(self._find_queues())

    def _begin_with_which(self) -> None:
        """Let letters stand for something else, and show the whole form: most print what it says."""
        for first in self.query("#field-which").results(NameInput):
            first.select_all()
            first.offered.remove_class("-open")

    async def _find_queues(self) -> None:
        self._queues = await asyncio.to_thread(queues)
        self._say()

    @on(Input.Changed)
    def _follow(self, message: Input.Changed) -> None:
        """Say what comes of what stands there now; another stock has another sheet begun."""
        if message.input.id == "field-stock" and self.values["start"] == self._offered:
            self._offered = str(next_free(self._at, message.value.strip()))
            self.query_one("#field-start", Input).value = self._offered
        self._say()

    def on_click(self, event: events.Click) -> None:
        """A tap on a name lists all that can stand there instead: a finger types none."""
        if isinstance(event.widget, NameInput):
            event.widget.select_all()
            event.widget.offer(everything=True)

    def _say(self) -> None:
        self.query_one(".about", Static).update(inert(self._words(), limit=600))

    def _words(self) -> str:
        """Return how many labels on how many sheets of what, and which printers there are."""
        printers = f" Printers: {', '.join(self._queues)}." if self._queues else ""
        try:
            onto = self._onto(self.values)
            stock = stock_named(self._at.shop, onto.stock)
            stock.corner(onto.start)  # says so if there is no such position
            count = self._what.count(self.values) * onto.copies
        except ValueError as error:
            return f"{error}{printers}"
        return f"{_count_words(count, stock, onto.start)}: {stock.words}.{printers}"

    def _onto(self, values: Mapping[str, str]) -> Onto:
        file, queue = outlet_of(values["where"])
        return Onto(
            values["stock"].strip(),
            cells.quantity(values["start"] or "1"),
            cells.quantity(values["copies"] or "1"),
            file,
            file is None,
            queue,
        )

    def _print_labels(self, values: Mapping[str, str]) -> Answer:
        try:
            onto = self._onto(values)
        except ValueError as error:
            return stop(str(error))
        start = partial(self._begin, dict(values), onto)
        if onto.file is None or not onto.file.exists():
            return start()
        words = f"{inert(str(onto.file), 200)} is there already. Enter writes over it."
        return Answer(Said.QUESTION, words, kind="labels", question=Question(yes=start))

    def _begin(self, values: Mapping[str, str], onto: Onto) -> Answer:
        return then_ask(self._at, (self._what.start(values, onto),))

    def action_look(self) -> None:
        """Show the first label as it would come out on the stock that stands in the form."""
        try:
            label = self._what.example(self.values)
        except ValueError as error:
            self.shop_app.hearing.hear(stop(str(error)))
            return
        if label is not None:
            shown = preview(self._at.shop, label, self.values["stock"].strip())
            self.app.push_screen(LabelPage(label, shown))


def stock_field(at: At, stock: str) -> Field:
    """Return the field that asks what labels are printed on."""
    return Field(
        "stock",
        "On",
        "a sheet or roll; some letters of it",
        stock,
        names=KnownNames(stock_names(own_labels(at.shop))),
        closed=True,
        one_value=True,
        check=partial(stock_named, at.shop),
    )


def _fields(at: At, usual: Onto) -> tuple[Field, ...]:
    return (
        stock_field(at, usual.stock),
        Field("start", "From position", START, str(usual.start), one_value=True, check=cells.quantity),
        Field("copies", "Copies of each", "how many", "1", one_value=True, check=cells.quantity),
        Field("where", "To", WHERE, outlet_typed(usual), check=outlet_of),
    )


def _count_words(count: int, stock: Stock, start: int) -> str:
    sheets = -(-(start - 1 + count) // stock.labels)
    labels = f"{count} label{'' if count == 1 else 's'}"
    return labels if stock.roll else f"{labels} on {sheets} sheet{'' if sheets == 1 else 's'}"

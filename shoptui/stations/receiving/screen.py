"""Receiving: the boxes that are expected, and the one that lies open."""

from collections.abc import Iterable
from functools import partial
from typing import ClassVar

from textual.binding import BindingType
from textual.widget import Widget

from shoptui.domain.records import Box, Part
from shoptui.jobs.answers import Answer, Choice, Question, Said
from shoptui.jobs.at import pieces, shown
from shoptui.jobs.box_list import BoxLines, ExpectedLine, box_list, expected_in, still_to_come
from shoptui.jobs.close_box import close_box
from shoptui.jobs.commands import AT_THE_DOOR
from shoptui.jobs.parcels import open_box
from shoptui.jobs.print_lacking import print_said
from shoptui.jobs.receive import receive
from shoptui.stations.file_form import file_form
from shoptui.stations.list_and_card import ListAndCard
from shoptui.stations.listed import Row
from shoptui.stations.long_list import LongList
from shoptui.stations.receiving.keys import AMISS, KEYS
from shoptui.stations.receiving.rows import (
    BOX_COLUMNS,
    LINE_COLUMNS,
    ORDER_COLUMNS,
    box_facts,
    box_row,
    has_orders,
    line_facts,
    line_row,
)
from shoptui.stations.receiving.slip_form import slip_form
from shoptui.stations.station import CardStation

NO_BOXES = "No box is expected. Scan one that came, or order on Parts (F8)."
NOTHING_KNOWN = "Nothing is known of what is in this box. Scan each thing."


class Receiving(CardStation):
    """The list of boxes, or the lines of the box that lies open at this terminal."""

    station_name = "receiving"
    BINDINGS: ClassVar[list[BindingType]] = list(KEYS)

    def __init__(self) -> None:
        super().__init__()
        self._aside = False
        """Whether the list of boxes is looked at although one lies open."""
        self._waiting = 0
        self._columns: object = None
        self._lines: dict[int, ExpectedLine] = {}
        self._boxes: dict[int, BoxLines] = {}

    def body(self) -> Iterable[Widget]:
        """A list and its card."""
        yield ListAndCard(*BOX_COLUMNS, empty=NO_BOXES)

    @property
    def _box(self) -> Box | None:
        return None if self._aside else self.shop_app.scanning.at.box

    def heading(self) -> str:
        """Return which box lies open, and what is still in it."""
        box = self.shop_app.scanning.at.box
        bench = f", {self._waiting} to put away" if self._waiting else ""
        if box is None:
            return f"Receiving: scan a box{bench}"
        if self._aside:
            return f"Receiving: all boxes{bench}; box {shown(box.code)} lies open"
        left = still_to_come(self.shop_app.shop, box, self._lines.values())
        words = f"{left} to come out" if left else "complete"
        return f"Receiving: box {shown(box.code)}, {words}{bench}"

    def reload(self) -> None:
        """Read the open box again, or the boxes."""
        shop, box, shown_list = self.shop_app.shop, self._box, self.shown_list()
        columns = BOX_COLUMNS if box is None else ORDER_COLUMNS if has_orders(box) else LINE_COLUMNS
        if columns is not self._columns:
            self._columns = columns
            shown_list.set_columns(*columns)
            self.both.opened = False
        self._waiting = sum(self.shop_app.scanning.at.since_last_bin().values())
        shown_list.empty = NO_BOXES if box is None else NOTHING_KNOWN
        if box is None:
            boxes = box_list(shop, open_only=True)
            self._boxes = {entry.box.id: entry for entry in boxes}
            shown_list.set_rows([box_row(shop, entry) for entry in boxes])
        else:
            lines = expected_in(shop, box)
            self._lines = {line.part: line for line in lines}
            shown_list.set_rows([line_row(shop, box, line) for line in lines])
        self._show_card()
        self.refresh_bindings()

    def on_resize(self) -> None:
        """A card that comes into view with the room is drawn."""
        self._show_card()

    def on_long_list_pointed(self) -> None:
        """Show the card of the row under the cursor."""
        self._show_card()

    def _show_card(self) -> None:
        row = self.shown_list().row
        shop = self.shop_app.shop
        if not self.both.card_is_seen:
            return
        if (asked := self._asked_about()) is not None:
            self.both.card.show(*line_facts(self.shop_app.scanning.at, asked))
        elif row is None or not isinstance(row.key, int):
            self.both.card.show("", ())
        elif self._box is not None and row.key in self._lines:
            self.both.card.show(*line_facts(self.shop_app.scanning.at, self._lines[row.key]))
        elif self._box is None and row.key in self._boxes:
            self.both.card.show(*box_facts(shop, self._boxes[row.key]))

    def _asked_about(self) -> ExpectedLine | None:
        """Return the thing of the open question where the box has no row of it: its card is shown."""
        asked = self.shop_app.asking.open_question
        if asked is None or self._box is None or not asked.part or not asked.subject:
            return None
        return None if asked.subject in self._lines else ExpectedLine(asked.subject, 0, 0)

    def on_long_list_opened(self, message: LongList.Opened) -> None:
        """Open the box of the row; in a box, receive a piece of the row's part, or as many as were typed."""
        message.stop()
        app, key, inside = self.shop_app, message.row.key, self._box is not None
        if not isinstance(key, int):
            return
        if inside:
            app.talk.do(lambda: receive(app.scanning.at, app.shop.parts.get(key), message.qty))
        else:
            app.talk.do(lambda: open_box(app.scanning.at, app.shop.boxes.get(key)))

    def open_row(self, row: Row, qty: int, *, by_number: bool) -> None:
        """Ask before words receive a thing: a misread code can look like some of a part's number."""
        if by_number or self._box is None or not isinstance(row.key, int):
            super().open_row(row, qty, by_number=by_number)
            return
        talk, part = self.shop_app.talk, self.shop_app.shop.parts.get(row.key)
        talk.do(
            lambda: Answer(
                Said.QUESTION,
                f"Receive {pieces(qty, part)}? Enter: yes.",
                part=part.code,
                qty=qty,
                subject=part.id,
                question=Question(yes=lambda: receive(self.shop_app.scanning.at, part, qty)),
            )
        )

    def show_answer(self, answer: Answer) -> None:
        """A box that was opened is looked at; the row of a part received is pointed at."""
        if answer.show == "receiving" and self._aside:
            self._aside = False
            self.reread()
        if answer.subject and answer.part and self._box is not None:
            self.shown_list().point_at(answer.subject)
        self._show_card()

    def visit(self, subject: int) -> None:
        """Point at a box among all boxes."""
        box = self.shop_app.scanning.at.box
        self._aside = box is not None and box.id != subject
        self.reread()
        self.shop_app.clear_line()
        self.shown_list().narrow("")
        self.shown_list().point_at(subject)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Grey what needs an open box."""
        if action in ("close_box", "all_boxes"):
            return None if self.shop_app.scanning.at.box is None else True
        return super().check_action(action, parameters)

    def action_said(self, word: str) -> None:
        """Do what a command tag of that word does."""
        qty = self.shop_app.intake.take_count()
        self.shop_app.talk.do(lambda: AT_THE_DOOR[word](self.shop_app.scanning.at, qty))

    def action_amiss(self) -> None:
        """Ask what is amiss."""
        at, qty = self.shop_app.scanning.at, self.shop_app.intake.take_count()
        choices = tuple(Choice(words, partial(AT_THE_DOOR[word], at, qty)) for word, words in AMISS.items())
        self.shop_app.talk.do(
            lambda: Answer(
                Said.QUESTION, "What is amiss? Its number, then Enter.", question=Question(choices=choices)
            )
        )

    def action_slip(self) -> None:
        """Ask what the packing slip says."""
        box = self._looked_at()
        if isinstance(box, Box):
            self.shop_app.push_screen(slip_form(self.shop_app.scanning.at, box))

    def action_file(self) -> None:
        """Ask for a file to keep with the part of the row, or with the box."""
        row, box = self.shown_list().row, self._looked_at()
        record: Part | Box | None = box
        if self._box is not None and row is not None and isinstance(row.key, int):
            record = self.shop_app.shop.parts.get(row.key)
        if record is not None:
            self.shop_app.push_screen(file_form(self.shop_app.scanning.at, record))

    def _looked_at(self) -> Box | None:
        """Return the open box, or among all boxes the one under the cursor."""
        row = self.shown_list().row
        if self._box is not None or row is None or not isinstance(row.key, int):
            return self._box
        return self.shop_app.shop.boxes.get(row.key)

    def action_print(self) -> None:
        """Print the labels that are lacking."""
        self.shop_app.talk.do(lambda: print_said(self.shop_app.scanning.at))

    def action_close_box(self) -> None:
        """Close the open box."""
        self.shop_app.talk.do(lambda: close_box(self.shop_app.scanning.at))

    def action_all_boxes(self) -> None:
        """Look at all boxes, or back at the open one."""
        self._aside = not self._aside
        self.reread()

    def step_back(self) -> None:
        """From the open box to the boxes."""
        if self.both.opened:
            self.both.opened = False
        elif self._box is not None:
            self.action_all_boxes()

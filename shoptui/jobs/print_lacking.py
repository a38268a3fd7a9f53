"""The labels that things lack, printed with one word: those of the open box, else all of the shop."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

from shoptui.domain.records import Box
from shoptui.domain.verbs import ON_A_SHELF
from shoptui.jobs.answers import Answer, Choice, Question, Said, done
from shoptui.jobs.at import At
from shoptui.jobs.box_list import expected_in
from shoptui.jobs.came_out import open_runs
from shoptui.jobs.label_kinds import KINDS, LabelKind, kind_of, lacking, lacks
from shoptui.jobs.label_output import Onto
from shoptui.jobs.label_printers import stock_named
from shoptui.jobs.print_and_ask import ask_each, then_ask
from shoptui.jobs.print_labels import print_labels
from shoptui.jobs.usual_outlet import outlet_words, usual_onto
from shoptui.labels.errors import LabelError
from shoptui.store.shop import Shop


@dataclass(frozen=True, slots=True)
class Lot:
    """Things of one kind that lack their labels, and how those are printed."""

    kind: LabelKind
    things: tuple[Any, ...]
    onto: Onto

    @property
    def many(self) -> str:
        """How many of what: `3 bins`."""
        return counted(len(self.things), self.kind)

    @property
    def words(self) -> str:
        """What is printed on what, and where to."""
        begins = f" from position {self.onto.start}" if self.onto.start > 1 else ""
        return f"{self.many} on {self.onto.stock}{begins}, to {outlet_words(self.onto)}"


def counted(count: int, kind: LabelKind) -> str:
    """Return a count of things of a kind."""
    return f"{count} {kind.one if count == 1 else kind.several or kind.many}"


def lacking_words(shop: Shop) -> str:
    """Return what lacks its label in the whole shop, nothing if nothing does: `12 bins, 3 parts`."""
    counts = ((kind, len(lacking(shop, kind))) for kind in KINDS.values())
    return ", ".join(counted(count, kind) for kind, count in counts if count)


def print_said(at: At) -> Answer:
    """Ask whether the labels that are lacking shall be printed, as they were the last time.

    At Receiving those of the open box: of it, of the parts that came in it, of the bins that these lie in.
    What was printed and of which nobody has said how it came out is asked about first or last, not printed
    again.
    """
    box = at.box if at.station == "receiving" else None
    things = _of_box(at, box) if box is not None else tuple(_of_shop(at.shop))
    waiting = {(run.table, number): run for run in open_runs(at.shop) for number in run.records}
    fresh = tuple(each for each in things if (_table(at, each), each.id) not in waiting)
    if fresh:
        return _ask(at, tuple(_lots(at, fresh)))
    if things:
        runs = {waiting[_table(at, each), each.id].id for each in things}
        # The keys that print are pressed again by habit: no Enter says that what lies there came out well.
        return ask_each(at, sorted(runs), partial(_go_on, at), by_number=True)
    return done(f"Nothing {'of this box' if box is not None else 'that is here'} lacks its label.")


def _of_box(at: At, box: Box) -> tuple[Any, ...]:
    shop = at.shop
    parts = [shop.parts.get(line.part) for line in expected_in(shop, box) if line.received]
    places = (place.where for part in parts for place, _ in shop.book.places(part.id, *ON_A_SHELF))
    bins = [shop.bins.get(where) for where in dict.fromkeys(places) if isinstance(where, int)]
    return tuple(each for each in (*parts, *bins, box) if lacks(shop, each))


def _of_shop(shop: Shop) -> Iterator[Any]:
    for kind in KINDS.values():
        yield from lacking(shop, kind)


def _table(at: At, thing: Any) -> str:  # noqa: ANN401 - any record that carries a tag
    return kind_of(at.shop, thing).table


def _lots(at: At, things: Sequence[Any]) -> Iterator[Lot]:
    by_kind: dict[str, list[Any]] = {}
    for each in things:
        by_kind.setdefault(kind_of(at.shop, each).many, []).append(each)
    for many, alike in by_kind.items():
        kind = KINDS[many]
        yield Lot(kind, tuple(alike), usual_onto(at, kind.layout))


def _ask(at: At, lots: tuple[Lot, ...]) -> Answer:
    """Ask whether all that is lacking shall be printed, or some of it."""
    now = _together(at, lots)
    what = ", ".join(lot.many for lot in lots)
    verb = "lacks its label" if sum(len(lot.things) for lot in lots) == 1 else "lack their labels"
    choices: tuple[Choice, ...] = ()
    enter = f"Enter prints {lots[0].words}"
    if len(lots) > 1:
        choices = tuple(Choice(f"only {lot.words}", partial(_print, at, (lot,))) for lot in lots)
        these = " and ".join(lot.kind.many for lot in now)
        enter = f"Enter prints {'all of them' if len(now) == len(lots) else f'the {these} first'}"
    return Answer(
        Said.QUESTION,
        f"{what} {verb}. {enter}. Another stock or printer: labels in Set-up (F12).",
        kind="labels",
        question=Question(yes=partial(_print, at, now), choices=choices),
    )


def _together(at: At, lots: tuple[Lot, ...]) -> tuple[Lot, ...]:
    """Return how many of the first can be printed in one go: files, or all of them on one roll.

    Sheets for one kind of label are taken out of the printer before those for the next come.
    """
    first = lots[0].onto
    alike = [lots[0]]
    for lot in lots[1:]:
        both_files = first.file is not None and lot.onto.file is not None
        same = (first.file, first.stock, first.queue) == (lot.onto.file, lot.onto.stock, lot.onto.queue)
        if not both_files and not (same and _is_roll(at, first.stock)):
            break
        used = any(each.onto.stock == lot.onto.stock for each in alike)
        # The half-used sheet goes to the first of them.
        alike.append(replace(lot, onto=replace(lot.onto, start=1)) if used else lot)
    return tuple(alike)


def _is_roll(at: At, stock: str) -> bool:
    try:
        return stock_named(at.shop, stock).roll
    except LabelError:
        return False


def _print(at: At, lots: tuple[Lot, ...]) -> Answer:
    return then_ask(at, [print_labels(at, lot.things, lot.onto) for lot in lots], partial(_go_on, at))


def _go_on(at: At, answer: Answer) -> Answer:
    """Go on with what is lacking still; say it if nothing is."""
    more = print_said(at)
    return replace(more, text=f"{answer.text} {more.text}")

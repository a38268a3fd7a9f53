"""Labels as rows of a list: what waits for a word, what lacks one, what can be printed beside."""

from collections.abc import Iterator
from dataclasses import dataclass

from shoptui.domain.days import day_words
from shoptui.domain.records import LabelRun
from shoptui.domain.tags import Kind
from shoptui.jobs.at import At, shown
from shoptui.jobs.came_out import open_runs, run_words
from shoptui.jobs.label_kinds import BLANKS, COMMANDS, KINDS, lacking
from shoptui.jobs.label_printers import choice_of
from shoptui.jobs.place_words import today
from shoptui.stations.labels.what import lacking_title
from shoptui.stations.listed import Column, Row
from shoptui.stations.marks import Tone

LABEL_COLUMNS = (
    Column("labels", 16),
    Column("now", 22, toned=True),
    Column("printed on; Enter prints"),
)


@dataclass(frozen=True, slots=True)
class Line:
    """Key of one line: a run of labels, the name of a kind, a kind of blank tag, or the page of commands."""

    run: int = 0
    many: str = ""
    blank: Kind | None = None


PAGE = Line()
"""The page of commands and positions."""


def label_rows(at: At) -> Iterator[Row]:
    """Yield what was printed and not spoken of yet, then each kind, then blank tags and the commands."""
    shop, now = at.shop, today(at.shop)
    for run in open_runs(shop):
        when = f", {day_words(run.printed.astimezone().date(), now)}" if run.printed else ""
        cells = ("printed", "- did it come out?", f"{_first_of(at, run)}{run_words(run)}{when}")
        yield Row(Line(run=run.id), cells, Tone.WARN)
    for many, kind in KINDS.items():
        lack = len(lacking(shop, kind))
        words = lacking_title(kind, lack, sum(1 for _ in kind.every(shop))) or "there are none"
        tone = Tone.WARN if lack else Tone.PLAIN
        yield Row(Line(many=many), (many, words, choice_of(shop, kind.layout).stock), tone)
    for blank, layout in BLANKS.items():
        stock = choice_of(shop, layout).stock
        yield Row(Line(blank=blank), (f"blank {blank.words} tags", "stand for nothing yet", stock))
    yield Row(PAGE, ("commands", "positions too", choice_of(shop, COMMANDS).stock))


def _first_of(at: At, run: LabelRun) -> str:
    """Return which things a run is about, short enough to be seen where the rest is cut."""
    shelves = (shelf for shelf in at.shop.shelves.values() if shelf.table == run.table)
    codes = [shelf.get(number).code for shelf in shelves for number in run.records] or run.tags
    if run.kind == COMMANDS or not codes or not codes[0]:
        return ""
    more = f" and {len(codes) - 1} more" if len(codes) > 1 else ""
    return f"{shown(codes[0])}{more}: "

"""Where labels go where nobody says otherwise: as the last time, onto what is free of the last sheet."""

from dataclasses import replace
from itertools import chain, count
from pathlib import Path

from shoptui.domain.cells import CellError
from shoptui.domain.inert import inert
from shoptui.domain.records import LabelRun
from shoptui.jobs.at import At
from shoptui.jobs.came_out import last_run
from shoptui.jobs.label_output import NO_KEEPING, Onto
from shoptui.jobs.label_printers import choice_of, printer_words, stock_named
from shoptui.labels.errors import LabelError
from shoptui.labels.files import KINDS as FILES
from shoptui.labels.printing import can_print

LONGEST = 200


def usual_onto(at: At, layout: str) -> Onto:
    """Return what a kind of label is printed on, from which position on, and where to."""
    usual = usual_outlet(at, layout)
    return replace(usual, start=next_free(at, usual.stock))


def usual_outlet(at: At, layout: str) -> Onto:
    """Return what a kind of label is printed on and where to: as this terminal did it the last time.

    A file is never one that is there already: somebody may still need it. Where the system has no print
    queue, it is a PDF in the person's own folder.
    """
    choice = choice_of(at.shop, layout)
    last = last_run(at, layout)
    file = _file_beside(Path(last.to)) if last is not None and _kept(last) else None
    if file is None and not can_print():
        file = _free(Path.home() / f"labels-{layout}.pdf")
    return Onto(choice.stock, file=file, print=file is None, queue=choice.queue)


def next_free(at: At, stock: str) -> int:
    """Return the first position that is still free on the sheet of this stock that was printed on last here.

    1 on a roll, on a whole sheet, and where the last labels failed: whoever clears a jam takes another sheet.
    """
    try:
        labels = stock_named(at.shop, stock).labels
    except LabelError:
        return 1
    for run in reversed(tuple(at.shop.label_runs.all())):
        if run.stock == stock and run.terminal == at.terminal:
            if run.came is not None and run.came < run.last:
                return 1
            return (run.start - 1 + run.last - run.first + 1) % labels + 1
    return 1


def outlet_words(onto: Onto) -> str:
    """Return where labels go, as one says it."""
    return inert(str(onto.file), LONGEST) if onto.file is not None else printer_words(onto.queue or "")


def outlet_typed(onto: Onto) -> str:
    """Return where labels go as a person would type it; nothing is the usual printer."""
    if onto.file is None:
        return onto.queue or ""
    home = Path.home()
    inside = onto.file.is_relative_to(home)
    return str(Path("~") / onto.file.relative_to(home)) if inside else str(onto.file)


def outlet_of(text: str) -> tuple[Path | None, str]:
    """Return the file or the print queue that a person typed: a file ends in .pdf, .svg or .png.

    Raises:
        CellError: A file that labels cannot be drawn in.

    >>> outlet_of("office"), outlet_of("/tmp/labels.pdf")[1]
    ((None, 'office'), '')

    """
    typed = text.strip()
    path = Path(typed).expanduser()
    if path.suffix.lower() in FILES:
        return path.absolute(), ""
    if "/" in typed or "\\" in typed or typed.startswith("~"):
        raise CellError(f"A file that ends in {', '.join(FILES)} was expected; {inert(typed, 80)} came.")
    return None, typed


def _kept(run: LabelRun) -> bool:
    """Return whether somebody chose a run's file: one that a queue refused lies where nobody looks."""
    path = Path(run.to)
    return path.suffix.lower() in FILES and not path.parent.name.startswith(NO_KEEPING)


def _file_beside(path: Path) -> Path | None:
    """Return a free name like that of a file, None where its folder is gone."""
    if not path.parent.is_dir():
        return None
    head, _, tail = path.stem.rpartition("-")
    return _free(path.with_name(f"{head if head and tail.isdecimal() else path.stem}{path.suffix}"))


def _free(path: Path) -> Path:
    """Return a name that no file has, nor the first of its pages where they are numbered."""
    names = (path.with_name(f"{path.stem}-{number}{path.suffix}") for number in count(2))
    return next(name for name in chain((path,), names) if not _there(name))


def _there(path: Path) -> bool:
    return path.exists() or path.with_name(f"{path.stem}-1{path.suffix}").exists()

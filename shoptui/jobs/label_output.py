"""Labels on their way out: drawn into a file, which is kept or handed to the print queue."""

import shutil
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from shoptui.domain.inert import inert
from shoptui.jobs.answers import Answer, Work, done, stop
from shoptui.labels.errors import LabelError
from shoptui.labels.files import Progress, Written
from shoptui.labels.printing import send

NOTES = 3
"""Sentences on what could not be set as it was given that an answer has room for."""

LONGEST_PATH = 300
USUAL_QUEUE = "the usual queue"

NO_KEEPING = "shoptui-labels-"
"""How folders begin whose files were only made for the queue."""

Write = Callable[[Path, Progress], Written]
"""Writes a file of that name, telling how far it is."""


@dataclass(frozen=True, slots=True)
class Onto:
    """What labels are printed on, and where to.

    Args:
        stock: Name of the label stock; empty: as the last time for this kind.
        start: Position on the first sheet that is still free, from 1, row by row.
        copies: Of each label.
        file: File to write, PDF, SVG or PNG as its name ends; None for none that is kept.
        print: Whether it goes to the print queue; without a file it always does.
        queue: Which; empty for the system's usual one, None: as the last time for this kind.

    """

    stock: str = ""
    start: int = 1
    copies: int = 1
    file: Path | None = None
    print: bool = False
    queue: str | None = None


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of it.

    Args:
        to: Where the labels are: the file, or the queue that has them.
        written: The file; None where it could not be made, and nothing is left of it.
        said: One sentence about what is there now.
        trouble: Why there is no file, or why the queue did not take it.

    """

    to: str = ""
    written: Written | None = None
    said: str = ""
    trouble: str = ""


def output(words: str, name: str, onto: Onto, write: Write, finish: Callable[[Outcome], Answer]) -> Answer:
    """Return the answer whose work writes and prints.

    Args:
        words: What is done: `Drawing 12 labels`.
        name: Of the file where it is not kept, without its ending.
        onto: Where to; its queue is known by now.
        write: Writes the file.
        finish: Given the outcome, writes it down and answers, in the shop's own thread.

    """
    return done(f"{words} ...", kind="labels", work=Work(words, partial(_out, name, onto, write), finish))


def _out(name: str, onto: Onto, write: Write, progress: Progress) -> Outcome:
    """Write, and print where that is wanted. Nothing of the shop is touched."""
    folder = None
    try:
        if onto.file is None:
            folder = Path(tempfile.mkdtemp(prefix=NO_KEEPING))
        path = onto.file or (folder or Path()) / f"{name}.pdf"
        written = write(path, progress)
    except (LabelError, OSError) as error:
        _remove(folder)
        return Outcome(trouble=str(error))
    what = _count_words(written.labels)
    files = f"{what} in {_files_words(written.paths)}."
    if onto.file is not None and not onto.print:
        return Outcome(str(path.absolute()), written, files)
    try:
        sent = [send(each, onto.queue or "") for each in written.paths]
    except LabelError as error:
        return Outcome(str(path.absolute()), written, files, str(error))
    _remove(folder)
    return Outcome(onto.queue or USUAL_QUEUE, written, f"{files if onto.file else f'{what}.'} {sent[0]}")


def _count_words(labels: int) -> str:
    return f"{labels} label{'' if labels == 1 else 's'}" if labels else "The test page"


def _files_words(paths: tuple[Path, ...]) -> str:
    first, *others = (inert(str(path), LONGEST_PATH) for path in paths)
    return f"{first} to {others[-1]}" if others else first


def _remove(folder: Path | None) -> None:
    """Take away what was only made for the queue, which has it now."""
    if folder is not None:
        shutil.rmtree(folder, ignore_errors=True)


def notes_words(written: Written) -> str:
    """Return what could not be set as it was given, a few sentences of it."""
    told = " ".join(written.notes[:NOTES])
    more = len(written.notes) - NOTES
    return f"{told} And {more} more like it." if more > 0 else told


def stopped(outcome: Outcome) -> Answer:
    """Return the answer of what did not come out."""
    return stop(outcome.trouble, kind="labels")

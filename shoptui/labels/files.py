"""Labels written to files that are complete or not there: PDF, SVG or PNG, as the name ends."""

import os
import tempfile
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from shoptui.domain.inert import inert
from shoptui.labels.errors import StoppedError, WritingError
from shoptui.labels.page import Page
from shoptui.labels.pdf import write_pdf
from shoptui.labels.png import write_png
from shoptui.labels.sheets import Job, pages
from shoptui.labels.svg import write_svg

KINDS = (".pdf", ".svg", ".png")

Progress = Callable[[int, int], bool]
"""Told after each page how many labels are drawn, of how many; returns whether to go on."""


@dataclass(frozen=True, slots=True)
class Written:
    """What was written.

    Args:
        paths: The files, in the order of their pages.
        labels: How many labels are in them.
        notes: Sentences on what could not be set as it was given, each once.

    """

    paths: tuple[Path, ...]
    labels: int
    notes: tuple[str, ...]


def write_labels(job: Job, path: Path, progress: Progress | None = None) -> Written:
    """Write a job's pages; SVG and PNG of several pages are numbered `-1`, `-2`.

    Raises:
        LabelError: A label that cannot be made, a file that cannot be written, or somebody stopped it; what
            lay under the names before is left as it was.

    """
    return write_pages(_watched(pages(job), job.count, progress), job.page_count, path)


def write_pages(drawn: Iterable[Page], count: int, path: Path) -> Written:
    """Write pages likewise, `count` of them."""
    kind = file_kind(path)
    labels, notes = [0], dict[str, None]()
    seen = _seen(drawn, labels, notes)
    if kind == ".pdf" or count == 1:
        paths: Sequence[Path] = (path,)
    else:
        paths = [path.with_name(f"{path.stem}-{number}{path.suffix}") for number in range(1, count + 1)]
    parts: list[Path] = []
    try:
        if kind == ".pdf":
            _write(path, lambda file: write_pdf(seen, file), parts)
        else:
            write = write_svg if kind == ".svg" else write_png
            for name, page in zip(paths, seen, strict=True):
                _write(name, lambda file, page=page: write(page, file), parts)  # type: ignore[misc] # the page of now
        for part, name in zip(parts, paths, strict=True):
            part.replace(name)
    except OSError as error:
        raise WritingError(_words(error, path)) from None
    finally:
        for part in parts:
            with suppress(OSError):
                part.unlink()
    return Written(tuple(paths), labels[0], tuple(notes))


def file_kind(path: Path) -> str:
    """Return what a file of this name is: one of `KINDS`.

    Raises:
        WritingError: None of them.

    """
    if (kind := path.suffix.lower()) not in KINDS:
        raise WritingError(f"A name that ends in {', '.join(KINDS)} was expected; {inert(path.name)} came.")
    return kind


def _watched(drawn: Iterator[Page], count: int, progress: Progress | None) -> Iterator[Page]:
    done = 0
    for page in drawn:
        done += page.labels
        if progress is not None and not progress(done, count):
            raise StoppedError(f"Stopped after {done} of {count} labels; nothing was written.")
        yield page


def _seen(drawn: Iterable[Page], labels: list[int], notes: dict[str, None]) -> Iterator[Page]:
    for page in drawn:
        labels[0] += page.labels
        notes.update(dict.fromkeys(page.notes))
        yield page


def _write(path: Path, write: Callable[[BinaryIO], None], parts: list[Path]) -> None:
    """Write what will be a file under a name of its own beside it, on the same disk."""
    number, name = tempfile.mkstemp(prefix=f".{path.stem}-", suffix=".part", dir=path.parent)
    parts.append(Path(name))
    with os.fdopen(number, "wb") as file:
        write(file)
        file.flush()
        os.fsync(number)
    mask = os.umask(0)
    os.umask(mask)
    parts[-1].chmod(0o666 & ~mask)  # as any new file: the other name was made for its owner alone


def _words(error: OSError, path: Path) -> str:
    what = error.strerror or "the system refused it"
    what = f"{what[0].lower()}{what[1:]}"
    folder = inert(str(path.parent), 200)
    return f"{inert(path.name)} could not be written into {folder}: {what}. Nothing is left of it."

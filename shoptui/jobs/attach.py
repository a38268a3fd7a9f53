"""Keeping a photo or another file with a record: a part, a box, an order."""

import re
import shlex
from functools import partial
from pathlib import Path

from shoptui.domain.inert import inert
from shoptui.domain.records import Attachment, Box, Order, Part
from shoptui.jobs.answers import Answer, Work, done, stop
from shoptui.jobs.at import At, name, shown
from shoptui.jobs.place_words import order_name
from shoptui.store.attachments import AttachmentError, GoOn, Kept, keep

Owner = Part | Box | Order

BIG = 8_000_000
"""Bytes from which a copy is no matter of a blink: it is shown how far it is, and can be stopped."""

_PATH = re.compile(r"""['"]?(?:~?/|\.{1,2}/|file://|[A-Za-z]:\\)""")


def names_a_file(text: str) -> bool:
    """Return whether typed or pasted words are a path rather than a note.

    >>> names_a_file("~/dent.jpg"), names_a_file("'/tmp/the dent.jpg'"), names_a_file("a dent / scratch")
    (True, True, False)
    """
    return _PATH.match(text.strip()) is not None


def path_in(text: str) -> Path:
    r"""Return the path that a person means; a file that is dragged onto a terminal comes quoted.

    >>> path_in(r"/tmp/the\ dent.jpg").as_posix(), path_in("'/tmp/the dent.jpg' ").as_posix()
    ('/tmp/the dent.jpg', '/tmp/the dent.jpg')
    """
    text = text.strip().removeprefix("file://")
    try:
        words = shlex.split(text) if re.search(r"[\\'\"]", text) and text[1:2] != ":" else [text]
    except ValueError:
        words = [text]
    path = Path(words[0] if len(words) == 1 else text)
    try:
        return path.expanduser()
    except RuntimeError:
        return path  # nobody of that name has a home here: it is not there, which is said


def attach(at: At, record: Owner, path: str, *, note: str = "") -> Answer:
    """Keep a file with a record. The bytes are in the shop's folder before the record says so.

    Args:
        at: Where it is done.
        record: What it belongs to.
        path: Where the file is, as typed, pasted or dragged.
        note: In words.

    Returns:
        Done; stop, with nothing kept and why; for a big file the work that is to be done first.

    """
    source = path_in(path)
    if not path.strip():
        return stop("A file's path was expected, such as ~/photos/dent.jpg. Nothing was kept.")
    work = Work(
        f"Copying {inert(source.name, 60)}",
        partial(_kept, at.shop.database.folder, source),
        lambda kept: _written_down(at, record, kept, note),
    )
    try:
        big = source.stat().st_size > BIG
    except (OSError, ValueError):
        big = False  # reading it says in words what is wrong
    return done(f"{work.words} ...", work=work) if big else work.at_once()


def _kept(folder: Path, source: Path, go_on: GoOn) -> Kept | str:
    try:
        return keep(folder, source, go_on=go_on)
    except AttachmentError as error:
        return str(error)


def _written_down(at: At, record: Owner, kept: Kept | str, note: str) -> Answer:
    if isinstance(kept, str):
        return stop(kept)
    table = at.shop.shelves[type(record)].table
    told = f"{inert(kept.name, 60)} kept with {owner_words(record)}"
    for other in files_of(at, record):
        if other.sha256 == kept.sha256:
            return stop(
                f"{inert(kept.name, 60)} is kept with {owner_words(record)} already.", subject=record.id
            )
    with at.doing(told) as transaction:
        transaction.add(
            Attachment(0, kept.sha256, kept.name, kept.kind, kept.size, kept.sha256, table, record.id, note)
        )
    return done(
        f"{told}, {_size(kept.size)}.",
        subject=record.id,
        part=record.code if isinstance(record, Part) else "",
    )


def files_of(at: At, record: Owner) -> tuple[Attachment, ...]:
    """Return the files that are kept with a record, the oldest first."""
    table = at.shop.shelves[type(record)].table
    return tuple(file for file in at.shop.files.all() if (file.table, file.record) == (table, record.id))


def file_words(file: Attachment) -> str:
    """Return a file as a card lists it: `dent.jpg, 2.1 MB, damaged`."""
    return ", ".join(filter(None, (inert(file.name, 60), _size(file.size), inert(file.note, 80))))


def _size(size: int) -> str:
    """Return bytes as one says them.

    >>> _size(1), _size(7), _size(81_300), _size(2_140_000)
    ('1 byte', '7 bytes', '81.3 kB', '2.1 MB')
    """
    for unit, name_ in ((1_000_000, "MB"), (1000, "kB")):
        if size >= unit:
            return f"{size / unit:.1f} {name_}"
    return f"{size} byte{'' if size == 1 else 's'}"


def owner_words(record: Owner) -> str:
    """Return how a record is called where a file is kept with it."""
    if isinstance(record, Part):
        return name(record)
    return f"box {shown(record.code)}" if isinstance(record, Box) else f"order {order_name(record)}"

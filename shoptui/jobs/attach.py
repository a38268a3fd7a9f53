"""Keeping a photo or another file with a record: a part, a box, an order."""

import re
import shlex
from dataclasses import replace
from functools import partial
from itertools import count, groupby
from pathlib import Path

from shoptui.domain.inert import inert
from shoptui.domain.records import Attachment, Box, Joint, Order, Part
from shoptui.jobs.answers import Answer, Choice, Question, Said, Work, done, stop
from shoptui.jobs.at import At, name, shown
from shoptui.jobs.place_words import order_name
from shoptui.store.attachments import AttachmentError, GoOn, Kept, keep
from shoptui.store.shop import Shop

Owner = Part | Box | Order

ByName = tuple[Part, int]
"""A part, and the place of one of its joints."""

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
        Done; stop, with nothing kept and why; for a big file the work that is to be done first; a question
        where a joint's sheet has its name.

    """
    source = path_in(path)
    if not path.strip():
        return stop("A file's path was expected, such as ~/photos/dent.jpg. Nothing was kept.")
    work = Work(
        f"Copying {inert(source.name, 60)}",
        partial(_kept, at.shop.database.folder, source),
        lambda kept: _written_down(at, record, kept, note),
        "MB",
        1_000_000,
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
    by_it = joints_of_name(at.shop, record, kept.name, other_than=kept.sha256)
    return _which_edition(at, record, kept, note, by_it) if by_it else _take_in(at, record, kept, note)


def _which_edition(at: At, record: Owner, kept: Kept, note: str, by_it: tuple[ByName, ...]) -> Answer:
    """Ask whether a file is a newer edition of the sheet of its name: what that says may be another value."""
    joints = [inert(part.joints[place].name, 40) for part, place in by_it]
    which = joints[0] if len(joints) == 1 else f"{joints[0]} and {len(joints) - 1} more"
    beside = _free_name(at, record, kept.name)
    return Answer(
        Said.QUESTION,
        f"{inert(kept.name, 60)}: the sheet of {which} has this name, and this is another file. "
        "Is it a newer edition of it? Its number, then Enter.",
        subject=record.id,
        part=record.code if isinstance(record, Part) else "",
        question=Question(
            choices=(
                Choice(
                    "a newer edition: those joints are read again, the older file stays",
                    lambda: _newer_edition(at, record, kept, note),
                ),
                Choice(
                    f"another sheet: kept beside it as {inert(beside, 60)}",
                    lambda: _take_in(at, record, replace(kept, name=beside), note),
                ),
            )
        ),
    )


def _newer_edition(at: At, record: Owner, kept: Kept, note: str) -> Answer:
    """Let a file be the sheet of the joints that had an older one of its name: they are open until read."""
    told = f"{inert(kept.name, 60)} kept with {owner_words(record)} as a newer edition"
    with at.doing(told) as tx:
        file = _file_of(at, record, kept) or tx.add(_attachment(at, record, kept, note))
        by_it = joints_of_name(at.shop, record, kept.name, other_than=kept.sha256)
        for part, places in groupby(by_it, key=lambda each: each[0]):
            joints = list(part.joints)
            for _, place in places:
                joints[place] = _by_edition(joints[place], file.id)
            tx.change(part, joints=tuple(joints))
    are, they_are = ("s are", "they are") if len(by_it) > 1 else (" is", "it is")
    again = f"{len(by_it)} joint{are} to be read again in it before {they_are} tightened"
    return _done(record, f"{told}, {_size(kept.size)}: {again}.")


def _by_edition(joint: Joint, edition: int) -> Joint:
    """Return a joint that goes by another edition of its sheet: nobody has read that for it yet."""
    read_in = joint.sheet if joint.read_in is None else joint.read_in
    # Back at the edition that it was read in, it says what that says.
    return replace(joint, sheet=edition, read_in=None if read_in == edition else read_in, read_by="")


def _take_in(at: At, record: Owner, kept: Kept, note: str) -> Answer:
    """Write down that a file is kept, once."""
    if (there := _file_of(at, record, kept)) is not None:
        return stop(f"{inert(there.name, 60)} is kept with {owner_words(record)} already.", subject=record.id)
    told = f"{inert(kept.name, 60)} kept with {owner_words(record)}"
    with at.doing(told) as tx:
        tx.add(_attachment(at, record, kept, note))
    return _done(record, f"{told}, {_size(kept.size)}.")


def _done(record: Owner, words: str) -> Answer:
    return done(words, subject=record.id, part=record.code if isinstance(record, Part) else "")


def _file_of(at: At, record: Owner, kept: Kept) -> Attachment | None:
    """Return the file with these bytes that is kept with a record already."""
    return next((file for file in files_of(at, record) if file.sha256 == kept.sha256), None)


def _attachment(at: At, record: Owner, kept: Kept, note: str) -> Attachment:
    table = at.shop.shelves[type(record)].table
    return Attachment(0, kept.sha256, kept.name, kept.kind, kept.size, kept.sha256, table, record.id, note)


def joints_of_name(shop: Shop, record: Owner, file: str, *, other_than: str) -> tuple[ByName, ...]:
    """Return the joints whose sheet is another file of the same name, by part, this part's own first.

    That file is kept with the same record, or one of the part's joints goes by it: whoever else goes by it is
    concerned as well.

    Args:
        shop: The shop.
        record: What the files are kept with.
        file: The name.
        other_than: Digest of the file that came.

    """
    named = [each for each in shop.files.all() if each.name.casefold() == file.casefold()]
    if not named:
        return ()
    owner = (shop.shelves[type(record)].table, record.id)
    own = shop.parts.get(record.id).joints if isinstance(record, Part) else ()
    used = {joint.sheet for joint in own}
    older = {
        each.id
        for each in named
        if each.sha256 != other_than and (each.id in used or (each.table, each.record) == owner)
    }
    found = [
        (part, place)
        for part in shop.parts.all()
        for place, joint in enumerate(part.joints)
        if joint.sheet in older
    ]
    return tuple(sorted(found, key=lambda each: ("parts", each[0].id) != owner))


def _free_name(at: At, record: Owner, file: str) -> str:
    """Return a name that no file kept with a record has: `sheet (2).pdf`."""
    taken = {each.name.casefold() for each in files_of(at, record)}
    stem, dot, kind = file.rpartition(".") if "." in file.lstrip(".") else (file, "", "")
    names = (f"{stem} ({number}){dot}{kind}" for number in count(2))
    return next(each for each in names if each.casefold() not in taken)


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

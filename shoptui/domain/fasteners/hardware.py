"""What a kind of hardware is: a designation where a standard has one, else words."""

import re

from shoptui.domain.cells import CellError, words
from shoptui.domain.fasteners.designations import Designation
from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.pieces import LONGEST
from shoptui.domain.fasteners.reading import designation
from shoptui.domain.fasteners.threads import Thread

_THREADED = re.compile(r"^\s*(?:M\s?\d|#\s?\d|\d+\s?/\s?\d)|\b(?:bolt|screw|stud|nut)s?\b", re.IGNORECASE)


def hardware_designation(text: str) -> str:
    """Return a designation as standards write it; a cotter pin or a tube of locking fluid keeps its words.

    Raises:
        CellError: Nothing, or a thread that cannot be read; it says where.

    >>> hardware_designation("M12x1,5 10.9 x 35"), hardware_designation("cotter pin 3.2 x 40")
    ('M12 x 1.5 x 35 - 10.9', 'cotter pin 3.2 x 40')

    """
    said = words(text, limit=LONGEST)
    if not said:
        raise CellError('A designation such as "M10x1.25 x 30 10.9" was expected; nothing came.')
    try:
        return str(designation(said))
    except FastenerError as error:
        if _THREADED.search(said):
            raise CellError(str(error)) from error
        return said


def read_designation(text: str) -> Designation | None:
    """Return what a designation says, None where it is words that no standard has.

    >>> str(read_designation("M12 x 1.5 x 35 - 10.9").strength), read_designation("cotter pin 3.2 x 40")
    ('10.9', None)
    """
    try:
        return designation(text)
    except FastenerError:
        return None


def thread_of(text: str) -> Thread | None:
    """Return the thread of a designation, None where its words name none.

    >>> str(thread_of("M12 x 1.5 x 35 - 10.9")), thread_of("cotter pin 3.2 x 40")
    ('M12 x 1.5', None)
    """
    found = read_designation(text)
    return None if found is None else found.thread

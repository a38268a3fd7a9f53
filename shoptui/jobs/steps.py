"""Work of many steps: whoever waits for it is told how far it is, and may stop it between two of them."""

from collections.abc import Callable, Collection, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import TypeVar

T = TypeVar("T")

Told = Callable[[str, int, int], bool]
"""Is told what is done, how many steps of it are done, and of how many; returns whether it goes on."""


class StoppedError(ValueError):
    """The work was stopped between two steps; what was begun is taken back."""


_listener: ContextVar[Told | None] = ContextVar("listener", default=None)


@contextmanager
def telling(told: Told) -> Iterator[None]:
    """Tell somebody of the steps that are taken within."""
    before = _listener.set(told)
    try:
        yield
    finally:
        _listener.reset(before)


def progress(doing: str) -> Callable[[int, int], bool]:
    """Return what is told how far some work is, and of how much, and passes it on to whoever listens.

    >>> with telling(lambda doing, at, all_: print(doing, at, "of", all_) is None):
    ...     progress("drawing")(3, 12)
    drawing 3 of 12
    True

    """
    told = _listener.get()
    return lambda at, all_: told is None or told(doing, at, all_)


def each(steps: Collection[T], doing: str) -> Iterator[T]:
    """Yield the steps of some work, and tell before each how far it is.

    Args:
        steps: What is done one after the other.
        doing: In a word or two: `reading rows`.

    Raises:
        StoppedError: Whoever listens wants no more of it.

    >>> with telling(lambda doing, at, all_: print(doing, at, "of", all_) is None):
    ...     list(each("ab", "reading"))
    reading 0 of 2
    reading 1 of 2
    ['a', 'b']

    """
    told = _listener.get()
    for at, step in enumerate(steps):
        if told is not None and not told(doing, at, len(steps)):
            raise StoppedError("It was stopped.")
        yield step

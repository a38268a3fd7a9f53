"""Finding what a person's list means by a name."""

from typing import Generic, TypeVar

T = TypeVar("T")


class Names(Generic[T]):
    """Things under their names, in ranks: what is found under a surer kind of name wins.

    >>> names: Names[int] = Names()
    >>> names.add(1, "BRK-01", "", "Brake disc")
    >>> names.add(2, "BRK-02", "", "brake  disc")
    >>> names.find("brk 01"), names.find("Brake disc"), names.find("drum")
    ((1,), (1, 2), ())
    """

    def __init__(self) -> None:
        self._ranks: list[dict[str, dict[T, None]]] = []

    def add(self, thing: T, *names: str) -> None:
        """Enter a thing under its names, the surest first; the first is a code."""
        for rank, name in enumerate(names):
            if len(self._ranks) <= rank:
                self._ranks.append({})
            if name:
                self._ranks[rank].setdefault(_key(rank, name), {})[thing] = None

    def find(self, name: str) -> tuple[T, ...]:
        """Return what a name means: nothing, one thing, or several of the same rank."""
        for rank, things in enumerate(self._ranks):
            if found := things.get(_key(rank, name)):
                return tuple(found)
        return ()


def code_key(text: str) -> str:
    """Return a code as codes are compared: without blanks and dashes, in one case."""
    return "".join(text.split()).replace("-", "").upper()


def _key(rank: int, name: str) -> str:
    return " ".join(name.split()).casefold() if rank else code_key(name)

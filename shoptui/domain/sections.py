"""Which parts are in which section of which build: an index that is fed; filming days ask for sections."""

Key = tuple[int | None, str]


class SectionIndex:
    """Build and section to parts.

    >>> index = SectionIndex()
    >>> index.put(7, 1, "Brakes")
    >>> index.of(1, "brakes"), index.of(1, "body")
    ((7,), ())
    """

    def __init__(self) -> None:
        self._parts: dict[Key, dict[int, None]] = {}

    def put(self, part: int, build: int | None, section: str) -> None:
        """Say that a part is in a section."""
        self._parts.setdefault((build, section.casefold()), {})[part] = None

    def drop(self, part: int, build: int | None, section: str) -> None:
        """Take back what `put` said."""
        self._parts.get((build, section.casefold()), {}).pop(part, None)

    def of(self, build: int | None, section: str) -> tuple[int, ...]:
        """Return the ids of the parts in a section, in the order in which they came."""
        return tuple(self._parts.get((build, section.casefold()), ()))

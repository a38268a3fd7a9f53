"""Names that the shop knows, and which of them somebody means by a few letters."""

import re
from dataclasses import dataclass

_WORDS = re.compile(r"\w+")


def _key(text: str) -> str:
    return " ".join(text.split()).casefold()


@dataclass(frozen=True, slots=True)
class KnownNames:
    """Names in the order in which they are offered.

    Args:
        names: The names.
        codes: Code and name of those that have a short name too.

    >>> names = ("Brake counter", "Brake parts by post", "Paint booth")
    >>> known = KnownNames(names, (("booth", "Paint booth"),))
    >>> known.matches("paint")
    ('Paint booth',)
    >>> known.matches("brake"), known.matches("brake2")
    (('Brake counter', 'Brake parts by post'), ('Brake parts by post',))
    >>> known.exact("BOOTH"), known.exact("paint")
    ('Paint booth', None)

    """

    names: tuple[str, ...]
    codes: tuple[tuple[str, str], ...] = ()

    def exact(self, text: str) -> str | None:
        """Return the name that a text is, apart from case and blanks, or of which it is the code."""
        wanted = _key(text)
        pairs = (*((name, name) for name in self.names), *self.codes)
        return next((name for word, name in pairs if _key(word) == wanted), None)

    def matches(self, text: str) -> tuple[str, ...]:
        """Return the names in which a word begins with each word typed; no words match all names.

        A number behind the words picks from those that matched before it was typed.
        """
        found = self._having(text)
        head, last = text.rstrip()[:-1], text.rstrip()[-1:]
        if not found and last.isascii() and last.isdigit():
            found = self._having(head)[int(last) - 1 : int(last)] if last != "0" else ()
        return found

    def _having(self, text: str) -> tuple[str, ...]:
        wanted = text.casefold().split()
        return tuple(
            name
            for name in self.names
            if all(any(have.startswith(word) for have in _beginnings(name)) for word in wanted)
        )


def _beginnings(name: str) -> tuple[str, ...]:
    """Return a name from each of its words on, so that `two st` finds `two streets` too."""
    folded = name.casefold()
    return tuple(folded[word.start() :] for word in _WORDS.finditer(folded))

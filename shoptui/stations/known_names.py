"""Names that the shop knows, and which of them somebody means by a few letters."""

import re
from functools import cached_property

_WORDS = re.compile(r"\w+")


def _key(text: str) -> str:
    return " ".join(text.split()).casefold()


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

    def __init__(self, names: tuple[str, ...], codes: tuple[tuple[str, str], ...] = ()) -> None:
        self.names = names
        self._codes = codes

    @cached_property
    def _called(self) -> dict[str, str]:
        """Name or code to name; a name goes before a code, and the first of two alike before the second."""
        called: dict[str, str] = {}
        for word, name in (*((name, name) for name in self.names), *self._codes):
            called.setdefault(_key(word), name)
        return called

    @cached_property
    def _folded(self) -> tuple[tuple[str, str], ...]:
        """Each name, and its words in small letters with one blank before each."""
        return tuple((name, _words(name)) for name in self.names)

    def exact(self, text: str) -> str | None:
        """Return the name that a text is, apart from case and blanks, or of which it is the code."""
        return self._called.get(_key(text))

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
        wanted = [words for each in text.split() if (words := _words(each)).strip()]
        if text.strip() and not wanted:
            return ()
        return tuple(name for name, words in self._folded if all(each in words for each in wanted))


def _words(text: str) -> str:
    """Return the words of a text, each behind a blank, so that one is found by how it begins.

    >>> _words("Rotor, front (BR-02)")
    ' rotor front br 02'
    """
    return "".join(f" {word}" for word in _WORDS.findall(text.casefold()))

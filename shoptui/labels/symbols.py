"""Code 128: a text becomes bars and spaces, counted in modules.

python-barcode 0.16.1 encodes; what it does wrong is mended here: a symbol that begins with the digits 99 lost
them, a second build went on from the state of the first, and four letters were taken for function characters.
Whatever it returns is read back before it is used, so that no label ever carries another text than it shows.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import groupby
from typing import Protocol

from shoptui.domain.inert import inert
from shoptui.labels.errors import TextError

QUIET = 10
"""Modules that stay white on either side. GS1 General Specifications 5.4.4.2."""

MOST_CHARACTERS = 48
"""Characters of one symbol. GS1 General Specifications 5.4.4.2, for GS1-128; taken over for all."""

_WIDTH = 11
"""Modules of every symbol character but the last."""

_STOP = "1100011101011"
_START = {103: "A", 104: "B", 105: "C"}
_SWITCH = {99: "C", 100: "B", 101: "A"}
_SUM = 103
_FIRST_SIGN, _LAST_PAIR = 32, 99
_CONTROLS_FROM = 64
"""Code set A holds signs up to here, control characters after."""


class _Encoder(Protocol):
    def __init__(self, code: str) -> None: ...
    def build(self) -> list[str]: ...


@dataclass(frozen=True, slots=True)
class Symbol:
    """One symbol without its quiet zones.

    Args:
        text: What it carries.
        runs: Widths in modules: bar, space, bar... from left to right; the first and the last are bars.

    """

    text: str
    runs: tuple[int, ...]

    @property
    def modules(self) -> int:
        """Its length, quiet zones left out."""
        return sum(self.runs)


@lru_cache(maxsize=1024)  # copies, and a preview followed by its printing
def symbol(text: str) -> Symbol:
    """Return the symbol of a text.

    Raises:
        TextError: The text is empty, too long or holds characters that no symbol carries.

    >>> symbol("BAARK2Y").modules, symbol("PJJ123C").runs[:6]
    (112, (2, 1, 1, 2, 1, 4))

    """
    _check(text)
    bits = _mended()(text).build()[0]
    if read_back(bits) != text:
        raise TextError(
            f"{inert(text)!r} could not be encoded: the symbol made for it reads as another text."
        )
    return Symbol(text, tuple(len(list(run)) for _, run in groupby(bits)))


def _check(text: str) -> None:
    """Refuse what the encoder would drop, change or stumble over."""
    if not text:
        raise TextError("A code of one character or more was expected; an empty one came. Give it a code.")
    if len(text) > MOST_CHARACTERS:
        raise TextError(
            f"A code of at most {MOST_CHARACTERS} characters was expected; one of {len(text)} came. "
            f"Shorten it, or print its tag."
        )
    for at, character in enumerate(text, 1):
        if not character.isascii():
            raise TextError(
                f"Letters without accents, digits and ASCII signs were expected; {inert(character)} came as "
                f"character {at} of {inert(text)}. Bars cannot carry it: change the code, or print its tag."
            )


@cache
def _mended() -> type[_Encoder]:
    """Return python-barcode's Code 128 without its faults."""
    from barcode.codex import Code128  # noqa: PLC0415 - costs time that others need not spend

    class Mended(Code128):  # type: ignore[misc] # the library has no types
        def build(self) -> list[str]:
            self._charset, self._buffer = "C", ""
            built: list[str] = super().build()
            return built

        def _try_to_optimize(self, encoded: list[int]) -> list[int]:
            # After start C, 99 is a pair of digits: only there does the encoder take it for a switch to C.
            switches = encoded[1] in _SWITCH and _SWITCH[encoded[1]] != "C"
            optimised: list[int] = super()._try_to_optimize(encoded) if switches else encoded
            return optimised

    return Mended


@cache
def _values() -> dict[str, int]:
    from barcode.charsets.code128 import CODES  # noqa: PLC0415 - as above

    return {bits: value for value, bits in enumerate(CODES)}


def read_back(bits: str) -> str:
    """Return the text that a symbol's modules (1 black, 0 white) carry, its check character verified.

    Raises:
        TextError: They are no sound symbol.

    """
    values = [_values().get(bits[at : at + _WIDTH], -1) for at in range(0, len(bits) - len(_STOP), _WIDTH)]
    if not bits.endswith(_STOP) or len(values) < 3 or -1 in values or values[0] not in _START:  # noqa: PLR2004 - start, one character, check
        raise TextError("The modules of a symbol from start to stop were expected; these are none.")
    *read, check = values
    if check_value(read) != check:
        raise TextError(f"Check value {check_value(read)} was expected in the symbol; {check} stands there.")
    return "".join(_characters(read))


def check_value(values: Sequence[int]) -> int:
    """Return the check value over the start character and what follows. ISO/IEC 15417.

    >>> check_value([104, 34, 65, 82, 99, 1, 23, 100, 20, 35, 79, 68, 69])  # Bar01234Code
    62

    """
    return (values[0] + sum(at * value for at, value in enumerate(values))) % _SUM


def _characters(values: Sequence[int]) -> list[str]:
    """Return what each value stands for in the code set that holds at its place."""
    code_set, found = _START[values[0]], []
    for value in values[1:]:
        if code_set == "C" and value <= _LAST_PAIR:
            found.append(f"{value:02}")
        elif value in _SWITCH:
            code_set = _SWITCH[value]
        elif value >= 96:  # noqa: PLR2004 - function characters and shifts, which the encoder never sets
            raise TextError(f"Value {value} stands in the symbol, which is no character of a text.")
        elif code_set == "A" and value >= _CONTROLS_FROM:
            found.append(chr(value - _CONTROLS_FROM))
        else:
            found.append(chr(value + _FIRST_SIGN))
    return found

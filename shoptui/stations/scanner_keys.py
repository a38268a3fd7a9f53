"""The keys that a scanner sends, by the names that Textual gives them."""

ENDS = frozenset({"enter", "tab", "ctrl+j"})
"""Keys that end a scan: Enter (CR), Tab and LF."""

GS_KEYS = frozenset({"ctrl+right_square_bracket", "ctrl+]"})
"""GS (FNC1 within a symbol). Match the key: some keyboard protocols send it without a character."""

GS = "\x1d"

_COMMANDING = frozenset({"ctrl", "alt", "super", "hyper", "meta"})
_FIRST_PRINTABLE, _C1_START, _C1_END = 0x20, 0x7F, 0x9F


def character_of(key: str, character: str | None) -> str | None:
    r"""Return the character that a key adds to a scan; None for a key that adds none.

    >>> character_of("right_square_bracket", "]"), character_of("ctrl+right_square_bracket", None)
    (']', '\x1d')
    """
    if key in GS_KEYS:
        return GS
    if character is None or len(character) != 1 or not prints(character):
        return None
    return None if _COMMANDING.intersection(key.split("+")[:-1]) else character


def prints(character: str) -> bool:
    """Say whether a character is more than a control."""
    code = ord(character)
    return code >= _FIRST_PRINTABLE and not _C1_START <= code <= _C1_END

"""What keys are called, on screen and in a file, and which of them something can be put on."""

import re

FIXED = "Enter, Escape, Tab, the arrows and the keys that edit words are the same everywhere"

SWALLOWED = {
    "ctrl+i": "the same as Tab to a terminal",
    "ctrl+m": "the same as Enter to a terminal",
    "ctrl+j": "the same as Enter to a terminal",
    "ctrl+h": "the same as Backspace to a terminal",
    "ctrl+s": "kept by many terminals, to stop what they show",
    "ctrl+b": "kept by programs that share out a terminal",
    "ctrl+u": "what empties the line",
    "ctrl+w": "what takes a word out of the line",
}
"""Keys that do not arrive, arrive as another one, or edit the line, and why each is none to choose."""

_FUNCTION = re.compile(r"f(?:[1-9]|1[0-2])")
_CTRL = re.compile(r"ctrl\+[a-z]")
_SPOKEN = {"escape": "Escape", "enter": "Enter", "left": "left", "right": "right"}


def key_words(key: str) -> str:
    """Return a key as it is called in sentences and files.

    >>> key_words("ctrl+g"), key_words("f12"), key_words("escape")
    ('Ctrl+G', 'F12', 'Escape')
    """
    if key.startswith("ctrl+"):
        return f"Ctrl+{key.removeprefix('ctrl+').upper()}"
    return _SPOKEN.get(key, key.upper() if _FUNCTION.fullmatch(key) else key)


def key_mark(key: str) -> str:
    """Return a key as it stands in a row of keys, where room is short.

    >>> key_mark("ctrl+g"), key_mark("f12"), key_mark("escape")
    ('^G', 'F12', 'Esc')
    """
    return "Esc" if key == "escape" else key_words(key).replace("Ctrl+", "^")


def key_named(words: str) -> str:
    """Return Textual's name of a key that a person wrote: `Ctrl+G`, `ctrl g`, `^g`, `f12`.

    >>> key_named("Ctrl+G"), key_named("^g"), key_named("F12")
    ('ctrl+g', 'ctrl+g', 'f12')
    """
    plain = re.sub(r"[\s+-]+", "+", words.strip().lower())
    return re.sub(r"^\^\+?", "ctrl+", plain)


def why_not(key: str, prefix: str) -> str:
    """Say why nothing can be put on a key, as the end of a sentence; empty where it can.

    A terminal tells apart only the function keys and Ctrl with a letter; what others send differs from one
    terminal to the next.

    Args:
        key: Textual's name of it.
        prefix: The key that the scanner sends first.

    >>> why_not("f9", "f9"), why_not("ctrl+g", "f9")
    ('it is the one that the scanner sends before a code', '')

    """
    if key == prefix:
        return "it is the one that the scanner sends before a code"
    if key in SWALLOWED:
        return f"it is {SWALLOWED[key]}"
    if _FUNCTION.fullmatch(key) or _CTRL.fullmatch(key):
        return ""
    if len(key) == 1 or key in {"space", "upper", "lower"}:
        return "letters, digits and signs go to the line"
    return "F1 to F12 and Ctrl with a letter are the keys to choose from"

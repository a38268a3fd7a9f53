"""Lines of a page, counted in terminal cells: some letters are two wide; and words as Markdown shows them."""

import re

from shoptui.domain.inert import cells


def wrapped(text: str, width: int, indent: str = "") -> list[str]:
    """Return lines of at most so many cells, broken at blanks, or within a word that is wider than a line.

    Args:
        text: Safe to show.
        width: Cells of a line.
        indent: Before each line but the first.

    >>> wrapped("brake hose, front", 12, "  ")
    ['brake hose,', '  front']

    """
    lines: list[str] = []
    line = ""
    for piece in re.findall(r"\s*\S+", text):
        word = piece
        while cells(line + word) > width:
            if line.strip():
                lines.append(line)
                line, word = indent, word.strip()
                continue
            start = _fitting(line + word, width)
            lines.append((line + word)[:start])
            line, word = indent, (line + word)[start:]
        line += word
    return [*lines, line] if line.strip() else lines


def _fitting(text: str, width: int) -> int:
    """Return how many characters fit, at least one."""
    room = width
    for at, character in enumerate(text):
        room -= cells(character)
        if room < 0:
            return max(at, 1)
    return len(text)


def escaped(text: str) -> str:
    r"""Return words that Markdown shows as they are.

    >>> escaped("LF_[nuts]")
    'LF\\_\\[nuts\\]'
    """
    for sign in "\\`*_[]<>|#":
        text = text.replace(sign, f"\\{sign}")
    return text

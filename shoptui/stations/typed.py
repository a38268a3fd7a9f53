"""What stands in the line while somebody types, as a value: every key makes another one."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Typed:
    """Words in the line and where the next letter goes.

    >>> line = Typed().insert("rotr").left().insert("o")
    >>> line.text, line.at
    ('rotor', 4)
    >>> line.back().text
    'rotr'
    """

    text: str = ""
    at: int = 0

    def insert(self, letters: str) -> "Typed":
        """Put letters in."""
        return Typed(self.text[: self.at] + letters + self.text[self.at :], self.at + len(letters))

    def back(self) -> "Typed":
        """Take out the letter before the cursor."""
        return Typed(self.text[: max(0, self.at - 1)] + self.text[self.at :], max(0, self.at - 1))

    def delete(self) -> "Typed":
        """Take out the letter under the cursor."""
        return Typed(self.text[: self.at] + self.text[self.at + 1 :], self.at)

    def back_word(self) -> "Typed":
        """Take out the word before the cursor.

        >>> Typed().insert("brake rotor ").back_word().text
        'brake '
        """
        head = self.text[: self.at].rstrip()
        head = head[: head.rfind(" ") + 1]
        return Typed(head + self.text[self.at :], len(head))

    def left(self) -> "Typed":
        """Move one letter to the left."""
        return Typed(self.text, max(0, self.at - 1))

    def right(self) -> "Typed":
        """Move one letter to the right."""
        return Typed(self.text, min(len(self.text), self.at + 1))

    def take_back(self, letters: int) -> "Typed":
        """Take out the letters before the cursor: they were a scan, not typing."""
        start = max(0, self.at - letters)
        return Typed(self.text[:start] + self.text[self.at :], start)

    def key(self, key: str) -> "Typed | None":  # noqa: PLR0911 - one line a key
        """Return the line after an editing key, named as Textual names it; None if it edits nothing."""
        match key:
            case "backspace":
                return self.back()
            case "delete":
                return self.delete()
            case "ctrl+w":
                return self.back_word()
            case "ctrl+u":
                return Typed()
            case "left":
                return self.left()
            case "right":
                return self.right()
        return None

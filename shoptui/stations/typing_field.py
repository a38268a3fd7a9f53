"""A field that is typed into; where it holds one value, the first key replaces that."""

from textual.widgets import Input


class TypingField(Input):
    """The field.

    Args:
        text: What stands in it at first.
        hint: Shown while it is empty.
        name: Name of the field's value.
        one_value: Whether it holds one value, such as a number: coming to it marks all of it, so that the
            first key replaces it, and an arrow or a tap begins to change it.

    """

    def __init__(self, text: str, hint: str, name: str, *, one_value: bool = False) -> None:
        super().__init__(text, placeholder=hint, id=f"field-{name}", compact=True, select_on_focus=one_value)
        self._replaced = ""
        """What the first key replaced, until something is taken out again."""

    def replace(self, text: str, start: int, end: int) -> None:
        """Keep what is replaced as a whole: the key may turn out to be a scan's."""
        all_of_it = bool(self.value) and (start, end) == (0, len(self.value))
        self._replaced = self.value if text and all_of_it else self._replaced if text else ""
        super().replace(text, start, end)

    def take_out(self, letters: int) -> None:
        """Take out the letters of a scan before the cursor; what they replaced stands there again."""
        end = self.cursor_position
        start = max(0, end - letters)
        self.value = self.value[:start] + self.value[end:] or self._replaced
        self.cursor_position = start or len(self.value)
        self._replaced = ""

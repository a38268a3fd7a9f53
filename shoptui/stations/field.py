"""One field of a form, and what it is typed into."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from shoptui.domain.row_text import Row
from shoptui.jobs.answers import Answer
from shoptui.stations.known_names import KnownNames
from shoptui.stations.lines_entry import LinesEntry
from shoptui.stations.name_field import NameInput
from shoptui.stations.typing_field import TypingField

Words = Callable[[Mapping[str, str]], str]
"""Says one line of a list within a form."""

Entry = TypingField | LinesEntry


@dataclass(frozen=True, slots=True)
class Lines:
    """A list within a form: each line has fields of its own.

    Args:
        fields: The fields of one line.
        one: What one line is called.
        words: Says a line in words.
        about: What stands above the fields of a line.
        check: Looks at a line before it goes into the list, beside the other lines and what stands in the
            other fields of the form: None takes it, a stop names the field that is wrong, a question's yes
            takes it. Without it every line is taken.

    """

    fields: tuple["Field", ...]
    one: str
    words: Words
    about: str = ""
    check: Callable[[Row, Sequence[Row], Mapping[str, str]], Answer | None] | None = None


@dataclass(frozen=True, slots=True)
class Field:
    """One field.

    Args:
        name: Name of the value that the form hands over; a refusal names its field by it.
        label: In words.
        hint: What is expected, shown while the field is empty, and at the foot while it has the focus.
        value: What stands in it at first.
        names: Names that the shop knows; another one is asked about before it is saved.
        closed: Whether only a known name can be meant: another one is the job's to refuse.
        one_value: Whether it holds one value, such as a number or a choice: the first key replaces it.
        check: Reads the field; it raises ValueError with a sentence for what cannot be meant.
        lines: The list that the field holds, as `row_text` writes it; None for a field of words.

    """

    name: str
    label: str
    hint: str = ""
    value: str = ""
    names: KnownNames | None = None
    closed: bool = False
    one_value: bool = False
    check: Callable[[str], object] | None = None
    lines: Lines | None = None


def entry_of(field: Field) -> Entry:
    """Return what a field is typed into."""
    if field.lines is not None:
        return LinesEntry(field.value, field.lines.one, field.lines.words, field.name)
    if field.names is not None:
        return NameInput(
            field.names,
            field.value,
            field.hint,
            field.name,
            closed=field.closed,
            one_value=field.one_value,
        )
    return TypingField(field.value, field.hint, field.name, one_value=field.one_value)

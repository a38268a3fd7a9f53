"""One field of a form, and what it is typed into."""

from collections.abc import Callable
from dataclasses import dataclass

from textual.suggester import SuggestFromList
from textual.widgets import Input

from shoptui.stations.known_names import KnownNames
from shoptui.stations.name_field import NameInput


@dataclass(frozen=True, slots=True)
class Field:
    """One field.

    Args:
        name: Name of the value that the form hands over.
        label: In words.
        hint: What is expected, shown while the field is empty.
        value: What stands in it at first.
        known: What may be completed with the right arrow.
        names: Names that the shop knows; another one is asked about before it is saved.
        check: Reads the field; it raises ValueError with a sentence for what cannot be meant.
        said: Words by which a job's refusal names the field, beside its label.

    """

    name: str
    label: str
    hint: str = ""
    value: str = ""
    known: tuple[str, ...] = ()
    names: KnownNames | None = None
    check: Callable[[str], object] | None = None
    said: str = ""

    def is_named_in(self, refusal: str) -> bool:
        """Return whether a refusal speaks of this field.

        >>> Field("qty", "Pieces", said="quantity").is_named_in("A quantity of 1 or more was expected.")
        True
        """
        words = refusal.casefold()
        return any(word and word.casefold() in words for word in (self.label, self.said))


def entry_of(field: Field) -> Input:
    """Return what a field is typed into."""
    if field.names is not None:
        return NameInput(field.names, field.value, field.hint, field.name)
    return Input(
        field.value,
        placeholder=field.hint,
        id=f"field-{field.name}",
        compact=True,
        suggester=SuggestFromList(field.known, case_sensitive=False) if field.known else None,
        select_on_focus=False,
    )

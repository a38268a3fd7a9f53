"""Everything that has a key of its own, found by looking at the screens that there are."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from textual.binding import Binding
from textual.screen import Screen
from textual.widgets import Input

from shoptui.stations.keys import EVERYWHERE, HERE_KEYS
from shoptui.stations.station_list import BY_NAME

Keys = tuple[str, ...]

EVERY_PLACE = "everywhere"
FIXED_KEYS = frozenset({"escape", "enter", "up", "down", "left", "right"})
"""The way back, and the ways through a list, are the same everywhere."""


@dataclass(frozen=True, slots=True)
class Action:
    """One thing that a key does.

    Args:
        name: Its id, by which a person's file of keys names it.
        place: Where: the name of a station, `form`, or everywhere.
        words: In one or two words.
        tooltip: In a sentence.
        usual: The keys that do it where nobody changed them.
        first: Whether it goes before what a form has on the same key, as the stations do and undo does not.

    """

    name: str
    place: str
    words: str
    tooltip: str
    usual: Keys
    first: bool = False

    @property
    def place_words(self) -> str:
        """Where, in words."""
        station = BY_NAME.get(self.place)
        return station.title if station is not None else self.place

    def meets(self, other: "Action") -> bool:
        """Return whether both can be called for at the same moment."""
        return self.place == other.place or self.reaches(other.place) or other.reaches(self.place)

    def reaches(self, place: str) -> bool:
        """Return whether it is an action of every place and counts there."""
        return self.place == EVERY_PLACE and (self.first or place in BY_NAME)


def actions(of: type[Screen[object]]) -> tuple[Action, ...]:
    """Return what has a key everywhere, then what has one on each kind of screen.

    Args:
        of: What all these screens are kinds of.

    """
    found: dict[str, Action] = {}
    for binding in (*EVERYWHERE, *_bindings(of)):
        keys = tuple(key.strip() for key in binding.key.split(","))
        if binding.id and not FIXED_KEYS.intersection(keys):
            place, dot, _ = binding.id.partition(".")
            place = place if dot and place != "station" else EVERY_PLACE
            found.setdefault(
                binding.id,
                Action(binding.id, place, binding.description, binding.tooltip, keys, binding.priority),
            )
    return tuple(found.values())


def _bindings(of: type[Screen[object]]) -> Iterator[Binding]:
    for kind in of.__subclasses__():
        for binding in kind.__dict__.get("BINDINGS", ()):
            if isinstance(binding, Binding) and binding.group is HERE_KEYS:
                yield binding
        yield from _bindings(kind)


def clash(
    action: Action, key: str, all_actions: Iterable[Action], chosen: Mapping[str, Keys]
) -> Action | None:
    """Return what a key does already where an action would get it, None if nothing.

    Args:
        action: What would get the key.
        key: The key.
        all_actions: Everything that has one.
        chosen: Name of an action to its keys, where they are not the usual ones.

    """
    for other in all_actions:
        taken = key in chosen.get(other.name, other.usual)
        if taken and other.name != action.name and action.meets(other):
            return other
    return None


def edits_fields(action: Action, key: str) -> bool:
    """Return whether a form would never see a key, since the field in front edits its words with it."""
    return action.place == "form" and key in _FIELD_KEYS


_FIELD_KEYS = frozenset(
    key.strip()
    for binding in Input.BINDINGS
    if isinstance(binding, Binding)
    for key in binding.key.split(",")
)

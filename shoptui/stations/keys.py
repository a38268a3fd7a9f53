"""The keys that work everywhere, and how keys are grouped on the pages of help."""

from textual.binding import Binding

from shoptui.stations.station_list import STATIONS

STATION_KEYS = Binding.Group("Stations")
EVERYWHERE_KEYS = Binding.Group("Everywhere")
HERE_KEYS = Binding.Group("Here")


def quiet(keys: str, action: str, words: str, tooltip: str, name: str, group: Binding.Group) -> Binding:
    """Return a binding that no row of keys shows.

    Args:
        keys: Textual's names of the keys, with commas between.
        action: What it does.
        words: In one or two words.
        tooltip: In a sentence.
        name: Its id: by this a person's key file finds it.
        group: Where it stands on pages of help.

    """
    return Binding(keys, action, words, show=False, tooltip=tooltip, id=name, group=group)


def always(key: str, action: str, words: str, tooltip: str, name: str, group: Binding.Group) -> Binding:
    """Return a binding that goes before whatever has the focus, also while a form or a page lies open."""
    return Binding(key, action, words, show=False, priority=True, tooltip=tooltip, id=name, group=group)


def here(key: str, action: str, words: str, tooltip: str, name: str) -> Binding:
    """Return a binding of one screen, shown in the row of keys above the line."""
    return Binding(key, action, words, tooltip=tooltip, id=name, group=HERE_KEYS)


EVERYWHERE: tuple[Binding, ...] = (
    always("f1", "help_page", "Help", "Help for this station", "help", STATION_KEYS),
    *(
        always(
            station.key,
            f"station('{station.name}')",
            station.title,
            station.answers,
            f"station.{station.name}",
            STATION_KEYS,
        )
        for station in STATIONS
    ),
    Binding(
        "ctrl+z",
        "undo",
        "Undo",
        tooltip="Take back the last thing done here",
        id="undo",
        group=EVERYWHERE_KEYS,
    ),
    quiet("ctrl+r", "earlier", "Earlier answers", "The last twenty answers", "earlier", EVERYWHERE_KEYS),
    always(
        "ctrl+p",
        "command_palette",
        "More",
        "Find a station or something that can be done here",
        "more",
        EVERYWHERE_KEYS,
    ),
    quiet("ctrl+c", "leave", "Leave", "Close the program", "leave_too", EVERYWHERE_KEYS),
    always("ctrl+q", "leave", "Leave", "Close the program", "leave", EVERYWHERE_KEYS),
)

"""The stations: places in the shop, one screen and one function key each."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Station:
    """One station.

    Args:
        name: As jobs and answers name it.
        key: Textual's name of its key.
        title: On screen.
        answers: The question that the station answers, in words.
        short: On a bar that has no room for the titles; empty for the title.

    """

    name: str
    key: str
    title: str
    answers: str
    short: str = ""

    @property
    def key_words(self) -> str:
        """The key as it is printed on the keyboard."""
        return self.key.upper()


STATIONS: tuple[Station, ...] = (
    Station("today", "f2", "Today", "what needs somebody now"),
    Station("receiving", "f3", "Receiving", "what is in this box, and what should be", "Boxes"),
    Station("lift", "f4", "Lift", "what do I do to install or remove this part on this vehicle"),
    Station(
        "filming", "f5", "Filming", "what is still missing before that day, why, and who acts next", "Film"
    ),
    Station("racks", "f6", "Racks", "where is it, and what is in this bin"),
    Station(
        "hardware", "f7", "Hardware", "which bolts, how many are left, and what the work still needs", "Bolts"
    ),
    Station("parts", "f8", "Parts", "the whole list of a build, and one part's whole history"),
    Station("setup", "f12", "Set-up", "this terminal's build, the scanner, the health of the store"),
)
"""In the order of their keys. F9 belongs to the scanner; the other keys wait for their stations."""

BY_NAME: dict[str, Station] = {station.name: station for station in STATIONS}

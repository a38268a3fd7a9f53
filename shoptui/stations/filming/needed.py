"""What a shot of a filming day needs, in the words of its form."""

from collections.abc import Mapping
from dataclasses import replace

from shoptui.domain import cells
from shoptui.domain.cells import CellError
from shoptui.domain.inert import inert
from shoptui.domain.readiness import pieces_needed
from shoptui.domain.row_text import Row
from shoptui.domain.shoots import Condition, Need, Shot
from shoptui.jobs.answers import Answer, Said, stop
from shoptui.jobs.at import At, name_and_code
from shoptui.jobs.needs import asked
from shoptui.stations.known_names import KnownNames

CONDITIONS = KnownNames(tuple(condition.value for condition in Condition))
"""How a part can be needed."""


class Needed:
    """What a shot can need, by the words that stand for it: a part, or all of a section of a build.

    Args:
        at: Where the form lies open; its build's parts come first.
        shots: Shots whose parts are known too, although their build is finished.

    """

    def __init__(self, at: At, shots: tuple[Shot, ...]) -> None:
        self._shop = shop = at.shop
        own = at.build
        named = {need.part for shot in shots for need in shot.needs}
        running = {build.id for build in shop.builds.all() if build.status == "open"}
        parts = [part for part in shop.parts.all() if part.build in running or part.id in named]
        parts.sort(key=lambda part: (own is None or part.build != own.id, part.description.casefold()))
        self._needs: dict[str, Need] = {}
        for part in parts:
            self._needs.setdefault(name_and_code(part), Need(Condition.ON_HAND, part=part.id))
        for part in parts:
            if part.section and part.build is not None:
                words = f"all of {inert(part.section)}, {inert(shop.builds.get(part.build).code)}"
                need = Need(Condition.ON_HAND, build=part.build, section=part.section)
                self._needs.setdefault(words, need)
        for need in (need for shot in shots for need in shot.needs if need.part is None):
            # A section may have lost its last part since; it is kept as it stands.
            build = "" if need.build is None else f", {inert(shop.builds.get(need.build).code)}"
            words = f"all of {inert(need.section)}{build}"
            self._needs.setdefault(words, Need(Condition.ON_HAND, build=need.build, section=need.section))
        self._words = {_what(need): words for words, need in self._needs.items()}
        codes = tuple((part.code, name_and_code(part)) for part in parts)
        self.names = KnownNames(tuple(self._needs), codes)

    def words(self, need: Need) -> str:
        """Return the words of what a shot needs."""
        return self._words.get(_what(need), f"a part that is not in the books ({need.part})")

    def row(self, need: Need) -> Row:
        """Return a need as the row of a list."""
        qty = str(need.qty) if need.qty else ""
        return {"what": self.words(need), "condition": need.condition.value, "qty": qty}

    def need(self, row: Mapping[str, str]) -> Need:
        """Return the need that a row of a list says.

        Raises:
            ValueError: It names nothing that is known.

        """
        need, qty = self.what(row.get("what", "")), row.get("qty", "").strip()
        condition = _condition(row.get("condition", ""))
        return replace(need, condition=condition, qty=cells.quantity(qty) if qty else 0)

    def what(self, text: str) -> Need:
        """Return what is needed by its words, as whatever it is called.

        Raises:
            CellError: It names nothing that is known.

        """
        known = self.names.exact(text)
        if known is None:
            came = inert(text) or "nothing"
            raise CellError(f"A part or a section of a build was expected; {came} came.")
        return self._needs[known]

    def check(self, row: Row) -> Answer | None:
        """Look at one line: refuse what cannot be, ask about more pieces than the lists want."""
        for name, read in (("what", self.what), ("condition", _condition)):
            try:
                read(row.get(name, ""))
            except CellError as error:
                return stop(str(error), field=name)
        need = self.need(row)
        for part, asks in asked(self._shop, need) if need.qty else ():
            wants = pieces_needed(replace(asks, qty=0), part, self._shop.book.places(part.id))
            if asks.qty > wants:
                words = f"{name_and_code(part)}: its list wants {wants}, the shot {asks.qty}."
                return Answer(Said.QUESTION, f"{words} Enter: put it down all the same.")
        return None


def _condition(text: str) -> Condition:
    """Return how something is needed.

    Raises:
        CellError: No such condition.

    """
    said = " ".join(text.split()).casefold()
    for condition in Condition:
        if condition.value == said:
            return condition
    raise CellError(
        f"How it is needed was expected: {', '.join(CONDITIONS.names)}; {inert(text, 40) or 'nothing'} came."
    )


def _what(need: Need) -> tuple[int | None, int | None, str]:
    return need.part, need.build, need.section.casefold()

"""A count goes into the books: its differences are shown first, then all of them are one transaction.

What was found and is booked on a vehicle, at an outside shop or as still to come may be that one or another,
so it is asked about.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from shoptui.domain.ledger import CannotMoveError, Move
from shoptui.domain.places import Place, State
from shoptui.domain.records import Bin
from shoptui.jobs.answers import Answer, Choice, Question, Said, done, stop
from shoptui.jobs.at import At, name, pieces
from shoptui.jobs.count import begin, give_up, put_aside
from shoptui.jobs.count_differences import Came, Difference, difference_words, differences, moves_of
from shoptui.jobs.fastened import goes_with
from shoptui.jobs.place_words import place_words
from shoptui.jobs.put_away import bin_name
from shoptui.jobs.still_needed import still_needed

MAY_BE_HERE = (State.SENT_OUT, State.ORDERED, State.ASSEMBLED, State.MOCKED_UP, State.INSTALLED)
"""States in which a piece can lie in a bin although the books have it elsewhere, the likeliest first.

Common practice, no source.
"""

LISTED = 2
"""Differences that a sentence names; the list on the screen has all of them."""


def compare(at: At, found: Bin, counted: Mapping[int, int], *, then: Bin | None = None) -> Answer:
    """Show what a count differs by, ask where unbooked pieces came from, and enter it on a yes.

    Args:
        at: Where it is done.
        found: The bin.
        counted: Part id to pieces that are in it; what is left out is not there.
        then: Bin to be counted after that.

    """
    return _Count(at, found, dict(counted), then).ask({})


@dataclass(frozen=True, slots=True)
class _Count:
    """One count on its way from the last scan into the books."""

    at: At
    found: Bin
    counted: dict[int, int]
    then: Bin | None

    def ask(self, came: dict[int, Came]) -> Answer:
        """Ask what is not known yet, then whether all of it is entered."""
        shown = differences(self.at.shop, self.found, self.counted)
        total = sum(self.counted.values())
        if not shown:
            return self._go_on(f"{bin_name(self.found)}: {total} counted, all as booked.")
        if not total:
            return self._ask_empty(shown)
        for each in shown:
            places = self._may_be(each) if each.part.id not in came else []
            if places:
                return self._ask_where_from(each, places, came)
        needs = still_needed(self.at.shop, self._all_moves(shown, came))
        shots = f" {needs[0]}{_more(needs, 1)}." if needs else ""
        words = f"{total} counted. {self._told(shown, came)}.{shots}"
        return self._question(
            f"{bin_name(self.found)}, {words} Enter: enter it all.",
            yes=lambda: self._enter(shown, came),
        )

    def _question(
        self, text: str, yes: Callable[[], Answer] | None = None, choices: tuple[Choice, ...] = ()
    ) -> Answer:
        ends = [Choice("stop counting: it was not counted, nothing changes", self._not_counted)]
        if self.counted and self.at.memory.counting == self.found.id:
            ends.append(Choice("put it aside: it goes on when the bin is counted again", self._put_aside))
        return Answer(
            Said.QUESTION,
            text,
            kind="bin",
            show="racks",
            subject=self.found.id,
            question=Question(yes=yes, choices=(*choices, *ends)),
        )

    def _ask_empty(self, shown: tuple[Difference, ...]) -> Answer:
        short = sum(each.short for each in shown)
        return self._question(
            f"Nothing was counted in {bin_name(self.found)}, and {short} are booked there. Is it empty?",
            choices=(Choice(f"it is empty: {short} short", lambda: self._enter(shown, {})),),
        )

    def _may_be(self, each: Difference) -> list[Place]:
        """Return where else the books have pieces that may be the ones found."""
        if each.found <= each.back or each.part.is_hardware:  # one bolt more says nothing of any vehicle
            return []
        return [
            place
            for state in MAY_BE_HERE
            for place, qty in self.at.shop.book.places(each.part.id, state)
            if qty > 0
        ]

    def _ask_where_from(self, each: Difference, places: list[Place], came: dict[int, Came]) -> Answer:
        def chosen(from_where: Came) -> Callable[[], Answer]:
            return lambda: self.ask({**came, each.part.id: from_where})

        choices = [
            Choice(words, chosen((place, work))) for place in places for words, work in self._ways(place)
        ]
        choices.append(Choice("none of these: another one was found", chosen(None)))
        return self._question(
            f"{pieces(each.found - each.back, each.part)} more than booked. Where from? "
            "Its number, then Enter.",
            choices=tuple(choices),
        )

    def _ways(self, place: Place) -> Iterator[tuple[str, str]]:
        words = place_words(self.at.shop, place)
        match place.state:
            case State.ORDERED:
                yield f"it came: {words}", ""
            case State.SENT_OUT:
                work = self.at.shop.orders.get(int(place.where)).work
                if work:
                    yield f"it is back, {work}: {words}", work
                yield f"it is back, as it went: {words}", ""
            case State.ASSEMBLED:
                yield f"it was taken apart: {words}", ""
            case _:
                yield f"it came off: {words}", ""

    def _told(self, shown: tuple[Difference, ...], came: dict[int, Came], most: int = LISTED) -> str:
        words = [f"{name(each.part)}: {self._words(each, came)}" for each in shown]
        return "; ".join(words[:most]) + _more(words, most)

    def _words(self, each: Difference, came: dict[int, Came]) -> str:
        words = difference_words(self.at.shop, each)
        from_where = came.get(each.part.id)
        if from_where is None:
            return words
        return f"{words}, of what is {place_words(self.at.shop, from_where[0])}"

    def _all_moves(self, shown: tuple[Difference, ...], came: dict[int, Came]) -> tuple[Move, ...]:
        book = self.at.shop.book
        moves = [
            move for each in shown for move in moves_of(book, each, self.found.id, came.get(each.part.id))
        ]
        return (*moves, *goes_with(self.at.shop, moves))

    def _enter(self, shown: tuple[Difference, ...], came: dict[int, Came]) -> Answer:
        shop = self.at.shop
        told = self._told(shown, came)
        words = f"counted {bin_name(self.found)}: {self._told(shown, came, len(shown))}"
        try:
            with self.at.doing(words) as tx:
                if differences(shop, self.found, self.counted) == shown:
                    tx.enter(self._all_moves(shown, came))
                    changed = False
                else:
                    changed = True
        except CannotMoveError as error:
            return stop(f"{bin_name(self.found)}: {error} Nothing changed; scan “done” to compare again.")
        if changed:  # somebody moved something while the question stood
            return self.ask({})
        return self._go_on(f"{bin_name(self.found)}: {sum(self.counted.values())} counted. Entered: {told}.")

    def _not_counted(self) -> Answer:
        return self._begin_next(give_up(self.at).text)

    def _put_aside(self) -> Answer:
        answer = put_aside(self.at)
        return answer if self.then is None else replace(answer, subject=self.then.id)

    def _go_on(self, text: str) -> Answer:
        if self.at.memory.counting == self.found.id:
            self.at.shop.remember(self.at.terminal, counting=None, counted=())
        return self._begin_next(text)

    def _begin_next(self, text: str) -> Answer:
        if self.then is None:
            return done(text, kind="bin", show="racks", subject=self.found.id)
        begun = begin(self.at, self.then)
        words = f"Now {bin_name(self.then)}: scan what is in it." if begun.said is Said.DONE else begun.text
        return Answer(
            begun.said,
            f"{text} {words}",
            kind="bin",
            show="racks",
            subject=self.then.id,
            question=begun.question,
        )


def _more(things: Sequence[object], told: int) -> str:
    return f" and {len(things) - told} more" if len(things) > told else ""

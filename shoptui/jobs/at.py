"""Where a person stands when something is done: which terminal, which station, which build, who."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import timedelta
from itertools import takewhile

from shoptui.domain.codes import tag
from shoptui.domain.inert import inert
from shoptui.domain.places import UNSORTED, Place, State
from shoptui.domain.records import Box, Build, Part, Person, Terminal, Wrench
from shoptui.store.shop import Shop
from shoptui.store.transaction import Transaction

FROM_A_BOX = (State.RECEIVED, State.HELD)
"""States of what was unpacked and lies on the bench."""

LOOK_BACK_MOVES = 2_000
"""How far back things not yet put away are looked for."""


@dataclass(slots=True)
class At:
    """One terminal, seen by the jobs.

    Args:
        shop: The shop.
        terminal: Name of the terminal.
        station: The station in front: receiving, lift, racks, today, filming, parts, setup; empty for none,
            as on the command line.
        build_given: Code of a build that goes before the terminal's own, empty for none.
        who_given: Badge or code of a person that goes before the last badge scanned, empty for none.
        card_part: Id of the part whose card lies open at the lift, None for none.
        card_verb: What that card is turned to, or, with none open, what the next part's card will be.
        card_qty: Pieces that it is about.
        bin_given: Code of a bin or bag for what comes off, goes before the one scanned last, empty for none.
        card_joint: Name and position of the joint that the card asked about last; empty for none.
        said: The verb that a tag said at the lift and that holds still, empty for none.
        said_of: Id of the part that it is said of; None while that is whichever comes next.
        bin_shown: Id of the bin or bag that the racks show, None for none.

    """

    shop: Shop
    terminal: str
    station: str = ""
    build_given: str = ""
    who_given: str = ""
    card_part: int | None = None
    card_verb: str = ""
    card_qty: int = 1
    bin_given: str = ""
    card_joint: tuple[str, str] = ("", "")
    said: str = ""
    said_of: int | None = None
    bin_shown: int | None = None

    @property
    def memory(self) -> Terminal:
        """What the terminal was at."""
        return self.shop.terminal(self.terminal)

    @property
    def turned_to(self) -> str:
        """What was said at the lift of the next part, whichever that is."""
        return self.said_for(None)

    def said_for(self, part: int | None) -> str:
        """Return what was said at the lift of a part that is scanned now, empty for nothing."""
        return self.said if self.station == "lift" and self.said_of in (None, part) else ""

    @property
    def build(self) -> Build | None:
        """The build that this terminal works on; the only open one where none was chosen."""
        if self.build_given:
            return self.shop.builds.by_code(self.build_given)
        if (number := self.memory.build) is not None:
            build = self.shop.builds.get(number)
            return None if build.withdrawn else build
        unfinished = [build for build in self.shop.builds.all() if build.status == "open"]
        return unfinished[0] if len(unfinished) == 1 else None

    @property
    def person(self) -> Person | None:
        """Who is here: the last badge, unless that person did nothing for longer than a badge lasts."""
        if self.who_given:
            return self.shop.people.by_code(self.who_given)
        memory = self.memory
        if memory.person is None or memory.badge_at is None:
            return None
        since = self.shop.clock() - timedelta(minutes=self.shop.settings.badge_minutes)
        lately = takewhile(lambda each: each.when >= since, self.shop.history.at_terminal(self.terminal))
        # What others did here, or nobody by name, brings nobody back.
        if memory.badge_at < since and all(each.who != memory.person for each in lately):
            return None
        person = self.shop.people.get(memory.person)
        return None if person.withdrawn else person

    @property
    def wrench(self) -> Wrench | None:
        """The torque tool that was taken for the next readings."""
        number = self.memory.wrench
        wrench = None if number is None else self.shop.wrenches.get(number)
        return None if wrench is None or wrench.withdrawn else wrench

    def is_here(self, person: Person) -> None:
        """Let somebody be at this terminal, by a badge that was scanned now."""
        self.shop.remember(self.terminal, person=person.id, badge_at=self.shop.clock())

    def take_up(self, wrench: Wrench | None) -> None:
        """Let a torque tool be in hand, or none; an extension stays with the one that it was put on."""
        before = self.memory
        same = wrench is not None and before.wrench in (None, wrench.id)
        self.shop.remember(
            self.terminal,
            wrench=None if wrench is None else wrench.id,
            lever=before.lever if same else None,
        )

    @property
    def box(self) -> Box | None:
        """The box that lies open at this terminal."""
        number = self.shop.box_index.open_at.get(self.terminal)
        return None if number is None else self.shop.boxes.get(number)

    @contextmanager
    def doing(self, words: str = "", *, undoes: int | None = None) -> Iterator[Transaction]:
        """Run one transaction as this terminal and person; `undoes` is the id of the one it takes back."""
        person = self.person
        with self.shop.transaction(
            words, terminal=self.terminal, who=person.id if person else None, undoes=undoes
        ) as transaction:
            yield transaction

    def since_last_bin(self, states: tuple[State, ...] = FROM_A_BOX) -> dict[tuple[int, Place], int]:
        """Return what this terminal laid on the bench since it last put something like it away.

        Part id and place to pieces, in the order in which they came. Read from the ledger, so that it
        survives closing the program. What is held, and what came off a vehicle, has bins of its own, so each
        is looked for on its own.
        """
        things: dict[tuple[int, Place], int] = {}
        put_away: set[State] = set()
        for entry in self.shop.history.moved_at(self.terminal, LOOK_BACK_MOVES):
            source, target = entry.move.source, entry.move.target
            state = target.state
            if state not in states or state in put_away:
                continue
            if source.state is state and source.where == UNSORTED != target.where:
                put_away.add(state)
                if len(put_away) == len(states):
                    break
            elif target.where == UNSORTED:
                key = (entry.move.part, target)
                things[key] = things.get(key, 0) + entry.move.qty
        there = {
            (part, place): min(qty, self.shop.book.at(part, place)) for (part, place), qty in things.items()
        }
        return dict(reversed([(key, qty) for key, qty in there.items() if qty > 0]))


def shown(code: str) -> str:
    """Return a code as one reads it: a tag with its dash, safe to show."""
    own = tag(code)
    return own.shown if own else inert(code)


def spoken(position: str) -> str:
    """Return a position of the vehicle as one says it.

    >>> spoken("LF"), spoken("front")
    ('left front', 'front')
    """
    return _SPOKEN.get(position, inert(position))


_SPOKEN = {"LF": "left front", "RF": "right front", "LR": "left rear", "RR": "right rear"}


def name(part: Part, most: int = 60) -> str:
    """Return a part as one says it, with its position where the line has but one and its words lack it.

    A part without a description is called by its code; of a longer one the first `most` cells are said.

    >>> name(Part(1, "", "", 1, "Front wing, left", positions=("left",)))
    'Front wing, left'
    >>> name(Part(1, "", "", 1, "Caliper", positions=("LF",)))
    'Caliper, LF'
    """
    words = inert(part.words, most) or shown(part.code)
    if len(part.positions) != 1:
        return words
    (position,) = part.positions
    spoken = _SPOKEN.get(position, position).casefold().split()
    told = words.casefold().replace(",", " ").split()
    return words if position.casefold() in told or set(spoken) <= set(told) else f"{words}, {inert(position)}"


def pieces(qty: int, part: Part) -> str:
    """Return a quantity of a part as one says it: `2 Rotor`."""
    return f"{qty} {name(part)}"


def name_and_code(part: Part) -> str:
    """Return a part as a list names it, read far from the part itself: `Rotor (BR-02)`."""
    description = inert(part.words)
    return f"{description} ({shown(part.code)})" if description else shown(part.code)

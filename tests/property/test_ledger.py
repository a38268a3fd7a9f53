"""Double entry as a state machine over all verbs.

The invariant is bookkeeping's own (Pacioli, Summa de arithmetica, 1494: every debit has its credit): for each
part the sum over all places is zero, and only `not ours`, the world outside, stands below zero.
"""

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule

from shoptui.domain import verbs
from shoptui.domain.carriers import carriers_of, is_built_into, standing
from shoptui.domain.ledger import Balances, CannotMoveError, Move
from shoptui.domain.places import COUNTS_AS_HAD, OFF_THE_BOOKS, Place, State

PARTS = st.integers(1, 3)
QTY = st.integers(1, 6)
ORDERS = st.integers(1, 3)
BINS = st.integers(1, 3)
POSITIONS = st.sampled_from(["LF", "RF", ""])


class Shop(RuleBasedStateMachine):
    def __init__(self) -> None:
        super().__init__()
        self.book = Balances()
        self.done: list[tuple[tuple[Move, ...], dict]] = []

    def picture(self) -> dict:
        return {part: self.book.places(part) for part in (1, 2, 3)}

    def carry_out(self, verb: str, make) -> None:
        before = self.picture()
        try:
            moves = make()
            assert moves or verb == "hand over"
        except CannotMoveError:
            assert self.picture() == before
            return
        self.book.check(moves)
        for move in moves:
            assert move.source.state in verbs.VERBS[verb].sources
            assert move.target.state in verbs.VERBS[verb].targets
            self.book.apply(move)
        self.done.append((moves, before))

    @rule(part=PARTS, qty=QTY, order=ORDERS)
    def order(self, part, qty, order):
        self.carry_out("order", lambda: verbs.order(part, qty, supplier=7, order=order))

    @rule(part=PARTS, qty=QTY, order=ORDERS)
    def cancel(self, part, qty, order):
        self.carry_out("cancel", lambda: verbs.cancel(self.book, part, qty, supplier=7, order=order))

    @rule(part=PARTS, qty=QTY, order=ORDERS)
    def receive(self, part, qty, order):
        self.carry_out("receive", lambda: verbs.receive(self.book, part, qty, order=order))

    @rule(part=PARTS, qty=QTY)
    def receive_unordered(self, part, qty):
        self.carry_out("receive", lambda: verbs.receive_unordered(part, qty, supplier="unknown"))

    @rule(part=PARTS, qty=QTY, order=ORDERS)
    def hold_ordered(self, part, qty, order):
        self.carry_out("hold", lambda: verbs.hold_ordered(self.book, part, qty, order=order, note="damaged"))

    @rule(part=PARTS, qty=QTY)
    def hold(self, part, qty):
        self.carry_out("hold", lambda: verbs.hold(self.book, part, qty, note="damaged"))

    @rule(part=PARTS, qty=QTY)
    def release(self, part, qty):
        self.carry_out("release", lambda: verbs.release(self.book, part, qty))

    @rule(part=PARTS, qty=QTY, to=BINS, place=st.integers(0, 9))
    def put_away(self, part, qty, to, place):
        here = self.book.places(part, State.RECEIVED, State.HELD, State.REMOVED)
        if here:
            source = here[place % len(here)][0]
            self.carry_out("put away", lambda: verbs.put_away(self.book, part, source, qty, to=to))

    @rule(part=PARTS, qty=QTY)
    def open(self, part, qty):
        self.carry_out("open", lambda: verbs.open_(self.book, part, qty))

    @rule(part=PARTS, qty=QTY, job=ORDERS)
    def send_out(self, part, qty, job):
        self.carry_out("send out", lambda: verbs.send_out(self.book, part, qty, job=job))

    @rule(part=PARTS, qty=QTY, job=ORDERS, done=st.sampled_from(["painted", ""]))
    def take_back(self, part, qty, job, done):
        self.carry_out("take back", lambda: verbs.take_back(self.book, part, qty, job=job, done=done))

    @rule(part=PARTS, qty=QTY, position=POSITIONS)
    def install(self, part, qty, position):
        self.carry_out("install", lambda: verbs.install(self.book, part, qty, position=position))

    @rule(part=PARTS, qty=QTY, position=POSITIONS)
    def as_bought(self, part, qty, position):
        self.carry_out("as bought", lambda: verbs.as_bought(part, qty, position=position))

    @rule(part=PARTS, qty=QTY, position=POSITIONS)
    def remove(self, part, qty, position):
        self.carry_out("remove", lambda: verbs.remove(self.book, part, qty, position=position))

    @rule(part=PARTS, qty=QTY)
    def return_to_stock(self, part, qty):
        self.carry_out("return to stock", lambda: verbs.return_to_stock(self.book, part, qty))

    @rule(part=PARTS, qty=QTY, reason=st.sampled_from(["sold", "scrapped", "lost"]))
    def dispose(self, part, qty, reason):
        self.carry_out("dispose", lambda: verbs.dispose(self.book, part, qty, reason=reason))

    @rule(part=PARTS, qty=QTY, position=POSITIONS)
    def mock_up(self, part, qty, position):
        self.carry_out("mock up", lambda: verbs.mock_up(self.book, part, qty, position=position))

    @rule(part=PARTS, qty=QTY, position=POSITIONS, to=BINS, removed=st.booleans())
    def take_down(self, part, qty, position, to, removed):
        self.carry_out(
            "take down",
            lambda: verbs.take_down(self.book, part, qty, position=position, to=to, removed=removed),
        )

    @rule(part=PARTS, qty=QTY, position=POSITIONS)
    def install_what_is_mocked_up(self, part, qty, position):
        trial = [place for place, _ in self.book.places(part, State.MOCKED_UP)]
        if trial:
            self.carry_out(
                "install", lambda: verbs.install(self.book, part, qty, position=position, sources=trial)
            )

    @rule(part=PARTS, qty=QTY, carrier=PARTS)
    def assemble(self, part, qty, carrier):
        self.carry_out("assemble", lambda: verbs.assemble(self.book, part, qty, carrier=carrier))

    @rule(part=PARTS, qty=QTY, carrier=PARTS)
    def take_apart(self, part, qty, carrier):
        self.carry_out("take apart", lambda: verbs.take_apart(self.book, part, qty, carrier=carrier))

    @rule(part=PARTS, qty=QTY, to=BINS)
    def count_over(self, part, qty, to):
        self.carry_out("count over", lambda: verbs.count_over(self.book, part, qty, to=to))

    @rule(part=PARTS, qty=QTY, place=st.integers(0, 9))
    def count_short(self, part, qty, place):
        here = self.book.places(part, *verbs.ON_A_SHELF)
        if here:
            source = here[place % len(here)][0]
            self.carry_out("count short", lambda: verbs.count_short(self.book, part, source, qty))

    @rule(part=PARTS, qty=QTY, line=PARTS)
    def transfer(self, part, qty, line):
        inside = {each: line for each in (1, 2, 3) if each not in (line, part)}
        self.carry_out("transfer", lambda: verbs.transfer(self.book, part, qty, line=line, inside=inside))

    @rule(donor=PARTS, wanted=PARTS, qty=QTY, last=st.booleans())
    def strip(self, donor, wanted, qty, last):
        self.carry_out("strip", lambda: verbs.strip(self.book, donor, wanted, qty, last=last))

    @rule(part=PARTS)
    def hand_over(self, part):
        self.carry_out("hand over", lambda: verbs.hand_over(self.book, part))

    @precondition(lambda self: self.done)
    @rule()
    def undo(self):
        moves, before = self.done.pop()
        inverses = [move.inverse() for move in moves]
        self.book.check(inverses)
        for move in inverses:
            self.book.apply(move)
        assert self.picture() == before

    @invariant()
    def sums_are_zero_and_nothing_is_below_zero(self):
        for part in (1, 2, 3):
            assert self.book.sum(part) == 0
        assert not list(self.book.below_zero())

    @invariant()
    def the_two_indexes_agree(self):
        for part in (1, 2, 3):
            for place, _ in self.book.places(part):
                at_all = self.book.parts_at(place.state, place.where).get(part, 0)
                same = [q for p, q in self.book.places(part, place.state) if p.where == place.where]
                assert at_all == sum(same)
        on_a_shelf = {part for part in (1, 2, 3) if self.book.in_state(part, *verbs.ON_A_SHELF)}
        assert self.book.parts_in(*verbs.ON_A_SHELF) == on_a_shelf

    @invariant()
    def nothing_is_built_into_itself(self):
        for part in (1, 2, 3):
            assert not is_built_into(self.book, part, part)

    @invariant()
    def where_pieces_stand_adds_up_to_the_balances(self):
        for part in (1, 2, 3):
            assert sum(qty for _, qty in standing(self.book, part)) == self.book.sum(part) == 0
            on = sum(qty for place, qty in standing(self.book, part) if place.state is State.INSTALLED)
            least = self.book.in_state(part, State.INSTALLED)
            assert least <= on <= least + self.book.in_state(part, State.ASSEMBLED)

    @invariant()
    def what_is_built_in_has_a_carrier(self):
        for part in (1, 2, 3):
            for place, _ in self.book.places(part, State.ASSEMBLED):
                assert carriers_of(self.book, place.where) > 0

    @invariant()
    def what_is_to_order_follows_from_the_balances(self):
        for part in (1, 2, 3):
            had = self.book.in_state(part, *COUNTS_AS_HAD)
            assert verbs.to_order(self.book, part, needed=4, original=True) == max(0, 4 - had)


TestShop = Shop.TestCase
TestShop.settings = settings(max_examples=60, stateful_step_count=40, deadline=None)


def test_every_verb_keeps_off_the_books_places_apart():
    for verb in verbs.VERBS.values():
        assert not (verb.sources <= OFF_THE_BOOKS and verb.targets <= OFF_THE_BOOKS)


def test_a_quantity_of_nothing_is_refused():
    for qty in (0, -1):
        with pytest.raises(CannotMoveError, match="1 or more"):
            Balances().check([Move(1, qty, Place(State.NOT_OURS, 1), Place(State.ORDERED, 1))])

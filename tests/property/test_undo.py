"""Undo after any sequence of jobs, at two terminals, with the store on disk."""

import random
import tempfile
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from shoptui.domain import verbs
from shoptui.domain.places import State
from shoptui.domain.records import Bin, Build, Part, Supplier
from shoptui.jobs.add_part import add_part
from shoptui.jobs.answers import Said
from shoptui.jobs.at import At
from shoptui.jobs.check import check
from shoptui.jobs.count_entry import compare
from shoptui.jobs.dispose import dispose
from shoptui.jobs.hand_over import hand_over
from shoptui.jobs.order import cancel, order
from shoptui.jobs.send_out import send_out, take_back
from shoptui.jobs.set_aside import hold, open_part, release, return_to_stock
from shoptui.jobs.transfer import transfer
from shoptui.jobs.undo import undo
from shoptui.store.shop import Shop

NOW = datetime(2026, 11, 4, 9, tzinfo=UTC)
TERMINALS = ("door", "lift")


def moved(shop, terminal, words, make):
    """A deed of the scanner's: a bare verb in a transaction of its own, or nothing where it cannot be."""
    try:
        with shop.transaction(words, terminal=terminal) as tx:
            tx.enter(make())
    except ValueError:
        return


def receive(shop, terminal, part, qty):
    for place, _ in shop.book.places(part, State.ORDERED):
        moved(
            shop,
            terminal,
            "received",
            lambda where=place.where: verbs.receive(shop.book, part, qty, order=where),
        )
        return


def put_away(shop, terminal, part, qty):
    for place, _ in shop.book.places(part, State.RECEIVED):
        moved(shop, terminal, "put away", lambda at=place: verbs.put_away(shop.book, part, at, qty, to=1))
        return


def answered(answer):
    """What a job asks is answered: yes where there is one, else the first of the choices."""
    while answer.said is Said.QUESTION:
        question = answer.question
        answer = question.yes() if question.yes else question.choices[0].take()


def jobs_of(shop):
    def at(terminal):
        return At(shop, terminal)

    def part(number):
        return shop.parts.get(number)

    def last_order():
        return max((each.id for each in shop.orders.all() if each.kind == "purchase"), default=0)

    def last_job():
        return max((each.id for each in shop.orders.all() if each.kind == "outside"), default=0)

    return {
        "order": lambda t, p, q: order(at(t), part(p), q, supplier="a supplier", number=str(q), more=True),
        "cancel": lambda t, p, q: cancel(at(t), part(p), q, order=last_order()) if last_order() else None,
        "receive": lambda t, p, q: receive(shop, t, p, q),
        "put away": lambda t, p, q: put_away(shop, t, p, q),
        "open": lambda t, p, q: open_part(at(t), part(p), q),
        "hold": lambda t, p, q: hold(at(t), part(p), q, note="scratched"),
        "release": lambda t, p, q: release(at(t), part(p), q),
        "send out": lambda t, p, q: send_out(at(t), part(p), q, to="a painter", work="painted"),
        "take back": lambda t, p, q: take_back(at(t), part(p), q, job=last_job()) if last_job() else None,
        "install": lambda t, p, q: moved(
            shop, t, "installed", lambda: verbs.install(shop.book, p, q, position="LF")
        ),
        "remove": lambda t, p, q: moved(
            shop, t, "removed", lambda: verbs.remove(shop.book, p, q, position="LF")
        ),
        "return to stock": lambda t, p, q: return_to_stock(at(t), part(p), q),
        "dispose": lambda t, p, q: answered(
            dispose(at(t), part(p), q, reason="sold", no_longer_needed=q == 1)
        ),
        "transfer": lambda t, p, q: answered(transfer(at(t), part(p), q, to=None)),
        "count": lambda t, p, q: answered(compare(at(t), shop.bins.get(1), {p: q})),
        "hand over": lambda t, _p, _q: answered(hand_over(at(t), shop.builds.get(1))),
        "add": lambda t, p, q: add_part(at(t), description=f"part {p} {q}"),
        "undo": lambda t, p, q: undo(at(t)),
    }


DEEDS = st.lists(
    st.tuples(
        st.sampled_from(sorted(jobs_of(None))),
        st.sampled_from(TERMINALS),
        st.integers(1, 2),
        st.integers(1, 3),
    ),
    max_size=14,
)


def picture(shop):
    records = {kind: list(shelf.all()) for kind, shelf in shop.shelves.items()}
    return {part.id: shop.book.places(part.id) for part in shop.parts.all()}, records


@settings(max_examples=30, deadline=None)
@given(DEEDS, st.randoms(use_true_random=False))
def test_all_that_was_done_can_be_undone_to_the_very_beginning(deeds, rng):
    with (
        tempfile.TemporaryDirectory() as folder,
        closing(Shop.create(Path(folder) / "shop", clock=lambda: NOW, rng=random.Random(1))) as shop,
    ):
        with shop.transaction("set up", terminal="office") as tx:
            tx.add(Build(0, "b", "", "B"))
            tx.add(Supplier(0, "s", "S"))
            tx.add(Bin(0, "A1", ""))
            tx.add(Part(0, "P1", "", 1, "rotor", needed=2))
            tx.add(Part(0, "P2", "", 1, "hub", needed=2))
        before = picture(shop)
        jobs = jobs_of(shop)
        for name, terminal, part, qty in deeds:
            jobs[name](terminal, part, qty)
            assert not list(shop.book.below_zero())
            assert all(shop.book.sum(each.id) == 0 for each in shop.parts.all())
        # What one terminal cannot undo yet, since the other built on it, it can once that one has.
        for _ in range(2 * len(deeds) + 2):
            terminal = rng.choice(TERMINALS)
            now = picture(shop)
            if undo(At(shop, terminal)).said is Said.STOP:
                assert picture(shop) == now
                undo(At(shop, TERMINALS[terminal == TERMINALS[0]]))
        while any(undo(At(shop, terminal)).said is Said.DONE for terminal in TERMINALS):
            pass
        assert picture(shop) == before
        assert check(shop) == ()

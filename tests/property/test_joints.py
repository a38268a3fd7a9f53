"""A joint is done by what was stated since its part last came off, whatever was taken back in between."""

import random
from datetime import UTC, date, datetime, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from shoptui.domain import verbs
from shoptui.domain.records import Build, Joint, Part, Person, Wrench
from shoptui.jobs.check import check
from shoptui.jobs.joints import joints_of
from shoptui.jobs.scan import Scanning
from shoptui.store.shop import Shop

NUTS = 5
DEEDS = st.lists(
    st.one_of(st.integers(1, NUTS), st.sampled_from(("off and on", "undo", "undo"))), min_size=1, max_size=12
)


class Ticking:
    """A clock that goes on by a second each time that it is looked at."""

    def __init__(self) -> None:
        self.now = datetime(2026, 11, 25, 10, tzinfo=UTC)

    def __call__(self) -> datetime:
        self.now += timedelta(seconds=1)
        return self.now


def made(folder):
    shop = Shop.create(folder, clock=Ticking(), rng=random.Random(1))
    with shop.transaction("set up", terminal="office") as tx:
        build = tx.add(Build(0, "wagon", "", "Wagon"))
        tx.add(Person(0, "lead", "", "the lead"))
        tx.add(Wrench(0, "T-200", "", "Click", low=20, high=200, checked=date(2026, 9, 1)))
        joint = Joint("Nuts", NUTS, value="110 N m", source="Sheet")
        wheel = tx.add(Part(0, "WH", "", build.id, "Wheel", needed=1, joints=(joint,)))
        tx.enter(verbs.stock(wheel.id, 1))
    return shop, wheel


@settings(max_examples=40, deadline=None)
@given(DEEDS)
def test_what_counts_is_what_was_stated_since_it_went_on(tmp_path_factory, deeds):
    shop, wheel = made(tmp_path_factory.mktemp("joints") / "shop")
    lift = Scanning(shop, "lift", station="lift")
    for scan in ("lead", "T-200", "WH"):
        lift.take(scan)
    lift.yes()
    lift.drop()
    stated = []
    for deed in deeds:
        if deed == "undo":
            if stated:
                lift.take("undo")
                stated.pop()
                if stated[-1:] == ["off"]:  # what took it off is taken back as well
                    lift.take("undo")
                    stated.pop()
        elif deed == "off and on":
            for verb in ("remove", "install"):
                lift.take("WH")
                lift.take(verb)
                lift.yes()
                lift.drop()
            lift.card.put_down()
            stated += ["off", "on"]
        elif deed <= NUTS - since(stated):
            lift.take("WH")
            assert lift.typed(f"{deed} x 110").said != "stop"
            lift.drop()
            lift.card.put_down()
            stated.append(deed)
    (nuts,) = joints_of(shop, shop.parts.get(wheel.id))
    assert nuts.left == NUTS - since(stated)
    assert nuts.is_open == bool(nuts.left)
    assert not [each for each in check(shop) if "reading" in each.where]
    shop.close()


def since(stated):
    last = max((place for place, each in enumerate(stated) if each == "off"), default=-1)
    return sum(each for each in stated[last + 1 :] if isinstance(each, int))

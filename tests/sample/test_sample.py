"""The invented shop is what its description promises, and nothing in it is real."""

import csv
from datetime import UTC, datetime

import pytest
from stdnum import ean

from shoptui.domain.places import State
from shoptui.domain.recognise import read
from shoptui.domain.shoots import Condition
from shoptui.jobs.at import At
from shoptui.jobs.attach import attach
from shoptui.jobs.box_list import box_list
from shoptui.jobs.check import check
from shoptui.jobs.hardware import stands
from shoptui.jobs.import_orders import import_orders
from shoptui.jobs.import_parts import import_parts
from shoptui.jobs.import_shop import import_shop
from shoptui.jobs.joints import all_joints
from shoptui.jobs.place_words import today
from shoptui.jobs.sample import make_sample, sources
from shoptui.jobs.scan import Scanning
from shoptui.store.command_tags import command_tags
from shoptui.store.shop import Shop


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    now = datetime(2026, 11, 25, 12, tzinfo=UTC)
    shop = make_sample(tmp_path_factory.mktemp("sample") / "shop", lambda: now)
    yield shop
    shop.close()


def test_its_size(shop):
    wagon = shop.builds.by_code("longbed")
    wanted = [part for part in shop.parts.all() if part.build == wagon.id and not part.original]
    assert 110 <= len(wanted) <= 125
    assert len({part.section for part in wanted}) == 10
    assert len(list(shop.suppliers.all())) >= 30
    assert len(list(shop.bins.all())) >= 40
    assert {part.price.sure.value for part in wanted} == {"exact", "about", "from", "between", "none"}


def test_its_ledger_is_sound(shop):
    assert not list(shop.book.below_zero())
    assert not any(shop.book.sum(part.id) for part in shop.parts.all())
    states = {
        state
        for part in shop.parts.all()
        for place, _ in shop.book.places(part.id)
        for state in [place.state]
    }
    assert states == set(State) - {State.MOCKED_UP, State.ASSEMBLED}


def test_what_is_installed_has_on_it_what_must_be_on_first(shop):
    for part in shop.parts.all():
        for place, _ in shop.book.places(part.id, State.INSTALLED):
            for first in map(shop.parts.get, part.install_after):
                on = {each.where for each, _ in shop.book.places(first.id, State.INSTALLED)}
                assert on, f"{part.description} before {first.description}"
                assert place.where in on or place.where not in first.positions, part.description


def test_nothing_in_it_is_a_problem_but_what_is_there_to_be_found(shop):
    found, wrench = check(shop)
    assert found.where == "part WH-02"
    assert found.what.startswith(
        "joint Wheel nuts: short: 8 mm of thread engage, at least 12 mm (1 d in steel)"
    )
    assert (wrench.where, wrench.what) == ("wrench T-25", "its papers say 6 %, II A permits 4 %")


def test_a_user_can_import_its_sources_one_by_one(tmp_path):
    shop = Shop.create(tmp_path / "shop", clock=lambda: datetime(2026, 11, 25, 12, tzinfo=UTC))
    folder = sources()
    for file in ("shop.toml", "hardware.toml"):
        import_shop(shop, folder / file, terminal="office")
    for build in ("longbed", "coupe"):
        import_parts(shop, folder / f"parts-{build}.csv", build, terminal="office")
    for orders in sorted(folder.glob("orders-*.csv")):
        answer = import_orders(shop, orders, terminal="office")
        assert "left out" not in answer.text
    sheet = str(folder / "torque-sheet.txt")
    attach(At(shop, "office"), shop.parts.by_code("FR-01"), sheet)
    for file in ("joints.toml", "shoots.toml"):
        import_shop(shop, folder / file, terminal="office")
    assert not list(shop.book.below_zero())
    shop.close()


def test_boxes_in_every_state(shop):
    boxes = box_list(shop)
    day = today(shop)
    waiting = [each for each in boxes if each.box.arrived is None]
    assert any(each.due < day for each in waiting)
    assert any(each.due > day for each in waiting)
    assert any(each.box.arrived and not each.box.opened for each in boxes)
    assert any(each.box.open_at and sum(line.received for line in each.lines) > 0 for each in boxes)
    assert any(each.box.closed and any(line.short for line in each.lines) for each in boxes)
    assert any(each.box.closed and any(line.over for line in each.lines) for each in boxes)
    assert any(len(each.box.orders) == 2 for each in boxes)
    assert any(not each.box.orders and each.box.arrived for each in boxes)
    orders = [number for each in boxes for number in each.box.orders]
    assert max(map(orders.count, orders)) == 4


def test_work_is_out_at_two_shops_and_one_is_overdue(shop):
    out = {place.where for part in shop.parts.all() for place, _ in shop.book.places(part.id, State.SENT_OUT)}
    jobs = [shop.orders.get(number) for number in out]
    assert len({job.supplier for job in jobs}) == 2
    assert sorted(job.due < today(shop) for job in jobs) == [False, True]


def test_shots_of_every_condition(shop):
    first, second = sorted(shop.shoots.all(), key=lambda shoot: shoot.date)
    assert ((first.date - today(shop)).days, (second.date - today(shop)).days) == (5, 21)
    asked = {need.condition for day in (first, second) for shot in day.shots for need in shot.needs}
    assert asked == set(Condition) - {Condition.MOCKED_UP, Condition.TORQUE_DONE}
    assert any(shot.moves for shot in second.shots)


def test_hardware_runs_short_and_lies_in_a_bag(shop):
    found = {each.part.code: each for each in stands(shop)}
    assert {code for code, each in found.items() if each.need.short} == {"HW-06", "HW-09", "HW-10"}
    assert {code for code, each in found.items() if each.short and not each.need.short} == {"HW-03", "HW-13"}
    bag = shop.bins.by_code("G6")
    assert shop.parts.get(bag.part).code == "EN-10"
    assert shop.book.parts_at(State.REMOVED, bag.id) == {found["HW-13"].part.id: 2}


def test_joints_are_open_for_every_reason_that_the_lift_has_to_show(shop):
    opened = {(each.part.code, each.joint.name, each.position) for each in all_joints(shop) if each.is_open}
    assert opened == {
        ("FS-02", "Arm bolts", "LF"),  # nobody can, before the vehicle stands on its wheels
        ("FS-02", "Arm bolts", "RF"),
        ("FS-05", "Cotter pin is in", "RF"),
        ("FS-10", "Hub nut", "LF"),
        ("BR-02", "Caliper bolts", "LF"),  # the second check is missing
        ("BR-02", "Bled, no leaks, pedal firm", "LF"),
    }
    done = [each for each in all_joints(shop) if not each.is_open]
    assert len(done) == 14
    wrenches = [bool(wrench.barred) for wrench in shop.wrenches.all()]
    assert sorted(wrenches) == [False, False, False, True]


def test_its_codes_are_of_the_example_range_and_right(shop):
    gtins = [each.code for each in shop.learned.all()]
    for code in gtins:
        assert "952" in code[:4]
        assert ean.is_valid(code)
    assert len(gtins) > len(set(gtins)), "left and right share one"
    for box in shop.boxes.all():
        for number in box.tracking:
            reading = read(number)
            assert not reading.fails
            assert reading.s10[-2:] == "XZ" or reading.sscc.startswith("0952"), (
                "XA to XZ are nobody's country"
            )


def test_names_are_plainly_invented(shop):
    assert all(supplier.name.endswith("(example)") for supplier in shop.suppliers.all())
    assert all(part.maker.startswith("Example ") for part in shop.parts.all() if part.maker)


def test_a_box_of_ten_things_into_two_bins_by_scanner_alone(tmp_path):
    now = datetime(2026, 11, 25, 12, tzinfo=UTC)
    shop = make_sample(tmp_path / "shop", lambda: now)
    scanning = Scanning(shop, "walk", station="receiving")
    with (sources() / "parts-longbed.csv").open(encoding="utf-8", newline="") as file:
        codes = {row["code"]: row["codes"] for row in csv.DictReader(file)}
    ten = [codes[f"EN-0{number}"] for number in range(1, 9)] + [codes["FU-01"], codes["FU-02"]]
    assert len(set(ten)) == 10
    for scan in ["XTEN22J", *ten[:6], "BAARK2Y", *ten[6:], "BA2RK2E"]:
        assert scanning.take(scan).said == "done", scan
    assert len(shop.book.parts_at(State.RECEIVED, shop.bins.by_code("A1").id)) == 6
    assert len(shop.book.parts_at(State.RECEIVED, shop.bins.by_code("A2").id)) == 4
    shop.close()


def test_command_tags():
    tags = command_tags()
    assert {tag.word for tag in tags.values() if not tag.position} >= {
        "yes", "no", "undo", "done", "damaged", "install", "remove",
    }  # fmt: skip
    assert {tag.word for tag in tags.values() if tag.position} == {
        "LF", "RF", "LR", "RR", "front", "rear", "left", "right",
    }  # fmt: skip

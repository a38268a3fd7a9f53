"""Pictures of every station on the invented shop, at both sizes that it is made for.

What they show is looked at by a person before it is kept: `pytest tests/pictures --snapshot-update`.
"""

import shutil
import time
from datetime import UTC, datetime
from pathlib import Path

import pytest
from swift_time import go_swiftly, run_swiftly, settled

from shoptui.jobs.sample import make_sample
from shoptui.stations.app import ShopApp
from shoptui.stations.station_list import STATIONS
from shoptui.store.shop import Shop

NOW = datetime(2026, 11, 25, 10, tzinfo=UTC)
SMALL, LARGE = (80, 24), (120, 40)
PICTURED = [station for station in STATIONS if station.name != "setup"]
"""Set-up shows the store's folder, which is another one each time."""

SIZES = pytest.mark.parametrize("size", [SMALL, LARGE], ids=["80x24", "120x40"])


def now() -> datetime:
    return NOW


@pytest.fixture(scope="module", autouse=True)
def one_time_zone():
    """The invented shop's history is told in the machine's own time."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("TZ", "UTC")
        time.tzset()
        yield
    time.tzset()


@pytest.fixture(scope="module")
def sample(tmp_path_factory, one_time_zone):
    """The invented shop, made once."""
    folder = tmp_path_factory.mktemp("pictures") / "shop"
    make_sample(folder, now).close()
    return folder


@pytest.fixture
def program(sample, tmp_path, monkeypatch):
    """Begin the program on a copy of it, in a folder whose name is always the same."""
    go_swiftly(monkeypatch)
    shutil.copytree(sample, tmp_path / "shop")
    monkeypatch.chdir(tmp_path)
    shop = Shop.open(tmp_path / "shop", clock=now)

    def begin():
        return run_swiftly(ShopApp(shop, "door"))

    yield begin
    shop.close()


@pytest.fixture
def app(program, monkeypatch):
    monkeypatch.delenv("NO_COLOR", raising=False)
    return program()


def after(*steps):
    """Return what brings the screen to where its picture is taken: keys, and scans in angle brackets."""

    async def run(pilot):
        for step in steps:
            if step.startswith("<"):
                scan = step.strip("<>")
                pilot.app.jobs.later(lambda scan=scan: pilot.app.talk.take_scan(scan))
            else:
                await pilot.press(step)
            await settled(pilot.app)

    return run


@SIZES
@pytest.mark.parametrize("station", PICTURED, ids=lambda each: each.name)
def test_station(snap_compare, app, station, size):
    assert snap_compare(app, terminal_size=size, run_before=after(station.key))


@SIZES
def test_a_box_half_done(snap_compare, app, size):
    assert snap_compare(app, terminal_size=size, run_before=after("<CE104200495XZ>", "1", "enter"))


@SIZES
def test_the_install_card_asks(snap_compare, app, size):
    assert snap_compare(app, terminal_size=size, run_before=after("f4", "1", "enter"))


@SIZES
def test_the_joints_are_tightened(snap_compare, app, size):
    steps = after("f4", "<BR-03>", "<ULEAD29>", "<WCLK22L>", "<KYES22M>")
    assert snap_compare(app, terminal_size=size, run_before=steps)


@SIZES
def test_a_kind_of_hardware(snap_compare, app, size):
    assert snap_compare(app, terminal_size=size, run_before=after("f7", "<HW-07>"))


@SIZES
def test_a_parts_card(snap_compare, app, size):
    assert snap_compare(app, terminal_size=size, run_before=after("f8", *"BO-01", "enter"))


def test_a_stopped_code(snap_compare, app):
    assert snap_compare(app, terminal_size=SMALL, run_before=after("f3", "<9521234543214>"))


def test_help(snap_compare, app):
    assert snap_compare(app, terminal_size=SMALL, run_before=after("f3", "f1"))


def test_a_form(snap_compare, app):
    assert snap_compare(app, terminal_size=SMALL, run_before=after("f8", "ctrl+o"))


def test_too_small(snap_compare, app):
    assert snap_compare(app, terminal_size=(40, 10), run_before=after("f3"))


@pytest.mark.parametrize("look", ["shop-light", "ansi-dark"])
def test_other_looks(snap_compare, app, look):
    app.set_look(look)
    assert snap_compare(app, terminal_size=SMALL, run_before=after("f4", "1", "enter"))


def test_without_colour(snap_compare, program, monkeypatch):
    monkeypatch.setenv("NO_COLOR", "1")
    assert snap_compare(program(), terminal_size=SMALL, run_before=after("f3", "<9521234543214>"))


def test_receiving_80x24(snap_compare, app):
    """The walk's box: six things put away, a seventh in hand."""
    things = [f"<952100000{number}>" for number in ("0407", "0414", "0421", "0438", "0445", "0452")]
    steps = after("<XTEN22J>", *things, "<A1>", "<9521000000469>")
    assert snap_compare(app, terminal_size=SMALL, run_before=steps)


def test_the_readme_shows_the_picture_as_it_is():
    here = Path(__file__).parent
    kept = here / "__snapshots__" / "test_pictures" / "test_receiving_80x24.svg"
    shown = here / "receiving_80x24.svg"
    assert shown.read_text() == kept.read_text(), f"Copy {kept.name} over {shown.name} after looking at it."

"""Labels at the screens: what lacks one, printing, how they came out, the tag on the glass."""

import threading

import pytest
import zxingcpp
from PIL import Image, ImageDraw

from shoptui.domain.records import Bin, Person
from shoptui.jobs import print_labels
from shoptui.jobs.came_out import open_runs
from shoptui.jobs.label_kinds import KINDS, lacking, lacks
from shoptui.labels.errors import StoppedError
from shoptui.labels.screen import HALF
from shoptui.stations.form import Form
from shoptui.stations.labels.look import LabelPage
from shoptui.stations.labels.print_form import PrintForm
from shoptui.stations.labels.printers import Printers
from shoptui.stations.labels.screen import Labels

CELL = (8, 16)


@pytest.fixture(autouse=True)
def without_printers(monkeypatch, tmp_path):
    """No print queue, and a home of its own."""
    monkeypatch.setenv("PATH", str(tmp_path))
    monkeypatch.setenv("HOME", str(tmp_path))
    return tmp_path


async def tap(hands, words):
    """Tap on words where they stand on the screen; the lowest, if they stand there more than once."""
    lines = hands.screen_text.splitlines()
    x, y = [(line.index(words), row) for row, line in enumerate(lines) if words in line][-1]
    for message in hands.keys(f"\x1b[<0;{x + 2};{y + 1}M\x1b[<0;{x + 2};{y + 1}m"):
        hands.app.post_message(message)
    await hands.settle()


async def until(hands, true):
    """Wait for what another thread does."""
    for _ in range(500):
        await hands.settle()
        if true():
            return
        await hands.pilot.pause(0.01)
    raise AssertionError(hands.said)


def fill(hands, **values):
    for name, value in values.items():
        hands.app.screen.query_one(f"#field-{name}").value = value


def picture(app):
    """Paint what is on the screen as a terminal does: each cell's ground, and the left half of some."""
    across, down = CELL
    painted = Image.new("RGB", (app.size.width * across, app.size.height * down), (30, 30, 30))
    draw = ImageDraw.Draw(painted)

    def paint(colour, x, y, width):
        if colour is not None and colour.triplet is not None:
            box = (x * across, y * down, x * across + width - 1, y * down + down - 1)
            draw.rectangle(box, tuple(colour.triplet))

    for y, strip in enumerate(app.screen._compositor.render_strips()):
        signs = ((segment.style, sign) for segment in strip for sign in segment.text)
        for x, (style, sign) in enumerate(signs):
            paint(style and style.bgcolor, x, y, across)
            if sign == HALF:
                paint(style.color, x, y, across // 2)
    return painted


def codes_in(app):
    found = zxingcpp.read_barcodes(picture(app), formats=zxingcpp.BarcodeFormat.Code128)
    return [each.text for each in found]


@pytest.mark.parametrize("look", ["shop-dark", "shop-light", "ansi-dark", "ansi-light", "without colour"])
async def test_the_tag_is_read_off_the_glass(trial, monkeypatch, look):
    if look == "without colour":
        monkeypatch.setenv("NO_COLOR", "1")
    async with trial.screens() as hands:
        if look != "without colour":
            hands.app.set_look(look)
        await hands.press("f6")
        await hands.type("a3")
        await hands.press("ctrl+d")
        assert isinstance(hands.app.screen, LabelPage)
        assert codes_in(hands.app) == [trial.bin.tag]
        text = hands.screen_text
        assert "sheet-a4-2x8-95x34" in text
        assert "95 x 34 mm" in text
        assert "letters 1" in text
        assert "rack A, shelf 3" in text
        await hands.scan(trial.bin.tag)
        assert not isinstance(hands.app.screen, LabelPage)
        assert "Bin A3" in hands.said or "A3" in hands.said


async def test_a_badge_and_a_part_too(trial):
    with trial.shop.transaction("people", terminal="office") as tx:
        person = tx.add(Person(0, "", "", "Lead fabricator"))
    async with trial.screens() as hands:
        await hands.press("f8")
        await hands.type("rotor")
        await hands.press("enter", "ctrl+d")
        assert codes_in(hands.app) == [trial.rotor.tag]
        await hands.press("escape", "escape", "f12")
        await hands.type("people")
        await hands.press("enter", "ctrl+d")
        assert codes_in(hands.app) == [person.tag]
        await hands.press("escape", "ctrl+k")
        assert hands.app.screen.values["which"].startswith("Lead fabricator")
        await hands.press("escape", "escape", "escape", "f12")
        await hands.type("suppliers")
        await hands.press("enter", "ctrl+k")
        assert not isinstance(hands.app.screen, Form)


async def test_the_labels_of_the_open_box_with_one_key(trial, without_printers):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.scan(trial.gtin)
        await hands.scan(trial.hub.code)
        await hands.scan(trial.bin.code)
        await hands.press("ctrl+k")
        assert "2 parts, 1 bin, 1 box lack their labels. Enter prints all of them." in hands.said
        assert not any(lacks(trial.shop, each) is False for each in (trial.rotor, trial.hub, trial.bin))
        await hands.a_moment()
        await hands.press("enter")
        await until(hands, lambda: "Did all come out well?" in hands.said)
        for kind in ("part", "bin", "box"):
            assert (without_printers / f"labels-{kind}.pdf").read_bytes().startswith(b"%PDF")
        assert len(open_runs(trial.shop)) == 3
        for _ in range(3):
            await hands.a_moment()
            await hands.press("enter")
        assert "Nothing of this box lacks its label." in hands.said
        assert not open_runs(trial.shop)
        assert not lacks(trial.shop, trial.rotor)
        await hands.press("ctrl+k")
        assert hands.said == "done: Nothing of this box lacks its label."


async def test_the_tag_print_does_what_the_key_does(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.scan(trial.gtin)
        await hands.scan("KPRNT2Y")
        assert "1 part, 1 box lack their labels" in hands.said
        await hands.scan("KPRNT2Y")
        await until(hands, lambda: "Did all come out well?" in hands.said)
        await hands.press("escape")
        await hands.scan("KPRNT2Y")
        assert "Did all come out well?" in hands.said  # not printed twice


async def test_a_jam_prints_again_from_a_label(trial, without_printers):
    with trial.shop.transaction("bins", terminal="office") as tx:
        for number in range(9):
            tx.add(Bin(0, f"R1-{number}", ""))
    async with trial.screens() as hands:
        await hands.press("f6")
        await hands.type("r1")
        await hands.press("ctrl+k")
        assert isinstance(hands.app.screen, PrintForm)
        assert "sheet-a4-2x8" in hands.screen_text  # no list lies over it
        await hands.type("all on")
        assert hands.app.screen.values["which"] == "all on"
        fill(hands, which="all on the list (9)", where="~/bins.pdf", start="3")
        await hands.settle()
        assert "9 labels on 1 sheet" in hands.screen_text
        await hands.press("ctrl+g")
        await until(hands, lambda: "Did all come out well?" in hands.said)
        assert (without_printers / "bins.pdf").exists()
        assert not isinstance(hands.app.screen, Form)
        await hands.type("7")
        await hands.press("enter")
        await until(hands, lambda: hands.said.count("3 bin labels") == hands.said.count("bins.pdf") == 1)
        assert len(lacking(trial.shop, KINDS["bins"])) == 1 + 3
        await hands.a_moment()
        await hands.press("enter")
        assert len(lacking(trial.shop, KINDS["bins"])) == 1
        await hands.press("ctrl+k")
        assert hands.app.screen.values["start"] == "4"  # three came out on the sheet after the jam
        assert hands.app.screen.values["where"] == "~/bins-2.pdf"


async def test_a_number_that_is_none_leaves_the_question(trial):
    async with trial.screens() as hands:
        await hands.scan(trial.box.code)
        await hands.press("ctrl+k")
        await hands.a_moment()
        await hands.press("enter")
        await until(hands, lambda: "Did all come out well?" in hands.said)
        before = list(trial.shop.book.places(trial.rotor.id))
        for key in ("2", "7"):
            await hands.type(key)
            await hands.press("enter")
            assert f"A label from 1 to 1 to print again from was expected; {key} came. Print " in hands.said
        # The same key again is no word that they came out well, nor is Enter then.
        await hands.press("ctrl+k")
        assert "1 or 2 and Enter." in hands.said
        await hands.a_moment()
        await hands.press("enter")
        await hands.type("3")
        await hands.press("enter")
        assert "Did all come out well? 1 or 2 and Enter." in hands.said
        assert list(trial.shop.book.places(trial.rotor.id)) == before
        assert open_runs(trial.shop)
        await hands.type("1")
        await hands.press("enter")
        assert not open_runs(trial.shop)


async def test_numbers_are_typed_over_what_stands_there(trial):
    async with trial.screens() as hands:
        await hands.press("f6", "ctrl+k", "tab", "tab")
        await hands.type("98")
        assert hands.app.screen.values["start"] == "98"
        assert "A position from 1 to 16 was expected" in hands.screen_text
        await hands.press("tab")
        await hands.type("2")
        assert hands.app.screen.values["copies"] == "2"


async def test_drawing_says_how_far_it_is_and_can_be_stopped(trial, without_printers, monkeypatch):
    under_way = threading.Event()

    def slowly(job, path, progress):
        while progress(16, job.count):
            under_way.set()
        raise StoppedError("Stopped: no file was made.")

    monkeypatch.setattr(print_labels, "write_labels", slowly)
    async with trial.screens() as hands:
        await hands.press("f6", "ctrl+k", "ctrl+g")
        await until(hands, lambda: "16 of 1. Escape stops it." in hands.screen_text)
        assert under_way.is_set()
        await hands.press("escape")
        await until(hands, lambda: hands.said == "stop: Stopped: no file was made.")
        assert not open_runs(trial.shop)
        assert lacks(trial.shop, trial.bin)


async def test_the_position_follows_the_stock_until_it_is_typed(trial):
    async with trial.screens() as hands:
        await hands.press("f6", "ctrl+k")
        fill(hands, start="5")
        await hands.press("ctrl+g")
        await until(hands, lambda: "Did all come out well?" in hands.said)
        await hands.press("escape", "ctrl+k")
        assert hands.app.screen.values["start"] == "6"
        fill(hands, stock="sheet-a4-3x10-70x29.7")
        await hands.settle()
        assert hands.app.screen.values["start"] == "1"
        fill(hands, start="30")
        fill(hands, stock="sheet-a4-2x8-95x34")
        await hands.press("ctrl+g")
        assert "A position from 1 to 16 was expected" in hands.said
        assert isinstance(hands.app.screen, PrintForm)


async def test_what_cannot_be_printed_is_said_and_the_form_stays(trial, without_printers):
    (without_printers / "there.pdf").write_text("somebody's")
    async with trial.screens() as hands:
        await hands.press("f6", "ctrl+k")
        for field, wrong, said in (
            ("which", "B77", "A bin was expected; B77 is none"),
            ("stock", "stone", "There is no label stock stone"),
            ("copies", "0", "Copies of each:"),
            ("where", "~/labels.txt", "A file that ends in .pdf, .svg, .png was expected"),
        ):
            before = hands.app.screen.values[field]
            fill(hands, **{field: wrong})
            await hands.press("ctrl+g")
            assert said in hands.said
            fill(hands, **{field: before})
        fill(hands, where="~/there.pdf")
        await hands.press("ctrl+g")
        assert "is there already. Enter writes over it" in hands.said
        await hands.press("escape")
        assert (without_printers / "there.pdf").read_text() == "somebody's"
        fill(hands, where="")
        await hands.press("ctrl+g")
        await until(hands, lambda: "no print queue" in hands.said)
        assert hands.said.startswith("stop")
        assert isinstance(hands.app.screen, PrintForm)
        fill(hands, where="~/other.pdf")
        await hands.press("ctrl+g")
        await until(hands, lambda: "Did all come out well?" in hands.said)
        assert not isinstance(hands.app.screen, Form)


async def test_a_rack_is_made_and_its_labels_are_printed(trial, without_printers):
    async with trial.screens() as hands:
        await hands.press("f6", "ctrl+l")
        await hands.type("rack 3, A to F, 1 to 8")
        await hands.press("ctrl+g")
        assert "48 bins for rack 3: 3-A1 to 3-F8" in hands.said
        assert trial.shop.bins.by_code("3-A1") is None
        await hands.a_moment()
        await hands.press("enter")
        assert trial.shop.bins.by_code("3-F8") is not None
        assert "Made 48 bins" in hands.said
        await hands.a_moment()
        await hands.press("enter")
        assert hands.app.screen.values["which"] == "those made now (48)"
        await hands.press("ctrl+g")
        await until(hands, lambda: "Did all come out well?" in hands.said)
        await hands.a_moment()
        await hands.press("enter")
        assert len(lacking(trial.shop, KINDS["bins"])) == 1  # the bin that was there
        await hands.press("ctrl+l")
        await hands.type("rack 3, A to F, 1 to 8")
        await hands.press("ctrl+g")
        assert "all 48 are there already" in hands.said
        fill(hands, rows="rack 3")
        await hands.press("ctrl+g")
        assert "A rack's name and its rows were expected" in hands.said


async def test_what_lacks_a_label_is_listed_from_today_and_set_up(trial):
    async with trial.screens() as hands:
        await hands.type("labels")
        await hands.press("enter")
        assert isinstance(hands.app.screen, Labels)
        assert "! 1 bin lacks one" in hands.screen_text
        await hands.press("escape", "f12", "ctrl+k")
        assert isinstance(hands.app.screen, Labels)
        await hands.type("bins")
        await hands.press("enter", "ctrl+g")
        await until(hands, lambda: "Did all come out well?" in hands.said)
        await hands.press("escape")
        assert "did it come out?" in hands.screen_text
        assert "A3: 1 bin label, to" in hands.screen_text
        await hands.press("home", "enter")
        assert "Did all come out well?" in hands.said
        await hands.a_moment()
        await hands.press("enter")
        assert "did it come out?" not in hands.screen_text
        assert "+ none of 1" in hands.screen_text


async def test_blank_tags_and_the_page_of_commands(trial, without_printers):
    async with trial.screens() as hands:
        await hands.press("f12", "ctrl+k")
        await hands.type("blank bag")
        await hands.press("enter")
        assert hands.app.screen.values["count"] == "30"  # a sheet of them
        fill(hands, count="5")
        await hands.press("ctrl+o")
        assert isinstance(hands.app.screen, LabelPage)
        await hands.press("escape", "ctrl+g")
        await until(hands, lambda: "Did all come out well?" in hands.said)
        (run,) = open_runs(trial.shop)
        assert len(run.tags) == 5
        assert (without_printers / "labels-blank-bag.pdf").exists()
        await hands.press("escape")
        await hands.type("commands")
        await hands.press("enter", "ctrl+g")
        await until(hands, (without_printers / "labels-command.pdf").exists)


async def test_a_printer_that_is_off_is_measured(trial, without_printers):
    async with trial.screens() as hands:
        await hands.press("f12")
        await hands.type("printers")
        await hands.press("enter")
        await until(hands, lambda: "no print queues" in hands.screen_text)
        assert isinstance(hands.app.screen, Printers)
        await hands.press("enter", "ctrl+g")
        await until(hands, (without_printers / "test-page.pdf").exists)
        await until(hands, lambda: "Measure the rulers: 150 mm across" in hands.said)
        await hands.press("ctrl+t")
        fill(hands, across="300")
        await hands.press("ctrl+g")
        assert "About 150 mm were expected" in hands.said
        fill(hands, across="147", left="6", top="4")
        await hands.press("ctrl+g")
        assert "98.00%" in hands.said
        assert "1.1 mm too far right and 1 mm too high" in hands.said
        assert "+ sheet-a4-3x10" in hands.screen_text
        (kept,) = trial.shop.settings.corrections
        assert (kept.across, kept.queue) == (0.98, "")
        await hands.press("ctrl+o")
        assert str(trial.shop.database.folder)[:20] in hands.screen_text


async def test_labels_are_printed_with_taps_alone(trial, without_printers):
    async with trial.screens() as hands:
        await tap(hands, "F6 Racks")
        await tap(hands, "^K Print")
        await tap(hands, "sheet-a4-2x8-95x34")
        assert "roll-50x25-300dpi" in hands.screen_text
        await tap(hands, "roll-50x25-300dpi")
        await tap(hands, "A3")
        await tap(hands, "all there are (1)")
        await tap(hands, "^O Look")
        await tap(hands, "letters")
        await tap(hands, " Print ")
        await until(hands, lambda: "Did all come out well?" in hands.said)
        await tap(hands, "Yes")
        assert not lacks(trial.shop, trial.bin)


async def test_what_stands_on_a_label_finds_the_thing(trial):
    with trial.shop.transaction("people", terminal="office") as tx:
        tx.add(Person(0, "", "", "Lead fabricator"))
    dashed = f"{trial.bin.tag[0]}-{trial.bin.tag[1:]}".lower()
    async with trial.screens() as hands:
        for key, typed, found in (
            ("f6", dashed, "A3"),
            ("f6", "rack a, shelf 3", "A3"),
            ("f8", f"{trial.rotor.tag[0]}-{trial.rotor.tag[1:]}", "Brake rotor"),
            ("f8", "BR-100", "Brake rotor"),
            ("f6", "BR-100", "Brake rotor"),
        ):
            await hands.press(key)
            await hands.type(typed)
            await hands.a_moment()
            await hands.press("enter")
            assert found in hands.screen_text, (key, typed, hands.said)
            await hands.press("escape", "escape", "f2")
        await hands.press("f12")
        await hands.type("people")
        await hands.press("enter")
        await hands.type("lead fab")
        await hands.a_moment()
        assert "Lead fabricator" in hands.screen_text

"""A sheet is shown with the system's viewer, as a copy; what could run is not opened."""

import subprocess
from pathlib import Path

import pytest

from shoptui.domain.records import Joint
from shoptui.jobs import show_file as module
from shoptui.jobs.attach import attach
from shoptui.jobs.show_file import show_file
from shoptui.stations.parts.deeds import what_next


@pytest.fixture
def kept(made, tmp_path):
    def keep(name):
        path = tmp_path / name
        path.write_text(f"110 N m in {name}")
        attach(made.at("office"), made.hub, str(path))
        return next(file for file in made.shop.files.all() if file.name == name)

    return keep


@pytest.fixture
def started(monkeypatch, tmp_path):
    """The viewer, and what it was started with."""
    commands = []
    monkeypatch.setenv("DISPLAY", ":0")
    monkeypatch.setattr(module.sys, "platform", "linux")
    monkeypatch.setattr(module.shutil, "which", lambda name: f"/usr/bin/{name}")
    monkeypatch.setattr(module.tempfile, "mkdtemp", lambda prefix: str(tmp_path))
    monkeypatch.setattr(subprocess, "Popen", lambda command, **_: commands.append(command))
    return commands


def test_a_copy_is_opened_under_its_own_name(made, kept, started):
    file = kept("sheet.txt")
    assert show_file(made.at("office"), file).text == "sheet.txt is opened with this machine's viewer."
    ((viewer, path),) = started
    assert viewer == "/usr/bin/xdg-open"
    assert Path(path).read_text() == "110 N m in sheet.txt"
    assert made.folder not in Path(path).parents


@pytest.mark.parametrize("name", ["run.sh", "sheet.desktop", "page.html", "drawing.svg"])
def test_what_could_run_is_not_opened(made, kept, started, name):
    assert "is no PDF, picture or text" in show_file(made.at("office"), kept(name)).text
    assert not started


def test_without_a_desktop_the_copy_s_place_is_said(made, kept, started, monkeypatch):
    monkeypatch.delenv("DISPLAY")
    monkeypatch.delenv("WAYLAND_DISPLAY", raising=False)
    assert "There is no viewer at this terminal; a copy of a.pdf lies at" in (
        show_file(made.at("office"), kept("a.pdf")).text
    )
    assert not started


def test_the_sheet_of_a_joint_is_among_what_can_be_done(made, kept):
    file = kept("sheet.txt")
    with made.shop.transaction("joint", terminal="office") as tx:
        part = tx.change(made.hub, joints=(Joint("Nut", 1, value="250 N m", sheet=file.id),))
    labels = [choice.label for choice in what_next(made.at("office"), part, 1).question.choices]
    assert "show the sheet sheet.txt" in labels

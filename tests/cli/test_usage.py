"""Wrong usage, missing stores, and everything else that must end in one plain sentence."""

import os
import subprocess
import sys
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from shoptui.cli import main as main_module
from shoptui.cli.main import main
from shoptui.cli.opening import CannotDoError, refuse_unfit_terminal, terminal_name
from shoptui.cli.readings import moment
from shoptui.cli.usage import UsageError, parse

ROOT = Path(__file__).parents[2]


@pytest.mark.parametrize(
    "arguments",
    [
        ["frobnicate"],
        ["--now", "yesterday", "check"],
        ["--now", "2026-13-01", "check"],
        ["--now", "9999-12-31T23:59-12:00", "check"],
        ["--now", "0001-01-01T00:00+12:00", "check"],
        ["import"],
        ["import", "parts", "x.csv"],
        ["scan"],
        ["scan", "--station", "moon"],
        ["missing", "--format", "pdf"],
        ["parts", "--format", "md"],
        ["where"],
        ["history"],
        ["new"],
        ["--stor", "x", "check"],
        ["check", "\x1b[31mred"],
    ],
)
def test_wrong_usage_is_one_sentence_and_2(capsys, arguments):
    assert main(arguments) == 2
    got = capsys.readouterr()
    assert got.out == ""
    assert got.err.count("\n") == 1
    assert "\x1b" not in got.err
    assert got.err.startswith("shoptui")


def test_help_and_version_are_no_failure(capsys):
    assert main(["--help"]) == 0
    assert "missing" in capsys.readouterr().out
    assert main(["missing", "--help"]) == 0


@pytest.mark.parametrize(
    "command",
    [
        ["boxes"],
        ["parts"],
        ["missing"],
        ["where", "x"],
        ["history", "x"],
        ["undo"],
        ["check"],
        ["scan", "--station", "lift"],
        ["import", "shop", "x"],
    ],
)
def test_a_folder_that_is_no_store_is_one_sentence_and_1(run, command, tmp_path):
    (tmp_path / "shop").mkdir()
    (tmp_path / "shop" / "holiday.txt").write_text("x")
    ran = run(*command)
    assert (ran.code, ran.out) == (1, "")
    assert ran.err.startswith("There is no store in ")
    assert "shoptui new DIR" in ran.err
    assert ran.err.count("\n") == 1


def test_without_any_store_it_says_how_to_make_one(capsys, monkeypatch, tmp_path):
    monkeypatch.delenv("SHOPTUI_STORE", raising=False)
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    monkeypatch.setenv("HOME", str(tmp_path))
    assert main(["check"]) == 1
    assert "shoptui new DIR" in capsys.readouterr().err


def test_the_store_is_named_by_option_or_variable(capsys, monkeypatch, tmp_path):
    assert main(["new", str(tmp_path / "a")]) == 0
    monkeypatch.setenv("SHOPTUI_STORE", str(tmp_path / "a"))
    assert main(["check"]) == 0
    assert main(["--store", str(tmp_path / "b"), "check"]) == 1


def test_new_never_touches_a_folder_in_use(run, tmp_path):
    (tmp_path / "x").mkdir()
    (tmp_path / "x" / "letter.txt").write_text("dear")
    for more in ((), ("--sample",)):
        ran = run("new", str(tmp_path / "x"), *more)
        assert ran.code == 1
        assert [path.name for path in (tmp_path / "x").iterdir()] == ["letter.txt"]


def test_a_shop_inside_another_is_refused(run, sample_shop, tmp_path):
    for more in ((), ("--sample",)):
        ran = run("new", str(sample_shop / "files" / "deep" / "shop"), *more)
        assert (ran.code, ran.out) == (1, "")
        assert "is inside the shop in" in ran.err
    assert not (sample_shop / "files" / "deep").exists()
    assert run("new", str(tmp_path / "beside")).code == 0


def test_what_nobody_foresaw_is_a_sentence_and_its_details_a_file(run, monkeypatch, tmp_path):
    def fail(_):
        raise ZeroDivisionError("odd")

    monkeypatch.setattr(main_module, "command", lambda _: fail)
    monkeypatch.setattr(main_module.tempfile, "tempdir", str(tmp_path))
    ran = run("check")
    assert (ran.code, ran.out) == (1, "")
    assert ran.err.startswith("The program met something unforeseen (ZeroDivisionError)")
    assert "Traceback" not in ran.err
    (details,) = tmp_path.glob("shoptui-*.txt")
    assert details.name in ran.err
    assert "odd" in details.read_text()


def test_a_value_error_of_nobody_is_not_shown_as_words(run, monkeypatch, tmp_path):
    def fail(_):
        raise ValueError("invalid literal for int() with base 10: 'x'")

    monkeypatch.setattr(main_module, "command", lambda _: fail)
    monkeypatch.setattr(main_module.tempfile, "tempdir", str(tmp_path))
    assert "unforeseen" in run("check").err


def test_ctrl_c_ends_quietly(run, monkeypatch):
    def stop(_):
        raise KeyboardInterrupt

    monkeypatch.setattr(main_module, "command", lambda _: stop)
    ran = run("check")
    assert (ran.code, ran.out, ran.err) == (130, "", "")


def test_a_reader_who_left_is_no_noise(sample_shop):
    """As `shoptui parts | head -1` does; played with a real pipe."""
    read, write = os.pipe()
    os.close(read)
    done = subprocess.run(
        [sys.executable, "-m", "shoptui", "--store", str(sample_shop), "parts"],
        stdout=write,
        stderr=subprocess.PIPE,
        cwd=ROOT,
        check=False,
    )
    os.close(write)
    assert done.stderr == b""


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_a_full_disk_behind_the_output_is_a_sentence(sample_shop):
    with Path("/dev/full").open("wb") as full:
        done = subprocess.run(
            [sys.executable, "-m", "shoptui", "--store", str(sample_shop), "parts"],
            stdout=full,
            stderr=subprocess.PIPE,
            text=True,
            cwd=ROOT,
            check=False,
        )
    assert (done.returncode, done.stderr) == (1, "It could not be done: no space left on device.\n")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_help_that_nobody_can_read_is_a_failure():
    with Path("/dev/full").open("wb") as full:
        command = [sys.executable, "-m", "shoptui", "--help"]
        done = subprocess.run(command, stdout=full, stderr=subprocess.PIPE, text=True, cwd=ROOT, check=False)
    assert (done.returncode, done.stderr) == (1, "It could not be done: no space left on device.\n")


@pytest.mark.parametrize(
    ("environ", "words"),
    [
        ({"TERM": "dumb", "LANG": "C.UTF-8"}, "dumb"),
        ({"TERM": "xterm"}, "locale is not set"),
        ({"TERM": "xterm", "LANG": "C"}, "locale is C,"),
        ({"TERM": "xterm", "LANG": "de_DE.ISO-8859-1"}, "ISO-8859-1"),
        ({"TERM": "xterm", "LC_ALL": "POSIX", "LANG": "C.UTF-8"}, "locale is POSIX,"),
        ({"TERM": "xterm", "LC_CTYPE": "C", "LANG": "en_GB.UTF-8"}, "locale is C,"),
        ({"TERM": "xterm", "LC_ALL": "", "LC_CTYPE": "", "LANG": ""}, "not set"),
    ],
)
def test_a_terminal_that_cannot_show_the_screens_is_refused(environ, words):
    with pytest.raises(CannotDoError, match=words) as told:
        refuse_unfit_terminal(environ, on_windows=False)
    assert str(told.value).count(". ") == 0


@pytest.mark.parametrize(
    "environ",
    [
        {"LANG": "C.UTF-8"},
        {"LC_ALL": "en_GB.utf8", "LANG": "C"},
        {"LC_CTYPE": "de_DE.UTF-8@euro", "LANG": "C"},
    ],
)
def test_a_fit_locale_gets_as_far_as_the_terminal(environ, monkeypatch):
    monkeypatch.setattr(sys.stdin, "isatty", lambda: False, raising=False)
    with pytest.raises(CannotDoError, match="screens need a terminal"):
        refuse_unfit_terminal({"TERM": "xterm", **environ}, on_windows=False)


def test_screens_are_refused_before_anything_is_made(capsys, monkeypatch, tmp_path):
    monkeypatch.setenv("TERM", "dumb")
    assert main(["demo", "--keep", str(tmp_path / "kept")]) == 1
    assert not (tmp_path / "kept").exists()
    assert capsys.readouterr().err.count("\n") == 1


def test_a_moment_has_an_offset_or_is_local():
    assert moment("2026-11-04T09:30+01:00").utcoffset() == timedelta(hours=1)
    assert moment("2026-11-04T09:30").replace(tzinfo=None) == datetime(2026, 11, 4, 9, 30)  # noqa: DTZ001 - local
    assert moment("2026-11-04").hour == 12
    assert moment("2026-11-04T00:00").hour == 0


@pytest.mark.parametrize("name", ["", "  ", "a\x1bb", "x" * 61, "a\u202eb"])
def test_a_terminal_s_name_is_printable(name):
    with pytest.raises(CannotDoError, match="terminal's name"):
        terminal_name(parse(["--terminal", name, "check"]))


def test_a_terminal_is_named_by_option_variable_or_machine(monkeypatch):
    monkeypatch.setenv("SHOPTUI_TERMINAL", "cart")
    assert terminal_name(parse(["check"])) == "cart"
    assert terminal_name(parse(["--terminal", "lift 1", "check"])) == "lift 1"
    monkeypatch.delenv("SHOPTUI_TERMINAL")
    assert (unnamed := terminal_name(parse(["check"])))
    monkeypatch.setenv("SHOPTUI_TERMINAL", "")
    assert terminal_name(parse(["check"])) == unnamed


def test_usage_errors_are_raised_not_printed():
    with pytest.raises(UsageError):
        parse(["nonsense"])

"""Ctrl+C in long work: it stops between two steps and nothing has changed; too late, the work is done."""

import io
import os
import signal

import pytest

from shoptui.cli import progress
from shoptui.jobs.steps import each
from shoptui.store.transaction import Transaction


@pytest.fixture
def interrupted(monkeypatch):
    """Press Ctrl+C in a step of some work."""

    def press(doing, step):
        told = progress.Shown.__call__

        def at_that_step(self, what, at, all_):
            if (what, at) == (doing, step):
                os.kill(os.getpid(), signal.SIGINT)
            return told(self, what, at, all_)

        monkeypatch.setattr(progress.Shown, "__call__", at_that_step)

    return press


@pytest.fixture
def shop(run, tmp_path):
    folder = tmp_path / "shop"
    run("new", str(folder))
    (tmp_path / "shop.toml").write_text('[[builds]]\ncode = "wagon"\ntitle = "Wagon"\n')
    run("--store", str(folder), "import", "shop", str(tmp_path / "shop.toml"))
    rows = "".join(f"Part {number},C-{number}\n" for number in range(10))
    (tmp_path / "parts.csv").write_text(f"description,code\n{rows}")
    return folder


def bytes_of(folder):
    return {path.name: path.read_bytes() for path in folder.iterdir() if path.is_file()}


@pytest.mark.parametrize("doing", ["Reading rows", "Writing parts", "Writing what belongs to them"])
def test_an_import_that_is_stopped_changes_nothing(run, shop, tmp_path, interrupted, doing):
    before = bytes_of(shop)
    interrupted(doing, 5)
    ran = run("--store", str(shop), "import", "parts", str(tmp_path / "parts.csv"), "--build", "wagon")
    assert (ran.code, ran.out, ran.err) == (130, "", "Stopped. Nothing was imported.\n")
    assert bytes_of(shop) == before


def test_too_late_to_stop_is_done_and_said(run, shop, tmp_path, monkeypatch):
    finish = Transaction.finish

    def finishing(self):
        os.kill(os.getpid(), signal.SIGINT)
        finish(self)

    monkeypatch.setattr(Transaction, "finish", finishing)
    ran = run("--store", str(shop), "import", "parts", str(tmp_path / "parts.csv"), "--build", "wagon")
    assert (ran.code, ran.err) == (0, "")
    assert "10 parts of wagon imported" in ran.out


def test_the_invented_shop_is_made_whole_or_not_at_all(run, tmp_path, interrupted):
    interrupted("Playing the invented shop's history", 7)
    ran = run("new", str(tmp_path / "sample"), "--sample")
    assert (ran.code, ran.err) == (130, "Stopped. No shop was made.\n")
    assert not (tmp_path / "sample").exists()


def test_how_far_it_is_stands_on_a_terminal_only_and_goes_away(monkeypatch):
    class Terminal(io.StringIO):
        def isatty(self):
            return True

    monkeypatch.setattr(progress, "SHOWN_AFTER", 0.0)
    monkeypatch.setattr(progress, "SHOWN_EVERY", 0.0)
    monkeypatch.setattr(progress.sys, "stderr", shown := Terminal())
    with progress.under_way("Nothing was done."):
        assert list(each("ab", "Reading rows")) == ["a", "b"]
    first, second, rest = shown.getvalue().split("\r")[1:4]
    assert (first, second) == (
        "Reading rows: 0 of 2. Ctrl+C stops it.",
        "Reading rows: 1 of 2. Ctrl+C stops it.",
    )
    assert not rest.strip()
    monkeypatch.setattr(progress.sys, "stderr", file := io.StringIO())
    with progress.under_way("Nothing was done."):
        list(each("ab", "Reading rows"))
    assert not file.getvalue()

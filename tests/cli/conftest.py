import io
import json
import shutil
import sys
from dataclasses import dataclass

import pytest

from shoptui.cli.main import main

NOW = "2026-11-04T09:30"


@dataclass
class Ran:
    """What a command left behind."""

    code: int
    out: str
    err: str

    @property
    def json(self):
        return json.loads(self.out)


@pytest.fixture
def run(capsys, monkeypatch, tmp_path):
    """Run a command in this process, on the store `shop` in the test's folder, at a fixed moment."""
    monkeypatch.delenv("SHOPTUI_STORE", raising=False)
    monkeypatch.delenv("SHOPTUI_TERMINAL", raising=False)

    def run(*arguments, store="shop", scans=b"", terminal="door", now=NOW):
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(scans)))
        capsys.readouterr()
        before = ("--store", str(tmp_path / store), "--now", now, "--terminal", terminal)
        code = main([*before, *arguments])
        got = capsys.readouterr()
        return Ran(code, got.out, got.err)

    return run


@pytest.fixture(scope="session")
def sample(tmp_path_factory):
    """The invented shop, made once."""
    folder = tmp_path_factory.mktemp("sample") / "shop"
    assert main(["--now", "2026-11-04T09:00", "new", str(folder), "--sample"]) == 0
    return folder


@pytest.fixture
def sample_shop(sample, tmp_path):
    """A copy of the invented shop, where `run` looks for it."""
    shutil.copytree(sample, tmp_path / "shop")
    return tmp_path / "shop"


@pytest.fixture
def unchanged(sample_shop):
    """Say whether every file of the shop is as it was at the start."""

    def picture():
        return {path: path.read_bytes() for path in sample_shop.rglob("*") if path.is_file()}

    before = picture()
    return lambda: picture() == before


@pytest.fixture
def states(run):
    """Return how many pieces of a part are where, without those that are nowhere."""

    def states(code):
        (part,) = [part for part in run("parts", "--format", "json").json if part["code"] == code]
        there = {state: qty for state, qty in part["states"].items() if qty and state != "not ours"}
        return {**there, "to order": part["to_order"]} if part["to_order"] else there

    return states

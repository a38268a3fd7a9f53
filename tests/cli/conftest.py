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

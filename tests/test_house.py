"""The rules of the house: style, types, which way imports point, examples that run."""

import doctest
import importlib
import os
import pkgutil
import subprocess
import sys
from pathlib import Path

import pytest

import shoptui

ROOT = Path(__file__).parent.parent
PLAIN = {**os.environ, "NO_COLOR": "1", "PYTHONPATH": str(ROOT)}


def modules() -> list[str]:
    return [
        module.name
        for module in pkgutil.walk_packages(shoptui.__path__, "shoptui.")
        if not module.name.endswith("__main__")
    ]


@pytest.mark.parametrize(
    "command",
    [
        ["ruff", "check", "shoptui", "tests"],
        ["ruff", "format", "--check", "shoptui", "tests"],
        ["mypy", "shoptui"],
    ],
    ids=["ruff", "format", "mypy"],
)
def test_the_tools_find_nothing(command):
    done = subprocess.run(
        [sys.executable, "-m", *command], cwd=ROOT, env=PLAIN, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr


def test_imports_point_one_way():
    linter = "from importlinter.cli import lint_imports_command; lint_imports_command()"
    done = subprocess.run(
        [sys.executable, "-c", linter, "--no-cache"],
        cwd=ROOT,
        env=PLAIN,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.mark.parametrize("name", modules())
def test_examples_run(name):
    failed, _ = doctest.testmod(importlib.import_module(name))
    assert not failed


@pytest.mark.parametrize(
    ("statement", "unwanted"),
    [
        ("import shoptui.cli.main", {"textual", "tinydb", "biip", "barcode", "reportlab", "PIL"}),
        ("import shoptui.jobs.missing", {"textual", "rich", "biip", "barcode", "reportlab"}),
        ("import shoptui.stations.app", {"biip", "barcode", "reportlab", "PIL"}),
        ("import shoptui.labels.files, shoptui.labels.test_page", {"barcode", "reportlab", "PIL", "tinydb"}),
        (
            "import shoptui.jobs.came_out, shoptui.jobs.label_printers, shoptui.jobs.bins_in_rows",
            {"barcode", "reportlab", "PIL", "textual"},
        ),
        ("import shoptui.labels.screen, shoptui.labels.printing", {"barcode", "reportlab", "PIL", "textual"}),
    ],
)
def test_nothing_heavy_is_imported(statement, unwanted):
    show = f"{statement}\nimport sys; print('\\n'.join(sys.modules))"
    done = subprocess.run([sys.executable, "-c", show], capture_output=True, text=True, check=True)
    assert not {module.split(".")[0] for module in done.stdout.split()} & unwanted

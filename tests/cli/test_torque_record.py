"""The torque record of the invented shop, in every format."""

import csv
import io

import pytest

from shoptui.jobs.torque_record import COLUMNS


def test_every_format_says_the_same(run, sample_shop):
    joints = run("readings", "--build", "longbed", "--format", "json").json
    assert joints
    assert {"joint", "stands", "open", "due", "readings"} <= joints[0].keys()
    text = run("readings", "--build", "longbed")
    assert text.code == 0
    assert text.out.startswith("Torque record: Long-bed utility (longbed), 2026-11-04")
    assert max(map(len, text.out.splitlines())) <= 80
    assert text.out.count("[ ]") == sum(joint["open"] or joint["due"] for joint in joints)
    assert sum(map(text.out.count, (": NOT DONE", ": done"))) == len(joints)
    found = list(csv.DictReader(io.StringIO(run("readings", "--build", "longbed", "--format", "csv").out)))
    assert list(found[0]) == list(COLUMNS)
    assert len(found) == sum(max(1, len(joint["readings"])) for joint in joints)
    assert run("readings", "--build", "longbed", "--format", "md").out.startswith("# Torque record")


def test_only_what_is_open(run, sample_shop):
    joints = run("readings", "--format", "json").json
    left = run("readings", "--open", "--format", "json").json
    assert left == [joint for joint in joints if joint["open"] or joint["due"]]
    assert left


def test_an_empty_shop_has_an_empty_record(run, tmp_path):
    run("new", str(tmp_path / "shop"))
    assert "No joint of what is on is written down." in run("readings").out
    assert run("readings", "--format", "json").json == []


@pytest.mark.parametrize("format_", ["text", "md", "csv", "json"])
def test_reading_changes_nothing(run, unchanged, format_):
    assert run("readings", *(("--format", format_) if format_ != "text" else ())).code == 0
    assert unchanged()

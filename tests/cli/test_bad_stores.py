"""Stores that cannot be used: each is a sentence, and nothing is changed or lost."""

import json
import os
import subprocess
import sys
import threading
from datetime import UTC, datetime
from pathlib import Path

import pytest

from shoptui.cli.main import main
from shoptui.store.database import Database
from shoptui.store.shop import Shop

ROOT = Path(__file__).parents[2]


def sentence(ran, words):
    assert (ran.code, ran.out) == (1, "")
    assert words in ran.err
    assert "Traceback" not in ran.err


def journal(folder):
    return max(folder.glob("journal-*.jsonl"))


def test_a_newer_store_is_refused(run, tmp_path):
    Database.create(tmp_path / "shop", schema=99).close()
    sentence(run("check"), "format 99; this program knows formats up to")


def test_a_journal_damaged_in_the_middle_is_reported_and_left_alone(run, sample_shop):
    path = journal(sample_shop)
    bytes_ = bytearray(path.read_bytes())
    bytes_[len(bytes_) // 2] ^= 0xFF
    path.write_bytes(bytes_)
    sentence(run("check"), "The store is damaged")
    assert path.read_bytes() == bytes(bytes_)


def test_a_torn_tail_loses_only_what_was_never_acknowledged(run, sample_shop):
    path = journal(sample_shop)
    whole, sound = path.read_bytes(), run("check").out
    record = whole.splitlines(keepends=True)[-1]
    path.write_bytes(whole + record[: len(record) // 2])
    assert run("check").out == sound


@pytest.mark.skipif(os.name != "posix" or os.geteuid() != 0, reason="needs root, to become nobody")
def test_without_permission_a_sentence(child, sample_shop):
    for path in (sample_shop, *sample_shop.rglob("*")):
        path.chmod(0o700)

    def as_nobody():
        os.setuid(65534)
        assert main(["--store", str(sample_shop), "check"]) == 1

    assert child(as_nobody) == 0


@pytest.mark.skipif(sys.platform == "win32", reason="no such limit there")
def test_a_full_disk_in_the_middle_of_scans_is_a_stop_and_the_rest_stands(sample_shop):
    room = journal(sample_shop).stat().st_size + 2500
    limited = (
        "import resource, signal, sys; signal.signal(signal.SIGXFSZ, signal.SIG_IGN);"
        f"resource.setrlimit(resource.RLIMIT_FSIZE, ({room}, {room}));"
        "from shoptui.cli.main import main; sys.exit(main(sys.argv[1:]))"
    )
    store = ("--store", str(sample_shop), "--terminal", "full")
    scans = "".join(f"{code}\n" for code in ("X-TEN22J", *(f"EN-0{number}" for number in range(1, 9))))
    done = subprocess.run(
        [sys.executable, "-c", limited, *store, "scan", "--station", "receiving", "--json"],
        input=scans,
        capture_output=True,
        text=True,
        cwd=ROOT,
        check=False,
    )
    answers = [json.loads(line) for line in done.stdout.splitlines()]
    said = [answer["answer"] for answer in answers]
    assert (done.returncode, done.stderr) == (1, "")
    assert said[0] == "done"
    assert said[-1] == "stop"
    assert "could not be written" in " ".join(answer["text"] for answer in answers)
    shop = Shop.open(sample_shop, clock=lambda: datetime(2026, 11, 4, tzinfo=UTC))
    received = sum(shop.box_index.received("XTEN22J").values())
    assert received == sum(answer["part"] != "" and answer["answer"] == "done" for answer in answers)
    shop.close()


def test_another_writer_is_waited_for(run, sample_shop):
    """As while another process compacts: it holds the lock for a while, and the scan waits and works."""
    other = Database(sample_shop)
    holds, done = threading.Event(), threading.Event()

    def hold():
        with other.transaction():
            holds.set()
            done.wait(0.3)

    thread = threading.Thread(target=hold)
    thread.start()
    holds.wait(5)
    ran = run("scan", "--station", "receiving", scans=b"X-TEN22J\n")
    done.set()
    thread.join()
    other.close()
    assert (ran.code, ran.out.split("\t")[0]) == (0, "done")

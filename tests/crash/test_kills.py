"""Three writers, killed with signal 9 at any moment or dying in the middle of a write, over and over.

What was acknowledged is there, once; what was not is there whole or not at all. `--long` does many rounds.
"""

import random
import subprocess
import sys
import time
from pathlib import Path

import pytest

from shoptui.store.database import Database

WRITER = Path(__file__).with_name("writer.py")
NAMES = ("A", "B", "C")


def start(folder, name, seed, cut=0.0):
    command = [sys.executable, WRITER, folder, name, str(seed), str(cut)]
    # Unbuffered: what `readline` has taken into a buffer, `communicate` would not return.
    return subprocess.Popen(command, bufsize=0, stdout=subprocess.PIPE, stderr=subprocess.PIPE)


def last_count(written):
    whole = written[: written.rfind(b"\n") + 1].split()
    return int(whole[-1]) if whole else 0


def check(folder, acknowledged, watcher):
    """Compare the store with what its writers were told; return the count of each."""
    database = Database(folder)
    watcher.refresh()
    for table in ("rows", "counts"):
        assert dict(watcher.documents(table)) == dict(database.documents(table))
    rows = {name: [] for name in NAMES}
    for row in database.documents("rows").values():
        rows[row["writer"]].append(row["n"])
    counts = {each["writer"]: each["count"] for each in database.documents("counts").values()}
    database.close()
    for name in NAMES:
        count = counts.get(name, 0)
        assert sorted(rows[name]) == list(range(1, count + 1)), "a transaction is there in part, or twice"
        assert acknowledged[name] <= count <= acknowledged[name] + 1, "acknowledged and lost, or made up"
    return {name: counts.get(name, 0) for name in NAMES}


def rounds(folder, how_many, one_round):
    # It sleeps while the others write, and then has to find its way, over several generations or one.
    watcher = Database.create(folder)
    acknowledged = dict.fromkeys(NAMES, 0)
    written = 0
    for number in range(how_many):
        for name, output in one_round(number).items():
            acknowledged[name] = max(acknowledged[name], last_count(output))
        acknowledged = check(folder, acknowledged, watcher)
        written = sum(acknowledged.values())
    generation = watcher.generation
    watcher.close()
    return written, generation


@pytest.fixture
def report(capsys):
    def say(words):
        with capsys.disabled():
            print(f"\n{words}")  # noqa: T201 - the counts of a long run are kept

    return say


def test_killed_with_signal_9(folder, long, report):
    rng = random.Random(952)
    how_many = 200 if long else 4

    def one_round(number):
        writers = {name: start(folder, name, number * 10 + place) for place, name in enumerate(NAMES)}
        # All three are at it before the first is killed; where in its work it is then is left to chance.
        first = {name: writer.stdout.readline() for name, writer in writers.items()}
        for writer in writers.values():
            time.sleep(rng.uniform(0, 0.05))
            writer.kill()
        return {name: first[name] + writer.communicate()[0] for name, writer in writers.items()}

    written, generation = rounds(folder, how_many, one_round)
    assert written > how_many
    if long:
        report(
            f"{how_many} rounds of kill -9, three writers: {written} transactions, {generation} generations, "
            f"0 lost, 0 doubled"
        )


def test_dying_in_the_middle_of_a_write(folder, long, report):
    how_many = 200 if long else 4

    def one_round(number):
        writers = {name: start(folder, name, number * 10 + at, 0.1) for at, name in enumerate(NAMES)}
        outputs = {}
        for name, writer in writers.items():
            outputs[name], errors = writer.communicate(timeout=60)
            assert writer.returncode == 9, errors.decode()
        return outputs

    written, generation = rounds(folder, how_many, one_round)
    assert written > how_many
    if long:
        report(
            f"{how_many} rounds of cut writes, three writers: {written} transactions, "
            f"{generation} generations, 0 lost, 0 doubled"
        )

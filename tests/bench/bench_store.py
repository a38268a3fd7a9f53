"""How fast the store is, each figure beside its baseline in one run: python tests/bench/bench_store.py

The big store has 10,000 parts and 100,000 moves, each with its own transaction; the small one 100 of both.
"""

import gc
import json
import os
import random
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from statistics import median, quantiles

from shoptui.domain.ledger import Move
from shoptui.domain.places import Place, State
from shoptui.store.database import Database
from shoptui.store.shop import Shop

PARTS, MOVES, ROUNDS, WRITERS = 10_000, 100_000, 500, 3
NOW = datetime(2031, 5, 12, 8, 30, tzinfo=UTC)


def fill(folder: Path, parts: int, moves: int) -> None:
    """Make a store of parts and moves as the program writes them."""
    database = Database.create(folder)
    with database.transaction():
        for number in range(1, parts + 1):
            database.insert(
                "parts",
                {
                    "code": f"B7-{number:05}",
                    "tag": f"P{number:06}",
                    "build": 1,
                    "description": f"Bracket no {number}",
                    "maker": "Example Works",
                    "number": f"EW-{number * 7}",
                    "section": f"Section {number % 10}",
                    "needed": 2,
                },
            )
            made = {"transaction": 1, "table": "parts", "record": number, "field": "made"}
            database.insert("edits", made)
    database.compact()
    for first in range(1, moves + 1, 1000):
        with database.transaction():
            for number in range(first, min(first + 1000, moves + 1)):
                row = {"when": NOW.isoformat(), "terminal": "bench", "words": f"received 1 x part {number}"}
                own = database.insert("transactions", row)
                part, order = number % parts + 1, number % 3000 + 1
                move = {"transaction": own, "part": part, "qty": 1, "ref": f"X{number % 900:06}"}
                places = {"from": ["ordered", order, ""], "to": ["received", number % 200, "sealed"]}
                database.insert("moves", move | places)
    database.close()


def receipt(shop: Shop, number: int) -> None:
    """Do what one scanned receipt does to the store."""
    part = number % 100 + 1
    with shop.transaction("received 1", terminal="bench") as transaction:
        source = Place(State.NOT_OURS, 5)
        transaction.enter([Move(part, 1, source, Place(State.RECEIVED, 3, "sealed"), ref="X000001")])
        transaction.change(shop.parts.get(part), notes=f"seen {number}")


def each(job: Callable[[int], None], rounds: int) -> list[float]:
    """Return the seconds of each call."""
    took = []
    for number in range(rounds):
        start = time.perf_counter()
        job(number)
        took.append(time.perf_counter() - start)
    return took


def appending(big: Path, small: Path) -> tuple[list[float], list[float], list[float]]:
    """Return seconds of a bare append and fsync, and of a receipt in the big and small store, by turns."""
    bare: list[float] = []
    large: list[float] = []
    little: list[float] = []
    shops = Shop.open(big, clock=lambda: NOW), Shop.open(small, clock=lambda: NOW)
    before = shops[0].database.position.offset
    receipt(shops[0], ROUNDS)
    size = shops[0].database.position.offset - before
    descriptor = os.open(big / "bare", os.O_WRONLY | os.O_CREAT | os.O_APPEND)

    def append(_: int) -> None:
        os.write(descriptor, b"x" * size)
        os.fsync(descriptor)

    for first in range(ROUNDS // 25):
        bare += each(append, 25)
        large += each(lambda number: receipt(shops[0], first * 25 + number), 25)  # noqa: B023 - called at once
        little += each(lambda number: receipt(shops[1], first * 25 + number), 25)  # noqa: B023 - likewise
    os.close(descriptor)
    (big / "bare").unlink()
    for shop in shops:
        shop.close()
    return bare, large, little


def opening(folder: Path) -> None:
    """Open a store; print seconds and megabytes as JSON, beside those of parsing its JSON alone."""
    empty = _resident()
    start = time.perf_counter()
    database = Database(folder)
    tables = time.perf_counter() - start
    shop = Shop(database, lambda: NOW, random.Random(1))
    whole = time.perf_counter() - start
    figures = {"tables": tables, "whole": whole, "empty": empty, "opened": _resident()}
    path = folder / f"snapshot-{database.generation}.json"
    shop.close()
    gc.disable()
    start = time.perf_counter()
    json.loads(path.read_bytes())
    figures["bare"] = time.perf_counter() - start
    print(json.dumps(figures))  # noqa: T201 - read by `main`


def snapshot(folder: Path) -> None:
    """Write a snapshot in the idle moments; print seconds and the most megabytes as JSON."""
    shop = Shop.open(folder, clock=lambda: NOW)
    due = [True]
    shop.database._tidying.due = lambda *_: bool(due and due.pop())  # type: ignore[method-assign]
    start, stalls, busy = time.perf_counter(), [0.0], True
    while busy:
        begun = time.perf_counter()
        busy = shop.database.idle()
        stalls.append(time.perf_counter() - begun)
        time.sleep(0.01)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    took = time.perf_counter() - start
    print(json.dumps({"took": took, "stall": max(stalls), "peak": peak}))  # noqa: T201 - read by `main`


def writing(folder: Path) -> None:
    """Append receipts as fast as the lock lets us; print the seconds of each as JSON."""
    shop = Shop.open(folder, clock=lambda: NOW)
    print(json.dumps(each(lambda number: receipt(shop, number), 200)))  # noqa: T201 - likewise


def foreign(small: Path) -> list[float]:
    """Return the seconds in which one process takes in what another wrote."""
    ours, theirs = Database(small), Database(small)
    took = []
    for number in range(300):
        with theirs.transaction():
            theirs.insert("shoots", {"code": f"S{number}"})
        took += each(lambda _: ours.refresh(), 1)  # type: ignore[arg-type,return-value]
    return took


def _resident() -> float:
    line = next(
        line for line in Path("/proc/self/status").read_text().splitlines() if line.startswith("VmRSS")
    )
    return int(line.split()[1]) / 1024


def _again(what: str, folder: Path) -> subprocess.Popen[str]:
    return subprocess.Popen([sys.executable, __file__, what, folder], stdout=subprocess.PIPE, text=True)


def _row(what: str, value: str, beside: str = "", goal: str = "") -> None:
    print(f"{what:46} {value:>24}   {beside:32} {goal}")  # noqa: T201 - the table is the point


def _times(took: list[float]) -> str:
    return f"{median(took) * 1000:.2f} ms (p99 {quantiles(took, n=100)[98] * 1000:.2f})"


def main() -> None:
    """Print the table."""
    with tempfile.TemporaryDirectory(dir=os.environ.get("BENCH_DIR")) as place:
        big, small = Path(place) / "big", Path(place) / "small"
        fill(big, PARTS, MOVES)
        fill(small, 100, 100)
        _row(
            "store",
            f"{PARTS} parts, {MOVES} moves",
            f"{sum(f.stat().st_size for f in big.iterdir()) >> 20} MiB",
        )
        bare, large, little = appending(big, small)
        _row("bare append and fsync", _times(bare))
        ratio = f"{median(large) / median(bare):.2f} x bare, {median(large) / median(little):.2f} x small"
        _row("receipt, big store", _times(large), ratio, "<= 2.5 x, <= 1.3 x")
        _row("receipt, 100 parts", _times(little), f"{median(little) / median(bare):.2f} x bare")
        opened = [json.loads(_again("open", big).communicate()[0]) for _ in range(5)]
        whole, tables, alone = (median(each[name] for each in opened) for name in ("whole", "tables", "bare"))
        _row(
            "open, all listeners fed",
            f"{whole:.2f} s",
            f"tables {tables:.2f}, bare JSON {alone:.2f} s",
            "< 1 s",
        )
        written = json.loads(_again("snapshot", big).communicate()[0])
        stall = f"longest stall {written['stall'] * 1000:.1f} ms"
        _row("snapshot in idle moments", f"{written['took']:.2f} s", stall)
        resident = f"{opened[0]['opened']:.0f} MB open, {opened[0]['empty']:.0f} empty"
        _row("most resident while it is written", f"{written['peak']:.0f} MB", resident, "< 300 MB")
        _row("another's record taken in", _times(foreign(small)))
        writers = [_again("write", small) for _ in range(WRITERS)]
        took = [json.loads(writer.communicate()[0]) for writer in writers]
        _row(
            f"receipt, {WRITERS} writers at full speed", _times([one for each_of in took for one in each_of])
        )


if __name__ == "__main__":
    if len(sys.argv) > 1:
        {"open": opening, "snapshot": snapshot, "write": writing}[sys.argv[1]](Path(sys.argv[2]))
    else:
        main()

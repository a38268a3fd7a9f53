"""How fast jobs and reports are, beside their baselines in one run: python tests/bench/bench_reports.py."""

import json
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from statistics import median

from big_shop import TERMINAL, big_shop, copied, now, scans_of
from table import ms, row, times

from shoptui.jobs.answers import Said
from shoptui.jobs.missing import find_shoot, missing
from shoptui.jobs.place_words import today
from shoptui.jobs.print_lacking import lacking_words
from shoptui.jobs.sample import make_sample
from shoptui.jobs.scan import Scanning
from shoptui.jobs.today import today_lines
from shoptui.store.shop import Shop

ROUNDS, TURN, STARTS = 500, 25, 15
SMALL = (100, 1000)


def timed(job: Callable[[], object]) -> float:
    """Return the seconds of one call."""
    start = time.perf_counter()
    job()
    return time.perf_counter() - start


class Door:
    """One store with its scanner at Receiving."""

    def __init__(self, folder: Path) -> None:
        self.shop = Shop.open(folder, clock=now)
        self.scanning = Scanning(self.shop, TERMINAL, station="receiving")
        self._codes = scans_of(self.shop).codes
        self._next = 0

    def receive(self) -> None:
        """Scan the next thing."""
        self._next += 1
        answer = self.scanning.take(self._codes[self._next % len(self._codes)])
        if answer.said is not Said.DONE:
            raise RuntimeError(answer.text)


def receipts(folder: Path) -> None:
    """A scanned receipt acknowledged on disk, in a big and a small store, beside a bare append and fsync."""
    big, small = Door(copied(folder / "big")), Door(copied(folder / "small", *SMALL))
    before = big.shop.database.position.offset
    big.receive()
    record = b"x" * (big.shop.database.position.offset - before)
    file = os.open(folder / "big" / "bare", os.O_WRONLY | os.O_CREAT | os.O_APPEND)

    def append() -> None:
        os.write(file, record)
        os.fsync(file)

    took: dict[str, list[float]] = {"bare": [], "big": [], "small": []}
    jobs = {"bare": append, "big": big.receive, "small": small.receive}
    for _ in range(ROUNDS // TURN):
        for name, job in jobs.items():
            took[name] += [timed(job) for _ in range(TURN)]
    os.close(file)
    row("bare append and fsync", ms(took["bare"]), f"{len(record)} bytes")
    row(
        "one scanned receipt acknowledged",
        ms(took["big"]),
        f"{times(took['big'], took['bare'], 'bare')}, {times(took['big'], took['small'], '100 parts')}",
        "<= 2.5 x, <= 1.3 x",
    )
    row("  the same at 100 parts", ms(took["small"]), times(took["small"], took["bare"], "bare"))
    for door in (big, small):
        door.shop.close()


def reports() -> None:
    """`missing` in memory, the first time and again, beside one look at every part's balances."""
    shop = Shop.open(big_shop(), clock=now)
    day = today(shop)
    first = timed(lambda: missing(shop, find_shoot(shop, "next", day), day))
    days = list(shop.shoots.all())
    lines = [len(missing(shop, shoot, day).lines) for shoot in days]
    again = [timed(lambda shoot=shoot: missing(shop, shoot, day)) for shoot in days for _ in range(20)]
    look = [timed(lambda: [shop.book.places(part) for part in range(1, 10_001)]) for _ in range(20)]
    row("missing in memory, the first time", f"{first * 1000:.1f} ms", "", "< 50 ms")
    shots = sum(len(shoot.shots) for shoot in days)
    row("  again, any day", ms(again), f"{shots} shots, {sum(lines)} lines on {len(days)} days", "< 50 ms")
    row("  beside: places of 10,000 parts", ms(look))
    lines_of = [timed(lambda: today_lines(shop, day)) for _ in range(20)]
    lack = [timed(lambda: lacking_words(shop)) for _ in range(20)]
    row("Today in memory", ms(lines_of), f"what lacks a label among it {ms(lack)}")
    shop.close()


def processes(folder: Path) -> None:
    """`shoptui missing` as a process, beside importing TinyDB alone, by turns."""
    make_sample(folder / "sample", now).close()
    commands = {
        "bare": [sys.executable, "-c", "import tinydb"],
        "missing": [
            *(sys.executable, "-P", "-m", "shoptui", "--store", str(folder / "sample")),
            *("--now", now().isoformat(), "missing"),
        ],
    }
    took: dict[str, list[float]] = {name: [] for name in commands}
    for name, command in commands.items():  # once for nothing: the files come into memory
        subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
        took[name].clear()
    for _ in range(STARTS):
        for name, command in commands.items():
            run = lambda command=command: subprocess.run(command, check=True, stdout=subprocess.DEVNULL)  # noqa: E731
            took[name].append(timed(run))
    goal = 1.5 * median(took["bare"]) + 0.150
    row('python -c "import tinydb"', ms(took["bare"]))
    row(
        "shoptui missing, sample store",
        ms(took["missing"]),
        times(took["missing"], took["bare"], "import tinydb"),
        f"<= {goal * 1000:.0f} ms (1.5 x and 150 ms)",
    )


def openings() -> None:
    """Opening the big store in a fresh process, beside reading its files as JSON, by turns."""
    took: dict[str, list[float]] = {"json": [], "open": []}
    for _ in range(5):
        for name, seconds in took.items():
            out = subprocess.run(
                [sys.executable, __file__, name, str(big_shop())], check=True, stdout=subprocess.PIPE
            )
            seconds.append(float(out.stdout))
    row("its files read as JSON", ms(took["json"]))
    row("open the store", ms(took["open"]), times(took["open"], took["json"], "JSON"), "< 1 s")


def _read_json(folder: Path) -> None:
    for path in folder.glob("snapshot-*.json"):
        json.loads(path.read_bytes())
    for path in folder.glob("journal-*.jsonl"):
        for line in path.read_bytes().splitlines():
            json.loads(line[line.index(b"{") :])  # before it stand its length and its check sum


def main() -> None:
    """Print the table."""
    with tempfile.TemporaryDirectory(dir=os.environ.get("BENCH_DIR")) as place:
        folder = Path(place)
        receipts(folder)
        reports()
        processes(folder)
        openings()


if __name__ == "__main__":
    match sys.argv[1:]:
        case ["json", where]:
            print(timed(lambda: _read_json(Path(where))))  # noqa: T201 - read by `openings`
        case ["open", where]:
            print(timed(lambda: Shop.open(Path(where), clock=now)))  # noqa: T201 - likewise
        case _:
            main()

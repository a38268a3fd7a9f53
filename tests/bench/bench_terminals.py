"""How soon a terminal shows what another process did, beside a process that only looks at the file as often.

python tests/bench/bench_terminals.py

The shop has 10,000 parts. The changes come at random moments between two looks; the clock starts when the
change is acknowledged and stops when its words stand on the other terminal's screen.
"""

import os
import random
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from threading import Thread

sys.path.insert(0, str(Path(__file__).parents[1] / "terminal"))

from bench_screens import shows
from big_shop import PIECES, SCANNED, TERMINAL, copied, now
from pseudo_terminal import Program
from table import ms, row, times

from shoptui.domain import verbs
from shoptui.jobs.missing import find_shoot, missing
from shoptui.jobs.place_words import today
from shoptui.stations.others import LOOK_EVERY
from shoptui.store.shop import Shop

CHANGES = 50
"""On each station."""

PATIENCE = 10.0
SETTLED = 0.6
"""Seconds after which a screen has drawn what it is to draw, before the next change."""


@dataclass(frozen=True)
class Case:
    """A station, what another terminal does, and the words that tell of it.

    Args:
        name: The station.
        key: What brings it forward.
        change: Does the nth change.
        words: What stands on the screen then.

    """

    name: str
    key: str
    change: Callable[[int], object]
    words: Callable[[int], str]


def cases(shop: Shop) -> tuple[Case, ...]:
    """Return a case for each station with a long list."""
    day = today(shop)
    shoot = find_shoot(shop, "next", day)
    first_missing = missing(shop, shoot, day).lines[0].part.id
    first_part = min(shop.parts.all(), key=lambda part: (part.section, part.description)).id
    first_bin = next(shop.bins.all()).id
    box = next(box for box in shop.boxes.all() if box.open_at == TERMINAL)
    line = shop.orders.get(box.orders[0]).lines[0]

    def receive(_: int) -> None:
        with shop.transaction("received", terminal="other") as tx:
            tx.enter(verbs.receive(shop.book, line.part, 1, order=box.orders[0], ref=box.code))

    def named(number: int) -> str:
        return f"Aa {number}."

    return (
        Case("Receiving", "\x1bOR", receive, lambda n: f"{PIECES * SCANNED - n} to come out"),
        Case("Filming", "\x1b[15~", lambda n: change(shop, shop.parts.get(first_missing), n), named),
        Case("Parts, 10,000 rows", "\x1b[19~", lambda n: change(shop, shop.parts.get(first_part), n), named),
        Case("Racks", "\x1b[17~", lambda n: change(shop, shop.bins.get(first_bin), n, "kind"), named),
        Case("Today", "\x1bOQ", lambda n: change(shop, shop.shoots.get(shoot.id), n, "title"), named),
    )


def change(shop: Shop, record: object, number: int, field: str = "description") -> None:
    """Call a record otherwise."""
    with shop.transaction("changed", terminal="other") as tx:
        tx.change(record, **{field: f"Aa {number}."})


class Watch:
    """A process that looks at a file as often as a terminal looks, and says when it saw it change."""

    def __init__(self, folder: Path) -> None:
        self._process = subprocess.Popen(
            [sys.executable, __file__, "watch", str(folder)], stdout=subprocess.PIPE, text=True
        )
        self.seen: list[float] = []
        Thread(target=self._read, daemon=True).start()

    def _read(self) -> None:
        assert self._process.stdout is not None
        self.seen.extend(float(line) for line in self._process.stdout)

    def close(self) -> None:
        """End it."""
        self._process.terminate()
        self._process.wait()


def watch(folder: Path) -> None:
    """Look at the journals' length for ever; print each moment at which it had changed."""
    before = -1
    while True:
        length = sum(path.stat().st_size for path in folder.glob("journal-*"))
        if length != before:
            print(time.perf_counter(), flush=True)  # noqa: T201 - read by Watch
            before = length
        time.sleep(LOOK_EVERY)


def told(program: Program, case: Case, number: int) -> tuple[float, float, float]:
    """Do a change; return when it was begun, when it was acknowledged, and when its words stood."""
    since = len(program.drawn)
    program.text  # noqa: B018 - what came before is read before
    begun = time.perf_counter()
    case.change(number)
    done = time.perf_counter()
    while time.perf_counter() < done + PATIENCE:
        program.pause(SETTLED)
        if (moment := shows(program, case.words(number), since)) is not None:
            return begun, done, moment
    raise AssertionError(f"{case.words(number)} never came:\n{program.text}")


def main() -> None:
    """Print the table."""
    rng = random.Random(3)
    with tempfile.TemporaryDirectory(dir=os.environ.get("BENCH_DIR")) as place:
        folder = copied(Path(place) / "terminals")
        shop = Shop.open(folder, clock=now)
        program = Program.shop(folder, "--now", now().isoformat(), terminal=TERMINAL)
        bare: list[float] = []
        took: dict[str, list[float]] = {}
        for case in cases(shop):
            program.send(case.key)
            program.pause(2 * SETTLED)
            looker = Watch(folder)
            while not looker.seen:
                program.pause(0.1)
            for number in range(1, CHANGES + 1):
                program.pause(rng.uniform(0, LOOK_EVERY))
                begun, done, moment = told(program, case, number)
                took.setdefault(case.name, []).append(moment - done)
                # The look may fall between the writing and its acknowledgement.
                bare.append(max(0.0, next(seen for seen in looker.seen if seen > begun) - done))
            looker.close()
        row(f"a look at the file every {LOOK_EVERY} s", ms(bare), f"{len(bare)} changes by another process")
        for name, seconds in took.items():
            row(f"on the screen: {name}", ms(seconds), times(seconds, bare, "the look"), "p99 < 1 s")
        program.close()
        shop.close()


if __name__ == "__main__":
    match sys.argv[1:]:
        case ["watch", where]:
            watch(Path(where))
        case _:
            main()

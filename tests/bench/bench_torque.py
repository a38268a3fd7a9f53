"""How fast `shoptui torque` is beside a bare interpreter, and need: python tests/bench/bench_torque.py."""

import random
import subprocess
import sys
import time
from statistics import median

from table import ms, row, times

from shoptui.domain.fasteners.need import Stock, needs

STARTS = 25
JOINTS, KINDS = 10_000, 400
COMMANDS = {
    "bare": ["-c", "pass"],
    "torque": ["-P", "-m", "shoptui", "torque", "M10x1.25 10.9", "--json"],
    "convert": ["-P", "-m", "shoptui", "convert", "90", "lbf ft", "N m"],
}


def timed(command: list[str]) -> float:
    """Return the seconds of one process."""
    start = time.perf_counter()
    subprocess.run([sys.executable, *command], check=True, stdout=subprocess.DEVNULL)
    return time.perf_counter() - start


def processes() -> None:
    """Processes by turns."""
    took: dict[str, list[float]] = {name: [] for name in COMMANDS}
    for command in COMMANDS.values():  # once for nothing: the files come into memory
        timed(command)
    for _ in range(STARTS):
        for name, command in COMMANDS.items():
            took[name].append(timed(command))
    goal = f"<= {1300 * median(took['bare']) + 120:.0f} ms (1.3 x and 120 ms)"
    row('python -c "pass"', ms(took["bare"]))
    for name in ("torque", "convert"):
        row(f"shoptui {name}", ms(took[name]), times(took[name], took["bare"], "bare"), goal)


def need() -> None:
    """What 10,000 joints need, beside only adding up their pieces."""
    draw = random.Random(5)
    wanted = [(draw.randrange(KINDS), draw.randrange(1, 12)) for _ in range(JOINTS)]
    stock = {kind: Stock(new=draw.randrange(100), pack=draw.choice((1, 10, 25))) for kind in range(KINDS)}
    took: dict[str, list[float]] = {"sum": [], "need": []}
    for _ in range(50):
        for name, job in (
            ("sum", lambda: sum(qty for _, qty in wanted)),
            ("need", lambda: needs(wanted, stock)),
        ):
            start = time.perf_counter()
            job()
            took[name].append(time.perf_counter() - start)
    row(f"pieces of {JOINTS} joints added up", ms(took["sum"]))
    row(
        "  what they need, by kind",
        ms(took["need"]),
        times(took["need"], took["sum"], "adding up"),
        "< 100 ms",
    )


if __name__ == "__main__":
    processes()
    need()

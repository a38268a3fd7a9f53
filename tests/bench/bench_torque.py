"""How fast torque and hardware are, beside their baselines in one run: python tests/bench/bench_torque.py.

Two processes of the command line; what 10,000 joints need, and how those stand that are on, again and again.
"""

import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from statistics import median

from big_shop import now
from big_torque import JOINTS, torque_copied
from table import ms, row, times

from shoptui.domain.records import Reading, What
from shoptui.jobs.hardware import stands
from shoptui.jobs.joints import all_joints, derived
from shoptui.jobs.missing import find_shoot, missing
from shoptui.jobs.place_words import today
from shoptui.jobs.today import today_lines
from shoptui.store.shop import Shop

STARTS, TURNS = 25, 30
COMMANDS = {
    "bare": ["-c", "pass"],
    "torque": ["-P", "-m", "shoptui", "torque", "M10x1.25 10.9", "--json"],
    "convert": ["-P", "-m", "shoptui", "convert", "90", "lbf ft", "N m"],
}


def timed(job: Callable[[], object]) -> float:
    """Return the seconds of one call."""
    start = time.perf_counter()
    job()
    return time.perf_counter() - start


def process(arguments: list[str]) -> None:
    """Run the interpreter."""
    subprocess.run([sys.executable, *arguments], check=True, stdout=subprocess.DEVNULL)


def processes() -> None:
    """Processes by turns."""
    took: dict[str, list[float]] = {name: [] for name in COMMANDS}
    for command in COMMANDS.values():  # once for nothing: the files come into memory
        process(command)
    for _ in range(STARTS):
        for name, command in COMMANDS.items():
            took[name].append(timed(lambda command=command: process(command)))
    goal = f"<= {1300 * median(took['bare']) + 120:.0f} ms (1.3 x and 120 ms)"
    row('python -c "pass"', ms(took["bare"]))
    for name in ("torque", "convert"):
        row(f"shoptui {name}", ms(took[name]), times(took[name], took["bare"], "bare"), goal)


def tightened(shop: Shop) -> Iterator[None]:
    """Tighten one joint after the other, again."""
    for each in list(all_joints(shop)):
        said = Reading(0, What.TIGHTENED, each.part.id, each.joint.name, each.position, fasteners=each.wanted)
        with shop.transaction("tightened", terminal="lift") as tx:
            tx.state(said)
        yield


def jobs(folder: Path) -> None:
    """Need, joints and lists: after nothing changed, and after one joint was tightened; by turns."""
    shop = Shop.open(torque_copied(folder / "shop"), clock=now)
    day, parts = today(shop), list(shop.parts.all())
    shoot = find_shoot(shop, "next", day)
    first = timed(lambda: stands(shop, 1))
    asked = {
        "look": lambda: [part.joints for part in parts],
        "need": lambda: stands(shop, 1),
        "derived": lambda: [derived(shop, part) for part in parts],
        "joints": lambda: list(all_joints(shop)),
        "today": lambda: today_lines(shop, day),
        "missing": lambda: missing(shop, shoot, day),
    }
    took: dict[str, list[float]] = {name: [] for name in asked}
    changes = tightened(shop)
    for turn in range(TURNS + 1):
        for name, job in asked.items():
            next(changes)
            seconds = timed(job)
            if turn:
                took[name].append(seconds)
    on = len(list(all_joints(shop)))
    row(
        f"one look at the joints of {len(parts)} parts", ms(took["look"]), f"{JOINTS} joints, {on} of them on"
    )
    row(
        "  what their hardware needs, of one build",
        ms(took["need"]),
        f"the first time {first * 1000:.0f} ms",
        "< 100 ms",
    )
    row("  how all stand, derived from all rows", ms(took["derived"]))
    row("  how all stand, after one was tightened", ms(took["joints"]), _of(took, "derived"))
    row("Today, after one was tightened", ms(took["today"]))
    row("missing, after one was tightened", ms(took["missing"]), f"{len(shoot.shots)} shots, a fifth moves")
    shop.close()


def _of(took: dict[str, list[float]], baseline: str) -> str:
    return times(took["joints"], took[baseline], baseline)


def main() -> None:
    """Print the table."""
    processes()
    with tempfile.TemporaryDirectory() as place:
        jobs(Path(place))


if __name__ == "__main__":
    main()

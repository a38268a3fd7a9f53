"""How fast the screens are, through a pseudo-terminal, beside their baselines in one run.

python tests/bench/bench_screens.py
"""

import asyncio
import os
import random
import sys
import tempfile
import time
from pathlib import Path
from statistics import median

sys.path.insert(0, str(Path(__file__).parents[1] / "terminal"))

from big_shop import PIECES, SCANNED, TERMINAL, Scans, copied, now, scans_of
from pseudo_terminal import Program
from table import ms, row, times

from shoptui.domain import verbs
from shoptui.domain.places import State
from shoptui.domain.recognise import read
from shoptui.jobs.sample import make_sample
from shoptui.stations.app import ShopApp
from shoptui.store.shop import Shop

SCANS, TURN, STARTS, MANY = 200, 10, 7, 500
KEY_MS = 1.0
TYPED = ("rotor", "front upper", "mk17", "b-0012", "section k")
LABEL = Path(__file__).with_name("one_label.py")
F3, F8, F5 = "\x1bOR", "\x1b[19~", "\x1b[15~"


def shows(program: Program, words: str, since: int) -> float | None:
    """Return the moment at which words stood on the screen, looking at what was drawn piece by piece."""
    pieces, program.drawn = program.drawn, program.drawn[:since]
    for piece in pieces[since:]:
        program.drawn.append(piece)
        if words in program.words:
            program.drawn = pieces
            return piece[0]
    program.drawn = pieces
    return None


def answered(program: Program, code: str, words: str) -> float:
    """Scan a code; return the seconds from its last byte to its words on the screen."""
    since = len(program.drawn)
    program.text  # noqa: B018 - what came before is read before
    program.play(code, KEY_MS, end="")
    last = time.perf_counter()
    program.send("\r")
    # Nothing is worked out while the program is at it: its pieces are only noted with their moments.
    deadline = last + 10
    while time.perf_counter() < deadline:
        program.pause(0.12)
        if (moment := shows(program, words, since)) is not None:
            return moment - last
    raise AssertionError(f"{words} never came:\n{program.text}")


class Door:
    """The program at Receiving, its box open and its lines shown, on a copy of the big store."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        shop = Shop.open(folder, clock=now)
        self.scans: Scans = scans_of(shop)
        shop.close()
        self.program = Program.shop(folder, "--now", now().isoformat(), terminal=TERMINAL)
        self.program.send(F3)
        self.program.until(lambda: "Receiving: box" in self.program.text)
        self.left = PIECES * SCANNED
        self._next = 0

    def code(self) -> str:
        """Return the next code to scan."""
        self._next += 1
        self.left -= 1
        return self.scans.codes[self._next % len(self.scans.codes)]

    def scan(self) -> float:
        """Scan the next thing; return the seconds to its words."""
        code = self.code()
        return answered(self.program, code, f"{self.left} still in the box")


def latency(folder: Path) -> None:
    """From the last byte of a scan to its words, beside the app of one label, by turns."""
    door, label = Door(copied(folder / "latency")), Program(LABEL)
    label.until(lambda: "scan 0." in label.text)
    took: dict[str, list[float]] = {"door": [], "label": []}
    for turn in range(SCANS // TURN):
        for _ in range(TURN):
            took["door"].append(door.scan())
        for scan in range(TURN):
            code = door.scans.codes[scan]
            took["label"].append(answered(label, code, f"scan {turn * TURN + scan + 1}."))
    row("app of one label: Enter to its words", ms(took["label"]), f"{SCANS} scans, {KEY_MS:.0f} ms a key")
    row(
        "last byte of a scan to its words, Receiving",
        ms(took["door"]),
        times(took["door"], took["label"], "one label"),
        "<= 2.5 x, p99 < 100 ms",
    )
    door.program.close()
    label.close()


def many(folder: Path) -> None:
    """Scans as fast as the terminal takes them: all there, in order."""
    door, label = Door(copied(folder / "many")), Program(LABEL)
    label.until(lambda: "scan 0." in label.text)
    shop = Shop.open(door.folder, clock=now)
    before = max(shop.database.documents("transactions"))
    codes = [door.code() for _ in range(MANY)]
    data = "".join(f"\x1b[20~{code}\r" for code in codes)
    seconds = []
    for program, words in ((door.program, f"{door.left} still in the box"), (label, f"scan {MANY}.")):
        start = time.perf_counter()
        program.send(data)
        program.until(lambda program=program, words=words: words in program.words, 120)
        seconds.append(time.perf_counter() - start)
    shop.refresh()
    came = [entry.move.part for entry in shop.history.moves_since(before + 1)][::-1]
    wanted = [shop.codes.find(read(code))[0].record for code in codes]
    verdict = "all there, in order" if came == wanted else f"WRONG: {len(came)} came"
    row(
        f"{MANY} scans as fast as taken",
        f"{seconds[0]:.2f} s ({MANY / seconds[0]:.0f} a second)",
        f"one label {seconds[1]:.2f} s, {seconds[0] / seconds[1]:.2f} x",
        verdict,
    )
    shop.close()
    door.program.close()
    label.close()


def first_frames(folder: Path) -> None:
    """From the start of the process to its first screen, beside the app of one label, by turns."""
    make_sample(folder / "sample", now).close()
    big = copied(folder / "first")
    starts = {
        "label": lambda: Program(LABEL),
        "sample": lambda: Program("-P", "-m", "shoptui", "--store", folder / "sample"),
        "big": lambda: Program("-P", "-m", "shoptui", "--store", big),
    }
    took: dict[str, list[float]] = {name: [] for name in starts}
    for turn in range(STARTS + 1):
        for name, start in starts.items():
            program = start()
            words = "scan 0." if name == "label" else "F1 Help"
            program.until(lambda program=program, words=words: words in program.text)
            if turn:  # the first is for nothing: the files come into memory
                took[name].append(program.drawn[-1][0] - program.started)
            program.close()
    row("first frame, app of one label", ms(took["label"]))
    row("first frame, sample store", ms(took["sample"]), times(took["sample"], took["label"], "one label"))
    row("first frame, big store", ms(took["big"]), times(took["big"], took["label"], "one label"))


async def filtering(folder: Path) -> None:
    """A letter typed beside 10,000 rows, until the rows are drawn; beside one look through all of them."""
    shop = Shop.open(copied(folder / "filter"), clock=now)
    app = ShopApp(shop, TERMINAL)
    took: list[float] = []
    firsts: list[float] = []
    plain: list[float] = []
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("f8")
        await pilot.pause()
        shown = app.screen.shown_list()  # type: ignore[attr-defined]
        hay = [" ".join((*line.cells, line.find)).casefold() for line in shown.rows]
        for text in TYPED:
            shown.set_rows(shown.rows)
            for end in range(1, len(text) + 1):
                start = time.perf_counter()
                shown.narrow(text[:end])
                for y in range(shown.size.height):
                    shown.render_line(y)
                (firsts if end == 1 else took).append(time.perf_counter() - start)
                start = time.perf_counter()
                found = [line for line in hay if text[end - 1] in line]
                plain.append(time.perf_counter() - start)
            shown.narrow("")
        del found
        rows = len(shown.rows)
        await pilot.pause()
        start = time.perf_counter()
        app.screen.reread()  # type: ignore[attr-defined]
        reread = time.perf_counter() - start
    row("look for a letter in as many texts", ms(plain), f"{rows} rows")
    row("filter, a letter", ms(took), f"first letter after a change {ms(firsts)}", "< 30 ms")
    row("  beside: read the list again", f"{reread * 1000:.0f} ms")
    shop.close()


def memory(folder: Path) -> None:
    """Most that was resident, a snapshot being written included; parent and children."""
    label = Program(LABEL)
    label.until(lambda: "scan 0." in label.text)
    empty = resident(label.process.pid)
    label.close()
    where = copied(folder / "memory")
    grown(where)
    door = Door(where)
    program = door.program
    opened = resident(program.process.pid)
    for key, words in ((F8, "Parts:"), (F5, "Filming"), (F3, "Receiving: box")):
        program.send(key)
        program.until(lambda words=words: words in program.lines[0])
    seen = resident(program.process.pid)
    before = {path.name for path in where.glob("snapshot-*")}
    delays = [door.scan()]
    start = time.perf_counter()
    while {path.name for path in where.glob("snapshot-*.json")} <= before:
        delays.append(door.scan())
        if time.perf_counter() - start > 60:
            raise AssertionError("no snapshot was written")
    peak = resident(program.process.pid)
    row("resident, app of one label", f"{empty:.0f} MB")
    row(
        "resident, most, a snapshot written",
        f"{peak:.0f} MB",
        f"opened {opened:.0f}, all lists seen {seen:.0f} MB",
        "< 300 MB",
    )
    row("  scans while it is written", f"{median(delays) * 1000:.0f} ms (most {max(delays) * 1000:.0f})")
    program.close()


def grown(folder: Path) -> None:
    """Let the journal grow until a new snapshot is due after the next scan."""
    shop = Shop.open(folder, clock=now)
    rng = random.Random(5)
    bins = [bin_.id for bin_ in shop.bins.all()]
    size = max(path.stat().st_size for path in folder.glob("snapshot-*"))
    while shop.database.position.offset * 4 < size:
        with shop.transaction("put away", terminal="office") as transaction:
            for part in rng.sample(range(SCANNED + 1, len(shop.parts)), 200):
                for place, qty in shop.book.places(part, State.RECEIVED, State.REMOVED)[:1]:
                    to = rng.choice([number for number in bins[:40] if number != place.where])
                    transaction.enter(verbs.put_away(shop.book, part, place, qty, to=to))
    shop.database._last_is_ours = False  # closing is not to write it
    shop.close()


def resident(process: int) -> float:
    """Return the most that a process and its children ever had resident, megabytes."""
    status = Path(f"/proc/{process}/status").read_text().splitlines()
    most = next(int(line.split()[1]) for line in status if line.startswith("VmHWM")) / 1024
    children = Path(f"/proc/{process}/task/{process}/children").read_text().split()
    return most + sum(resident(int(child)) for child in children)


def main() -> None:
    """Print the table."""
    with tempfile.TemporaryDirectory(dir=os.environ.get("BENCH_DIR")) as place:
        folder = Path(place)
        latency(folder)
        many(folder)
        first_frames(folder)
        asyncio.run(filtering(folder))
        memory(folder)


if __name__ == "__main__":
    main()

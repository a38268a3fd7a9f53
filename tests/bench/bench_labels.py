"""How fast labels are, beside their baselines in one run: python tests/bench/bench_labels.py.

The baseline of a PDF is a process that only opens reportlab and writes as many lines of text.
"""

import asyncio
import gc
import resource
import subprocess
import sys
import tempfile
import time
from datetime import UTC, datetime
from pathlib import Path
from statistics import median

from table import row, rule

from shoptui.jobs.sample import make_sample
from shoptui.labels.files import write_labels
from shoptui.labels.layout import Label, lay_out
from shoptui.labels.layouts import read_layout
from shoptui.labels.screen import cells
from shoptui.labels.sheets import Job
from shoptui.labels.stock import read_stock
from shoptui.stations.app import ShopApp
from shoptui.stations.labels.screen import look_at_label
from shoptui.stations.page import Page

NOW = datetime(2031, 5, 12, 8, 30, tzinfo=UTC)
LABELS, MANY, STARTS = 1000, 10_000, 5
STOCK = "sheet-a4-3x10-70x29.7"
BARE = f"""
from barcode.codex import Code128
from reportlab.pdfgen.canvas import Canvas
canvas = Canvas({{path!r}})
for number in range({LABELS}):
    Code128(f"B{{{{number:06}}}}").build()
    canvas.drawString(10, 10, f"B-{{{{number:06}}}}")
    if number % 30 == 29:
        canvas.showPage()
canvas.save()
"""


def labels(count: int) -> list[Label]:
    """Labels that all differ, as those of a new rack do."""
    return [
        Label("bin", f"B{number:06}", f"B-{number:06}", f"R3-{number}", (f"rack 3, place {number}",))
        for number in range(count)
    ]


def write(path: Path, count: int) -> None:
    """Write one file of labels."""
    write_labels(Job(labels(count), read_stock(STOCK)), path)


def process(*arguments: str) -> tuple[float, float]:
    """Return the seconds of a Python process, started and ended, and the most memory of any so far, MB."""
    start = time.perf_counter()
    subprocess.run([sys.executable, *arguments], check=True)
    return time.perf_counter() - start, resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024


def timed(what: str, count: int, path: Path) -> float:
    """Return the seconds that a file takes when the libraries are there."""
    start = time.perf_counter()
    write(path, count)
    took = time.perf_counter() - start
    row(what, f"{took:.2f} s", f"{count / took:.0f} labels a second, {path.stat().st_size / 1e6:.2f} MB")
    return took


async def first_look(folder: Path) -> None:
    """A part's label looked at, the libraries for it imported, beside an empty page."""
    app = ShopApp(make_sample(folder / "sample", lambda: NOW), "t")
    gc.freeze()  # as the program does
    took = []
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f8")
        station = app.screen
        part = next(app.shop.parts.all())
        for look in (lambda: app.push_screen(Page()), lambda: look_at_label(station, part)):
            start = time.perf_counter()
            look()
            await pilot.pause()
            took.append(time.perf_counter() - start)
            app.pop_screen()
            await pilot.pause()
    row("an empty page", f"{took[0] * 1000:.0f} ms")
    row("first label looked at", f"{took[1] * 1000:.0f} ms", f"{took[1] / took[0]:.2f} x empty", "<= 2.5 x")
    app.shop.close()


def main() -> None:
    """Measure and print."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        bare, ours = [], []
        for _ in range(STARTS):
            bare.append(process("-c", BARE.format(path=str(folder / "bare.pdf"))))
            ours.append(process(__file__, str(folder / "out.pdf")))
        row("bare: encoded and a line each, one process", f"{median(b for b, _ in bare):.2f} s")
        row(
            f"{LABELS} labels as one PDF, one process",
            f"{median(o for o, _ in ours):.2f} s, {max(mb for _, mb in ours):.0f} MB",
            f"{median(o for o, _ in ours) / median(b for b, _ in bare):.2f} x bare",
            "< 1.5 s, < 150 MB",
        )
        rule()
        asyncio.run(first_look(folder))
        start = time.perf_counter()
        lay_out(labels(1)[0], read_layout("bin"), read_stock(STOCK))
        row("a label laid out for the first time", f"{(time.perf_counter() - start) * 1000:.0f} ms")
        start = time.perf_counter()
        cells("BAARK2Y")
        row("a tag for the screen", f"{(time.perf_counter() - start) * 1000:.1f} ms")
        timed(f"{LABELS} labels as one PDF, again", LABELS, folder / "again.pdf")
        timed(f"{MANY} labels as one PDF", MANY, folder / "many.pdf")
        start = time.perf_counter()
        write_labels(Job(labels(30), read_stock(STOCK)), folder / "page.png")
        row("a page of 30 as PNG at 600 dpi", f"{time.perf_counter() - start:.2f} s")
        start = time.perf_counter()
        write_labels(Job(labels(30), read_stock(STOCK)), folder / "page.svg")
        row("a page of 30 as SVG", f"{time.perf_counter() - start:.2f} s")


if __name__ == "__main__":
    if sys.argv[1:]:
        write(Path(sys.argv[1]), LABELS)
    else:
        main()

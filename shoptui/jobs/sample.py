"""Make the invented shop: the files that a user could import, and what its people did since, replayed.

The history is a list with one job a row, its days counted from the day of making, so that something is always
due. The rows go through the jobs that the screens use.
"""

import random
from dataclasses import dataclass
from datetime import UTC, datetime, time
from importlib.resources import files
from pathlib import Path

from shoptui.domain.cells import day, whole
from shoptui.domain.headers import Column
from shoptui.domain.tables import Reading
from shoptui.jobs.at import At
from shoptui.jobs.past_job import PastJob
from shoptui.jobs.steps import each
from shoptui.store.files_in import read_csv
from shoptui.store.shop import Clock, Shop

SEED = 1974
"""Of the tags, so that two invented shops have the same ones and the README can print them."""

HERE = ("terminal", "who", "build")
WORDS = ("what", "at", "to", "order", "note")
COLUMNS = (
    *(Column(name, needed=True) for name in ("day", "time", "job")),
    *(Column(name) for name in (*HERE, *WORDS, "qty", "due")),
)


@dataclass(slots=True)
class _Then:
    """A clock that shows the moment of the row that is replayed."""

    now: datetime

    def __call__(self) -> datetime:
        return self.now


def sources() -> Path:
    """Return the folder with the invented shop's files, as it came with the program."""
    return Path(str(files("shoptui") / "data" / "sample_store"))


def make_sample(folder: Path, clock: Clock, *, source: Path | None = None) -> Shop:
    """Make the invented shop in a folder that is not there yet or empty; return it, open.

    Args:
        folder: Where.
        clock: Returns the moment; the shop's dates are counted from its day.
        source: Folder with the files, None for those that came with the program.

    Raises:
        ImportRefusedError: One of the files is wrong, which names its line.

    """
    source = source or sources()
    then = _Then(clock())
    shop = Shop.create(folder, clock=then, rng=random.Random(SEED))  # noqa: S311 - tags are no secret
    try:
        _play(shop, source, then)
    except BaseException:
        shop.close()
        raise
    shop.clock = clock
    shop.rng = random.SystemRandom()
    return shop


def _play(shop: Shop, source: Path, then: _Then) -> None:
    """Do what the invented shop has done, each thing at its time."""
    today = then.now.astimezone().date()
    table = read_csv(source / "history.csv", COLUMNS)
    reading = Reading("history.csv")
    for row in each(table.rows, "Playing the invented shop's history"):
        moment = reading.take(row, "time", time.fromisoformat, time())
        when = reading.take(row, "day", lambda cell: day(cell, today), today)
        then.now = datetime.combine(when, moment).astimezone(UTC)
        terminal, who, build = (reading.text(row, name) for name in HERE)
        job = PastJob(
            At(shop, terminal, "receiving", build, who),
            source=source,
            today=today,
            qty=reading.take(row, "qty", whole, 1),
            due=reading.take(row, "due", lambda cell: day(cell, today), None),
            **{name: reading.text(row, name) for name in WORDS},
        )
        reading.take(row, "job", job.do, None)
        reading.finish()

"""One of several writers that are killed: python writer.py FOLDER NAME SEED CUT

Each transaction adds a row and sets this writer's count; it is printed once it is acknowledged. Now and then
a new generation is made. With CUT above 0, that part of the writes stops in the middle of its bytes and the
process dies.
"""

import os
import random
import sys
from pathlib import Path

from shoptui.store.database import Database
from shoptui.store.file_journal import FileJournal


def die_in_the_middle(rng: random.Random, part: float) -> None:
    """Let a write now and then bring some of its bytes only, and end the process there."""
    real = FileJournal._put

    def put(journal: FileJournal, offset: int, line: bytes) -> None:
        if rng.random() < part:
            file = journal._open_file()
            file.seek(offset)
            file.write(line[: rng.randrange(len(line))])
            os._exit(9)
        real(journal, offset, line)

    FileJournal._put = put  # type: ignore[method-assign]


def main(folder: Path, name: str, rng: random.Random) -> None:
    """Write until killed."""
    database = Database(folder, lock_seconds=60)
    counts = database.documents("counts")
    while True:
        with database.transaction():
            mine = next((number for number, each in counts.items() if each["writer"] == name), None)
            count = counts[mine]["count"] + 1 if mine else 1
            database.insert("rows", {"writer": name, "n": count, "fill": "x" * rng.randrange(200)})
            if mine:
                database.replace("counts", mine, {"writer": name, "count": count})
            else:
                database.insert("counts", {"writer": name, "count": count})
        os.write(1, b"%d\n" % count)
        if rng.random() < 0.03:
            database.compact()
        elif rng.random() < 0.03:
            database._tidying.due = lambda *_: True
        database.idle()
        database._tidying.due = lambda *_: False


if __name__ == "__main__":
    rng = random.Random(int(sys.argv[3]))
    if float(sys.argv[4]):
        die_in_the_middle(rng, float(sys.argv[4]))
    main(Path(sys.argv[1]), sys.argv[2], rng)

"""A big invented shop for the benches: 10,000 parts, 100,000 moves, made once and kept in a temporary folder.

The mix is meant to be that of a shop that has worked for years: most parts came and are on, some are out or
off again, some are still to come. Each move has a transaction of its own, as when it is scanned.
"""

import random
import shutil
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

from shoptui.domain import prices, records, shoots, verbs
from shoptui.domain.check_digits import gs1_check_digit, s10_check_digit
from shoptui.domain.codes import normal
from shoptui.domain.ledger import Balances, Move
from shoptui.domain.places import Place, State
from shoptui.domain.tags import Kind, allocate
from shoptui.store.database import Database
from shoptui.store.documents import place_document, to_document
from shoptui.store.shop import Shop

PARTS, MOVES = 10_000, 100_000
FORM = 1
"""Raise it when what is made changes, so that nobody measures an older one."""

TERMINAL = "t"
NOW = datetime(2031, 5, 12, 8, 30, tzinfo=UTC)
SCANNED = 12
"""Lines of the box that lies open, each with pieces enough for a bench."""

PIECES = 100_000
THINGS = ("bracket", "bolt set", "hose", "seal", "bush", "panel", "lamp", "switch", "rotor", "arm", "spring")
ABOUT = ("front", "rear", "upper", "lower", "inner", "outer", "long", "short", "left", "right", "main")
SECTIONS = tuple(f"Section {letter}" for letter in "ABCDEFGHIJKLMNOPQRST")
POSITIONS = ((), (), (), ("LF", "RF"), ("LF", "RF", "LR", "RR"), ("front",), ("left", "right"))


def now() -> datetime:
    """Return the moment at which the big shop stands still."""
    return NOW


@dataclass(frozen=True)
class Scans:
    """What can be scanned: the box and the codes of its lines."""

    box: str
    codes: tuple[str, ...]


def scans_of(shop: Shop) -> Scans:
    """Return what a bench scans at Receiving, tags and GTINs by turns, none twice in a row."""
    box = next(box for box in shop.boxes.all() if box.open_at == TERMINAL)
    gtins = {learned.record: learned.code for learned in shop.learned.all()}
    lines = [line.part for line in shop.orders.get(box.orders[0]).lines]
    codes = (gtins[part] if part % 2 else shop.parts.get(part).tag for part in lines)
    return Scans(box.code, tuple(codes))


def big_shop(parts: int = PARTS, moves: int = MOVES) -> Path:
    """Return the folder of the kept store, made if it is not there; nobody may change it: copy it."""
    kept = Path(tempfile.gettempdir()) / f"shoptui-bench-{FORM}-{parts}-{moves}"
    if not kept.is_dir():
        place = Path(tempfile.mkdtemp(prefix="shoptui-bench-", dir=kept.parent))
        _Maker(parts, moves).make(place / "shop")
        (place / "shop").rename(kept)
        place.rmdir()
    return kept


def copied(folder: Path, parts: int = PARTS, moves: int = MOVES) -> Path:
    """Return a copy of the big shop in a folder that is not there yet."""
    shutil.copytree(big_shop(parts, moves), folder)
    return folder


class _Maker:
    def __init__(self, parts: int, moves: int) -> None:
        self._parts = parts
        self._moves = moves
        self._rng = random.Random(7)
        self._tags: set[str] = set()
        self._book = Balances()

    def _tag(self, kind: Kind) -> str:
        tag = allocate(kind, self._rng, self._tags.__contains__)
        self._tags.add(tag)
        return tag

    def make(self, folder: Path) -> None:
        database = Database.create(folder)
        self._database = database
        with database.transaction():
            self._setting = database.insert("transactions", self._row(NOW - timedelta(days=900), "set up"))
            self._records()
        rows = sorted(self._lives(), key=lambda row: row[0])
        tail = len(rows) // 50
        for first in range(0, len(rows) - tail, 2000):
            self._write(rows[first : min(first + 2000, len(rows) - tail)])
        database.compact()
        for row in rows[-tail:]:  # what was done since the last snapshot, as it was done: one by one
            self._write([row])
        database.close()

    def _row(self, when: datetime, words: str) -> dict[str, object]:
        return {
            "when": when.isoformat(),
            "terminal": self._rng.choice(("door", "lift", "office")),
            "words": words,
        }

    def _add(self, table: str, record: object) -> int:
        number = self._database.insert(table, to_document(record))
        edit = {"transaction": self._setting, "table": table, "record": number, "field": "made"}
        self._database.insert("edits", edit)
        return number

    def _records(self) -> None:
        rng, count = self._rng, self._parts
        self._add("settings", records.Settings(name="Big example shop", twice_seconds=0.0))
        build = self._add("builds", records.Build(0, "big", self._tag(Kind.VEHICLE), "Big build"))
        self._suppliers = [
            self._add(
                "suppliers", records.Supplier(0, f"sup-{n}", f"Supplier {n} (example)", rng.randint(2, 20))
            )
            for n in range(max(3, count // 40))
        ]
        self._bins = [
            self._add("bins", records.Bin(0, f"R{n // 50}-{n % 50}", self._tag(Kind.BIN), f"rack {n // 50}"))
            for n in range(max(5, count // 25))
        ]
        for n in range(8):
            self._add("people", records.Person(0, f"p{n}", self._tag(Kind.PERSON), f"Person {n}"))
        self._lines = {}
        for n in range(1, count + 1):
            part = self._part(n, build)
            number = self._add("parts", part)
            self._lines[number] = part
            gtin = f"952{n:09}"
            gtin += gs1_check_digit(gtin)
            self._add("codes", records.LearnedCode(0, gtin, normal(gtin), "parts", number))
        self._orders_and_boxes()
        self._shoots(build)

    def _part(self, n: int, build: int) -> records.Part:
        rng = self._rng
        positions = rng.choice(POSITIONS)
        work = (records.OutsideWork("painted", 6),) if rng.random() < 0.08 else ()
        return records.Part(
            0,
            f"B-{n:05}",
            self._tag(Kind.PART),
            build,
            f"{rng.choice(ABOUT).capitalize()} {rng.choice(ABOUT)} {rng.choice(THINGS)} {n}",
            maker=f"Maker {n % 60} (example)",
            number=f"MK{n % 60}-{n * 7919 % 1_000_003}",
            section=SECTIONS[n % len(SECTIONS)],
            needed=len(positions) or rng.choice((1, 1, 1, 2, 4)),
            positions=positions,
            install_after=(rng.randint(1, n - 1),) if n > 1 and rng.random() < 0.15 else (),
            outside_work=work,
            price=prices.Price(prices.Sure.EXACT, rng.randint(100, 90_000), currency="EUR"),
        )

    def _orders_and_boxes(self) -> None:
        rng, numbers = self._rng, list(self._lines)
        self._order_of, self._box_of = {}, {}
        self._scanned = numbers[:SCANNED]
        place = SCANNED
        while place < len(numbers):
            chosen = numbers[place : place + rng.randint(1, 8)]
            place += len(chosen)
            self._order(chosen, {n: self._lines[n].needed for n in chosen}, "")
        self._order(self._scanned, dict.fromkeys(self._scanned, PIECES), TERMINAL)

    def _order(self, parts: list[int], pieces: dict[int, int], open_at: str) -> None:
        rng = self._rng
        count = len(set(self._order_of.values())) + 1
        day = NOW.date() - timedelta(days=0 if open_at else rng.randint(-15, 800))
        lines = tuple(records.OrderLine(part, pieces[part], rng.randint(500, 90_000)) for part in parts)
        order = self._add(
            "orders",
            records.Order(
                0, f"PO-{count}", "purchase", rng.choice(self._suppliers), f"PO-{count}",
                day - timedelta(days=9), day, lines, "EUR",
            ),
        )  # fmt: skip
        came = datetime.combine(day, NOW.time(), UTC) if day < NOW.date() or open_at else None
        tracking = f"{count:08}"
        box = records.Box(
            0,
            self._tag(Kind.BOX),
            (order,),
            (f"CE{tracking}{s10_check_digit(tracking)}XZ",),
            due=day,
            arrived=came,
            opened=came,
            closed=None if open_at else came,
            open_at=open_at,
        )
        self._add("boxes", box)
        for part in parts:
            self._order_of[part], self._box_of[part] = order, (box.code, came is not None, day)

    def _shoots(self, build: int) -> None:
        rng, conditions = self._rng, list(shoots.Condition)
        numbers = list(self._lines)
        for n in range(6):
            shots = []
            for shot in range(25):
                chosen = rng.sample(numbers, min(8, len(numbers)))
                needs = [shoots.Need(rng.choice(conditions), part=part) for part in chosen]
                if not shot % 12:
                    needs.append(
                        shoots.Need(shoots.Condition.INSTALLED, build=build, section=rng.choice(SECTIONS))
                    )
                shots.append(shoots.Shot(f"Shot {shot}", tuple(needs)))
            day: date = NOW.date() + timedelta(days=7 * n + 4)
            self._add("shoots", shoots.Shoot(0, f"day-{n}", f"Day {n}", day, "07:30", tuple(shots)))

    # Moves

    def _lives(self) -> Iterator[tuple[datetime, str, Move]]:
        """Yield as many moves as were asked for, each part's own in their order."""
        supplier = self._suppliers[0]
        left = self._moves
        lives = [list(self._life(part, supplier)) for part in self._lines]
        left -= sum(map(len, lives))
        moved = [life for life in lives if life[-1][2].target.state in (State.RECEIVED, State.REMOVED)]
        while left > 0:  # the rest are things that were laid from bin to bin
            life = self._rng.choice(moved)
            when, _, last = life[-1]
            target = Place(last.target.state, self._rng.choice(self._bins), last.target.condition)
            if target != last.target:
                life.append(
                    (when + timedelta(hours=3), "put away", Move(last.part, last.qty, last.target, target))
                )
                left -= 1
        for life in lives:
            yield from life

    def _life(self, part: int, supplier: int) -> Iterator[tuple[datetime, str, Move]]:
        rng, line = self._rng, self._lines[part]
        box, came, day = self._box_of[part]
        when = datetime.combine(day, NOW.time(), UTC) - timedelta(days=9)
        order = self._order_of[part]
        qty = PIECES if part in self._scanned else line.needed
        yield from self._at(when, "ordered", verbs.order(part, qty, supplier=supplier, order=order))
        if not came or part in self._scanned:
            return
        when += timedelta(days=9)
        yield from self._at(when, "received", verbs.receive(self._book, part, qty, order=order, ref=box))
        yield from self._put_away(part, when)
        if rng.random() < 0.5:
            yield from self._at(when + timedelta(days=1), "opened", verbs.open_(self._book, part, qty))
        fate = rng.random()
        if fate < 0.75:
            yield from self._on_and_off(part, qty, when + timedelta(days=3), off=fate < 0.25)

    def _on_and_off(
        self, part: int, qty: int, when: datetime, *, off: bool
    ) -> Iterator[tuple[datetime, str, Move]]:
        position = next(iter(self._lines[part].positions), "")
        for _ in range(self._rng.randint(1, 3) if off else 1):
            put_on = verbs.install(self._book, part, qty, position=position)
            yield from self._at(when, "installed", put_on)
            if not off:
                return
            when += timedelta(days=2)
            taken = verbs.remove(self._book, part, qty, position=position)
            yield from self._at(when, "removed", taken)
            yield from self._put_away(part, when)
            when += timedelta(days=2)

    def _put_away(self, part: int, when: datetime) -> Iterator[tuple[datetime, str, Move]]:
        place, qty = self._book.places(part, State.RECEIVED, State.REMOVED)[0]
        to = self._rng.choice(self._bins)
        yield from self._at(
            when + timedelta(minutes=5), "put away", verbs.put_away(self._book, part, place, qty, to=to)
        )

    def _at(
        self, when: datetime, words: str, moves: tuple[Move, ...]
    ) -> Iterator[tuple[datetime, str, Move]]:
        for move in moves:
            self._book.apply(move)
            yield when, words, move

    def _write(self, rows: list[tuple[datetime, str, Move]]) -> None:
        with self._database.transaction():
            for when, words, move in rows:
                said = f"{words} {move.qty} {self._lines[move.part].description}"
                document: dict[str, object] = {
                    "transaction": self._database.insert("transactions", self._row(when, said)),
                    "part": move.part,
                    "qty": move.qty,
                    "from": place_document(move.source),
                    "to": place_document(move.target),
                }
                if move.ref:
                    document["ref"] = move.ref
                self._database.insert("moves", document)

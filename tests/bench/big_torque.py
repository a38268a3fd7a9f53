"""A big invented shop with its torque: 3,000 parts, 10,000 joints, their hardware, wrenches and readings.

It is the big shop of that size, in which every part got joints and hardware: what is on was tightened, most
of it well, so that lists have to say how thousands of joints stand.
"""

import random
import shutil
import tempfile
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

from big_shop import FORM, NOW, copied

from shoptui.domain.places import Place, State
from shoptui.domain.records import HARDWARE, HardwareLine, How, Joint, Part, Reading, What, Wrench
from shoptui.domain.shoots import Shoot
from shoptui.domain.tags import Kind, allocate
from shoptui.store.documents import place_document, to_document
from shoptui.store.shop import Shop

PARTS, MOVES, JOINTS, KINDS = 3_000, 30_000, 10_000, 300
TORQUE_FORM = 2
"""Raise it when what is made changes, so that nobody measures an older one."""

SIZES = ("M6x1 8.8", "M8x1.25 8.8", "M10x1.25 10.9", "M12x1.5 10.9", "M14x1.5 10.9", "3/8-16 UNC grade 8")
VALUES = ("10 N m", "25 +/- 3 N m", "60 to 70 N m", "110 N m", "40 N m + 90 deg", "81 lbf ft")
SET_TO = {"60 to 70 N m": ("65", "N m"), "40 N m + 90 deg": ("90", "deg"), "81 lbf ft": ("81", "lbf ft")}
"""What a reading of a value says, where it is not its first number in N m."""

SAFETY = ("Front brakes", "Rear brakes", "Steering", "Front suspension")


def torque_shop() -> Path:
    """Return the folder of the kept store, made if it is not there; nobody may change it: copy it."""
    kept = Path(tempfile.gettempdir()) / f"shoptui-bench-torque-{FORM}.{TORQUE_FORM}-{PARTS}-{JOINTS}"
    if not kept.is_dir():
        place = Path(tempfile.mkdtemp(prefix="shoptui-bench-", dir=kept.parent))
        _Fastener(copied(place / "shop", PARTS, MOVES)).fasten()
        (place / "shop").rename(kept)
        place.rmdir()
    return kept


def torque_copied(folder: Path) -> Path:
    """Return a copy of it in a folder that is not there yet."""
    shutil.copytree(torque_shop(), folder)
    return folder


class _Fastener:
    def __init__(self, folder: Path) -> None:
        self._rng = random.Random(11)
        self._shop = Shop.open(folder, clock=lambda: NOW)
        self._database = self._shop.database
        self._tags: set[str] = set()

    def fasten(self) -> None:
        with self._database.transaction():
            self._deed("torque written down")
            build = self._shop.builds.get(1)
            self._database.replace("builds", 1, to_document(replace(build, odometer=1040)))
            self._wrenches = [self._add("wrenches", self._wrench(n)) for n in range(6)]
            self._kinds = [self._hardware(n) for n in range(KINDS)]
            for number, part in enumerate(list(self._shop.parts.all())[:PARTS]):
                self._part(part, JOINTS * (number + 1) // PARTS - JOINTS * number // PARTS)
            for shoot in list(self._shop.shoots.all()):
                self._vehicle_moves(shoot)
        for part in list(self._shop.parts.all()):
            with self._database.transaction():
                self._tighten(part)
        self._database.compact()
        self._shop.close()

    def _deed(self, words: str) -> None:
        row = {"when": (NOW - timedelta(days=2)).isoformat(), "terminal": "lift", "words": words}
        self._deed_id = self._database.insert("transactions", row)

    def _add(self, table: str, record: object) -> int:
        number = self._database.insert(table, to_document(record))
        edit = {"transaction": self._deed_id, "table": table, "record": number, "field": "made"}
        self._database.insert("edits", edit)
        return number

    def _tag(self, kind: Kind) -> str:
        tag = allocate(kind, self._rng, self._tags.__contains__)
        self._tags.add(tag)
        return tag

    def _wrench(self, n: int) -> Wrench:
        day = date(NOW.year, NOW.month, 1)
        return Wrench(
            0,
            f"T-{n}",
            self._tag(Kind.WRENCH),
            f"Wrench {n}",
            low=5,
            high=250,
            deviation_percent=4,
            checked=day,
        )

    def _hardware(self, n: int) -> int:
        rng = self._rng
        number = self._add(
            "parts",
            Part(
                0,
                f"H-{n:04}",
                self._tag(Kind.HARDWARE),
                None,
                f"Bolt {n}",
                kind=HARDWARE,
                designation=rng.choice(SIZES),
                pieces=rng.choice((1, 10, 25)),
                one_use=rng.random() < 0.2,
                minimum=rng.choice((0, 0, 20)),
            ),
        )
        for _ in range(rng.randint(0, 2)):
            self._database.insert(
                "moves",
                {
                    "transaction": self._deed_id,
                    "part": number,
                    "qty": rng.randint(1, 120),
                    "from": place_document(Place(State.NOT_OURS, "unknown")),
                    "to": place_document(Place(State.RECEIVED, rng.randint(1, 100), "opened")),
                },
            )
        return number

    def _part(self, part: Part, joints: int) -> None:
        rng = self._rng
        kinds = rng.sample(self._kinds, max(1, joints))
        lines = tuple(HardwareLine(kind, rng.randint(1, 6)) for kind in kinds)
        section = rng.choice(SAFETY) if rng.random() < 0.2 else part.section
        made = tuple(self._joint(n, part) for n in range(joints))
        self._database.replace(
            "parts", part.id, to_document(replace(part, section=section, hardware=lines, joints=made))
        )

    def _joint(self, n: int, part: Part) -> Joint:
        rng = self._rng
        others = (rng.randint(1, PARTS),) if rng.random() < 0.2 else ()
        return Joint(
            f"Bolts {n}",
            rng.randint(1, 6),
            rng.choice(SIZES),
            value=rng.choice(VALUES),
            passes=rng.choice((1, 1, 1, 2)),
            one_use=rng.random() < 0.15,
            second_check=rng.random() < 0.05,
            again_after=rng.choice((0, 0, 0, 50)),
            clamps=tuple(number for number in others if number != part.id),
            source=f"Sheet {part.id % 40} (example)",
            page=str(part.id % 90),
        )

    def _tighten(self, part: Part) -> None:
        """State of what is on how it was tightened, all of it, some of it, or nothing."""
        for place, qty in self._shop.book.places(part.id, State.INSTALLED) if part.joints else ():
            self._deed(f"tightened {part.code}")
            for joint in part.joints:
                fate = self._rng.random()
                if fate < 0.9:
                    self._state(part, joint, str(place.where), joint.fasteners * qty)
                elif fate < 0.95:
                    self._state(part, joint, str(place.where), 1)

    def _state(self, part: Part, joint: Joint, position: str, count: int) -> None:
        value, unit = SET_TO.get(joint.value, (joint.value.split()[0], "N m"))
        said = Reading(
            0,
            What.TIGHTENED,
            part.id,
            joint.name,
            position,
            fasteners=count,
            value=value,
            unit=unit,
            how=How.SET,
            wrench=self._rng.choice(self._wrenches),
            who=1 + self._rng.randrange(8),
            odometer=self._rng.choice((None, 1000, 1030)),
            sheet_says=joint.sheet_says,
            transaction=self._deed_id,
        )
        number = self._database.insert("readings", to_document(said))
        if self._rng.random() < 0.02:
            wrong = replace(said, what=What.STRUCK, fasteners=0, strikes=number, note="wrong joint")
            self._database.insert("readings", to_document(wrong))

    def _vehicle_moves(self, shoot: Shoot) -> None:
        shots = tuple(replace(shot, moves=not number % 5) for number, shot in enumerate(shoot.shots))
        self._database.replace("shoots", shoot.id, to_document(replace(shoot, shots=shots)))

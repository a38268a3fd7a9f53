"""The jobs that a history of the invented shop can name, each done as the screens do it."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import TypeVar

from shoptui.domain.cells import CellError
from shoptui.domain.inert import inert
from shoptui.domain.names import Names, code_key
from shoptui.domain.records import Bin, Box, Order, Part
from shoptui.jobs.answers import Answer, Said, done
from shoptui.jobs.at import At
from shoptui.jobs.attach import attach
from shoptui.jobs.close_box import close_box
from shoptui.jobs.dispose import dispose
from shoptui.jobs.import_orders import import_orders
from shoptui.jobs.import_parts import import_parts
from shoptui.jobs.import_shop import import_shop
from shoptui.jobs.install import install
from shoptui.jobs.order import cancel
from shoptui.jobs.parcels import open_box
from shoptui.jobs.put_away import put_away
from shoptui.jobs.receive import receive
from shoptui.jobs.remove import remove
from shoptui.jobs.send_out import send_out, take_back
from shoptui.jobs.set_aside import hold, open_part
from shoptui.jobs.tighten import ask_next
from shoptui.store.shop import Shop

T = TypeVar("T")

SIGN = "sign"
"""Note of a check that was signed: no yes does that, but the first choice of its question."""

STOP = "stop"
"""Said last of joints: the others stay open."""


@dataclass(frozen=True, slots=True)
class PastJob:
    """One row of the history: who did what, where; the shop's clock shows when.

    Args:
        here: Where it was done: the shop, the terminal, the build and the person.
        source: Folder with the files that rows may name.
        today: Day from which the files' days are counted.
        what: A part by code or description, a box by tracking, tag or order number, or a file.
        qty: Pieces.
        at: Position on the vehicle.
        to: Bin, outside shop, or torque wrench.
        order: Number of an order or outside job; of a removal, the bag for its hardware.
        due: Day.
        note: A person's words; the work of an outside job; the reason of a disposal; a file; what was typed
            or scanned of joints, with ; between, the rest being done as asked unless `stop` stands last.

    """

    here: At
    source: Path
    today: date
    what: str
    qty: int
    at: str
    to: str
    order: str
    due: date | None
    note: str

    @property
    def shop(self) -> Shop:
        """The shop."""
        return self.here.shop

    @property
    def file(self) -> Path:
        """The file that the row names."""
        return self.source / self.what

    @property
    def part(self) -> Part:
        """The part that the row names."""
        part = self.shop.parts.by_code(self.what)
        if part is None:
            names: Names[Part] = Names()
            for each in self.shop.parts.all():
                names.add(each, each.code, each.description)
            part = next(iter(names.find(self.what)), None)
        return _there(part, "part", self.what)

    @property
    def into(self) -> Bin:
        """The bin that the row names."""
        return _there(self.shop.bins.by_code(self.to), "bin", self.to)

    @property
    def order_id(self) -> int:
        """Id of the order that the row names."""
        return _there(_order(self.shop, self.order), "order", self.order).id

    @property
    def box(self) -> Box:
        """The box that the row names; of an order with several, the first that is not closed."""
        order = _order(self.shop, self.what)
        boxes = [
            box
            for box in self.shop.boxes.all()
            if code_key(self.what) in map(code_key, (box.code, *box.tracking))
            or (order is not None and order.id in box.orders and box.closed is None)
        ]
        return _there(next(iter(boxes), None), "box", self.what)

    def do(self, name: str) -> None:
        """Do the job, answering its questions with yes.

        Raises:
            CellError: There is no such job, or it could not be done.

        """
        job = _JOBS.get(name)
        if job is None:
            raise CellError(f"One of {', '.join(_JOBS)} was expected; {inert(name)} came.")
        answer = job(self)
        while answer.question is not None and answer.question.yes is not None:
            answer = answer.question.yes()
        if answer.said is not Said.DONE:
            raise CellError(answer.text)


def _there(found: T | None, kind: str, name: str) -> T:
    if found is None:
        raise CellError(f"There is no {kind} {inert(name) or 'named'}.")
    return found


def _order(shop: Shop, number: str) -> Order | None:
    return next((order for order in shop.orders.all() if number in (order.number, order.code)), None)


def _arrived(job: PastJob) -> Answer:
    with job.here.doing(f"arrived: box {job.box.code}") as tx:
        tx.change(job.box, arrived=job.shop.clock())
    return done("")


def _parcel(job: PastJob) -> Answer:
    """A parcel that nobody knows was laid down at the door, unopened."""
    with job.here.doing(f"arrived: a parcel nobody knows, {job.what}") as tx:
        tx.add(Box(0, "", tracking=(job.what,), arrived=job.shop.clock()))
    return done("")


def _install(job: PastJob) -> Answer:
    return install(job.here, job.part, job.qty, position=job.at)


def _remove(job: PastJob) -> Answer:
    bag = _there(job.shop.bins.by_code(job.order), "bag", job.order) if job.order else None
    return remove(replace(job.here, bin_given=job.into.code), job.part, job.qty, position=job.at, bag=bag)


def _tighten(job: PastJob) -> Answer:
    """State what was done to the joints of a part; what is not said stays open."""
    wrench = _there(job.shop.wrenches.by_code(job.to), "wrench", job.to)
    job.shop.remember(job.here.terminal, wrench=wrench.id)
    answer = ask_next(job.here, job.part, job.at)
    *said, last = (each.strip() for each in job.note.split(";"))
    for text in filter(None, (*said, "" if last == STOP else last)):
        answer = _replied(answer, text)
    return done("") if last == STOP else answer


def _replied(answer: Answer, text: str) -> Answer:
    question = answer.question
    if text == SIGN and question is not None and question.yes is None and question.choices:
        return question.choices[0].take()
    takes = (question.accepts, question.words) if question is not None else ()
    found = (take(text) for take in takes if take is not None)
    return _there(next(filter(None, found), None), "question that is answered by", text)


def _send_out(job: PastJob) -> Answer:
    return send_out(job.here, job.part, job.qty, to=job.to, work=job.note, due=job.due, number=job.order)


def _take_back(job: PastJob) -> Answer:
    return take_back(job.here, job.part, job.qty, job=job.order_id, to=job.into.id)


def _at_build(job: PastJob) -> Answer:
    build = _there(job.shop.builds.by_code(job.here.build_given), "build", job.here.build_given)
    job.shop.remember(job.here.terminal, build=build.id)
    return done("")


_JOBS: dict[str, Callable[[PastJob], Answer]] = {
    "import shop": lambda job: import_shop(job.shop, job.file, terminal=job.here.terminal, base=job.today),
    "import parts": lambda job: import_parts(
        job.shop, job.file, job.here.build_given, terminal=job.here.terminal
    ),
    "import orders": lambda job: import_orders(
        job.shop, job.file, terminal=job.here.terminal, base=job.today
    ),
    "arrived": _arrived,
    "parcel": _parcel,
    "open box": lambda job: open_box(job.here, job.box),
    "close box": lambda job: close_box(job.here),
    "receive": lambda job: receive(job.here, job.part, job.qty),
    "put away": lambda job: put_away(job.here, job.into),
    "hold": lambda job: hold(job.here, job.part, job.qty, note=job.note),
    "unpack": lambda job: open_part(job.here, job.part, job.qty),
    "send out": _send_out,
    "take back": _take_back,
    "install": _install,
    "remove": _remove,
    "tighten": _tighten,
    "attach": lambda job: attach(job.here, job.part, str(job.source / job.note)),
    "dispose": lambda job: dispose(job.here, job.part, job.qty, reason=job.note, no_longer_needed=False),
    "cancel": lambda job: cancel(job.here, job.part, job.qty, order=job.order_id),
    "at build": _at_build,
}

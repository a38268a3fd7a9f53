"""What needs somebody among the parts: held, soon too old, ready to go on or out, waiting, on for trial."""

from collections.abc import Callable, Iterable, Iterator
from datetime import date

from shoptui.domain import verbs
from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.ledger import Move
from shoptui.domain.places import OPENED, SEALED, Place, State
from shoptui.domain.readiness import work_left
from shoptui.domain.records import Part
from shoptui.domain.shoots import Condition
from shoptui.jobs.at import name_and_code
from shoptui.jobs.check_shots import unseen
from shoptui.jobs.grounds import waits_for
from shoptui.jobs.held import why_held
from shoptui.jobs.needs import asked
from shoptui.jobs.place_words import bin_words, place_words
from shoptui.jobs.still_needed import still_needed
from shoptui.jobs.today_line import NOTE, READY, SOON, URGENT, WARNING, TodayLine
from shoptui.store.shop import Shop

Places = tuple[tuple[Place, int], ...]


def part_lines(shop: Shop, day: date) -> Iterator[TodayLine]:
    """Yield what wants a word, then what can go out or on, then what waits for something else."""
    finished = {build.id for build in shop.builds.all() if build.status != "open"}
    ready: list[TodayLine] = []
    waiting: list[TodayLine] = []
    kept = _Kept(shop)
    lying = shop.book.parts_in(State.RECEIVED, State.HELD)
    for part in shop.parts.all():
        if part.build in finished:
            continue
        if part.read_again:
            words = f"{name_and_code(part)}: its number changed, read again: {inert(part.read_again)}"
            yield TodayLine("read again", words, "parts", part.id, WARNING)
        if part.id not in lying:
            continue
        places = shop.book.places(part.id, State.RECEIVED, State.HELD)
        if part.use_by is not None and part.use_by <= day + SOON:
            yield _use_by(shop, part, part.use_by, day)
        if held := sum(qty for place, qty in places if place.state is State.HELD):
            yield _held(shop, part, places, held)
        line = _to_do(shop, part, places, kept)
        if line is not None:
            (waiting if line.kind == "waits" else ready).append(line)
    yield from ready
    yield from waiting
    yield from _on_trial(shop, finished)
    for part in unseen(shop):
        words = f"{name_and_code(part)}: a sponsor wants it seen, and no shot needs it"
        yield TodayLine("sponsor", words, "parts", part.id, WARNING)


def _use_by(shop: Shop, part: Part, until: date, day: date) -> TodayLine:
    past = until < day
    qty = shop.book.in_state(part.id, State.RECEIVED, State.HELD)
    when = f"{'was good' if past else 'good'} until {day_words(until, day)}"
    words = f"{when}: {qty} {name_and_code(part)}"
    return TodayLine("use by", words, "parts", part.id, URGENT if past else WARNING)


def _held(shop: Shop, part: Part, places: Places, qty: int) -> TodayLine:
    why = ", ".join(inert(note) for note in why_held(shop, part.id) if note)
    told = f" ({why})" if why else ""
    words = f"{qty} {name_and_code(part)}, {_lie(shop, places, State.HELD)}{told}: may it be used?"
    return TodayLine("held", words, "parts", part.id, WARNING)


def _on_trial(shop: Shop, finished: set[int]) -> Iterator[TodayLine]:
    """Say what hangs on a vehicle for trial: it is easily forgotten there."""
    for number in sorted(shop.book.parts_in(State.MOCKED_UP)):
        part = shop.parts.get(number)
        if part.build in finished:
            continue
        for place, qty in shop.book.places(number, State.MOCKED_UP):
            left = work_left(part, place.condition)
            then = f"take it down to be {inert(left[0].work)}" if left else "install it, or take it down"
            words = f"{qty} {name_and_code(part)}, {place_words(shop, place)}: {then}"
            yield TodayLine("mocked up", words, "lift", number, NOTE)


class _Kept:
    """What unfilmed shots want left as it is: most parts are asked of by none, and need no closer look."""

    def __init__(self, shop: Shop) -> None:
        self._shop = shop
        needs = [
            need
            for shoot in shop.shoots.all()
            for shot in shoot.shots
            if not shot.filmed
            for need in shot.needs
            if need.condition in (Condition.SEALED, Condition.ON_HAND, Condition.BEFORE_WORK)
        ]
        named = (need for need in needs if need.part is not None)
        self._parts = {part.id for need in named for part, _ in asked(shop, need)}
        self._sections = {(need.build, need.section.casefold()) for need in needs if need.part is None}

    def words(self, part: Part, moves: Callable[[], Iterable[Move]]) -> str:
        """Return which shot still needs a part as it is, empty if none does."""
        if part.id in self._parts or (part.build, part.section.casefold()) in self._sections:
            return next(iter(still_needed(self._shop, moves())), "")
        return ""


def _to_do(shop: Shop, part: Part, places: Places, kept: _Kept) -> TodayLine | None:
    missing_on = part.needed - shop.book.in_state(part.id, State.INSTALLED, State.ASSEMBLED)
    here = [(place, qty) for place, qty in places if place.state is State.RECEIVED and qty > 0]
    qty = min(missing_on, sum(n for _, n in here))
    if part.build is None or part.original or qty <= 0:
        return None
    where = _lie(shop, places, State.RECEIVED)
    raw = next((place for place, _ in here if place.condition in (SEALED, OPENED)), None)
    if raw is not None and (works := work_left(part, raw.condition)):
        words = f"{qty} {name_and_code(part)}, {where}: to be {inert(works[0].work)}"
        if shot := kept.words(part, lambda: verbs.send_out(shop.book, part.id, 1, job=0)):
            return TodayLine("waits", f"{words}, but {shot}", "parts", part.id)
        return TodayLine("send out", words, "parts", part.id, READY)
    if waits := waits_for(shop, part):
        return TodayLine(
            "waits", f"{qty} {name_and_code(part)}, {where}: first {', '.join(waits)}", "lift", part.id
        )
    if shot := kept.words(part, lambda: verbs.install(shop.book, part.id, qty, position="")):
        return TodayLine("waits", f"{qty} {name_and_code(part)}, {where}: {shot}", "lift", part.id)
    return TodayLine("install", f"{qty} {name_and_code(part)}, {where}", "lift", part.id, READY)


def _lie(shop: Shop, places: Places, state: State) -> str:
    return " and ".join(
        dict.fromkeys(bin_words(shop, place.where) for place, _ in places if place.state is state)
    )

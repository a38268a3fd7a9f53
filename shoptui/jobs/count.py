"""Counting a bin by scanning what is in it: begun, counted, taken back, given up.

What was counted so far is remembered for the terminal, so that closing the program loses nothing; nothing is
entered before the differences were shown.
"""

from collections import Counter
from collections.abc import Iterable

from shoptui.domain.inert import inert
from shoptui.domain.records import Bin, CountLine, Part
from shoptui.jobs.answers import Answer, Choice, Question, Said, ask_about, done
from shoptui.jobs.at import At, name, pieces
from shoptui.jobs.bins import inside
from shoptui.jobs.kit import contents
from shoptui.jobs.put_away import bin_name

NEXT = "Next thing, or “done”."


def bin_counted(at: At) -> Bin | None:
    """Return the bin that is being counted at this terminal, None if none is or another station is in front.

    A bin that somebody withdrew meanwhile is counted no longer, and one whose count was put aside is not now.
    """
    return None if at.station != "racks" or at.memory.count_rests else _begun(at)


def _begun(at: At) -> Bin | None:
    """Return the bin whose count was begun at this terminal, also if it rests; None for none."""
    number = at.memory.counting
    found = None if number is None else at.shop.bins.get(number)
    return None if found is None or found.withdrawn else found


def counted_so_far(at: At) -> Counter[int]:
    """Return part id to pieces counted at this terminal."""
    counted: Counter[int] = Counter()
    for line in at.memory.counted:
        counted[line.part] += line.qty
    return counted


def rows_of_count(at: At, found: Bin) -> tuple[Part, ...]:
    """Return the parts of a bin that is being counted as its rows stand: booked ones, then others counted."""
    booked = [part.id for part, _, _ in inside(at.shop, found.id)]
    return tuple(at.shop.parts.get(number) for number in dict.fromkeys((*booked, *counted_so_far(at))))


def ask_which(at: At) -> Answer:
    """Ask which bin is to be counted."""
    resting = _begun(at)
    rests = f" That of {bin_name(resting)} rests, {counted_so_far(at).total()} so far." if resting else ""
    return Answer(
        Said.QUESTION,
        f"Which bin is counted? Scan it, or type its name.{rests}",
        show="racks",
        question=Question(
            accepts=lambda text: begin(at, found) if (found := at.shop.bins.by_code(text)) else None
        ),
    )


def begin(at: At, found: Bin) -> Answer:
    """Begin to count a bin; where another terminal does already, ask who goes on."""
    for other in at.shop.terminals.all():
        if other.counting == found.id and other.code != at.terminal:
            return _ask_take_over(at, found, other.code, sum(line.qty for line in other.counted))
    before = _begun(at)
    if before is not None and before.id == found.id:
        at.shop.remember(at.terminal, count_rests=False)
        return progress(at, found)
    if before is not None and at.memory.counted:
        return _ask_instead(at, before, found)
    return _start(at, found, ())


def _ask_instead(at: At, before: Bin, found: Bin) -> Answer:
    """Ask before a count that rests is forgotten for another."""
    return Answer(
        Said.QUESTION,
        f"The count of {bin_name(before)} rests, {counted_so_far(at).total()} so far. Enter: go on with it. "
        f"1 and Enter: forget it, and count {bin_name(found)}.",
        show="racks",
        subject=before.id,
        question=Question(
            yes=lambda: begin(at, before),
            choices=(Choice(f"forget it, and count {bin_name(found)}", lambda: _start(at, found, ())),),
        ),
    )


def _ask_take_over(at: At, found: Bin, other: str, so_far: int) -> Answer:
    def take_over() -> Answer:
        lines = at.shop.terminal(other).counted
        at.shop.remember(other, counting=None, counted=(), count_rests=False)
        return _start(at, found, lines)

    return Answer(
        Said.QUESTION,
        f"{bin_name(found)} is being counted at {inert(other)}, {so_far} so far. Enter: go on with it here.",
        show="racks",
        subject=found.id,
        question=Question(yes=take_over),
    )


def _start(at: At, found: Bin, lines: tuple[CountLine, ...]) -> Answer:
    at.shop.remember(at.terminal, counting=found.id, counted=lines, count_rests=False)
    return done(
        f"Counting {bin_name(found)}: scan each thing in it. A number before a scan: that many. "
        "A row's number and Enter where there is no label. “done” compares.",
        kind="bin",
        show="racks",
        subject=found.id,
    )


def progress(at: At, found: Bin) -> Answer:
    """Say how far the count is."""
    return done(
        f"Counting {bin_name(found)}: {counted_so_far(at).total()} so far. {NEXT}",
        kind="bin",
        show="racks",
        subject=found.id,
    )


def count_part(at: At, part: Part, qty: int) -> Answer:
    """Count pieces of a part; a kit's code counts what is in the kit."""
    lines = [CountLine(each.id, n) for each, n in contents(at.shop, part, qty)]
    _remember(at, (*at.memory.counted, *lines))
    total = f"{counted_so_far(at)[part.id]} so far"
    return _told(at, f"{pieces(qty, part)} counted, {'all that is in it' if part.kit else total}.", part, qty)


def row_counted(at: At, part: Part, qty: int) -> Answer:
    """Count so many more of a part without a label; if no number came before its row, ask how many in all.

    Enter alone is then one more.
    """
    if qty > 1:
        return count_part(at, part, qty)
    return ask_about(
        part,
        f"{name(part)}, {counted_so_far(at)[part.id]} so far: how many are there in all? "
        "Type the number and Enter; Enter alone: one more.",
        Question(
            yes=lambda: count_part(at, part, 1),
            accepts=lambda text: _in_all(at, part, int(text)) if _is_whole(text) else None,
        ),
    )


def _is_whole(text: str) -> bool:
    return text.isascii() and text.isdigit() and len(text) <= len("99999")


def _in_all(at: At, part: Part, qty: int) -> Answer:
    others = tuple(line for line in at.memory.counted if line.part != part.id)
    _remember(at, (*others, CountLine(part.id, qty)) if qty else others)
    return _told(at, f"{pieces(qty, part)} in all.", part, qty)


def take_back(at: At) -> Answer:
    """Take back what was counted last; the books know nothing of it yet."""
    *before, last = at.memory.counted
    _remember(at, before)
    part = at.shop.parts.get(last.part)
    return _told(at, f"Not counted: {pieces(last.qty, part)}.", part, last.qty)


def give_up(at: At) -> Answer:
    """Stop counting: it was not counted at all, and nothing changes."""
    found = bin_counted(at)
    at.shop.remember(at.terminal, counting=None, counted=())
    return done(
        f"{bin_name(found) if found else 'The bin'} was not counted; nothing changed.",
        show="racks",
        subject=found.id if found else 0,
    )


def put_aside(at: At) -> Answer:
    """Let the count rest: what is scanned means what it always does until the bin is counted again."""
    found = _begun(at)
    at.shop.remember(at.terminal, count_rests=True)
    called = bin_name(found) if found else "the bin"
    return done(
        f"The count of {called} rests, {counted_so_far(at).total()} so far: scan it and “count” to go on.",
        show="racks",
        subject=found.id if found else 0,
    )


def left_empty(at: At) -> str:
    """End a count of which nothing was counted; return what to say of it, empty where there was none."""
    found = _begun(at)
    if found is None or at.memory.counted:
        return ""
    at.shop.remember(at.terminal, counting=None)
    return f"{bin_name(found)} was left with nothing counted, so it is not being counted any more."


def left(at: At) -> Answer | None:
    """Say of a count that somebody went away from how far it is; None where none is under way."""
    if words := left_empty(at):
        return done(words)
    found = None if at.memory.count_rests else _begun(at)
    if found is None:
        return None
    so_far = f"{bin_name(found)} is being counted, {counted_so_far(at).total()} so far."
    return done(f"{so_far} It goes on at the Racks (F6); “done” there compares it, or puts it aside.")


def _remember(at: At, lines: Iterable[CountLine]) -> None:
    at.shop.remember(at.terminal, counted=tuple(lines))


def _told(at: At, words: str, part: Part, qty: int) -> Answer:
    found = bin_counted(at)
    where = bin_name(found) if found else ""
    return done(
        f"{where}: {words} {NEXT}", kind="part", part=part.code, qty=qty, where=where, subject=part.id
    )

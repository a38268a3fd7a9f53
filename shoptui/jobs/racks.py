"""What a scan means at the racks: where a thing is, what is in a bin, and what is counted in it."""

from dataclasses import replace

from shoptui.domain.places import UNSORTED, Place, State
from shoptui.domain.records import Bin, Part
from shoptui.domain.verbs import ON_A_SHELF
from shoptui.jobs.answers import Answer, Choice, Question, Said, done, stop
from shoptui.jobs.at import At, name, pieces
from shoptui.jobs.bags import bag_words
from shoptui.jobs.bins import inside
from shoptui.jobs.count import (
    ask_which,
    begin,
    bin_counted,
    count_part,
    counted_so_far,
    left_empty,
    progress,
    row_counted,
    rows_of_count,
)
from shoptui.jobs.count_entry import compare
from shoptui.jobs.given import line_words, now_on
from shoptui.jobs.move_bin import WORDS as MOVE_ALL
from shoptui.jobs.move_bin import ask_move_all
from shoptui.jobs.place_words import piece_words, place_words
from shoptui.jobs.put_away import bin_name, move_to_bin


def where_it_is(at: At, part: Part, show: str) -> Answer:
    """Say where a part's pieces are, and show it at a station; where another line got them, say that too."""
    places = _places(at, part)
    only = places[0][0] if len(places) == 1 else None
    line = now_on(at.shop, part)
    now = "" if line is part else f" Now on {line_words(at.shop, line)}: {_told(at, line)}."
    return done(
        f"{name(part)}: {_told(at, part)}.{now}",
        part=part.code,
        qty=sum(n for _, n in places),
        state=only.state.value if only else "",
        where=place_words(at.shop, only) if only else "",
        show=show,
        subject=part.id,
    )


def _places(at: At, part: Part) -> list[tuple[Place, int]]:
    return [(place, n) for place, n in at.shop.book.places(part.id) if place.state is not State.NOT_OURS]


def _told(at: At, part: Part) -> str:
    words = "; ".join(piece_words(at.shop, place, n) for place, n in _places(at, part)[:3])
    return words or "not ordered yet"


def part_at_the_racks(at: At, part: Part, qty: int) -> Answer:
    """Count it where a bin is being counted, else say where it is; the bin scanned next takes it.

    The label of a line that gave all it had is still on the pieces: the line that has them is meant.
    """
    line = now_on(at.shop, part)
    if bin_counted(at) is not None:
        return count_part(at, line, qty)
    answer = replace(where_it_is(at, part, "racks"), part=line.code, subject=line.id)
    if not at.shop.book.in_state(line.id, *ON_A_SHELF):
        return answer
    return replace(
        answer,
        text=f"{answer.text} Scan a bin to put it there.",
        question=Question(accepts=lambda text: _to_bin(at, line, qty, text)),
    )


def _to_bin(at: At, part: Part, qty: int, text: str) -> Answer | None:
    """Move a part that was shown into the bin scanned next: from the bench, else ask from where."""
    into = at.shop.bins.by_code(text)
    if into is None:
        return None
    here = [each for each in at.shop.book.places(part.id, *ON_A_SHELF) if each[0].where != into.id]
    bench = [(place, n) for place, n in here if place.where == UNSORTED]
    if not here:
        return stop(f"{name(part)} is in {bin_name(into)} already.", part=part.code, subject=part.id)
    if len(here) == 1 or bench:
        place, n = (bench or here)[0]
        return move_to_bin(at, part, place, n if qty == 1 else min(qty, n), into)
    return Answer(
        Said.QUESTION,
        f"{name(part)} lies in {len(here)} places. From which into {bin_name(into)}? Its number, then Enter: "
        + "; ".join(f"{i} {place_words(at.shop, place)}" for i, (place, _) in enumerate(here, 1)),
        part=part.code,
        subject=part.id,
        question=Question(choices=tuple(_from(at, part, place, n, into) for place, n in here)),
    )


def _from(at: At, part: Part, place: Place, qty: int, into: Bin) -> Choice:
    return Choice(place_words(at.shop, place), lambda: move_to_bin(at, part, place, qty, into))


def bin_looked_into(at: At, found: Bin) -> Answer:
    """Say what is in a bin; while another is being counted, that count is compared first."""
    counting, left = bin_counted(at), ""
    if counting is not None:
        if counting.id == found.id:
            return progress(at, found)
        if not (left := left_empty(at)):
            return compare(at, counting, counted_so_far(at), then=found)
    things = inside(at.shop, found.id)
    listed = ", ".join(pieces(qty, part) for part, _, qty in things[:3])
    more = f" and {len(things) - 3} more" if len(things) > 3 else ""  # noqa: PLR2004
    words = f"{bin_name(found)}: {listed + more if things else 'empty'}."
    return done(
        " ".join(filter(None, (left, words, bag_words(at.shop, found)))),
        where=bin_name(found),
        qty=sum(qty for _, _, qty in things),
        show="racks",
        subject=found.id,
        question=Question(accepts=lambda text: _with_it(at, found, text)) if at.station == "racks" else None,
    )


def _with_it(at: At, found: Bin, text: str) -> Answer | None:
    """Move all that is in the bin just scanned, if that is said next."""
    return ask_move_all(at, found) if text.strip().casefold() in MOVE_ALL else None


def count_said(at: At) -> Answer:
    """Take the word `count`: of the bin that is shown, else ask which; say how far the count is."""
    if at.station != "racks":
        return stop("“count” is for what is in a bin: go to the Racks (F6).")
    if (counting := bin_counted(at)) is not None:
        return progress(at, counting)
    shown = None if at.bin_shown is None else at.shop.bins.get(at.bin_shown)
    return ask_which(at) if shown is None or shown.withdrawn else begin(at, shown)


def count_bin(at: At, found: Bin) -> Answer:
    """Begin to count a bin, or compare if it is being counted; another that is counted is compared first."""
    counting = bin_counted(at)
    if counting is None:
        return begin(at, found)
    return compare(at, counting, counted_so_far(at), then=None if counting.id == found.id else found)


def count_where_it_lies(at: At, part: Part) -> Answer:
    """Count the bin in which most of a part lies, wherever one is."""
    shop = at.shop
    lies = [pair for pair in shop.book.places(part.id, *ON_A_SHELF) if isinstance(pair[0].where, int)]
    if not lies:
        return stop(f"{name(part)} lies in no drawer or bin: scan where it is, at the Racks (F6).")
    fullest, _ = max(lies, key=lambda pair: pair[1])
    return count_bin(replace(at, station="racks"), shop.bins.get(int(fullest.where)))


def done_said(at: At) -> Answer | None:
    """Take the word `done`: compare the count with the books; None where nothing is being counted."""
    counting = bin_counted(at)
    return None if counting is None else compare(at, counting, counted_so_far(at))


def numbered_row(at: At, number: int, qty: int) -> Answer | None:
    """Take the number of a row of the bin that is being counted; None where there is no such row."""
    counting = bin_counted(at)
    rows = rows_of_count(at, counting) if counting is not None else ()
    return row_counted(at, rows[number - 1], qty) if 1 <= number <= len(rows) else None

"""Closing the open box: what is still to come, what is short, and what the supplier will not send."""

from collections.abc import Callable, Iterator

from shoptui.domain.inert import inert
from shoptui.domain.places import Place, State
from shoptui.domain.records import Box, Part
from shoptui.jobs.answers import Answer, Choice, Question, Said, done, stop
from shoptui.jobs.at import At, pieces, shown
from shoptui.jobs.box_list import come_beside, expected_in
from shoptui.jobs.held import why_held
from shoptui.jobs.order import cancel
from shoptui.store.transaction import Transaction

LISTED = 3
"""Parts that a sentence names; the others are counted."""

Missing = list[tuple[Part, int]]


def close_box(at: At) -> Answer:
    """Close the open box: say what was short against its slip, else what is still to come."""
    box = at.box
    if box is None:
        return stop("No box is open here, so there is none to close.")
    missing = _missing(at, box)
    with at.doing(f"closed box {shown(box.code)}") as transaction:
        beside = _close(at, transaction, box)
    return _closed(at, box, f"{_missing_words(at, box, missing)}{beside}", missing)


def _close(at: At, transaction: Transaction, box: Box) -> str:
    """Close a box, and those of its orders that were unpacked and laid aside and in which nothing is to come.

    Returns words on those, to be appended: nobody comes back to a box that was the last but one.
    """
    now = at.shop.clock()
    transaction.change(box, closed=now, open_at="", also_at=())
    beside = [
        each
        for each in come_beside(at.shop, box)
        if each.opened and not each.open_at and not _missing(at, each)
    ]
    for each in beside:
        transaction.change(each, closed=now)
    if not beside:
        return ""
    transaction.say(f"closed {', '.join(f'box {shown(each.code)}' for each in (box, *beside))}")
    told = shown(beside[0].code) if len(beside) == 1 else f"{len(beside)} more of its boxes"
    return f" Closed as well, since nothing is to come in it: {told}."


def _closed(at: At, box: Box, words: str, missing: Missing) -> Answer:
    unsorted = sum(at.since_last_bin().values())
    bench = f" On the bench still: {unsorted}; scan the bin for that." if unsorted else ""
    hint = " If the supplier will not send it: “short” (Ctrl+T)." if words.startswith("Short") else ""
    return done(
        f"Box {shown(box.code)} closed. {words}{bench}{hint}",
        subject=box.id,
        qty=sum(qty for _, qty in missing),
    )


def _missing(at: At, box: Box) -> Missing:
    return [(at.shop.parts.get(line.part), line.short) for line in expected_in(at.shop, box) if line.short]


def _missing_words(at: At, box: Box, missing: Missing) -> str:
    held = _held_words(at, box)
    if not missing:
        return f"Nothing more is to come. {held}" if held else "All that was expected in it is here."
    if box.contents or not come_beside(at.shop, box):
        return f"Short: {_listed(missing)}; still ordered.{held and ' ' + held}"
    return f"Still to come: {_listed(missing)}.{held and ' ' + held}"


def _held_words(at: At, box: Box) -> str:
    """Say what of a box was set aside, and why; empty where all is good."""
    aside = [
        (at.shop.parts.get(line.part), qty)
        for line in expected_in(at.shop, box)
        if (qty := line.held + line.wrong)
    ]
    reasons = dict.fromkeys(note for part, _ in aside for note in why_held(at.shop, part.id) if note)
    why = f" ({inert(', '.join(reasons))})" if reasons else ""
    return f"Held: {_listed(aside)}{why}." if aside else ""


def _listed(missing: Missing) -> str:
    more = f" and {len(missing) - LISTED} more lines" if len(missing) > LISTED else ""
    return ", ".join(pieces(qty, part) for part, qty in missing[:LISTED]) + more


def short(at: At) -> Answer:
    """Ask what becomes of the rest of the open box, or of the one closed last: it did not come."""
    box = at.box or max(
        (box for box in at.shop.boxes.all() if box.closed),
        key=lambda box: (box.closed is not None and box.closed.timestamp(), box.id),
        default=None,
    )
    missing = _missing(at, box) if box else []
    if box is None or not missing:
        which = "No box is open here" if box is None else f"Nothing is missing in box {shown(box.code)}"
        return stop(f"{which}, so nothing is short.", subject=box.id if box else 0)
    return Answer(
        Said.QUESTION,
        f"Box {shown(box.code)} is short of {_listed(missing)}. Enter: it stays ordered and comes later. "
        "Will the supplier not send it: its number, then Enter.",
        question=Question(yes=lambda: _stays(at, box, missing), choices=tuple(_choices(at, box, missing))),
        subject=box.id,
    )


def _choices(at: At, box: Box, missing: Missing) -> Iterator[Choice]:
    """Offer to cancel all that is short, and each line by itself; work at an outside shop comes back."""
    bought = [(part, qty) for part, qty in missing if any(_promised(at, box, part))]
    if bought:
        yield Choice("Supplier will not send it: to order again", _canceller(at, box, bought))
    if len(bought) > 1:
        for part, qty in bought:
            yield Choice(
                f"Supplier will not send {pieces(qty, part)}; the rest comes later",
                _canceller(at, box, [(part, qty)]),
            )


def _promised(at: At, box: Box, part: Part) -> Iterator[tuple[int, int]]:
    """Yield orders of the box that still promise pieces of a part, and how many."""
    places = dict.fromkeys(place.where for place, _ in at.shop.book.places(part.id, State.ORDERED))
    for order in box.orders:
        if order in places:
            yield order, at.shop.book.at(part.id, Place(State.ORDERED, order))


def _stays(at: At, box: Box, missing: Missing) -> Answer:
    if at.box is not None and at.box.id == box.id:
        return close_box(at)
    return done(f"Still ordered: {_listed(missing)}.", subject=box.id)


def _canceller(at: At, box: Box, missing: Missing) -> Callable[[], Answer]:
    return lambda: _cancel(at, box, missing)


def _cancel(at: At, box: Box, missing: Missing) -> Answer:
    """Cancel what will not come, and close the box once nothing is open in it any more: one transaction."""
    shop = at.shop
    with at.doing(f"short in box {shown(box.code)}, cancelled: {_listed(missing)}") as transaction:
        for part, qty in missing:
            left = qty
            for order, there in tuple(_promised(at, box, part)):
                if taken := min(left, there):
                    cancel(at, part, taken, order=order)
                    left -= taken
        box = shop.boxes.get(box.id)
        rest = _missing(at, box)
        beside, done_with = "", not rest and at.box is not None and at.box.id == box.id
        if done_with:
            beside = _close(at, transaction, box)
    words = f"Cancelled, to order again: {_listed(missing)}."
    if done_with:
        words += beside
        return _closed(at, box, words, [])
    return done(f"{words} Still expected: {_listed(rest)}." if rest else words, subject=box.id)

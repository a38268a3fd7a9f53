"""Give pieces to another build, or to the shop's stock: a line there gets them, where and as they are."""

from collections.abc import Callable
from functools import partial

from shoptui.domain.inert import inert
from shoptui.domain.places import Place, State
from shoptui.domain.records import Build, Part
from shoptui.domain.verbs import ON_A_SHELF
from shoptui.jobs.answers import Answer, Choice, Question, ask_about, stop
from shoptui.jobs.at import At, name, pieces, shown
from shoptui.jobs.dispose import Leaving, ask_from_where, let_go
from shoptui.jobs.gift import Gift
from shoptui.jobs.given import STOCK
from shoptui.jobs.held import why_words
from shoptui.jobs.same_line import lines_alike, lines_of

MOST_LINES = 6
"""Lines of another build that a question lists; any other is scanned or typed."""

_STOCK_WORDS = ("stock", STOCK)

NEW_LINE = 0
"""Stands for a line that is yet to be made where the id of one is expected."""


def ask_transfer(at: At, part: Part, qty: int) -> Answer:
    """Ask which build gets the pieces."""

    def giver(to: Build | None) -> Callable[[], Answer]:
        return lambda: transfer(at, at.shop.parts.get(part.id), qty, to=to)

    open_ones = [each for each in at.shop.builds.all() if each.status == "open" and each.id != part.build]
    choices = [Choice(f"{inert(each.code)}: {inert(each.title)}", giver(each)) for each in open_ones]
    if part.build is not None:
        choices.append(Choice(STOCK, giver(None)))
    if not choices:
        return stop("There is no other open build. A new one is made in Set-up (F12).")

    def named(text: str) -> Answer | None:
        if part.build is not None and text.strip().casefold() in _STOCK_WORDS:
            return giver(None)()
        build = at.shop.builds.by_code(text)
        return None if build is None else giver(build)()

    ask = f"{pieces(qty, part)}: who gets it? Its number and Enter, or scan the vehicle."
    return _question(part, qty, ask, choices, accepts=named)


def transfer(
    at: At,
    part: Part,
    qty: int,
    *,
    to: Build | None,
    line: int | None = None,
    off: str | None = None,
    no_longer_needed: bool | None = None,
    sources: tuple[Place, ...] = (),
    held: bool = False,
) -> Answer:
    """Give pieces to a line of another build, with what is built into them.

    Asks which line where not exactly one there has the same maker's number, whether installed pieces come off
    for it, whether held ones are meant (they stay held there), and whether they are still needed here.

    Args:
        at: Where it is done.
        part: The part that gives.
        qty: Pieces.
        to: The build that gets them, None for the shop's stock.
        line: Id of its line, `NEW_LINE` for one that is copied from this one; None finds or asks.
        off: Position that the pieces come off, as far as too few lie here; None asks.
        no_longer_needed: As `dispose` has it.
        sources: Where they are taken from; empty asks where they lie in several places.
        held: Whether it was said that held pieces are meant.

    """
    if refusal := _refused(part, to):
        return stop(f"{refusal} Nothing changed.", kind="part", part=part.code, subject=part.id)
    again = partial(
        transfer,
        at,
        part,
        qty,
        to=to,
        line=line,
        off=off,
        no_longer_needed=no_longer_needed,
        sources=sources,
        held=held,
    )
    if not sources:
        asked = ask_from_where(at, part, qty, ON_A_SHELF, lambda places: again(sources=places, held=True))
        if asked is not None:
            return asked
    if not held and (asked := _ask_held(at, part, qty, to, lambda: again(held=True))) is not None:
        return asked
    if off is None and (asked := _ask_off(at, part, qty, to, lambda spot: again(off=spot))) is not None:
        return asked
    if line is None:
        same = lines_alike(at.shop, part, to)
        if to is not None and len(same) != 1:
            return _ask_line(at, part, qty, to, same, lambda number: again(line=number))
        line = same[0].id if same else NEW_LINE  # in the stock one line is as good as another
    given = Gift(at.shop, part, qty, to, line, off, sources)
    return let_go(
        at,
        part,
        qty,
        f"given to {_named(to)}",
        Leaving(given.out, given.moves, lambda no: again(line=line, no_longer_needed=no), given.after),
        no_longer_needed=no_longer_needed,
    )


def _refused(part: Part, to: Build | None) -> str:
    if part.is_hardware:
        return f"{name(part)} is hardware, which is there for every build."
    if to is not None and to.status != "open":
        return f"{inert(to.title or to.code)} is finished and gets nothing any more."
    if part.build == (to.id if to else None):
        return f"{name(part)} is on the list of {_named(to)} already."
    return ""


def _named(to: Build | None) -> str:
    return inert(to.code) if to else STOCK


def _ask_held(at: At, part: Part, qty: int, to: Build | None, go_on: Callable[[], Answer]) -> Answer | None:
    """Say that pieces are held before they are given away; None where usable ones are enough."""
    book = at.shop.book
    held = min(qty - book.in_state(part.id, State.RECEIVED), book.in_state(part.id, State.HELD))
    if held <= 0:
        return None
    why = why_words(at.shop, part.id) or "nobody wrote down why"
    ask = (
        f"{pieces(qty, part)} to {_named(to)}: {held} held ({why}). Enter: give it all the same, still held."
    )
    return _question(part, qty, ask, (), yes=go_on)


def _ask_off(at: At, part: Part, qty: int, to: Build | None, take: Callable[[str], Answer]) -> Answer | None:
    """Ask whether installed pieces come off, where too few lie here; None where there is nothing to ask."""
    book = at.shop.book
    lacking = qty - book.in_state(part.id, *ON_A_SHELF)
    spots = [str(place.where) for place, n in book.places(part.id, State.INSTALLED) if n >= lacking]
    if lacking <= 0 or not spots:
        return None

    def taker(spot: str) -> Callable[[], Answer]:
        return lambda: take(spot)

    ask = f"Of {name(part)} {qty - lacking} lie here. Does {lacking} come off the vehicle for {_named(to)}?"
    if len(spots) == 1:
        at_spot = f" (at {inert(spots[0])})" if spots[0] else ""
        return _question(part, qty, f"{ask} Enter: yes{at_spot}.", (), yes=taker(spots[0]))
    return _question(
        part,
        qty,
        f"{ask} From where? Its number, then Enter.",
        [Choice(f"from {inert(spot)}", taker(spot)) for spot in spots],
    )


def _ask_line(
    at: At, part: Part, qty: int, to: Build, same: list[Part], take: Callable[[int], Answer]
) -> Answer:
    words = set(part.description.casefold().split())
    alike = same or [
        each for each in lines_of(at.shop, to) if words & set(each.description.casefold().split())
    ]

    def taker(number: int) -> Callable[[], Answer]:
        return lambda: take(number)

    def named(text: str) -> Answer | None:
        found = at.shop.parts.by_code(text)
        return take(found.id) if found is not None and found.build == to.id else None

    ask = f"{pieces(qty, part)} to {_named(to)}"
    if not alike:
        ask = f"{ask}: no line there is like it. Enter: a new one, copied from this. Or scan the line."
        return _question(part, qty, ask, (), yes=taker(NEW_LINE), accepts=named)
    new = Choice(f"a new line, copied from this one: {name(part)}", taker(NEW_LINE))
    listed = [Choice(f"{name(each)} ({shown(each.code)})", taker(each.id)) for each in alike[:MOST_LINES]]
    ask = f"{ask}: on which line there? Its number and Enter, or scan it."
    return _question(part, qty, ask, (*listed, new), accepts=named)


def _question(
    part: Part,
    qty: int,
    text: str,
    choices: tuple[Choice, ...] | list[Choice],
    *,
    yes: Callable[[], Answer] | None = None,
    accepts: Callable[[str], Answer | None] | None = None,
) -> Answer:
    return ask_about(part, text, Question(yes=yes, choices=tuple(choices), accepts=accepts), qty=qty)

"""Writing down what the packing slip of a box says is in it."""

from collections.abc import Mapping

from shoptui.domain.records import Box, BoxLine
from shoptui.jobs.answers import Answer, Question, Said, done, stop
from shoptui.jobs.at import At, pieces, shown
from shoptui.jobs.at_the_door import there_is
from shoptui.jobs.box_list import expected_in


def write_slip(at: At, box: Box, counts: Mapping[int, int]) -> Answer:
    """Take what a slip says as what should be in a box; without any pieces it has no slip.

    Args:
        at: Where it is done.
        box: The box.
        counts: Part id to the pieces on the slip.

    """
    shop = at.shop
    contents = tuple(BoxLine(part, qty) for part, qty in counts.items() if qty)
    box = shop.boxes.get(box.id)
    if contents == box.contents:
        return stop(f"The slip of box {shown(box.code)} says that already. Nothing changed.", subject=box.id)
    if more := _more_than_ordered(at, box, contents):
        return Answer(
            Said.QUESTION,
            f"The slip lists {more}. Enter: the paper says so.",
            subject=box.id,
            question=Question(yes=lambda: _write(at, box, contents)),
        )
    return _write(at, box, contents)


def _more_than_ordered(at: At, box: Box, contents: tuple[BoxLine, ...]) -> str:
    """Say of which part a slip lists more than the box brought and its orders still promise."""
    came = at.shop.box_index.received(box.code)
    for line in contents if box.orders else ():
        part = at.shop.parts.get(line.part)
        orders = [at.shop.orders.get(number) for number in (*box.orders, *box.also_orders)]
        most = max(0, came.get(part.id, 0)) + sum(there_is(at, order, part) for order in orders)
        if line.qty > most:
            return f"{pieces(line.qty, part)}; its order promises {most or 'none'}"
    return ""


def _write(at: At, box: Box, contents: tuple[BoxLine, ...]) -> Answer:
    shop = at.shop
    with at.doing(f"wrote down the slip of box {shown(box.code)}") as transaction:
        box = transaction.change(shop.boxes.get(box.id), contents=contents)
    lines = expected_in(shop, box)
    if not contents:
        return done(
            f"Box {shown(box.code)} has no slip: what its orders promise is expected.", subject=box.id
        )
    missing, over = (sum(each) for each in zip(*((line.short, line.over) for line in lines), strict=True))
    listed = sum(line.qty for line in contents)
    told = [f"{missing} to come out of it" if missing else "all of it is here"]
    told += [f"{over} here that it does not list"] if over else []
    return done(
        f"Slip of box {shown(box.code)}: {listed} pieces. {', '.join(told).capitalize()}.",
        subject=box.id,
    )

"""Writing down what the packing slip of a box says is in it."""

from collections.abc import Mapping

from shoptui.domain.records import Box, BoxLine
from shoptui.jobs.answers import Answer, done, stop
from shoptui.jobs.at import At, shown
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
    with at.doing(f"wrote down the slip of box {shown(box.code)}") as transaction:
        box = transaction.change(box, contents=contents)
    lines = expected_in(shop, box)
    if not contents:
        return done(
            f"Box {shown(box.code)} has no slip: what its orders promise is expected.", subject=box.id
        )
    missing, over = (sum(each) for each in zip(*((line.short, line.over) for line in lines), strict=True))
    told = [f"{missing} to come out of it" if missing else "all of it is here"]
    told += [f"{over} here that it does not list"] if over else []
    return done(
        f"Slip of box {shown(box.code)}: {sum(counts.values())} pieces. {', '.join(told).capitalize()}.",
        subject=box.id,
    )

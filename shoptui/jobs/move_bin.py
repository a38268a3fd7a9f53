"""All that is in one bin goes into another."""

from shoptui.domain import verbs
from shoptui.domain.records import Bin
from shoptui.jobs.answers import Answer, Question, Said, done, stop
from shoptui.jobs.at import At, pieces
from shoptui.jobs.bins import inside
from shoptui.jobs.put_away import bin_name

WORDS = ("move all", "move all to")
"""What is typed after a bin, to mean all that is in it."""


def ask_move_all(at: At, source: Bin) -> Answer:
    """Ask which bin takes all that is in one."""
    left = sum(qty for _, _, qty in inside(at.shop, source.id))
    if not left:
        return stop(f"{bin_name(source)} is empty: there is nothing to move.", subject=source.id)
    return Answer(
        Said.QUESTION,
        f"Which bin takes {'the one piece' if left == 1 else f'all {left} pieces'} in {bin_name(source)}? "
        "Scan it, or type its name.",
        kind="bin",
        show="racks",
        subject=source.id,
        question=Question(accepts=lambda text: _into(at, source, text)),
    )


def _into(at: At, source: Bin, text: str) -> Answer | None:
    into = at.shop.bins.by_code(text)
    return None if into is None else move_all(at, source, into)


def move_all(at: At, source: Bin, into: Bin) -> Answer:
    """Move all that is in a bin into another, as it is: one transaction."""
    if source.id == into.id:
        return stop(f"{bin_name(source)} itself was scanned: another bin was expected. Nothing changed.")
    with at.doing(f"moved all from {bin_name(source)} to {bin_name(into)}") as tx:
        things = inside(at.shop, source.id)
        for part, place, qty in things:
            tx.enter(verbs.put_away(at.shop.book, part.id, place, qty, to=into.id))
    if not things:
        return stop(f"{bin_name(source)} is empty: there is nothing to move.", subject=source.id)
    words = ", ".join(pieces(qty, part) for part, _, qty in things[:3])
    more = f" and {len(things) - 3} more" if len(things) > 3 else ""  # noqa: PLR2004
    return done(
        f"From {bin_name(source)} into {bin_name(into)}: {words}{more}.",
        kind="bin",
        qty=sum(qty for _, _, qty in things),
        where=bin_name(into),
        show="racks",
        subject=into.id,
    )

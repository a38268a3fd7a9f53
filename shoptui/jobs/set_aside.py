"""Hold pieces until somebody decides, release them, open sealed ones, put removed ones back into stock."""

from shoptui.domain import verbs
from shoptui.domain.records import Part
from shoptui.jobs.answers import Answer, stop
from shoptui.jobs.at import At
from shoptui.jobs.carry_out import carry_out


def hold(at: At, part: Part, qty: int, *, note: str) -> Answer:
    """Set pieces that are here aside, where they lie: damaged, wrong, waiting for somebody's word."""
    note = " ".join(note.split())
    if not note:
        return stop("Say in a few words why it is held: damaged, wrong, over, or what it waits for.")
    return carry_out(
        at,
        part,
        qty,
        "held",
        lambda _: verbs.hold(at.shop.book, part.id, qty, note=note),
        hint="It counts for nothing until it is released.",
    )


def release(at: At, part: Part, qty: int, *, note: str = "") -> Answer:
    """Let held pieces be used after all, where they lie."""
    return carry_out(
        at, part, qty, "released", lambda _: verbs.release(at.shop.book, part.id, qty, note=note)
    )


def open_part(at: At, part: Part, qty: int) -> Answer:
    """Open sealed pieces where they lie; asks first where an unfilmed shot needs them sealed."""
    return carry_out(at, part, qty, "opened", lambda _: verbs.open_(at.shop.book, part.id, qty))


def return_to_stock(at: At, part: Part, qty: int) -> Answer:
    """Count removed pieces as usable stock again, where they lie."""
    return carry_out(
        at, part, qty, "returned to stock", lambda _: verbs.return_to_stock(at.shop.book, part.id, qty)
    )

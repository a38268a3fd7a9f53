"""Bins, drawers and bags: what lies in one, and how they are made, renamed, moved and withdrawn."""

from shoptui.domain.inert import inert
from shoptui.domain.places import Place
from shoptui.domain.records import Bin, Part
from shoptui.domain.verbs import ON_A_SHELF
from shoptui.jobs.answers import Answer, done, stop
from shoptui.jobs.at import At, pieces
from shoptui.jobs.put_away import bin_name
from shoptui.store.command_tags import command_named
from shoptui.store.shelves import short
from shoptui.store.shop import Shop

KINDS = ("rack bin", "drawer", "bag", "bench")
LONGEST_CODE = 40
LONGEST_WORDS = 200

Inside = tuple[tuple[Part, Place, int], ...]


def inside(shop: Shop, where: int | str) -> Inside:
    """Return what lies in a bin, or on the bench: part, place and pieces, by state."""
    return tuple(
        (shop.parts.get(part), place, qty)
        for state in ON_A_SHELF
        for part in shop.book.parts_at(state, where)
        for place, qty in shop.book.places(part, state)
        if place.where == where
    )


def make_bin(at: At, code: str, *, words: str = "", kind: str = KINDS[0], room: str = "") -> Answer:
    """Make a bin; it gets a tag, which is its name too where none is given.

    Args:
        at: Where it is done.
        code: Its name, as people say it; unique in the shop.
        words: Where it stands.
        kind: One of `KINDS`.
        room: The room.

    """
    code, words, room = (" ".join(text.split()) for text in (code, words, room))
    if (refusal := _refused(at.shop, code, kind, words, room)) is not None:
        return refusal
    with at.doing(f"made {kind} {code}".rstrip()) as tx:
        made = tx.add(Bin(0, code, "", words, kind, room))
        tx.say(f"made {bin_name(made)}")
    return done(f"New: {bin_name(made)}.", where=bin_name(made), show="racks", subject=made.id)


def change_bin(at: At, old: Bin, code: str, *, words: str, kind: str, room: str) -> Answer:
    """Rename a bin, or write down where it stands now; what is in it goes with it."""
    code, words, room = (" ".join(text.split()) for text in (code, words, room))
    if (refusal := _refused(at.shop, code, kind, words, room, own=old)) is not None:
        return refusal
    with at.doing(f"changed {bin_name(old)}") as tx:
        now = tx.change(old, code=code or old.tag, words=words, kind=kind, room=room)
        changed = tx.wrote
    if not changed:
        return done(f"{bin_name(now)} is as it was.", show="racks", subject=now.id)
    renamed = f"{bin_name(old)} is {bin_name(now)} now. " if bin_name(old) != bin_name(now) else ""
    stands = ", ".join(inert(each) for each in (now.words, now.room) if each) or "nobody wrote down where"
    return done(f"{renamed}{bin_name(now)} stands: {stands}.", show="racks", subject=now.id)


def withdraw_bin(at: At, old: Bin) -> Answer:
    """Take an empty bin off the list; its name and tag are free again."""
    left = inside(at.shop, old.id)
    if left:
        first = ", ".join(pieces(qty, part) for part, _, qty in left[:3])
        more = f" and {len(left) - 3} more" if len(left) > 3 else ""  # noqa: PLR2004
        return stop(f"{bin_name(old)} is not empty: {first}{more}. Move all of it to another bin first.")
    counting = [each.code for each in at.shop.terminals.all() if each.counting == old.id]
    if counting:
        return stop(f"{bin_name(old)} is being counted at {inert(counting[0])}: finish that first.")
    with at.doing(f"withdrew {bin_name(old)}") as tx:
        tx.change(old, withdrawn=True)
    return done(f"{bin_name(old)} is withdrawn. What was in it before still says so.", show="racks")


def _refused(
    shop: Shop, code: str, kind: str, words: str, room: str, *, own: Bin | None = None
) -> Answer | None:
    """Say why a bin cannot be called or described so, None if it can."""
    is_own = own is not None and short(code) in (short(own.code), short(own.tag))
    name = f"The name {inert(code)}"
    refusals = (
        (len(code) > LONGEST_CODE, "code", f"At most {LONGEST_CODE} letters were expected, not {len(code)}."),
        (code.isdigit(), "code", f"{name} is only digits, which pick a row; add a letter."),
        (not code.isprintable(), "code", f"A name that can be read was expected, not {inert(code)}."),
        (command_named(code) is not None, "code", f"{name} is a command or a position; choose another."),
        (
            bool(code) and not is_own and shop.codes.knows(code),
            "code",
            f"{name} stands for something else already; choose another.",
        ),
        (kind not in KINDS, "kind", f"One of {', '.join(KINDS)} was expected, not “{inert(kind)}”."),
        (len(words) > LONGEST_WORDS, "words", f"At most {LONGEST_WORDS} letters were expected."),
        (len(room) > LONGEST_WORDS, "room", f"At most {LONGEST_WORDS} letters were expected."),
    )
    return next((stop(sentence, field=field) for refused, field, sentence in refusals if refused), None)

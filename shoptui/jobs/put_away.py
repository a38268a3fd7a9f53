"""Putting away: what was unpacked and lies on the bench goes into the bin that was scanned."""

from shoptui.domain import verbs
from shoptui.domain.places import Place, State
from shoptui.domain.records import Bin, Part
from shoptui.jobs.answers import Answer, Question, Said, done, stop
from shoptui.jobs.at import FROM_A_BOX, At, pieces, shown

CAME_OFF = (State.REMOVED,)


def put_away(at: At, into: Bin) -> Answer:
    """Put what this terminal laid on the bench since the last bin into a bin: one transaction.

    What is held lies apart from what is good, so a bin takes only what is like the thing laid down last. What
    came off a vehicle does not go among new parts without a word: where nothing else is there, it is asked.
    """
    if not at.since_last_bin() and (came_off := at.since_last_bin(CAME_OFF)):
        told = _listed([pieces(qty, at.shop.parts.get(part)) for (part, _), qty in came_off.items()])
        return Answer(
            Said.QUESTION,
            f"What came off lies on the bench: {told}. Enter: it goes into {bin_name(into)}.",
            subject=into.id,
            question=Question(yes=lambda: _put_away(at, into, CAME_OFF)),
        )
    return _put_away(at, into, FROM_A_BOX)


def _put_away(at: At, into: Bin, states: tuple[State, ...]) -> Answer:
    shop = at.shop
    with at.doing() as transaction:
        on_the_bench = at.since_last_bin(states)
        held = bool(on_the_bench) and list(on_the_bench)[-1][1].state is State.HELD
        things = {key: qty for key, qty in on_the_bench.items() if (key[1].state is State.HELD) is held}
        left = sum(on_the_bench.values()) - sum(things.values())
        words = []
        for (part, place), qty in things.items():
            transaction.enter(verbs.put_away(shop.book, part, place, qty, to=into.id))
            words.append(pieces(qty, shop.parts.get(part)))
        if not things:
            return stop(
                f"Nothing lies on the bench from this terminal, so nothing went into {bin_name(into)}. "
                "To see what is in it, scan it at Racks (F6).",
                where=bin_name(into),
                subject=into.id,
            )
        transaction.say(f"put away into {bin_name(into)}: {', '.join(words)}")
    total = sum(things.values())
    only = shop.parts.get(next(iter(things))[0]) if len({part for part, _ in things}) == 1 else None
    return done(
        f"Into {bin_name(into)}: {_listed(words)}. {_next_words(left, held=held)}",
        part=only.code if only else "",
        qty=total,
        state=next(iter(things))[1].state.value,
        where=bin_name(into),
        subject=into.id,
    )


def _next_words(left: int, *, held: bool) -> str:
    if not left:
        return "Next thing, next bin, or the tag “done”."
    what = f"{left} good" if held else f"{left} held"
    return f"{what} still on the bench: scan the bin for {'it' if left == 1 else 'them'}."


def move_to_bin(at: At, part: Part, source: Place, qty: int, into: Bin) -> Answer:
    """Move pieces that are here from where they lie into a bin."""
    with at.doing(f"put away into {bin_name(into)}: {pieces(qty, part)}") as transaction:
        transaction.enter(verbs.put_away(at.shop.book, part.id, source, qty, to=into.id))
    return done(
        f"Into {bin_name(into)}: {pieces(qty, part)}.",
        part=part.code,
        qty=qty,
        state=source.state.value,
        where=bin_name(into),
        subject=into.id,
    )


def bin_name(place: Bin) -> str:
    """Return a bin as short as one says it at the door: its kind where that helps, and its name."""
    return shown(place.code) if place.kind == "rack bin" else f"{place.kind} {shown(place.code)}"


def _listed(words: list[str], most: int = 3) -> str:
    """Name a few and count the rest: the line has one row."""
    if len(words) <= most:
        return ", ".join(words)
    return f"{', '.join(words[:most])} and {len(words) - most} more"

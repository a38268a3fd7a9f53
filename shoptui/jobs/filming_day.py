"""Write down a filming day with its shots, change it, move it, or call it off."""

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from shoptui.domain.cells import CellError
from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.shoots import Shoot, shot_words
from shoptui.jobs.answers import Answer, Question, Said, done, stop
from shoptui.jobs.at import At, name
from shoptui.jobs.check_shots import contradiction_words
from shoptui.jobs.missing import MissingLine, missing
from shoptui.jobs.order import code_for
from shoptui.jobs.place_words import today
from shoptui.store.shop import Shop

MOST_TOLD = 3
"""Parts that a question names; it says how many more there are."""

_FIELDS = {
    "code": "short name",
    "title": "title",
    "date": "day",
    "call_time": "call time",
    "shots": "list of shots",
}


def call_time(text: str) -> str:
    """Return a time of day as hours and minutes.

    Raises:
        CellError: No such time.

    >>> call_time("7:30"), call_time("18")
    ('07:30', '18:00')

    """
    found = re.fullmatch(r"(\d{1,2})(?:[:.](\d{2}))?", text.strip(), re.ASCII)
    hour, minute = (int(found[1]), int(found[2] or 0)) if found else (24, 0)
    if hour > 23 or minute > 59:  # noqa: PLR2004 - the day's own
        raise CellError(f"A time such as 07:30 was expected; {inert(text, 40)} came.")
    return f"{hour:02}:{minute:02}"


def save_day(at: At, before: Shoot | None, day: Shoot) -> Answer:
    """Write a filming day down; asks first what it can no longer be in time for, and what cannot be.

    Args:
        at: Where it is said.
        before: The day as it was when somebody began to change it; None for a new one.
        day: The day as it is to be; without a code a new one gets one.

    """
    shop = at.shop
    now = None if before is None else shop.shoots.get(before.id)
    code = day.code.strip() or f"day-{sum(1 for _ in shop.shoots.all()) + 1}"
    taken = code_for(shop, code) != code and (now is None or shop.shoots.by_code(code) != now)
    if taken and day.code.strip():
        return stop(f"Something else in the shop is called {inert(code)} already.", field="code")
    day = replace(day, code=code_for(shop, code) if taken else code)
    merged = day if now is None or before is None else _merged(before, now, day)
    if now is not None and merged == now:
        return done("Nothing was changed.")
    doubts = [*_meanwhile(shop, before, now, day), *_doubts(shop, now, merged)]
    if not doubts:
        return _write(at, now, merged)
    return Answer(
        Said.QUESTION,
        f"{' '.join(doubts)} Enter: write it down all the same.",
        question=Question(yes=lambda: _write(at, now, merged)),
    )


def call_off(at: At, shoot: Shoot) -> Answer:
    """Take a filming day off the list, after a question: nothing is kept for its shots any more."""
    left = sum(not shot.filmed for shot in shoot.shots)
    told = f", {left} of {len(shoot.shots)} shots not filmed" if left else ""
    words = f"{_named(at.shop, shoot)}{told}"

    def drop() -> Answer:
        with at.doing(f"called off: {words}") as tx:
            tx.change(at.shop.shoots.get(shoot.id), withdrawn=True)
        return done(f"Called off: {words}.")

    return Answer(Said.QUESTION, f"Call off {words}? Enter: yes.", question=Question(yes=drop))


def _named(shop: Shop, day: Shoot) -> str:
    words = day_words(day.date, today(shop))
    return f"{words} ({inert(day.title)})" if day.title else words


def _merged(before: Shoot, now: Shoot, day: Shoot) -> Shoot:
    """Return the day as it is in the shop now, with what was changed by hand."""
    changed = {each: getattr(day, each) for each in _FIELDS if getattr(day, each) != getattr(before, each)}
    return replace(now, **changed)


def _meanwhile(shop: Shop, before: Shoot | None, now: Shoot | None, day: Shoot) -> Iterator[str]:
    """Say which fields somebody else changed while this one did."""
    for each, words in _FIELDS.items():
        old, there, mine = (getattr(record, each, None) for record in (before, now, day))
        if before is not None and mine not in (old, there) and there != old:
            told = there if isinstance(there, str) else ""
            told = day_words(there, today(shop)) if isinstance(there, date) else told
            told = f" to {inert(told)}" if told else ""
            yield f"The {words} was changed meanwhile{told}; yours would stand instead."


def _doubts(shop: Shop, now: Shoot | None, day: Shoot) -> Iterator[str]:
    """Say what cannot be, or can no longer be in time."""
    known = () if now is None else now.shots
    for number, shot in enumerate(day.shots, 1):
        if not shot.filmed and shot not in known:
            for words in contradiction_words(shop, shot.needs):
                yield f"{_capital(shot_words(number, shot))}: {words}."
    kept = {shot.title.casefold() for shot in day.shots}
    for number, shot in enumerate(known, 1):
        if shot.filmed and shot.title.casefold() not in kept:
            yield f"{_capital(shot_words(number, shot))} is filmed and would go off the list."
    if not all(shot.filmed for shot in day.shots):
        if day.date < today(shop):
            yield f"{day_words(day.date, today(shop))} is past."
        elif words := _too_late(shop, now, day):
            yield words


def _too_late(shop: Shop, now: Shoot | None, day: Shoot) -> str:
    """Say what cannot be in time for the day, but could for what it was before."""
    before = {_key(line) for line in _late(shop, now)} if now is not None else set()
    lines = [line for line in _late(shop, day) if _key(line) not in before]
    if not lines:
        return ""
    told = [
        f"{line.lack.qty} {name(line.part)} for shot {line.number} ({line.lack.odds})"
        for line in lines[:MOST_TOLD]
    ]
    more = f"; and {len(lines) - MOST_TOLD} more" if len(lines) > MOST_TOLD else ""
    lead = "Not in time" if now is None else "No longer in time"
    return f"{lead} for {day_words(day.date, today(shop))}: {'; '.join(told)}{more}."


def _late(shop: Shop, day: Shoot) -> list[MissingLine]:
    late = [line for line in missing(shop, day, today(shop)).lines if line.lack.late]
    return sorted(late, key=lambda line: line.number)


def _key(line: MissingLine) -> tuple[int, object]:
    return line.part.id, line.need


def _capital(words: str) -> str:
    return words[0].upper() + words[1:]


def _write(at: At, now: Shoot | None, day: Shoot) -> Answer:
    shop = at.shop
    if now is None:
        with at.doing(f"new filming day: {_named(shop, day)}") as tx:
            day = tx.add(replace(day, id=0))
        return done(f"New filming day: {_told(shop, day)}.", show="filming", subject=day.id)
    words = f"changed the filming day {_named(shop, day)}"
    with at.doing(words) as tx:
        if shop.shoots.get(now.id) != now:
            return stop("The day was changed meanwhile. Nothing changed; save again to see what is new.")
        tx.change(now, **{each: getattr(day, each) for each in _FIELDS})
    return done(f"Filming day {_told(shop, day)}.", show="filming", subject=day.id)


def _told(shop: Shop, day: Shoot) -> str:
    shots = len(day.shots)
    return f"{_named(shop, day)}, {shots} shot{'s' * (shots != 1)}"

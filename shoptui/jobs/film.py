"""Mark shots filmed: from then on nothing that they needed is kept for them."""

from dataclasses import replace

from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.shoots import Shoot, Shot, shot_words
from shoptui.jobs.answers import Answer, Question, Said, done, stop
from shoptui.jobs.at import At, name
from shoptui.jobs.missing import missing
from shoptui.jobs.place_words import today

MOST_TOLD = 2
"""Parts that a question names; it says how many more there are."""


def film(at: At, shoot: Shoot, number: int | None = None) -> Answer:
    """Mark a shot of a filming day filmed; asks first where by the books something is missing for it.

    Args:
        at: Where it is said.
        shoot: The filming day.
        number: Number of the shot in its day, 1 first; None means all that are not filmed yet.

    """
    numbers = [each for each, shot in enumerate(shoot.shots, 1) if not shot.filmed]
    if number is not None:
        if refusal := _no_such(shoot, number):
            return stop(refusal)
        numbers = [number] if number in numbers else []
    if not numbers:
        return stop(_nothing_left(at, shoot, number))
    doubts = _doubts(at, shoot, numbers)
    if not doubts:
        return _mark(at, shoot, numbers, filmed=True)
    return Answer(
        Said.QUESTION,
        # Asked before the reasons: where they are long, these are cut.
        f"Filmed all the same? Enter: yes. {' '.join(doubts)}",
        question=Question(yes=lambda: _mark(at, shoot, numbers, filmed=True)),
    )


def not_filmed(at: At, shoot: Shoot, number: int) -> Answer:
    """Take back that a shot is filmed: it is to be filmed again, and what it needs is kept for it again."""
    if refusal := _no_such(shoot, number):
        return stop(refusal)
    if not shoot.shots[number - 1].filmed:
        return stop(f"{_told(number, shoot.shots[number - 1])} is not marked filmed.")
    return _mark(at, shoot, [number], filmed=False)


def _told(number: int, shot: Shot) -> str:
    words = shot_words(number, shot)
    return words[0].upper() + words[1:]


def _no_such(shoot: Shoot, number: int) -> str:
    count = len(shoot.shots)
    if 1 <= number <= count:
        return ""
    has = "has no shots" if not count else f"has {count} shot{'s' * (count > 1)}"
    return f"The filming day {inert(shoot.code)} {has}; there is no shot {number}."


def _nothing_left(at: At, shoot: Shoot, number: int | None) -> str:
    if number is not None:
        return f"{_told(number, shoot.shots[number - 1])} is marked filmed already."
    day = day_words(shoot.date, today(at.shop))
    return f"Every shot of {day} is filmed already." if shoot.shots else f"{day} has no shots."


def _doubts(at: At, shoot: Shoot, numbers: list[int]) -> list[str]:
    """Return what has to be said yes to: a day to come, or parts that are not as the shots need them."""
    day = today(at.shop)
    doubts = [f"{day_words(shoot.date, day)} is still to come."] if shoot.date > day else []
    lines = [line for line in missing(at.shop, shoot, day).lines if line.number in numbers]
    if lines:
        told = [
            f"{line.lack.qty} {name(line.part)}, needed {line.need.condition.value}"
            f"{f' for shot {line.number}' if len(numbers) > 1 else ''} ({line.lack.why})"
            for line in lines[:MOST_TOLD]
        ]
        more = f", and {len(lines) - MOST_TOLD} more" if len(lines) > MOST_TOLD else ""
        doubts.append(f"By the books missing: {'; '.join(told)}{more}.")
    return doubts


def _mark(at: At, shoot: Shoot, numbers: list[int], *, filmed: bool) -> Answer:
    shop = at.shop
    shots = [(number, shoot.shots[number - 1]) for number in numbers]
    which = ", ".join(shot_words(number, shot) for number, shot in shots)
    words = f"{'filmed' if filmed else 'not filmed after all'}: {which}, {day_words(shoot.date, today(shop))}"
    with at.doing(words) as tx:
        now = shop.shoots.get(shoot.id)
        if now.shots != shoot.shots:
            return stop("The shots of this day were changed meanwhile. Nothing changed; look at them again.")
        tx.change(
            now,
            shots=tuple(
                replace(shot, filmed=filmed) if number in numbers else shot
                for number, shot in enumerate(now.shots, 1)
            ),
        )
    then = "Nothing is kept for it any more." if filmed else "What it needs is kept for it again."
    return done(f"{words[0].upper()}{words[1:]}. {then if len(numbers) == 1 else ''}".rstrip())

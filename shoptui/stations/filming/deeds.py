"""What can be done with a filming day, as a question with one choice for each."""

from collections.abc import Iterator

from shoptui.domain.days import day_words
from shoptui.domain.shoots import Shoot, shot_words
from shoptui.jobs.answers import Answer, Choice, Question, Said
from shoptui.jobs.at import At
from shoptui.jobs.film import film, not_filmed
from shoptui.jobs.filming_day import call_off
from shoptui.jobs.missing import MissingReport


def what_next(at: At, report: MissingReport) -> Answer:
    """Ask what became of the shots of a day; only what can be is offered."""
    shoot = report.shoot
    return Answer(
        Said.QUESTION,
        f"{day_words(shoot.date, report.today)}: what was filmed? Its number, then Enter.",
        question=Question(choices=tuple(_choices(at, shoot, report))),
    )


def _choices(at: At, shoot: Shoot, report: MissingReport) -> Iterator[Choice]:
    def now() -> Shoot:
        return at.shop.shoots.get(shoot.id)

    def filmed(number: int) -> Choice:
        standing = stands[number]
        ready = f"{standing.ready} of {standing.wanted} ready" if standing.wanted else "needs no part"
        words = f"filmed: {shot_words(number, standing.shot)}, {ready}"
        return Choice(words, lambda: film(at, now(), number))

    def to_be_filmed(number: int) -> Choice:
        words = f"not filmed after all: {shot_words(number, shoot.shots[number - 1])}"
        return Choice(words, lambda: not_filmed(at, now(), number))

    stands = {standing.number: standing for standing in report.shots}
    yield from (filmed(number) for number in stands)
    if len(stands) > 1:
        yield Choice(f"filmed: all {len(stands)} of them", lambda: film(at, now()))
    yield from (to_be_filmed(number) for number, shot in enumerate(shoot.shots, 1) if shot.filmed)
    yield Choice("the day is called off ...", lambda: call_off(at, now()))

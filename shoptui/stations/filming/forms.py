"""The form of a filming day, with its shots and what each of them needs."""

from collections.abc import Iterator, Mapping
from functools import partial

from shoptui.domain import cells
from shoptui.domain.inert import inert
from shoptui.domain.row_text import row_text, rows_in
from shoptui.domain.shoots import Shoot, Shot
from shoptui.jobs.answers import Answer, stop
from shoptui.jobs.at import At
from shoptui.jobs.filming_day import call_time, save_day
from shoptui.jobs.place_words import today
from shoptui.stations.field import Field, Lines
from shoptui.stations.filming.needed import CONDITIONS, Needed
from shoptui.stations.form import Form
from shoptui.stations.known_names import KnownNames

YES, NO = "yes", "no"
ABOUT_SHOTS = (
    "While a shot is not filmed, what it needs is kept as it needs it: whoever would change it is asked."
)


def _short(text: str) -> str:
    return cells.words(text, limit=40)


def day_form(at: At, shoot: Shoot | None) -> Form:
    """Return the form of a filming day; None makes a new one."""
    needed = Needed(at, () if shoot is None else shoot.shots)
    day = partial(cells.day, base=today(at.shop))

    def save(values: Mapping[str, str]) -> Answer:
        if not values["date"].strip():
            return stop("On which day? A day such as 30 Nov was expected.", field="date")
        try:
            shots = tuple(_shots(needed, values["shots"]))
        except ValueError as error:
            return stop(str(error), field="shots")
        hour = values["call_time"].strip()
        return save_day(
            at,
            shoot,
            Shoot(
                0 if shoot is None else shoot.id,
                _short(values["code"]),
                cells.words(values["title"]),
                day(values["date"]),
                call_time(hour) if hour else "",
                shots,
            ),
        )

    was = shoot or Shoot(0, "", "", today(at.shop))
    return Form(
        "A new filming day" if shoot is None else f"Filming day {inert(shoot.code)}",
        (
            Field(
                "date",
                "Day",
                "such as 30 Nov, 2026-11-30 or +5: in 5 days",
                was.date.isoformat() if shoot else "",
                one_value=True,
                check=day,
            ),
            Field("title", "Title", "in a few words; may be empty", was.title, check=cells.words),
            Field(
                "call_time",
                "Call time",
                "such as 07:30; may be empty",
                was.call_time,
                one_value=True,
                check=call_time,
            ),
            Field("shots", "Shots", value=_shot_rows(needed, was.shots), lines=_shot_lines(needed)),
            Field("code", "Short name", "such as day-3; may be empty", was.code, check=_short),
        ),
        save,
        about=ABOUT_SHOTS,
        draft=f"shoots {shoot.id if shoot else 'new'}",
    )


def _shot_lines(needed: Needed) -> Lines:
    yes_no = KnownNames((YES, NO))
    needs = Lines(
        (
            Field(
                "what",
                "Part or section",
                "a few letters; or: all of brakes",
                names=needed.names,
                closed=True,
                one_value=True,
            ),
            Field(
                "condition",
                "How it must be",
                "sealed, installed ...",
                names=CONDITIONS,
                closed=True,
                one_value=True,
            ),
            Field("qty", "Pieces", "empty: all that the list wants", one_value=True, check=cells.quantity),
        ),
        "need",
        _need_words,
        check=lambda row, _others, _beside: needed.check(row),
    )
    return Lines(
        (
            Field("title", "Title", "what is seen, in a few words", check=cells.words),
            Field("needs", "Needs", lines=needs),
            Field(
                "moves",
                "The vehicle moves",
                "yes or no",
                NO,
                names=yes_no,
                closed=True,
                one_value=True,
                check=cells.yes,
            ),
            Field(
                "filmed",
                "Filmed already",
                "yes or no",
                NO,
                names=yes_no,
                closed=True,
                one_value=True,
                check=cells.yes,
            ),
        ),
        "shot",
        _shot_words,
    )


def _need_words(row: Mapping[str, str]) -> str:
    qty = f"{row['qty']} " if row.get("qty") else ""
    return f"{row.get('what', '')}: {qty}{row.get('condition', '')}"


def _shot_words(row: Mapping[str, str]) -> str:
    needs = "; ".join(_need_words(need) for need in rows_in(row.get("needs", "")))
    marks = [word for name, word in (("filmed", "filmed"), ("moves", "moves")) if row.get(name) == YES]
    told = ", ".join((row.get("title", "") or "without a title", *marks))
    return f"{told}: {needs}" if needs else told


def _shot_rows(needed: Needed, shots: tuple[Shot, ...]) -> str:
    return row_text(
        {
            "title": shot.title,
            "needs": row_text(needed.row(need) for need in shot.needs),
            "moves": YES if shot.moves else NO,
            "filmed": YES if shot.filmed else NO,
        }
        for shot in shots
    )


def _shots(needed: Needed, text: str) -> Iterator[Shot]:
    """Yield the shots of a list.

    Raises:
        ValueError: A shot needs nothing that is known; says which.

    """
    for number, row in enumerate(rows_in(text), 1):
        try:
            needs = tuple(needed.need(need) for need in rows_in(row.get("needs", "")))
        except ValueError as error:
            raise ValueError(f"Shot {number}: {error}") from error
        yield Shot(
            cells.words(row.get("title", "")),
            needs,
            moves=cells.yes(row.get("moves", "")),
            filmed=cells.yes(row.get("filmed", "")),
        )

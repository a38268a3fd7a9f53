"""The list of what is missing as text, Markdown, rows of CSV and JSON values."""

from collections.abc import Iterator
from itertools import groupby
from typing import Any

from shoptui.domain.cautions import MOVING
from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.places import State
from shoptui.domain.records import Part
from shoptui.domain.shoots import shot_words
from shoptui.domain.wrapping import wrapped
from shoptui.jobs.at import shown
from shoptui.jobs.missing import MissingLine, MissingReport
from shoptui.jobs.moving import OnTrial

WIDTH = 80
"""Cells in a line of text, those of the narrowest terminal and of a printed page."""

_WORDS = 200
"""Cells that one description or title may take."""

COLUMNS = ("part", "description", "shot", "needs", "state", "where", "why", "next", "qty", "past")

NOTHING_ON_TRIAL = "nothing mocked up"
"""What a shot needs in which the vehicle moves, in the rows of a CSV file."""


def as_values(report: MissingReport | None) -> dict[str, Any]:
    """Return the report as JSON has it: shoot, date, lines, moving; None is no filming day ahead.

    `moving` has each shot in which the vehicle moves, with what is mocked up on it.
    """
    if report is None:
        return {"shoot": None, "date": None, "lines": [], "moving": []}
    return {
        "shoot": report.shoot.code,
        "date": report.day.isoformat(),
        "lines": [dict(zip(COLUMNS, _row(line), strict=True)) for line in report.lines],
        "moving": [
            {
                "shot": shot.shot.title or f"shot {shot.number}",
                "mocked_up": [
                    {
                        "part": piece.part.code,
                        "description": piece.part.description,
                        "where": piece.where,
                        "qty": piece.qty,
                    }
                    for piece in shot.on_trial
                ],
            }
            for shot in report.moving
        ],
    }


def rows(report: MissingReport | None) -> tuple[tuple[str | int, ...], ...]:
    """Return the lines as CSV has them, under `COLUMNS`, and what is mocked up on a vehicle that moves."""
    if report is None:
        return ()
    moving = (piece for shot in report.moving for piece in shot.on_trial)
    return (*(_row(line) for line in report.lines), *(_trial_row(piece) for piece in moving))


def as_text(report: MissingReport) -> str:
    """Return a list of one page, 80 cells wide, grouped by who acts next."""
    out = [f"{_title(report)}", _summary(report)]
    for who, lines in groupby(report.lines, key=lambda line: line.lack.who):
        out += ["", f"{who.value.upper()}"]
        for line in lines:
            shot = shot_words(line.number, line.shot, _WORDS)
            out += _folded(f"[ ] {line.lack.qty} {_named(line.part)}: {line.needs}, for {shot}", "    ")
            out += _folded(f"    {line.lack.why}" + (f" ({_lies(line)})" if _adds(line) else ""), "      ")
            out += _folded(f"    > {line.act}{_odds(line)}", "      ")
            out += _folded(f"    {line.lack.past}", "      ")
    return "\n".join([*out, *_moving_text(report)]) + "\n"


def _moving_text(report: MissingReport) -> Iterator[str]:
    """Say of each shot in which the vehicle moves what is mocked up on it; who decides is said once."""
    if not report.moving:
        return
    yield from ("", "THE VEHICLE MOVES")
    for shot in report.moving:
        stands = "mocked up on it" if shot.on_trial else "nothing is mocked up by the books"
        yield from _folded(f"{shot_words(shot.number, shot.shot, _WORDS)}: {stands}", "    ")
        for piece in shot.on_trial:
            yield from _folded(f"[ ] {piece.qty} {_named(piece.part)}: {piece.where}", "    ")
    yield from _folded(f"> {MOVING.words}", "  ")


def as_markdown(report: MissingReport) -> str:
    """Return the list as Markdown; what came from outside is escaped."""
    out = [f"# {_escaped(_title(report))}", "", _escaped(_summary(report))]
    for who, lines in groupby(report.lines, key=lambda line: line.lack.who):
        out += ["", f"## {who.value.capitalize()}", "", "| part | shot | needs | why | next | in time |"]
        out.append("|---|---|---|---|---|---|")
        out += ["| " + " | ".join(_escaped(cell) for cell in _cells(line)) + " |" for line in lines]
    return "\n".join([*out, *_moving_markdown(report)]) + "\n"


def _moving_markdown(report: MissingReport) -> Iterator[str]:
    if not report.moving:
        return
    yield from ("", "## The vehicle moves", "", _escaped(MOVING.words), "")
    for shot in report.moving:
        told = [f"{piece.qty} {_named(piece.part)}, {piece.where}" for piece in shot.on_trial]
        stands = "; ".join(told) or "nothing is mocked up by the books"
        yield f"- {_escaped(f'{shot_words(shot.number, shot.shot, _WORDS)}: {stands}')}"


def _row(line: MissingLine) -> tuple[str | int, ...]:
    lack = line.lack
    return (
        line.part.code,
        line.part.description,
        line.shot.title or f"shot {line.number}",
        line.need.condition.value,
        lack.state.value,
        line.where,
        lack.why,
        line.act,
        lack.qty,
        lack.past,
    )


def _trial_row(piece: OnTrial) -> tuple[str | int, ...]:
    return (
        piece.part.code,
        piece.part.description,
        piece.shot.title or f"shot {piece.number}",
        NOTHING_ON_TRIAL,
        piece.place.state.value,
        piece.where,
        piece.why,
        piece.act,
        piece.qty,
        "",
    )


def _cells(line: MissingLine) -> Iterator[str]:
    yield f"{line.lack.qty} {_named(line.part)}"
    yield f"{line.number}, {_shot(line)}"
    yield line.needs
    yield line.lack.why
    yield line.act
    yield f"{line.lack.odds} ({line.lack.past})" if line.lack.past else line.lack.odds


def _title(report: MissingReport) -> str:
    title = inert(report.shoot.title, _WORDS) or "filming day"
    day = day_words(report.day, report.today)
    call = f", call {inert(report.shoot.call_time)}" if report.shoot.call_time else ""
    return f"Missing for {day}{call}: {title} ({inert(report.shoot.code)})"


def _summary(report: MissingReport) -> str:
    if not report.wanted:
        return "No shot of this day that is still to be filmed needs a part."
    ready = f"{report.ready} of {report.wanted} parts are ready, counted for each shot"
    return f"{ready}. Nothing is missing." if not report.lines else f"{ready}."


def _adds(line: MissingLine) -> bool:
    """Whether the place says more than the reason does already."""
    return line.lack.state in (State.RECEIVED, State.HELD, State.REMOVED)


def _odds(line: MissingLine) -> str:
    """The odds, where the act does not say them already."""
    lack = line.lack
    late = lack.spare is not None and lack.spare < 0
    return "" if late or not lack.possible else f" ({lack.odds})"


def _lies(line: MissingLine) -> str:
    """Where it lies, without the state that the reason names."""
    return line.where.removeprefix(f"{line.lack.state.value}, ")


def _shot(line: MissingLine) -> str:
    return inert(line.shot.title, _WORDS) or "without a title"


def _named(part: Part) -> str:
    return f"{inert(part.description, _WORDS)} ({shown(part.code)})"


def _folded(text: str, indent: str) -> list[str]:
    return wrapped(text, WIDTH, indent)


def _escaped(text: str) -> str:
    for sign in "\\`*_[]<>|#":
        text = text.replace(sign, f"\\{sign}")
    return text

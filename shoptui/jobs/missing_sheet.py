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
from shoptui.domain.wrapping import escaped, wrapped
from shoptui.jobs.against import HANDBOOK, Against
from shoptui.jobs.at import shown
from shoptui.jobs.missing import MissingLine, MissingReport, ShotStanding

WIDTH = 80
"""Cells in a line of text, those of the narrowest terminal and of a printed page."""

_WORDS = 200
"""Cells that one description or title may take."""

COLUMNS = ("part", "description", "shot", "needs", "state", "where", "why", "next", "qty", "past")


def as_values(report: MissingReport | None) -> dict[str, Any]:
    """Return the report as JSON has it: shoot, date, lines, moving, generic; None is no filming day ahead.

    `moving` has each shot in which the vehicle moves, with what is mocked up on it and the joints open;
    `generic` the joints that count as done and are done to a handbook's value alone.
    """
    if report is None:
        return {"shoot": None, "date": None, "lines": [], "moving": [], "generic": []}
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
                "open_joints": [_joint_values(joint) for joint in shot.not_tight],
            }
            for shot in report.moving
        ],
        "generic": [
            {"shot": joint.shot.title or f"shot {joint.number}", **_joint_values(joint)}
            for shot in report.shots
            for joint in shot.generic
        ],
    }


def _joint_values(joint: Against) -> dict[str, str]:
    return {
        "part": joint.part.code,
        "description": joint.part.description,
        "joint": joint.where,
        "why": joint.stands,
    }


def rows(report: MissingReport | None) -> tuple[tuple[str | int, ...], ...]:
    """Return the lines as CSV has them, under `COLUMNS`, and all on which a person decides."""
    if report is None:
        return ()
    return (*map(_row, report.lines), *map(_against_row, report.to_decide))


def as_text(report: MissingReport) -> str:
    """Return a list of one page, 80 cells wide, grouped by who acts next."""
    out = [_title(report), *_folded(_summary(report), "")]
    for who, lines in groupby(report.lines, key=lambda line: line.lack.who):
        out += ["", f"{who.value.upper()}"]
        for line in lines:
            shot = shot_words(line.number, line.shot, _WORDS)
            out += _folded(f"[ ] {line.lack.qty} {_named(line.part)}: {line.needs}, for {shot}", "    ")
            out += _folded(f"    {line.lack.why}" + (f" ({_lies(line)})" if _adds(line) else ""), "      ")
            out += _folded(f"    > {line.act}{_odds(line)}", "      ")
            out += _folded(f"    {line.lack.past}", "      ")
    return "\n".join([*out, *_moving_text(report), *_generic_text(report)]) + "\n"


def _moving_text(report: MissingReport) -> Iterator[str]:
    """Say of each shot in which the vehicle moves what speaks against it; who decides is said once."""
    if not report.moving:
        return
    yield from ("", "THE VEHICLE MOVES")
    for shot in report.moving:
        yield from _folded(f"{shot_words(shot.number, shot.shot, _WORDS)}: {_stands(shot)}", "    ")
        for piece in shot.against_moving:
            yield from _folded(f"[ ] {_told(piece)}", "    ")
    yield from _folded(f"> {MOVING.words}", "  ")


def _generic_text(report: MissingReport) -> Iterator[str]:
    """Say of which parts that count as ready a joint is done to a handbook's value alone."""
    found = [piece for shot in report.shots for piece in shot.generic]
    if not found:
        return
    yield from ("", "DONE, BUT TO NO SHEET")
    for piece in found:
        shot = shot_words(piece.number, piece.shot, _WORDS)
        yield from _folded(f"[ ] {_told(piece)}; for {shot}", "    ")
    yield from _folded(f"> {HANDBOOK}", "  ")


def as_markdown(report: MissingReport) -> str:
    """Return the list as Markdown; what came from outside is escaped."""
    out = [f"# {escaped(_title(report))}", "", escaped(_summary(report))]
    for who, lines in groupby(report.lines, key=lambda line: line.lack.who):
        out += ["", f"## {who.value.capitalize()}", "", "| part | shot | needs | why | next | in time |"]
        out.append("|---|---|---|---|---|---|")
        out += ["| " + " | ".join(escaped(cell) for cell in _cells(line)) + " |" for line in lines]
    return "\n".join([*out, *_moving_markdown(report), *_generic_markdown(report)]) + "\n"


def _moving_markdown(report: MissingReport) -> Iterator[str]:
    if not report.moving:
        return
    yield from ("", "## The vehicle moves", "", escaped(MOVING.words), "")
    for shot in report.moving:
        told = "; ".join(_told(piece) for piece in shot.against_moving) or _stands(shot)
        yield f"- {escaped(f'{shot_words(shot.number, shot.shot, _WORDS)}: {told}')}"


def _generic_markdown(report: MissingReport) -> Iterator[str]:
    found = [piece for shot in report.shots for piece in shot.generic]
    if not found:
        return
    yield from ("", "## Done, but to no sheet", "", escaped(HANDBOOK), "")
    for piece in found:
        yield f"- {escaped(f'{shot_words(piece.number, piece.shot, _WORDS)}: {_told(piece)}')}"


def _stands(shot: ShotStanding) -> str:
    """Say what speaks against moving a vehicle, or how little the books know that speaks against it."""
    if not shot.against_moving:
        return "by the books nothing is mocked up, and no joint that it moves by is open"
    found = {"mocked up on it": shot.on_trial, "not tightened or checked": shot.not_tight}
    return " or ".join(words for words, pieces in found.items() if pieces)


def _told(piece: Against) -> str:
    return f"{piece.qty} {_named(piece.part)}: {piece.found}"


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


def _against_row(piece: Against) -> tuple[str | int, ...]:
    return (
        piece.part.code,
        piece.part.description,
        piece.shot.title or f"shot {piece.number}",
        piece.needs,
        piece.state.value,
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
    loose = _loose(report)
    if not report.wanted:
        told = "No shot of this day that is still to be filmed needs a part"
    else:
        told = f"{report.ready} of {report.wanted} parts are ready, counted for each shot"
        if not report.lines:
            return f"{told}. Nothing is missing{f', but {loose}' if loose else ''}."
    return f"{told}{f', and {loose}' if loose else ''}."


def _loose(report: MissingReport) -> str:
    """Count what speaks against moving a vehicle, each piece and joint once; empty if nothing does."""
    trial = {(each.part.id, each.where) for shot in report.moving for each in shot.on_trial}
    joints = {(each.part.id, each.where) for shot in report.moving for each in shot.not_tight}
    told = []
    if joints:
        told.append(f"{len(joints)} joint{'s are' if len(joints) > 1 else ' is'} not tightened or checked")
    if trial:
        told.append(f"{len(trial)} part{'s are' if len(trial) > 1 else ' is'} only mocked up")
    return f"{' and '.join(told)} on a vehicle that moves" if told else ""


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

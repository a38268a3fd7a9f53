"""What is missing before a filming day, as rows and cards."""

from collections.abc import Iterator

from shoptui.domain.cautions import MOVING
from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.lack import Lack
from shoptui.jobs.against import Against, Why
from shoptui.jobs.at import name
from shoptui.jobs.missing import (
    MissingLine,
    MissingReport,
    ShotStanding,
)
from shoptui.jobs.needs import asked
from shoptui.stations.card import Fact
from shoptui.stations.listed import Column, Row
from shoptui.stations.marks import Tone
from shoptui.store.shop import Shop

MOST_MET = 100
"""Parts of one shot that are listed although they are as needed; a section may have thousands."""

MISSING_COLUMNS = (
    Column("who acts", 12),
    Column("in time", 11, toned=True),
    Column("shot", 4),
    Column("part"),
    Column("why"),
)


def lack_tone(lack: Lack) -> Tone:
    """Return how it looks whether something can be in time."""
    if lack.late:
        return Tone.BAD
    return Tone.WARN if not lack.spare else Tone.GOOD


def in_time(lack: Lack) -> str:
    """Return whether something can be in time, in so few words that a narrow list has room for them.

    Days are working days that are left over, as in the card beside.
    """
    if not lack.possible:
        return "cannot"
    if lack.spare is None:
        return "not known"
    return f"{-lack.spare} d late" if lack.spare < 0 else f"{lack.spare} d"


def missing_row(line: MissingLine) -> Row:
    """Return the row of pieces that a shot still wants."""
    lack = line.lack
    tone = lack_tone(lack)
    mark = {Tone.BAD: "! ", Tone.WARN: "- "}.get(tone, "")
    return Row(
        (line.part.id, line.number, line.need, lack.place),
        (
            lack.who.value,
            f"{mark}{in_time(lack)}",
            str(line.number),
            f"{lack.qty} {name(line.part)}",
            lack.why,
        ),
        tone,
        f"{line.part.code} {line.part.number} {line.needs} {line.shot.title} {line.part.section}",
    )


def against_row(piece: Against) -> Row:
    """Return the row of what a person decides on in a shot."""
    return Row(
        (piece.part.id, piece.number, piece.needs, piece.place, piece.where),
        ("in charge", "- decide", str(piece.number), f"{piece.qty} {name(piece.part)}", piece.why),
        Tone.WARN,
        f"{piece.part.code} {piece.part.number} {piece.shot.title} {piece.part.section}",
    )


def in_full(line: MissingLine | Against) -> str:
    """Return the row in a few sentences, for where its list is too narrow."""
    if not isinstance(line, MissingLine):
        shot = f"Shot {line.number}, {inert(line.shot.title)}"
        return f"{shot}: {line.qty} {name(line.part)}, {line.why}.\n{line.caution}"
    lack = line.lack
    past = f" ({lack.past})" if lack.past else ""
    return (
        f"Shot {line.number}, {inert(line.shot.title)}: {lack.qty} {name(line.part)}, needed {line.needs}.\n"
        f"{lack.why}. In time: {lack.odds}{past}. Next, {line.act}."
    )


def missing_facts(report: MissingReport, line: MissingLine) -> tuple[str, tuple[Fact, ...]]:
    """Return title and lines of the card of pieces that a shot still wants."""
    lack = line.lack
    facts = (
        Fact("shot", f"{line.number}: {line.shot.title}"),
        Fact("needs", line.needs),
        Fact("why", lack.why, lack_tone(lack)),
        Fact("where", line.where),
        Fact("next", line.act),
        Fact("in time", lack.odds, lack_tone(lack)),
        Fact("so far", lack.past and f"{lack.past}, by these books"),
        Fact("earliest", day_words(lack.earliest, report.today) if lack.earliest else "not known"),
        Fact("latest", day_words(lack.latest, report.today) if lack.latest else "not known"),
        Fact("code", line.part.code),
    )
    return f"{lack.qty} {name(line.part)}", tuple(fact for fact in facts if fact.text)


def against_facts(piece: Against) -> tuple[str, tuple[Fact, ...]]:
    """Return title and lines of the card of what a person decides on in a shot."""
    facts = (
        Fact("shot", f"{piece.number}: {piece.shot.title}"),
        Fact("where" if piece.reason is Why.MOCKED_UP else "joint", piece.where),
        Fact("why", piece.why),
        Fact("next", piece.act),
        Fact("code", piece.part.code),
        Fact(),
        Fact("", piece.caution, Tone.WARN),
    )
    title = f"{piece.qty} {name(piece.part)}"
    return title if piece.reason is Why.GENERIC else f"{title}, and the vehicle moves", facts


def shots_facts(shop: Shop, report: MissingReport) -> tuple[str, tuple[Fact, ...]]:
    """Return title and lines of the card of the day's shots: each part, how it is needed, how it stands."""
    facts = [Fact("", f"{report.ready} of {report.wanted} parts are as the shots need them.")]
    for shot in report.shots:
        ready = shot.ready >= shot.wanted
        facts.extend((Fact(), Fact(f"Shot {shot.number}: {inert(shot.shot.title)}")))
        words = f"{'+' if ready else '-'} {shot.ready} of {shot.wanted} ready"
        facts.append(Fact("", words, Tone.GOOD if ready else Tone.WARN))
        facts.extend(
            Fact(
                "",
                f"! {line.lack.qty} {name(line.part)}, {line.needs}: {line.lack.why}",
                lack_tone(line.lack),
            )
            for line in shot.lines
        )
        if shot.shot.moves:
            facts.extend(_moving_facts(shot))
        facts.extend(
            Fact("", f"- {name(each.part)}: {each.found}, for the person in charge to decide", Tone.WARN)
            for each in shot.generic
        )
        met = list(_met(shop, shot))
        facts.extend(Fact("", words, Tone.GOOD) for words in met[:MOST_MET])
        if len(met) > MOST_MET:
            facts.append(Fact("", f"+ and {len(met) - MOST_MET} more that are as needed", Tone.GOOD))
    if report.moving:
        facts.extend((Fact(), Fact("", MOVING.words, Tone.WARN)))
    filmed = [shot for shot in report.shoot.shots if shot.filmed]
    if filmed:
        facts.extend((Fact(), Fact("Filmed already")))
        facts.extend(Fact("", inert(shot.title), Tone.QUIET) for shot in filmed)
    return "Shots of the day", tuple(facts)


def _moving_facts(shot: ShotStanding) -> Iterator[Fact]:
    """Yield what speaks against moving the vehicle in a shot."""
    trials = [f"- {piece.qty} {name(piece.part)}, {piece.where}" for piece in shot.on_trial]
    yield Fact("", f"The vehicle moves; {'' if trials else 'nothing '}mocked up on it", Tone.WARN)
    yield from (Fact("", words, Tone.WARN) for words in trials)
    if shot.not_tight:
        yield Fact("", "Not tightened or checked on it", Tone.WARN)
    for joint in shot.not_tight:
        yield Fact("", f"- {name(joint.part)}: {joint.found}", Tone.WARN)


def _met(shop: Shop, shot: ShotStanding) -> Iterator[str]:
    """Yield the parts that are as the shot needs them, with that."""
    lacking = {(line.need, line.part.id) for line in shot.lines}
    to_decide = {each.part.id for each in shot.generic}
    for need in shot.shot.needs:
        for part, asks in asked(shop, need):
            if (asks, part.id) not in lacking and part.id not in to_decide:
                pieces = f"{asks.qty} " if asks.qty else ""
                yield f"+ {name(part)}: {pieces}{need.condition.value}"

"""What is missing before a filming day, as rows and cards."""

from shoptui.domain.days import day_words
from shoptui.domain.lack import Lack
from shoptui.jobs.at import name
from shoptui.jobs.missing import MissingLine, MissingReport
from shoptui.stations.card import Fact
from shoptui.stations.listed import Column, Row
from shoptui.stations.marks import Tone

MISSING_COLUMNS = (
    Column("who acts", 12),
    Column("in time", 17, toned=True),
    Column("part"),
    Column("needs", 22, since=110),
    Column("why"),
)


def lack_tone(lack: Lack) -> Tone:
    """Return how it looks whether something can be in time."""
    if not lack.possible or (lack.spare is not None and lack.spare < 0):
        return Tone.BAD
    return Tone.WARN if not lack.spare else Tone.GOOD


def in_time(lack: Lack) -> str:
    """Return whether something can be in time, in so few words that a narrow list has room for them."""
    return lack.odds.replace("working ", "")


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
            f"{lack.qty} {name(line.part)}",
            f"{line.number}: {line.needs}",
            lack.why,
        ),
        tone,
        f"{line.part.code} {line.part.number} {line.shot.title} {line.part.section}",
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
        Fact("earliest", day_words(lack.earliest, report.today) if lack.earliest else "not known"),
        Fact("latest", day_words(lack.latest, report.today) if lack.latest else "not known"),
        Fact("code", line.part.code),
    )
    return f"{lack.qty} {name(line.part)}", tuple(fact for fact in facts if fact.text)


def shots_facts(report: MissingReport) -> tuple[str, tuple[Fact, ...]]:
    """Return title and lines of the card of the day's shots."""
    facts = [Fact("", f"{report.ready} of {report.wanted} parts are as the shots need them."), Fact()]
    for shot in report.shots:
        ready = shot.ready >= shot.wanted
        words = (
            f"{'+' if ready else '-'} {shot.number}: {shot.shot.title}, {shot.ready} of {shot.wanted} ready"
        )
        facts.append(Fact("", words, Tone.GOOD if ready else Tone.WARN))
    filmed = [shot for shot in report.shoot.shots if shot.filmed]
    facts.extend(Fact("", f"  filmed: {shot.title}", Tone.QUIET) for shot in filmed)
    return "Shots of the day", tuple(facts)

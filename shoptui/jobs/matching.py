"""Which of several things a code stands for: the open box and the build narrow, several are asked."""

from collections.abc import Callable

from shoptui.domain.inert import inert
from shoptui.domain.lookup import Match
from shoptui.domain.recognise import Reading, read
from shoptui.domain.records import Part
from shoptui.domain.verbs import HERE
from shoptui.jobs.answers import Answer, Choice, Question, Said
from shoptui.jobs.at import At, name
from shoptui.jobs.box_list import expected_in
from shoptui.jobs.count import bin_counted, rows_of_count
from shoptui.jobs.given import build_words, now_on
from shoptui.jobs.meanings import meaning_of
from shoptui.store.code_feed import TAGGED
from shoptui.store.command_tags import command_named
from shoptui.store.shop import Shop

LISTED = 4
"""Choices that the question's own sentence names; the screen lists all of them."""


def matches_of(at: At, reading: Reading) -> tuple[Match, ...]:
    """Return what a code stands for, narrowed by what lies open here; empty if nobody knows it."""
    matches = at.shop.codes.find(reading)
    # Most codes stand for one thing: what the box still lacks is not worked out for those.
    for fits in _narrowings(at) if len(matches) > 1 else ():
        if len(matches) > 1:
            matches = (
                tuple(match for match in matches if match.kind == "part" and fits(match.record)) or matches
            )
    return matches


def _narrowings(at: At) -> list[Callable[[int], bool]]:
    """Return the questions that tell the likely part, the strongest first."""
    shop, narrowings = at.shop, list[Callable[[int], bool]]()
    box, build = at.box, at.build
    if at.station == "receiving" and box is not None:
        short = {line.part for line in expected_in(shop, box) if line.short}
        narrowings.append(lambda part: part in short)
    if at.station == "racks":
        narrowings.append(lambda part: now_on(shop, shop.parts.get(part)).id == part)
    if (counting := bin_counted(at)) is not None:
        booked = {part.id for part in rows_of_count(at, counting)}
        narrowings.append(lambda part: part in booked)
    if build is not None:
        narrowings.append(lambda part: shop.parts.get(part).build == build.id)
    if at.station == "lift":
        narrowings.append(lambda part: shop.book.in_state(part, *HERE) > 0)
    return narrowings


def part_named(at: At, text: str) -> Part | None:
    """Return the part that a scan or a typed word names without doubt, None otherwise."""
    matches = [match for match in matches_of(at, read(text)) if match.kind == "part"]
    return at.shop.parts.get(matches[0].record) if len(matches) == 1 else None


def codes_of(shop: Shop, text: str) -> tuple[str, ...]:
    """Return the shop's own codes of all that a scan stands for."""
    tables = {kind: table for table, kind in TAGGED.items()} | {"order": "orders"}
    return tuple(
        shop.database.documents(tables[match.kind])[match.record]["code"]
        for match in shop.codes.find(read(text))
    )


def taken_for(at: At, text: str) -> str:
    """Return what a scan is taken for, in one word."""
    command = command_named(text)
    if command is not None:
        return "position" if command.position else "command"
    matches = matches_of(at, read(text))
    if matches:
        return kind_of(at, matches[0])
    return "number" if text.isdigit() else "words"


def kind_of(at: At, match: Match) -> str:
    """Return what a known thing is called on screen: a bin that is a bag is a bag."""
    if match.kind == "bin" and at.shop.bins.get(match.record).kind == "bag":
        return "bag"
    return match.kind


def answer_of(at: At, matches: tuple[Match, ...], reading: Reading, count: int) -> Answer:
    """Do what the one match means, or ask which of several it is."""
    if len(matches) == 1:
        return meaning_of(at, matches[0], reading, count)
    choices = tuple(Choice(_label(at, match), _taker(at, match, reading, count)) for match in matches)
    listed = "; ".join(f"{number} {choice.label}" for number, choice in enumerate(choices[:LISTED], 1))
    return Answer(
        Said.QUESTION,
        f"This code means {len(matches)} things. Which? {listed}. Its number, then Enter.",
        kind=matches[0].kind,
        question=Question(
            choices=choices, accepts=lambda text: _by_position(at, matches, reading, count, text)
        ),
    )


def _by_position(
    at: At, matches: tuple[Match, ...], reading: Reading, count: int, text: str
) -> Answer | None:
    """Take the one that is listed for a position that was scanned: left and right of one thing, say.

    At the lift the position has then been said, and is taken by the part's card as well.
    """
    command = command_named(text)
    if command is None or not command.position:
        return None
    there = [
        match
        for match in matches
        if match.kind == "part" and command.word in at.shop.parts.get(match.record).positions
    ]
    if len(there) != 1:
        return None
    answer = meaning_of(at, there[0], reading, count)
    question = answer.question if at.station == "lift" else None
    return (question.accepts(text) if question and question.accepts else None) or answer


def _taker(at: At, match: Match, reading: Reading, count: int) -> Callable[[], Answer]:
    return lambda: meaning_of(at, match, reading, count)


def _label(at: At, match: Match) -> str:
    if match.kind != "part":
        return match.kind
    part = at.shop.parts.get(match.record)
    where = f", {'/'.join(map(inert, part.positions))}" if len(part.positions) > 1 else ""
    return f"{name(part)}{where} ({build_words(at.shop, part.build)})"

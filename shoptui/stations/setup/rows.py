"""The lines of Set-up: what can be set here, and what is set now."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum, auto

from shoptui.domain.records import Build, Settings
from shoptui.jobs.at import shown
from shoptui.jobs.label_kinds import KINDS, lacking
from shoptui.jobs.record_forms import FORMS
from shoptui.stations.key_names import key_words
from shoptui.stations.listed import Column, Row
from shoptui.stations.marks import Tone
from shoptui.stations.records.rows import LISTINGS
from shoptui.stations.themes import THEMES
from shoptui.store.shop import Shop

SETUP_COLUMNS = (Column("what", 20), Column("now", 18, toned=True), Column("Enter does"))


class What(Enum):
    """Kinds of lines."""

    BUILD = auto()
    RECORDS = auto()
    SETTINGS = auto()
    KEYS = auto()
    SCANNER = auto()
    LABELS = auto()
    PRINTERS = auto()
    LEARN = auto()
    LOOK = auto()
    CHECK = auto()


@dataclass(frozen=True, slots=True)
class Line:
    """Key of one line: its kind, and which build or look."""

    what: What
    which: int | str = ""


def build_rows(builds: Iterator[Build], here: Build | None) -> Iterator[Row]:
    """Yield one line for each build."""
    for build in builds:
        mine = here is not None and build.id == here.id
        yield Row(
            Line(What.BUILD, build.id),
            (
                f"build {build.code}",
                "+ this terminal's" if mine else build.status,
                f"works on it here: {build.title} {build.vehicle}".rstrip(),
            ),
            Tone.GOOD if mine else Tone.PLAIN,
        )


def record_lines(shop: Shop) -> Iterator[Row]:
    """Yield one line for each kind of record that has a list of its own."""
    for kind in LISTINGS:
        form = FORMS[kind]
        many = sum(1 for _ in shop.shelves[kind].all())
        yield Row(
            Line(What.RECORDS, form.one),
            (
                form.many,
                f"{many} {form.one if many == 1 else form.many}",
                f"lists them: change, new {form.one}",
            ),
        )


def settings_row(settings: Settings) -> Row:
    """Return the line of the form of settings."""
    words = f"{settings.currency}, {settings.units}"
    return Row(
        Line(What.SETTINGS), ("settings", words, "the shop's name, money, units, working days, scanner")
    )


def keys_row(changed: int) -> Row:
    """Return the line of the keys."""
    words = f"* {changed} changed" if changed else "the usual ones"
    return Row(Line(What.KEYS), ("keys", words, "lists every key and gives another one"))


def scanner_row(prefix: str) -> Row:
    """Return the line of the scanner page."""
    return Row(
        Line(What.SCANNER),
        ("scanner", f"{key_words(prefix)} before", "shows each key that the scanner sends, and what to set"),
    )


def labels_row(shop: Shop) -> Row:
    """Return the line of the labels."""
    lack = sum(len(lacking(shop, kind)) for kind in KINDS.values())
    words = f"! {lack} {'lacks' if lack == 1 else 'lack'} one" if lack else "+ none is lacking"
    tone = Tone.WARN if lack else Tone.GOOD
    return Row(Line(What.LABELS), ("labels", words, "lists what lacks one, prints; blank tags"), tone)


def printers_row() -> Row:
    """Return the line of the printers."""
    return Row(Line(What.PRINTERS), ("printers", "", "lists them: test page, what was measured, stock"))


def learn_row(unlearned: str) -> Row:
    """Return the line that learns a code that was stopped."""
    return Row(
        Line(What.LEARN),
        (
            "last code stopped",
            shown(unlearned) if unlearned else "none",
            "learns it as plain text for a part, although its check fails" if unlearned else "",
        ),
        Tone.WARN if unlearned else Tone.QUIET,
    )


def look_rows(theme: str) -> Iterator[Row]:
    """Yield one line for each look."""
    for name, words in THEMES.items():
        here = name == theme
        yield Row(
            Line(What.LOOK, name),
            ("look", "+ this one" if here else "", f"colours: {words}"),
            Tone.GOOD if here else Tone.PLAIN,
        )


def check_row(problems: int | None) -> Row:
    """Return the line of the health of the store."""
    words = "not checked yet" if problems is None else f"! {problems} problems" if problems else "+ sound"
    tone = Tone.PLAIN if problems is None else Tone.BAD if problems else Tone.GOOD
    return Row(Line(What.CHECK), ("health of the store", words, "checks the whole store"), tone)

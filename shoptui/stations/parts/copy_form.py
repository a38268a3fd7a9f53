"""The form that copies lines from another build's list."""

from collections.abc import Mapping

from shoptui.domain import cells
from shoptui.domain.cells import CellError
from shoptui.domain.inert import inert
from shoptui.domain.records import Build
from shoptui.jobs.answers import Answer, stop
from shoptui.jobs.ask_for_records import part_called
from shoptui.jobs.asked import Sense
from shoptui.jobs.at import At, name_and_code
from shoptui.jobs.copy_list import copy_list
from shoptui.stations.field import Field
from shoptui.stations.form import Form
from shoptui.stations.known_names import KnownNames


def copy_form(at: At) -> Form:
    """Return the form."""
    shop, target = at.shop, at.build
    others = [build for build in shop.builds.all() if target is None or build.id != target.id]
    known = {build.id for build in others}
    parts = [part for part in shop.parts.all() if part.build in known and not part.original]
    named = KnownNames(
        tuple(name_and_code(part) for part in parts),
        tuple((code, name_and_code(part)) for part in parts for code in (part.code, part.number) if code),
    )

    def chosen(text: str) -> tuple[int, ...]:
        sense = Sense(shop)
        return tuple(part_called(sense, each).id for each in cells.listed(text))

    def save(values: Mapping[str, str]) -> Answer:
        if not values["source"].strip():
            return stop("A build was expected: whose list is copied?", field="source")
        return copy_list(
            at,
            _build(others, values["source"]),
            section=values["section"].strip(),
            only=chosen(values["parts"]),
        )

    return Form(
        f"Copy lines to {inert(target.title) if target else 'this list'}",
        (
            Field(
                "source",
                "From the list of",
                "a few letters of the build",
                names=KnownNames(
                    tuple(build.title for build in others),
                    tuple((build.code, build.title) for build in others),
                ),
                closed=True,
                check=lambda text: _build(others, text),
            ),
            Field(
                "section",
                "Only the section",
                "may be empty: all of them",
                names=KnownNames(tuple(sorted({part.section for part in parts if part.section}))),
                closed=True,
            ),
            Field(
                "parts",
                "Only these parts",
                "with ; between; may be empty: all of them",
                names=named,
                closed=True,
                check=chosen,
            ),
        ),
        save,
        about="Copied with their codes, kits and order of work; never with what was done with their pieces.",
        draft="copy list",
    )


def _build(others: list[Build], text: str) -> Build:
    wanted = text.strip().casefold()
    for build in others:
        if wanted in (build.title.casefold(), build.code.casefold()):
            return build
    there = ", ".join(inert(build.title) for build in others) or "there is no other"
    raise CellError(f"Another build was expected ({there}); {inert(text, 40)} came.")

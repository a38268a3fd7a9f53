"""What is asked of a part."""

from shoptui.domain import cells, part_cells
from shoptui.domain.amounts import outside_work, price
from shoptui.domain.cells import NOTES_LIMIT
from shoptui.domain.fasteners.hardware import hardware_designation
from shoptui.domain.records import HardwareLine, KitLine, Part
from shoptui.domain.written import LINE_BREAK, hours_words, price_words, work_words
from shoptui.jobs import ask_for
from shoptui.jobs.ask_for_records import code, hardware, part, parts
from shoptui.jobs.asked import Asked, AskedLines, Sense
from shoptui.jobs.at import name, name_and_code
from shoptui.jobs.hardware import all_kinds
from shoptui.jobs.joint_fields import JOINTS
from shoptui.jobs.no_longer_asked import readings_left
from shoptui.jobs.record_form import RecordForm
from shoptui.jobs.whole_record import part_refused

SOLD_AS = ("each", "pair", "set", "pack", "kit")


def _price(name: str, label: str) -> Asked:
    return Asked(
        name,
        label,
        "129.90, about 130, 80-120, free; empty: not known",
        lambda sense, typed: price(typed, sense.usual),
        lambda sense, value: price_words(value, sense.usual),
        one_value=True,
    )


def _outside_work(name: str, label: str) -> Asked:
    return Asked(
        name,
        label,
        "painted, 10 days, 180.00; the next after ;",
        lambda sense, typed: outside_work(typed, sense.usual),
        lambda sense, value: work_words(value, sense.usual),
    )


KIT = AskedLines(
    KitLine,
    (part("part", "Part"), ask_for.number("qty", "In one kit", "pieces", least=1, empty=1)),
    "part",
    ask_for.line_words(("qty", "{} "), ("part", "{}")),
)

FASTENED = AskedLines(
    HardwareLine,
    (hardware("part", "Hardware"), ask_for.number("qty", "For one", "pieces", least=1, empty=1)),
    "kind",
    ask_for.line_words(("qty", "{} "), ("part", "{}")),
)

OF_HARDWARE = ("designation", "finish", "one_use", "minimum")
"""Fields that hardware alone has."""

OF_BOTH = ("description", "code", "maker", "number", "other_numbers", "pieces", "price", "notes")
"""Fields that it has as other parts do; how it is sold follows from how many are in a pack."""


def _leaves_out(part: Part) -> tuple[str, ...]:
    if not part.is_hardware:
        return OF_HARDWARE
    return tuple(asked.name for asked in PART.fields if asked.name not in (*OF_HARDWARE, *OF_BOTH))


def _pack(_before: Part | None, after: Part) -> dict[str, str]:
    """Return how hardware is sold: by the piece or in packs."""
    sold_as = "pack" if after.pieces > 1 else "each"
    return {"sold_as": sold_as} if after.is_hardware and after.sold_as != sold_as else {}


def _there_already(sense: Sense, after: Part) -> str:
    """Say that a kind of hardware is there already: of two that are one, neither has the stock."""
    words = after.words.casefold()
    same = (part for part in all_kinds(sense.shop) if part.words.casefold() == words)
    found = next(same, None) if after.is_hardware else None
    return "" if found is None else f"{name_and_code(found)} is there already."


PART = RecordForm(
    Part,
    "part",
    "parts",
    (
        ask_for.read_by(
            "designation", "Designation", "M12x1.5 x 35 10.9, nut M12x1.5 10; or words", hardware_designation
        ),
        ask_for.text("description", "What it is", "in a few words"),
        code(),
        ask_for.text("finish", "Finish", "zinc plated, stainless, black; may be empty", limit=60),
        ask_for.yes_or_no("one_use", "One-time use", "yes: what came off is scrap"),
        ask_for.number("minimum", "Minimum stock", "pieces that are to be left", empty=0),
        Asked(
            "section",
            "Section",
            "brakes, frame, interior ...",
            lambda _, typed: cells.words(typed, limit=60),
            lambda _, value: str(value),
            names="sections",
        ),
        ask_for.text("maker", "Maker"),
        ask_for.text("number", "Maker's number", limit=60),
        ask_for.read_by(
            "other_numbers", "Other numbers", "superseded, substitutes; ; between", cells.listed, "; ".join
        ),
        ask_for.number("needed", "Needed", "pieces wanted on the vehicle", empty=0),
        ask_for.choice("sold_as", "Sold as", SOLD_AS),
        ask_for.number("pieces", "Pieces in one", "in one as sold: 2 in a pair", least=1, empty=1),
        ask_for.read_by(
            "positions",
            "Positions",
            "LF RF LR RR front rear left right; may be empty",
            part_cells.positions,
            "; ".join,
        ),
        parts("install_after", "Install after", "what must be on first; ; between"),
        parts("replaces", "Replaces", "what comes off for it; ; between"),
        ask_for.yes_or_no("original", "Original", "yes: was on the vehicle when that came"),
        _outside_work("outside_work", "Outside work"),
        ask_for.read_by(
            "hours",
            "Hours",
            "to install: 2.5 h, or low/likely/high: 1/2/4",
            part_cells.hours,
            hours_words,
            one_value=True,
        ),
        _price("price", "Price"),
        ask_for.yes_or_no("sponsor", "Sponsor's part", "yes: must be seen"),
        ask_for.listing("kit", "Kit contents", KIT),
        ask_for.listing("hardware", "Hardware", FASTENED),
        ask_for.listing("joints", "Joints", JOINTS),
        ask_for.day("opened_on", "Opened on", past=True),
        ask_for.day("use_by", "Use by"),
        ask_for.text("read_again", "Read again", "because its number changed; empty it when read"),
        ask_for.read_by(
            "notes",
            "Notes",
            "a / between blanks begins a new line",
            lambda typed: cells.words(typed.replace(LINE_BREAK, "\n"), limit=NOTES_LIMIT, lines=True),
            lambda value: value.replace("\n", LINE_BREAK),
        ),
    ),
    name,
    part_refused,
    doubt=_there_already,
    follows=_pack,
    asks=readings_left,
    leaves_out=_leaves_out,
)

"""Take a build's list of parts in from a spreadsheet."""

from collections.abc import Iterable, Iterator
from pathlib import Path

from shoptui.domain import verbs
from shoptui.domain.amounts import outside_work, price, unit_in
from shoptui.domain.cells import NOTES_LIMIT, CellError, Pieces, listed, pieces, whole, yes
from shoptui.domain.codes import normal
from shoptui.domain.headers import Column
from shoptui.domain.inert import inert
from shoptui.domain.ledger import Move
from shoptui.domain.part_cells import codes, hours, in_kit, positions
from shoptui.domain.places import UNSORTED
from shoptui.domain.prices import NOT_KNOWN
from shoptui.domain.records import Build, LearnedCode, Part
from shoptui.domain.tables import ImportRefusedError, Reading, Row, Table, Trouble
from shoptui.domain.tags import Kind
from shoptui.jobs.answers import Answer, done
from shoptui.jobs.at import shown
from shoptui.jobs.import_hardware import fastenings
from shoptui.jobs.import_kits import find_kits, kit_lines
from shoptui.jobs.import_rows import part_rows
from shoptui.jobs.part_links import Draft, find_links
from shoptui.jobs.steps import each
from shoptui.jobs.taken import Bearer, CodesTaken, NamesTaken
from shoptui.store.files_in import read_csv
from shoptui.store.shop import Shop

COLUMNS = (
    Column(
        "description",
        ("part", "item", "name", "what", "part description", "item description", "part name", "item name"),
        needed=True,
    ),
    Column("code", ("short name", "part code", "item code", "id", "item number", "item no")),
    Column("tag"),
    Column("section", ("group", "area", "system")),
    Column(
        "qty",
        (
            *("quantity", "needed", "pieces", "pcs", "count", "amount", "required"),
            *("qty required", "qty needed", "required qty", "quantity required", "quantity needed"),
        ),
    ),
    Column("maker", ("manufacturer", "make", "brand")),
    Column("number", ("maker's number", "part number", "part no", "manufacturer part number", "mpn")),
    Column("other numbers", ("superseded", "substitutes", "other number")),
    Column("positions", ("position", "corner")),
    Column("install after", ("after",)),
    Column("replaces"),
    Column("kit", ("in kit", "part of kit", "kit code")),
    Column("hardware", ("fasteners", "bolts")),
    Column("original", ("as bought",)),
    Column("outside work", ("work",)),
    Column("hours", ("hours to install", "labour", "labor")),
    Column("price", ("list price", "unit price", "price each", "cost", "unit cost", "price as sold")),
    Column("sponsor", ("sponsored", "must be seen")),
    Column("notes", ("note", "comment", "comments", "remarks")),
    Column("on hand", ("in stock", "have", "here")),
    Column("bin", ("shelf", "place", "location")),
    Column("codes", ("barcode", "barcodes", "gtin", "ean", "upc")),
)


def import_parts(shop: Shop, path: Path, build_code: str, *, terminal: str) -> Answer:
    """Take in every part of a list, or none.

    An original part is booked as on the vehicle when that came, in the list's quantity; it fills no need.

    Args:
        shop: The shop.
        path: A CSV file, see `COLUMNS`.
        build_code: The build that the list is of.
        terminal: Where this is done.

    Raises:
        ImportRefusedError: Names every wrong row.

    """
    table = read_csv(path, COLUMNS)
    build = _build(shop, build_code, path.name)
    reading = Reading(path.name)
    taken = NamesTaken(shop)
    found = part_rows(table, reading)
    money = _unit(reading, table, shop.settings.currency)
    drafts = [_draft(shop, reading, row, taken, build, money) for row in each(found.rows, "Reading rows")]
    there = [part for part in shop.parts.all() if part.build == build.id]
    _refuse_doubled(reading, drafts, there)
    own = _own_codes(reading, drafts, CodesTaken(shop, taken))
    links = find_links(reading, drafts, there, found.numbers)
    kits = find_kits(shop, reading, drafts, links)
    fastened = fastenings(shop, reading, found.rows)
    reading.finish()
    words = f"{len(drafts)} part{'s' * (len(drafts) != 1)} of {build.code}"
    with shop.transaction(f"imported {words} from {inert(path.name)}", terminal=terminal) as tx:
        made = {draft.line: tx.add(draft.part) for draft in each(drafts, "Writing parts")}
        for draft in each(drafts, "Writing what belongs to them"):
            part = made[draft.line]
            after, replaces = (
                tuple(made[at].id if isinstance(at, int) else at.id for at in found)
                for found in (links[draft.line].after, links[draft.line].replaces)
            )
            tx.change(part, install_after=after, replaces=replaces, hardware=fastened.get(draft.line, ()))
            if inside := kits.get(draft.line):
                # Its contents are what is needed and counted; the row only says what they are bought as.
                tx.change(part, kit=kit_lines(inside, made), needed=0, sold_as="kit", pieces=1)
            for code, count in own[draft.line]:
                tx.add(LearnedCode(0, code, normal(code), shop.parts.table, part.id, count))
            if part.original:
                tx.enter(_as_bought(part, draft.qty))
            elif draft.here:
                tx.enter(verbs.stock(part.id, draft.here, to=draft.bin))
        for kit, inside in kits.items():
            if isinstance(kit, Part):
                tx.change(kit, kit=(*kit.kit, *kit_lines(inside, made)))
    return done(imported_words(words, path, table, found.notes), qty=len(drafts))


def imported_words(what: str, path: Path, table: Table, notes: Iterable[str] = ()) -> str:
    """Say what came in, and what was left out or taken for something else."""
    told = [f"{what} imported from {inert(path.name)}.", *notes]
    for why, headers in (
        ("Not known here and left out", table.ignored),
        ("Left out, since another column says it more certainly", table.spare),
    ):
        if headers:
            told.append(f"{why}: column{'s' * (len(headers) > 1)} {', '.join(headers)}.")
    return " ".join(told)


def _unit(reading: Reading, table: Table, usual: str) -> str:
    """Return the currency of the prices, which the header may name."""
    try:
        return unit_in(table.headers.get("price", ""), usual)
    except CellError as error:
        reading.trouble(0, "price", str(error))
        return usual


def _build(shop: Shop, code: str, name: str) -> Build:
    build = shop.builds.by_code(code)
    if build is None:
        there = ", ".join(each.code for each in shop.builds.all()) or "none yet; import the shop first"
        raise ImportRefusedError(
            name, [Trouble(0, "", f"There is no build {inert(code, 40)}. Builds: {there}.")]
        )
    return build


def _draft(shop: Shop, reading: Reading, row: Row, taken: NamesTaken, build: Build, money: str) -> Draft:
    usual = shop.settings.currency
    qty = reading.take(row, "qty", pieces, Pieces(1))
    original = reading.take(row, "original", yes, default=False)
    description = reading.text(row, "description")
    if not description and "description" not in row.cells:
        reading.trouble(row.line, "description", "Words were expected; the cell is empty.")
    part = Part(
        id=0,
        code=taken.code(reading, row, "code"),
        tag=taken.tag(reading, row, "tag", (Kind.PART,)),
        build=build.id,
        description=description,
        maker=reading.text(row, "maker"),
        number=reading.text(row, "number", limit=60),
        other_numbers=reading.take(row, "other numbers", listed, ()),
        section=reading.text(row, "section", limit=60),
        needed=0 if original else qty.total,
        sold_as=qty.sold_as,
        pieces=qty.each,
        positions=reading.take(row, "positions", positions, ()),
        original=original,
        outside_work=reading.take(row, "outside work", lambda cell: outside_work(cell, usual), ()),
        hours=reading.take(row, "hours", hours, ()),
        price=reading.take(row, "price", lambda cell: price(cell, money), NOT_KNOWN),
        sponsor=reading.take(row, "sponsor", yes, default=False),
        notes=reading.text(row, "notes", limit=NOTES_LIMIT, lines=True),
    )
    here, bin_ = _on_hand(shop, reading, row, original=original)
    return Draft(
        row.line,
        part,
        qty.total,
        reading.take(row, "codes", codes, ()),
        reading.take(row, "install after", listed, ()),
        reading.take(row, "replaces", listed, ()),
        here,
        bin_,
        reading.take(row, "kit", in_kit, ("", None)),
    )


def _on_hand(shop: Shop, reading: Reading, row: Row, *, original: bool) -> tuple[int, int | str]:
    """Return how many pieces lie in the shop already, and in which bin: the books begin in mid-build too."""
    here = reading.take(row, "on hand", whole, 0)
    code = reading.text(row, "bin", limit=40)
    if here and original:
        reading.trouble(
            row.line, "on hand", "An original is listed as on the vehicle; take it off at the lift instead."
        )
    if not code:
        return here, UNSORTED
    found = shop.bins.by_code(code)
    if found is None:
        reading.trouble(row.line, "bin", f"There is no bin {inert(code)}. Bins come with import shop.")
        return here, UNSORTED
    return here, found.id


def _as_bought(part: Part, qty: int) -> Iterator[Move]:
    """Spread an original's pieces over its positions, the first ones taking what is left over."""
    places = part.positions[:qty] or ("",)
    each, over = divmod(qty, len(places))
    for at, position in enumerate(places):
        yield from verbs.as_bought(part.id, each + (at < over), position=position)


def _refuse_doubled(reading: Reading, drafts: list[Draft], there: list[Part]) -> None:
    """Note each part that the list or the build has already.

    Two parts of one description and number are the same one, unless each has a short name of its own.
    """
    seen: dict[tuple[str, str, bool], tuple[str, bool]] = {
        _same_as(part): (f"already there, as {shown(part.code)}", part.code != part.tag) for part in there
    }
    for draft in drafts:
        where, named = seen.get(_same_as(draft.part), ("", True))
        if where and not (named and draft.part.code):
            reading.trouble(
                draft.line,
                "description",
                f"{inert(draft.part.description)} is {where}. Give one quantity in one row, "
                "or a code of its own to each.",
            )
        seen[_same_as(draft.part)] = (f"already on line {draft.line}", bool(draft.part.code))


def _own_codes(reading: Reading, drafts: list[Draft], taken: CodesTaken) -> dict[int, list[tuple[str, int]]]:
    """Return the codes that each line's part is to learn; what is its name anyway needs no learning."""
    found: dict[int, list[tuple[str, int]]] = {}
    for draft in drafts:
        bearer = Bearer("parts", 0, draft.part.build, draft.line)
        found[draft.line] = [
            (code, count)
            for code, count in draft.codes
            if taken.claim(reading, draft.line, "codes", code, bearer) and not taken.is_name_of(code, bearer)
        ]
    return found


def _same_as(part: Part) -> tuple[str, str, bool]:
    return part.description.casefold(), part.number.casefold(), part.original

"""Checks of the joints and their readings: what cannot be read, has no sheet, or was tightened with doubt."""

from collections.abc import Iterator
from functools import cache, partial

from shoptui.domain.cautions import moves_by
from shoptui.domain.fasteners.far_off import MISREAD
from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.fit import RULE_OF_THUMB
from shoptui.domain.fasteners.reading import designation
from shoptui.domain.inert import inert
from shoptui.domain.joint_doubts import value_doubt
from shoptui.domain.joint_engagement import engagement_of
from shoptui.domain.problems import Problem
from shoptui.domain.records import Attachment, Joint, Part, What
from shoptui.jobs.at import shown
from shoptui.jobs.joint_fields import joints_refused
from shoptui.jobs.joint_words import joint_name
from shoptui.jobs.joints import all_joints, parts_with_joints, unfinished
from shoptui.store.attachments import digest_in
from shoptui.store.documents import Document
from shoptui.store.shop import Shop

_RESTORE = "Restore the folder from a copy made before, or ask who wrote to it by other means."


def joints(shop: Shop) -> Iterator[Problem]:
    """Find joints that cannot be, that have no value, or no sheet that says so.

    Those of a finished vehicle are nobody's to mend.
    """
    for part in parts_with_joints(shop):
        where = f"part {shown(part.code)}"
        if words := joints_refused(part):
            yield Problem(where, words.rstrip("."), "Correct it in the part's form.")
        for joint in part.joints:
            yield from _joint(where, joint)


def engaged(shop: Shop) -> Iterator[Problem]:
    """Find fasteners that engage too little or bottom out; what a moving vehicle depends on comes first."""
    parts = sorted(parts_with_joints(shop), key=lambda part: not moves_by(part.section, part.description))
    for part in parts:
        for joint in part.joints:
            found = engagement_of(joint)
            for words in found.findings if found is not None else ():
                what = f"joint {inert(joint.name)}: {words} ({RULE_OF_THUMB})"
                yield Problem(f"part {shown(part.code)}", what, _MEASURE)


_MEASURE = "Hold it against the maker's sheet, measure it again, and correct the bolt or the part's form."


def _joint(where: str, joint: Joint) -> Iterator[Problem]:
    called = inert(joint.name)
    if joint.designation:
        try:
            designation(joint.designation)
        except FastenerError as error:
            yield Problem(
                where, f"joint {called}: {str(error).rstrip('.')}", "Correct it in the part's form."
            )
    if joint.fasteners and not joint.value and not joint.plain:
        remedy = "Write down what the maker's sheet says."
        yield Problem(where, f"joint {called} has no value", remedy)
    elif joint.value and not joint.has_source:
        yield Problem(where, f"nobody wrote down which sheet says {joint.value} for joint {called}", _SOURCE)
    if words := value_doubt(joint):
        yield Problem(where, f"joint {called}: {words}", _READ_AGAIN)


_READ_AGAIN = f"{MISREAD} Read the sheet again; correct it in the part's form, or let it stand."
_SOURCE = "Attach the sheet, or write down title, edition, page and who read it."


def sheets(shop: Shop) -> Iterator[Problem]:
    """Find joints whose sheet is not what it was when its values were read: its bytes are others, or gone."""
    digests = cache(partial(digest_in, shop.database.folder))
    for part in parts_with_joints(shop):
        for joint in part.joints:
            document = shop.database.documents("files").get(joint.sheet or 0)
            if document is None and joint.sheet is None:
                continue
            where = f"part {shown(part.code)}"
            if document is None or document.get("withdrawn"):
                words = f"the sheet of joint {inert(joint.name)} is not among the files that are kept"
                yield Problem(where, words, _SHEET)
                continue
            named = f"{inert(document['name'], 60)}, the sheet of joint {inert(joint.name)}"
            if digests(document["sha256"]) not in ("", document["sha256"]):
                yield Problem(where, f"{named}, is not the file any more that was kept", _SHEET)
            if (newer := _newer(shop, joint.sheet or 0, document)) is not None:
                words = f"{named}, was kept once more, as another file ({newer.size} bytes)"
                yield Problem(where, words, _EDITION)


def _newer(shop: Shop, sheet: int, document: Document) -> Attachment | None:
    """Return a file of the same name that was kept with the same record later."""
    same = (document["table"], document["record"], document["name"].casefold())
    files = (file for file in shop.files.all() if file.id > sheet and file.sha256 != document["sha256"])
    return next((file for file in files if (file.table, file.record, file.name.casefold()) == same), None)


_SHEET = "Keep the sheet again (Parts, Ctrl+F), name it in the joint, and hold what was tightened against it."
_EDITION = "Keep it again (Parts, Ctrl+F): it is asked then whether it is the newer edition."


def doubted(shop: Shop) -> Iterator[Problem]:
    """Find readings that count and were stated with a reason, without a name, or without a wrench."""
    for each in all_joints(shop):
        for reading in each.counted:
            if reading.what is not What.TIGHTENED:
                continue
            told = [reading.note] if "used because" in reading.note else []
            told += ["nobody's name stands beside it"] if reading.who is None else []
            told += ["nobody wrote down the wrench"] if reading.wrench is None else []
            if told:
                what = f"{joint_name(each)} was tightened: {'; '.join(map(inert, told))}"
                yield Problem(f"part {shown(each.part.code)}", what, "Tighten or check it again.")


def readings(shop: Shop) -> Iterator[Problem]:
    """Find rows of the readings that point at what is not there."""
    tables = {name: shop.database.documents(name) for name in ("transactions", "parts", "wrenches", "people")}
    rows = shop.database.documents("readings")
    for number, row in rows.items():
        for table, field in (
            ("transactions", "transaction"),
            ("parts", "part"),
            ("wrenches", "wrench"),
            ("people", "who"),
        ):
            there = row.get(field)
            if there is not None and there not in tables[table]:
                what = f"it points at {field} {inert(str(there))}, which is not there"
                yield Problem(f"reading {number}", what, _RESTORE)
        if row.get("strikes") is not None and row["strikes"] not in rows:
            yield Problem(f"reading {number}", "it strikes out a reading that is not there", _RESTORE)
    yield from _nameless(shop)


def _nameless(shop: Shop) -> Iterator[Problem]:
    """Find readings whose joint is not on its part any more: it was renamed, or taken off the list."""
    told, running = set[tuple[int, str]](), unfinished(shop)
    for row in shop.database.documents("readings").values():
        key = (row["part"], row["joint"])
        if key in told or row["part"] not in shop.database.documents("parts"):
            continue
        told.add(key)
        part: Part = shop.parts.get(row["part"])
        if (
            part.build in running
            and not part.withdrawn
            and all(joint.name != row["joint"] for joint in part.joints)
        ):
            what = f"it has readings of a joint {inert(row['joint'])} that it has no more"
            remedy = "Give the joint its name again, or let it stand: the readings do not count."
            yield Problem(f"part {shown(part.code)}", what, remedy)

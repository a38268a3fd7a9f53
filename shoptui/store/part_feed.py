"""Which parts are in which section, and which kits a part is in: fed from the parts."""

from shoptui.domain.sections import SectionIndex
from shoptui.store.database import Database
from shoptui.store.documents import Document


def feed_sections(database: Database, index: SectionIndex) -> None:
    """Keep the index in step with the parts."""

    def changed(number: int, before: Document | None, after: Document | None) -> None:
        if before is not None:
            index.drop(number, before.get("build"), before.get("section", ""))
        if after is not None:
            index.put(number, after.get("build"), after.get("section", ""))

    database.listen("parts", changed)


def feed_kits(database: Database, index: dict[int, set[int]]) -> None:
    """Keep in step with the parts the ids of the kits that each is in."""

    def changed(number: int, before: Document | None, after: Document | None) -> None:
        for line in (before or {}).get("kit", ()):
            index[line["part"]].discard(number)
        for line in (after or {}).get("kit", ()):
            index.setdefault(line["part"], set()).add(number)

    database.listen("parts", changed)

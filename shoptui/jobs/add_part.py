"""Write down a part that no list has."""

from shoptui.domain.inert import inert
from shoptui.domain.records import Part
from shoptui.jobs.answers import Answer, done, stop
from shoptui.jobs.at import At, shown
from shoptui.store.shop import Shop

LONGEST = 200
"""Letters in a description; more is a mistake of the keyboard or a pasted page."""


def add_part(
    at: At,
    *,
    description: str,
    section: str = "",
    needed: int = 1,
    positions: tuple[str, ...] = (),
    original: bool = False,
    number: str = "",
) -> Answer:
    """Add a part typed in words to the terminal's build, or to the shop's stock where it has none.

    It gets a tag, which is its code until it has a better one.
    A part with the same description in the same build is not made twice, it is named instead.
    """
    words = " ".join(description.split())
    if not words:
        return stop("A description was expected: say in a few words what the part is.", field="description")
    if len(words) > LONGEST:
        told = f"A description of at most {LONGEST} letters was expected, not {len(words)}."
        return stop(told, field="description")
    if needed < 0:
        return stop(f"A quantity of 0 or more was expected, not {needed}.", field="needed")
    build = at.build.id if at.build else None
    same = _same(at.shop, build, words, original=original)
    if same is not None:
        return stop(
            f"“{inert(words)}” is on this list already, as {inert(same.code)}: nothing was added.",
            field="description",
            kind="part",
            part=same.code,
            subject=same.id,
        )
    with at.doing(f"added to the list: {inert(words)}") as tx:
        part = tx.add(
            Part(
                0,
                "",
                "",
                build,
                words,
                number=number.strip(),
                section=" ".join(section.split()),
                needed=0 if original else needed,
                positions=positions,
                original=original,
            )
        )
    return done(
        f"Added {inert(words)} as {shown(part.code)}. Stick a tag on it when it is here.",
        kind="part",
        part=part.code,
        subject=part.id,
    )


def _same(shop: Shop, build: int | None, words: str, *, original: bool) -> Part | None:
    wanted = words.casefold()
    return next(
        (
            part
            for part in shop.parts.all()
            if part.build == build and part.original == original and part.description.casefold() == wanted
        ),
        None,
    )

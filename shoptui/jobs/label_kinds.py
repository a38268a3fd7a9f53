"""The kinds of things that carry a label of ours, and which of them still lack it.

What lacks a label is derived and never written down: it is here, and no run of labels with it came out well.
So it survives a crash, and clears itself when somebody says that the labels did.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from shoptui.domain.records import Bin, Box, Build, Part, Wrench
from shoptui.domain.tags import Kind
from shoptui.domain.verbs import ON_A_SHELF
from shoptui.jobs import label_words
from shoptui.jobs.hardware import all_kinds
from shoptui.labels.layout import Label
from shoptui.store.shop import Shop
from shoptui.store.transaction import BAG


@dataclass(frozen=True, slots=True)
class LabelKind:
    """One kind of things that carry a label.

    Args:
        layout: Name of the labels' layout.
        one: What one thing is called.
        many: What several are called.
        table: Table of their records.
        every: Yields all things of the kind.
        is_here: Whether a thing is where a label can be stuck on it.
        label: Returns a thing's label.
        those_here: Yields the things that are; None where each has to be looked at to know.
        several: How a count of them reads where that is not what several are called: `3 kinds of hardware`.

    """

    layout: str
    one: str
    many: str
    table: str
    every: Callable[[Shop], Iterable[Any]]
    is_here: Callable[[Shop, Any], bool]
    label: Callable[[Shop, Any], Label]
    those_here: Callable[[Shop], Iterable[Any]] | None = None
    several: str = ""

    def here(self, shop: Shop) -> Iterable[Any]:
        """Yield the things that are where a label can be stuck on them, in the order they were made in."""
        if self.those_here is not None:
            return self.those_here(shop)
        return (each for each in self.every(shop) if self.is_here(shop, each))


def _bins(shop: Shop) -> Iterator[Bin]:
    return (each for each in shop.bins.all() if each.kind != BAG)


def _bags(shop: Shop) -> Iterator[Bin]:
    return (each for each in shop.bins.all() if each.kind == BAG)


def _part_is_here(shop: Shop, part: Part) -> bool:
    return shop.book.in_state(part.id, *ON_A_SHELF) > 0


def _parts_here(shop: Shop) -> Iterator[Part]:
    """Yield them as the ledger knows them: Today asks, and thousands of parts came and went."""
    parts = (shop.parts.get(number) for number in sorted(shop.book.parts_in(*ON_A_SHELF)))
    return (part for part in parts if not (part.withdrawn or part.is_hardware))


def _box_is_here(_shop: Shop, box: Box) -> bool:
    return box.arrived is not None and box.closed is None


def _not_finished(_shop: Shop, build: Build) -> bool:
    return build.status == "open"


def _not_gone(_shop: Shop, wrench: Wrench) -> bool:
    return not wrench.gone


def _always(_shop: Shop, _record: Any) -> bool:  # noqa: ANN401 - any record
    return True


KINDS: dict[str, LabelKind] = {
    kind.many: kind
    for kind in (
        LabelKind("bin", "bin", "bins", "bins", _bins, _always, label_words.bin_label),
        LabelKind(
            "part",
            "part",
            "parts",
            "parts",
            lambda shop: (part for part in shop.parts.all() if not part.is_hardware),
            _part_is_here,
            label_words.part_label,
            _parts_here,
        ),
        LabelKind(
            "hardware",
            "kind of hardware",
            "hardware",
            "parts",
            all_kinds,
            _part_is_here,
            label_words.hardware_label,
            several="kinds of hardware",
        ),
        LabelKind("bag", "bag", "bags", "bins", _bags, _always, label_words.bag_label),
        LabelKind(
            "box", "box", "boxes", "boxes", lambda shop: shop.boxes.all(), _box_is_here, label_words.box_label
        ),
        LabelKind(
            "vehicle",
            "vehicle",
            "vehicles",
            "builds",
            lambda shop: shop.builds.all(),
            _not_finished,
            label_words.vehicle_label,
        ),
        LabelKind(
            "wrench",
            "wrench",
            "wrenches",
            "wrenches",
            lambda shop: shop.wrenches.all(),
            _not_gone,
            label_words.wrench_label,
        ),
        LabelKind(
            "badge",
            "person",
            "people",
            "people",
            lambda shop: shop.people.all(),
            _always,
            label_words.badge_label,
        ),
    )
}
"""By what several are called."""

BLANKS = {Kind.PART: "blank-part", Kind.BAG: "blank-bag", Kind.BIN: "blank-bin"}
"""Tags that can be printed before they stand for anything, and their layouts."""

COMMANDS = "command"
"""The layout of commands and positions."""


def kind_of(shop: Shop, record: Any) -> LabelKind:  # noqa: ANN401 - any record that carries a tag
    """Return the kind of a thing: a bin that is a bag is a bag, and a part that is hardware is hardware."""
    table = shop.shelves[type(record)].table
    own = [kind for kind in KINDS.values() if kind.table == table]
    return next((kind for kind in own if kind.layout == getattr(record, "kind", "")), own[0])


def lacks(shop: Shop, record: Any) -> bool:  # noqa: ANN401 - any record that carries a tag
    """Return whether a thing is here and has no label that came out well."""
    kind = kind_of(shop, record)
    return record.id not in shop.labels.of(kind.table) and kind.is_here(shop, record)


def lacking(shop: Shop, kind: LabelKind, build: Build | None = None) -> tuple[Any, ...]:
    """Return the things of a kind that lack their label, in the order in which they were made.

    Args:
        shop: The shop.
        kind: Which.
        build: Only parts of this build; None for all. Other things belong to no build.

    """
    labelled = shop.labels.of(kind.table)
    return tuple(each for each in of_build(kind.here(shop), build) if each.id not in labelled)


def of_build(things: Iterable[Any], build: Build | None) -> Iterator[Any]:
    """Yield what belongs to a build, and what belongs to none because no thing of its kind does."""
    return (each for each in things if build is None or getattr(each, "build", build.id) == build.id)

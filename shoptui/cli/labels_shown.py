"""What still lacks its label, and what labels can be printed on."""

import argparse
from collections.abc import Iterator

from shoptui.cli.opening import opened
from shoptui.cli.output import WIDTH, lines, table, write
from shoptui.domain.inert import inert
from shoptui.jobs.at import shown
from shoptui.jobs.came_out import open_runs, run_words
from shoptui.jobs.label_kinds import KINDS
from shoptui.jobs.label_kinds import lacking as lacking_of
from shoptui.jobs.label_printers import OWN, choice_of, own_labels
from shoptui.labels.descriptions import packaged
from shoptui.labels.errors import LabelError
from shoptui.labels.layouts import layout_names
from shoptui.labels.stock import FOLDER as STOCK
from shoptui.labels.stock import read_stock, stock_names
from shoptui.store.shop import Shop


def lacking(arguments: argparse.Namespace) -> int:
    """List what still lacks its label, and labels of which nobody has said how they came out."""
    with opened(arguments) as shop:
        rows = [
            (many, str(len(things)), ", ".join(shown(each.code) for each in things[:WIDTH]))
            for many, kind in KINDS.items()
            if (things := lacking_of(shop, kind))
        ]
        write(
            table(("what", "how many", "which"), rows, wide=2, right=(1,))
            if rows
            else "Nothing lacks its label.\n"
        )
        lines(f"Not said how they came out: {run_words(run)}, at {run.terminal}" for run in open_runs(shop))
    return 0


def stock(arguments: argparse.Namespace) -> int:
    """List what labels can be printed on, the shop's own included."""
    with opened(arguments) as shop:
        lines(_stock_lines(shop))
    return 0


def _stock_lines(shop: Shop) -> Iterator[str]:
    own = own_labels(shop)
    for name in stock_names(own):
        kinds = ", ".join(kind for kind in layout_names(own) if choice_of(shop, kind).stock == name)
        try:
            words = read_stock(name, own).words
            yield f"{name}: {words}" + (f"; takes {kinds} labels" if kinds else "")
        except LabelError as error:
            yield f"{inert(name)}: cannot be used. {error}"
    theirs, ours = (inert(str(folder / STOCK), 300) for folder in (shop.database.folder / OWN, packaged()))
    yield f"For another one copy a file from {ours} into {theirs} under a new name, and change it."

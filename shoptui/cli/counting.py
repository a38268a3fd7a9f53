"""Counting a bin from a script: what is in it stands behind it, or comes as scans on standard input."""

import argparse
import sys
from collections import Counter
from collections.abc import Iterator

from shoptui.cli.doing import do
from shoptui.cli.named import bin_of, counted
from shoptui.cli.opening import CannotDoError
from shoptui.cli.readings import pieces
from shoptui.cli.scanning import lines_in
from shoptui.domain.inert import inert
from shoptui.jobs.answers import Answer
from shoptui.jobs.at import At
from shoptui.jobs.count_entry import compare
from shoptui.jobs.kit import contents

FROM_INPUT = "-"


def count(arguments: argparse.Namespace) -> int:
    """Compare what is in a bin with the books, and enter the differences once that is said yes to."""

    def job(at: At) -> Answer:
        found = bin_of(at.shop, arguments.bin)
        there: Counter[int] = Counter()
        for code, times in _things(arguments.things):
            part, qty = counted(at, code, times)
            for each, inside in contents(at.shop, part, qty):
                there[each.id] += inside
        return compare(at, found, there)

    return do(arguments, job, "bin", inert(arguments.bin))


def _things(words: list[str]) -> Iterator[tuple[str, int]]:
    """Yield codes and how often each stands for what it stands for."""
    for word in words:
        if word == FROM_INPUT:
            yield from ((line, 1) for line in _scans())
            continue
        code, equals, qty = word.rpartition("=")
        if not equals:
            raise CannotDoError(f"{inert(word)}: how many? Write such as {inert(word)}=1. Nothing changed.")
        try:
            yield code, pieces(qty)
        except argparse.ArgumentTypeError as error:
            raise CannotDoError(f"{inert(word)}: {error}.") from None


def _scans() -> Iterator[str]:
    if sys.stdin is None:
        raise CannotDoError("Standard input is closed; scans were expected from it, one a line.")
    for place, line in enumerate(lines_in(), 1):
        try:
            text = line.decode("utf-8")
        except UnicodeDecodeError:
            raise CannotDoError(f"Line {place} of standard input is no UTF-8. Nothing changed.") from None
        if text:
            yield text

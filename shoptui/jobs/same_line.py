"""The line of another build that stands for the same thing, found by the maker's numbers or copied."""

from collections.abc import Iterator
from dataclasses import replace

from shoptui.domain.codes import normal
from shoptui.domain.records import Build, LearnedCode, Part
from shoptui.store.shelves import short
from shoptui.store.shop import Shop
from shoptui.store.transaction import Transaction


def lines_alike(shop: Shop, part: Part, to: Build | None) -> list[Part]:
    """Return the lines of a build that have one of a part's numbers."""
    numbers = _numbers(part)
    return [each for each in lines_of(shop, to) if numbers & _numbers(each)]


def lines_of(shop: Shop, to: Build | None) -> Iterator[Part]:
    """Return the lines of a build, or of the shop's stock, that can get pieces."""
    build = to.id if to else None
    return (
        each
        for each in shop.parts.all()
        if each.build == build and not each.original and not each.kit and not each.is_hardware
    )


def _numbers(part: Part) -> set[str]:
    return {short(number) for number in (part.number, *part.other_numbers) if number}


def line_for(shop: Shop, tx: Transaction, part: Part, to: Build | None, qty: int) -> int:
    """Return the id of a build's line for a part: the first with the same number, else a copy."""
    same = lines_alike(shop, part, to)
    return same[0].id if same else copy_line(shop, tx, part, to, qty).id


def copy_line(shop: Shop, tx: Transaction, part: Part, to: Build | None, qty: int) -> Part:
    """Make a line of a build from another's, with its codes but without its places in that build's list."""
    line = tx.add(
        replace(
            part,
            id=0,
            code="",
            tag="",
            build=to.id if to else None,
            needed=qty if to else 0,
            install_after=(),
            replaces=(),
            original=False,
            read_again="",
            joints=tuple(replace(joint, clamps=()) for joint in part.joints),
        )
    )
    for code in [each for each in shop.learned.all() if each.kind == "parts" and each.record == part.id]:
        tx.add(LearnedCode(0, code.code, normal(code.code), "parts", line.id, code.qty))
    return line

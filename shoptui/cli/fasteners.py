"""Torque: of a bolt by its strength, in another unit, with an extension at the wrench. Needs no shop."""

import argparse
import re
from collections.abc import Iterator
from contextlib import contextmanager
from decimal import Decimal
from typing import TYPE_CHECKING

from shoptui.cli.output import WIDTH, as_json, table, write, write_data
from shoptui.cli.usage import UsageError
from shoptui.domain.fasteners.figures import FastenerError, number, positive, significant
from shoptui.domain.fasteners.units import IN_N_M, Unit, converted, decimal, unit
from shoptui.domain.fasteners.units import torque as torque_typed
from shoptui.domain.inert import inert
from shoptui.domain.wrapping import wrapped

if TYPE_CHECKING:
    from shoptui.domain.fasteners.surfaces import Surfaces
    from shoptui.domain.fasteners.torque import Spread, Target, Tightening


@contextmanager
def _told_as_usage(command: str) -> Iterator[None]:
    """What cannot be read or computed is a wrong argument here: there is nothing else."""
    try:
        yield
    except FastenerError as error:
        raise UsageError(f"shoptui {command}: {error}") from None


def convert(arguments: argparse.Namespace) -> int:
    """Print a torque in another unit, rounded as it came, and more exactly."""
    with _told_as_usage("convert"):
        source, target = unit(arguments.source), unit(arguments.target)
        value = torque_typed(arguments.value, source)
        found = converted(value, source, target)
    write(f"{value:f} {source} = {found.rounded:f} {target}\n")
    if found.exact != found.rounded:
        write(f"  more exactly {decimal(found.exact).normalize():f} {target}\n")
    return 0


def wrench(arguments: argparse.Namespace) -> int:
    """Print what to set a torque wrench to that has an extension at its drive."""
    from shoptui.domain.fasteners.extensions import CAUTION, set_to  # noqa: PLC0415 - others need not wait

    with _told_as_usage("wrench"):
        named = unit(arguments.unit)
        wanted = torque_typed(arguments.setting, named, "A setting")
        length, extension = _lengths(arguments.length, arguments.extension)
        angle = number(_DEGREES.sub("", arguments.angle), "An angle")
        setting = set_to(float(wanted), float(length), float(extension), float(angle))
    if arguments.json:
        write_data(
            as_json({"set_to": round(setting, 4), "unit": named, "caution": CAUTION}, indent=None) + "\n"
        )
        return 0
    digits = max(3, len(wanted.as_tuple().digits))
    square = "; square to the wrench it needs no correction" if angle % 180 == SQUARE else ""
    write(f"Set {significant(setting, digits)} {named} for {wanted:f} {named} at the fastener{square}.\n")
    _paragraph("Caution: ", CAUTION)
    return 0


SQUARE = 90

_DEGREES = re.compile(r"\s*(?:\u00b0|deg(?:rees?)?)\s*$", re.IGNORECASE)
_LENGTH = re.compile(r"([^a-z\"]*)(mm|cm|m|in|inch|inches|ft|\")?", re.IGNORECASE)
_MM = {"mm": Decimal(1), "cm": Decimal(10), "m": Decimal(1000), "in": Decimal("25.4"), "ft": Decimal("304.8")}


def _lengths(wrench_text: str, extension_text: str) -> tuple[Decimal, Decimal]:
    """Return both lengths in one unit; it stands behind both of them, or behind neither.

    >>> _lengths("400mm", "6 cm"), _lengths("16 in", "2in"), _lengths("400", "60")
    ((Decimal('400'), Decimal('60')), (Decimal('406.4'), Decimal('50.8')), (Decimal('400'), Decimal('60')))
    """
    found, units = [], []
    for text, what in ((wrench_text, "the wrench"), (extension_text, "the extension")):
        match = _LENGTH.fullmatch(text.strip())
        if match is None:
            raise FastenerError(
                f"A length of {what} such as 400, 400 mm, 40 cm or 16 in was expected; "
                f"{inert(text, 40)} came."
            )
        named = (match[2] or "").lower().replace('"', "in")[:2]
        found.append(positive(match[1], f"A length of {what}") * _MM.get(named, 1))
        units.append(named)
    if not all(units) and any(units):
        raise FastenerError(
            f"A unit behind both lengths, or behind neither, was expected; {inert(wrench_text, 40)} and "
            f"{inert(extension_text, 40)} came."
        )
    return found[0], found[1]


def torque(arguments: argparse.Namespace) -> int:
    """Print preload and torque of a bolt by both forms."""
    from shoptui.cli import engaged as beside  # noqa: PLC0415 - others need not wait
    from shoptui.domain.fasteners.reading import designation  # noqa: PLC0415 - likewise
    from shoptui.domain.fasteners.torque import tightening  # noqa: PLC0415 - likewise

    with _told_as_usage("torque"):
        surfaces, target = _surfaces(arguments), _target(arguments)
        measures = beside.measures_given(arguments)
        fastener = designation(arguments.fastener)
        found = tightening(fastener, surfaces, target)
        held = None if measures is None else beside.engaged(fastener, measures)
    if arguments.json:
        more = {**beside.thread_values(fastener), **beside.engaged_values(held)}
        write_data(as_json({**_values(found), **more}, indent=None) + "\n")
        return 0
    _show(found)
    for words in (*beside.thread_words(fastener), *(() if held is None else beside.engaged_words(held))):
        _paragraph("", words)
    _paragraph("Assumed: ", "; ".join(found.assumptions) + ".")
    _paragraph("Caution: ", found.caution)
    return 0


def _surfaces(arguments: argparse.Namespace) -> "Surfaces":
    from shoptui.domain.fasteners.surfaces import (  # noqa: PLC0415 - as above
        SURFACES,
        Prepared,
        with_friction,
        with_nut_factor,
    )

    _one_of(arguments, "oiled", "nut_factor", "friction")
    if arguments.nut_factor is not None:
        return with_nut_factor(float(number(arguments.nut_factor, "A nut factor")))
    if arguments.friction is not None:
        return with_friction(*_two(arguments.friction))
    return SURFACES[Prepared.OILED if arguments.oiled else Prepared.DRY]


def _two(text: str) -> tuple[float, float]:
    """Return both frictions; four pieces are two numbers with decimal commas.

    >>> _two("0.12,0.14"), _two("0,12,0,14"), _two("0,12 0,14")
    ((0.12, 0.14), (0.12, 0.14), (0.12, 0.14))
    """
    pieces = text.replace(";", " ").replace("/", " ").split()
    if len(pieces) == 1:
        pieces = text.split(",")
    if len(pieces) == len(("0", "1", "0", "1")):
        pieces = [",".join(pieces[:2]), ",".join(pieces[2:])]
    if len(pieces) != len(("thread", "head")):
        raise FastenerError(
            f"Two frictions, in the threads and under the head, such as 0.12,0.14, were expected; "
            f"{inert(text, 40) or 'nothing'} came."
        )
    thread, head = (float(number(piece.strip(" ,"), "A friction")) for piece in pieces)
    return thread, head


def _target(arguments: argparse.Namespace) -> "Target":
    from shoptui.domain.fasteners.torque import USUAL_TARGET, Of, Target  # noqa: PLC0415 - as above

    _one_of(arguments, "utilisation", "proof")
    for text, of in ((arguments.proof, Of.PROOF), (arguments.utilisation, Of.YIELD)):
        if text is not None:
            return Target(float(number(text, f"A fraction of {of}")), of)
    return USUAL_TARGET


def _one_of(arguments: argparse.Namespace, *names: str) -> None:
    given = [name for name in names if getattr(arguments, name) not in {None, False}]
    if len(given) > 1:
        options = ["--" + name.replace("_", "-") for name in given]
        raise FastenerError(f"One of {' and '.join(options)} was expected; they exclude each other.")


def _lbf_ft(torque_nm: "Spread") -> "Spread":
    return torque_nm.times(1 / float(IN_N_M[Unit.LBF_FT]))


def _values(found: "Tightening") -> dict[str, object]:
    def three(spread: "Spread") -> dict[str, float]:
        return {name: round(getattr(spread, name), 3) for name in ("low", "likely", "high")}

    return {
        "designation": str(found.designation),
        "preload_n": three(found.preload_n),
        "torque_nm": three(found.torque_nm),
        "torque_lbf_ft": three(_lbf_ft(found.torque_nm)),
        "method": found.method,
        "short_form_nm": three(found.short_nm),
        "long_form_nm": three(found.long_nm),
        "long_form_more_percent": round(found.apart_percent, 1),
        "assumptions": list(found.assumptions),
        "caution": found.caution,
    }


def _show(found: "Tightening") -> None:
    def row(what: str, in_unit: str, spread: "Spread") -> tuple[str, ...]:
        return (what, in_unit, *(significant(value) for value in (spread.low, spread.likely, spread.high)))

    forms = [("short form", found.short_nm), ("long form", found.long_nm)]
    rows = [row("preload", "kN", found.preload_n.times(1 / 1000))]
    for name, spread in reversed(forms) if found.long_first else forms:
        rows += [row(name, Unit.N_M, spread), row("", Unit.LBF_FT, _lbf_ft(spread))]
    _paragraph("", f"{found.designation}, {found.method}.")
    write(table(("", "", "low", "likely", "high"), rows, wide=0, right=(2, 3, 4)))
    more = found.apart_percent
    _paragraph(
        "", f"The long form gives {abs(more):.0f} % {'more' if more >= 0 else 'less'} than the short form."
    )


def _paragraph(head: str, text: str) -> None:
    write("\n".join(wrapped(head + inert(text, 2000), WIDTH, "  ")) + "\n")

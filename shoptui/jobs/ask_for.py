"""Fields of the common kinds: words, numbers, days, amounts, choices, lists.

The readers are those of the importer, so the same words mean the same in a file and in a form.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from datetime import date
from typing import Any

from shoptui.domain import cells
from shoptui.domain.amounts import currency, minor_digits, money
from shoptui.domain.cells import NAME_LIMIT, CellError
from shoptui.domain.days import day_words
from shoptui.domain.inert import inert
from shoptui.domain.written import amount_words
from shoptui.jobs.asked import Asked, AskedLines, Sense, Words


def _as_it_is(_: Sense, value: Any) -> str:  # noqa: ANN401 - a value of any field
    return "" if value is None else str(value)


def text(name: str, label: str, hint: str = "", *, needed: bool = False, limit: int = NAME_LIMIT) -> Asked:
    """Ask for words in one line."""

    def read(_: Sense, typed: str) -> str:
        if not (found := cells.words(typed, limit=limit)) and needed:
            raise CellError("Words were expected; the field is empty.")
        if needed and re.fullmatch(r"[+-]\d+", found, re.ASCII):
            raise CellError(f"Words were expected; {found} came.")
        return found

    return Asked(name, label, hint or ("" if needed else "may be empty"), read, _as_it_is)


def number(
    name: str, label: str, hint: str = "", *, least: int = 0, most: int = 0, empty: int | None = None
) -> Asked:
    """Ask for a whole number; an empty field is `empty`, or refused where `least` is above 0."""

    def read(_: Sense, typed: str) -> int | None:
        if not typed.strip() and (empty is not None or not least):
            return empty
        return cells.quantity(typed, least=least, most=most or None)

    return Asked(name, label, hint, read, _as_it_is, one_value=True)


def decimal(name: str, label: str, hint: str = "", *, most: float = 9999) -> Asked:
    """Ask for a number that may have decimals; an empty field is 0."""

    def read(_: Sense, typed: str) -> float:
        plain = cells.words(typed).replace(",", ".")
        if plain and not re.fullmatch(r"\d{1,6}(\.\d{1,3})?", plain, re.ASCII):
            raise CellError(f'A number such as "4" or "2.5" was expected; {inert(typed, 40)} came.')
        found = float(plain or 0)
        if found > most:
            raise CellError(f"At most {most:g} was expected; {inert(typed, 40)} came.")
        return found

    return Asked(name, label, hint, read, lambda _, value: f"{value:g}" if value else "", one_value=True)


def yes_or_no(name: str, label: str, hint: str = "yes or no") -> Asked:
    """Ask for yes or no."""
    return Asked(
        name,
        label,
        hint,
        lambda _, typed: cells.yes(typed),
        lambda _, value: "yes" if value else "no",
        choices=("yes", "no"),
        one_value=True,
    )


def choice(name: str, label: str, choices: tuple[str, ...], hint: str = "") -> Asked:
    """Ask for one of some words."""

    def read(_: Sense, typed: str) -> str:
        said = cells.words(typed).casefold()
        found = next((each for each in choices if each.casefold() == said), None)
        if found is None:
            came = inert(typed, 40) or "nothing"
            raise CellError(f"One of {', '.join(choices)} was expected; {came} came.")
        return found

    return Asked(name, label, hint or ", ".join(choices), read, _as_it_is, choices=choices, one_value=True)


def day(name: str, label: str, hint: str = "", *, past: bool | None = None) -> Asked:
    """Ask for a day; `past` refuses days to come, or, where false, days that are over."""

    def read(sense: Sense, typed: str) -> date | None:
        if not typed.strip():
            return None
        found = cells.day(typed, sense.today)
        told = day_words(found, sense.today)
        if past and found > sense.today:
            raise CellError(f"{told} is still to come; a day until today was expected.")
        if past is False and found < sense.today and found != getattr(sense.record, name, None):
            raise CellError(f"{told} is in the past; today is {day_words(sense.today, sense.today)}.")
        return found

    usual = "such as 12 Nov or 2026-11-12" if past else "such as 12 Nov, 2026-11-12 or +5"
    return Asked(
        name,
        label,
        hint or f"{usual}; may be empty",
        read,
        lambda _, value: "" if value is None else value.isoformat(),
        one_value=True,
    )


def amount(name: str, label: str, hint: str = "", *, needed: bool = False, own: bool = False) -> Asked:
    """Ask for an amount in the currency that is usual here; with `own`, in the shop's own."""

    def unit(sense: Sense) -> str:
        return sense.shop.settings.currency if own else sense.usual

    def read(sense: Sense, typed: str) -> int | None:
        usual = unit(sense)
        found, came = money(typed, usual)
        if came != usual:
            example = f"{30:.{minor_digits(usual)}f}"
            raise CellError(f"An amount such as {example} {usual} was expected; {inert(typed, 40)} came.")
        if found is None and needed:
            raise CellError("An amount was expected; 0 is one.")
        return found

    def write(sense: Sense, value: int | None) -> str:
        return amount_words(value, unit(sense), unit(sense))

    return Asked(name, label, hint or "may be empty: not known", read, write, one_value=True)


def unit_of_money(name: str, label: str) -> Asked:
    """Ask for a currency; an empty field stays empty."""

    def read(_: Sense, typed: str) -> str:
        return currency(typed) if typed.strip() else ""

    return Asked(name, label, "three letters, such as EUR", read, _as_it_is, one_value=True)


def read_by(
    name: str,
    label: str,
    hint: str,
    read: Callable[[str], Any],
    write: Callable[[Any], str] = str,
    *,
    one_value: bool = False,
) -> Asked:
    """Ask for what a reader of the importer reads."""
    return Asked(
        name,
        label,
        hint,
        lambda _, typed: read(typed),
        lambda _, value: write(value),
        one_value=one_value,
    )


def listing(name: str, label: str, lines: AskedLines) -> Asked:
    """Ask for the lines of a list."""
    return Asked(name, label, f"Enter opens the list of {lines.one}s", lines.read, lines.write, lines=lines)


def line_words(*parts: tuple[str, str]) -> Words:
    """Return what says a line: for each field its name, and words with {} for what stands in it.

    >>> line_words(("qty", "{} "), ("part", "{}"), ("total", ", {}"))({"qty": "2", "part": "Rotor"})
    '2 Rotor'
    """

    def words(row: Mapping[str, str]) -> str:
        def told() -> Iterator[str]:
            for name, form in parts:
                value = row.get(name, "")
                if value and value not in ("no", "not said"):
                    yield form.format(value)

        return "".join(told()).strip(" ,")

    return words

"""Money and prices as people write them in a list."""

import re

from shoptui.domain.cells import CellError, listed, words
from shoptui.domain.inert import inert
from shoptui.domain.prices import Price, Sure
from shoptui.domain.records import OutsideWork

_NO_MINOR = frozenset(
    {
        "BIF",
        "CLP",
        "DJF",
        "GNF",
        "ISK",
        "JPY",
        "KMF",
        "KRW",
        "PYG",
        "RWF",
        "UGX",
        "UYI",
        "VND",
        "VUV",
        "XAF",
        "XOF",
        "XPF",
    }
)
_THREE_MINOR = frozenset({"BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"})
_FOUR_MINOR = frozenset({"CLF", "UYW"})
_SYMBOLS = {"€": "EUR", "£": "GBP"}
_DOLLARS = frozenset({"AUD", "CAD", "HKD", "NZD", "SGD", "TWD", "USD"})
_OTHERS = frozenset(
    {"EUR", "GBP", "CHF", "SEK", "NOK", "DKK", "PLN", "CZK", "HUF", "RON", "TRY", "ZAR", "MXN"}
)
_OTHERS |= frozenset(
    {"BRL", "ARS", "COP", "INR", "CNY", "THB", "MYR", "IDR", "PHP", "ILS", "AED", "SAR", "UAH"}
)
"""Beside those above, what a header may name; three other capitals in its brackets are no currency."""

_UNKNOWN = frozenset({"", "?", "-", "unknown", "n/a", "tbd", "not known"})
_FREE = frozenset({"free", "gift", "0"})


def minor_digits(currency: str) -> int:
    """Return how many decimals a currency has.

    Source: ISO 4217, list of the maintenance agency published 2026-01-01.

    >>> minor_digits("EUR"), minor_digits("JPY"), minor_digits("KWD")
    (2, 0, 3)
    """
    if currency in _NO_MINOR:
        return 0
    if currency in _THREE_MINOR:
        return 3
    return 4 if currency in _FOUR_MINOR else 2


def currency(text: str) -> str:
    """Return a currency's three-letter code.

    Raises:
        CellError: Not three letters.

    """
    code = words(text).upper()
    if not re.fullmatch(r"[A-Z]{3}", code, re.ASCII):
        raise CellError(f'A currency as three letters, such as "EUR", was expected; {inert(text, 40)} came.')
    return code


def unit_in(header: str, usual: str) -> str:
    """Return the currency that the header of a column names, the usual one if it names none.

    Raises:
        CellError: A dollar sign where the shop's money is no dollar.

    >>> unit_in("Price (USD)", "EUR"), unit_in("Price £", "EUR"), unit_in("Price (NET)", "EUR")
    ('USD', 'GBP', 'EUR')

    """
    for sign, unit in _SYMBOLS.items():
        if sign in header:
            return unit
    for found in re.findall(r"\b[A-Z]{3}\b", header):
        if found == usual or found in _OTHERS | _DOLLARS | _NO_MINOR | _THREE_MINOR | _FOUR_MINOR:
            return str(found)
    if "$" in header and usual not in _DOLLARS:
        raise CellError(f'Which dollar {inert(header.strip(), 40)} means is not said; write "price (USD)".')
    return usual


def money(text: str, usual: str) -> tuple[int | None, str]:
    """Return an amount in minor units with its currency; None for one that is not known.

    Args:
        text: The cell: `129.90`, `129,90`, `1,299.00`, `EUR 80`, `80 €`.
        usual: The shop's currency, meant where none is written.

    Raises:
        CellError: No amount, more decimals than the currency has, or two ways to read it.

    >>> money("1.299,00 €", "EUR"), money("?", "EUR"), money("JPY 1200", "EUR")
    ((129900, 'EUR'), (None, 'EUR'), (1200, 'JPY'))

    """
    text = words(text)
    if text.lower() in _UNKNOWN:
        return None, usual
    if text.lower() in _FREE:
        return 0, usual
    number, unit = _unit_apart(text, usual)
    return _minor(number, unit, text), unit


def price(text: str, usual: str) -> Price:
    """Return a price with how sure it is.

    Args:
        text: `129.90`, `about 130`, `about 130 +/- 20 %`, `from 80`, `80-120`, `between 80 and 120`,
            `free`; empty or `?` is not known, which is not 0.
        usual: The shop's currency.

    Raises:
        CellError: No price.

    >>> price("about 130", "EUR").sure.value, price("80-120", "EUR").high_minor
    ('about', 12000)

    """
    text = words(text)
    said = text.lower()
    if said in _UNKNOWN:
        return Price()
    if match := re.fullmatch(r"(?:about|around|approx\.?|ca\.?|circa|~)\s*(.+)", said):
        return _about(match[1], usual)
    if match := re.fullmatch(r"(?:from|at least)\s+(.+)|(.+)\+", said):
        low, unit = money(match[1] or match[2], usual)
        return Price(Sure.FROM, low, currency=unit)
    if match := re.fullmatch(r"(?:between\s+)?(.*\d\D*?)\s*(?:\s(?:and|to)\s|-|\u2013)\s*(\D*\d.*)", said):
        return _between(match[1], match[2], usual)
    low, unit = money(text, usual)
    return Price(Sure.EXACT, low, currency=unit)


def _about(said: str, usual: str) -> Price:
    match = re.fullmatch(r"(.+?)\s*(?:\(|\s|\+\s*/?\s*-|±)+\s*(\d{1,3})\s*%\)?", said)
    low, unit = money(match[1] if match else said, usual)
    return Price(Sure.ABOUT, low, percent=int(match[2]) if match else None, currency=unit)


def _between(first: str, second: str, usual: str) -> Price:
    high, unit = money(second, usual)
    low, other = money(first, unit)
    if other != unit and unit == usual:
        unit = other
    if low is None or high is None or high < low:
        raise CellError(
            f'A lower and a higher price as "80-120" were expected; {inert(first + "-" + second)} came.'
        )
    return Price(Sure.BETWEEN, low, high, currency=unit)


def _unit_apart(text: str, usual: str) -> tuple[str, str]:
    """Return number and currency; a dollar sign alone says too little where the shop's money is no dollar."""
    match = re.fullmatch(
        r"(?P<before>[^\d\s.,'+-]*)\s*(?P<number>[\d.,'\s]+?)\s*(?P<after>[^\d\s.,'+-]*)", text, re.ASCII
    )
    if match is None or (match["before"] and match["after"]):
        raise CellError(f'An amount such as "129.90" was expected; {inert(text, 40)} came.')
    unit = match["before"] or match["after"]
    if not unit:
        return match["number"], usual
    if unit == "$":
        if usual not in _DOLLARS:
            raise CellError(f'Which dollar {inert(text, 40)} means is not said; write "USD 129.90".')
        return match["number"], usual
    return match["number"], _SYMBOLS.get(unit) or currency(unit)


def _minor(number: str, unit: str, text: str) -> int:
    digits = minor_digits(unit)
    if re.fullmatch(r"[1-9]\d{0,2}[.,]\d{3}", number) and digits != _GROUP:
        raise CellError(f"{inert(text, 40)} can be read in two ways; write it without a thousands mark.")
    for form in _FORMS:
        if match := form.fullmatch(number):
            whole = re.sub(r"\D", "", match["whole"])
            decimals = match["decimals"] or ""
            break
    else:
        raise CellError(f'An amount such as "129.90" was expected; {inert(text, 40)} came.')
    if len(decimals.rstrip("0")) > digits:
        raise CellError(f"{unit} has {digits} decimals; {inert(text, 40)} has more.")
    return int(whole + decimals[:digits].ljust(digits, "0"))


_GROUP = 3
_FORMS = (
    re.compile(r"(?P<whole>\d{1,12})(?:[.,](?P<decimals>\d+))?", re.ASCII),
    re.compile(r"(?P<whole>\d{1,3}(?:[' ]\d{3})+)(?:[.,](?P<decimals>\d+))?", re.ASCII),
    re.compile(r"(?P<whole>\d{1,3}(?:,\d{3})+)(?:\.(?P<decimals>\d+))?", re.ASCII),
    re.compile(r"(?P<whole>\d{1,3}(?:\.\d{3})+)(?:,(?P<decimals>\d+))?", re.ASCII),
)
"""Plain, then in groups of three by apostrophe or blank, by comma, by point."""


def outside_work(text: str, usual: str) -> tuple[OutsideWork, ...]:
    """Return the outside work that a part needs, in order, separated by semicolons.

    Args:
        text: For each the word for the part once it is done, then how many days and what it costs, if known.
        usual: The shop's currency; the cost of outside work is in it.

    Raises:
        CellError: Not in that form.

    >>> found = outside_work("blasted; painted, 10 days, 180", "EUR")
    >>> [(each.work, each.days, each.cost_minor) for each in found]
    [('blasted', 0, None), ('painted', 10, 18000)]

    """
    found = []
    for each in listed(text):
        match = re.fullmatch(
            r"(?P<work>[^\d,]+)(?:,?\s+(?P<days>\d{1,3})\s*days?)?(?:,?\s+(?P<cost>.+))?", each
        )
        if match is None:
            raise CellError(
                f'Outside work such as "painted, 10 days, 180.00" was expected; {inert(each, 40)} came.'
            )
        cost, unit = money(match["cost"] or "", usual)
        if unit != usual:
            raise CellError(
                f"What outside work costs is in the shop's currency, {usual}; {inert(each, 40)} came."
            )
        found.append(OutsideWork(match["work"].strip(), int(match["days"] or 0), cost))
    return tuple(found)

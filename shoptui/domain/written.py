"""Values of records as a person would write them: what is written here is read back as the same value."""

from shoptui.domain.amounts import minor_digits
from shoptui.domain.prices import Price, Sure
from shoptui.domain.records import OutsideWork

LINE_BREAK = " / "
"""Stands in a field of one line where a note begins a new one."""


def amount_words(minor: int | None, currency: str, usual: str) -> str:
    """Return an amount; its currency only where that is not the usual one.

    >>> amount_words(129900, "EUR", "EUR"), amount_words(1200, "JPY", "EUR"), amount_words(None, "EUR", "EUR")
    ('1299.00', 'JPY 1200', '')
    """
    if minor is None:
        return ""
    digits = minor_digits(currency)
    whole, rest = divmod(minor, 10**digits)
    number = f"{whole}.{rest:0{digits}d}" if digits else str(whole)
    return number if currency == usual else f"{currency} {number}"


def price_words(price: Price, usual: str) -> str:
    """Return a price with how sure it is.

    >>> price_words(Price(Sure.ABOUT, 13000, percent=20, currency="EUR"), "EUR")
    'about 130.00 +/- 20 %'
    >>> price_words(Price(Sure.BETWEEN, 8000, 12000, currency="USD"), "EUR")
    'between USD 80.00 and USD 120.00'
    """
    low = amount_words(price.low_minor, price.currency or usual, usual)
    match price.sure:
        case Sure.NONE:
            return ""
        case Sure.ABOUT:
            return f"about {low}" + ("" if price.percent is None else f" +/- {price.percent} %")
        case Sure.FROM:
            return f"from {low}"
        case Sure.BETWEEN:
            return f"between {low} and {amount_words(price.high_minor, price.currency or usual, usual)}"
    return low


def hours_words(hours: tuple[float, ...]) -> str:
    """Return hours as low, likely and high; as one number where they are the same.

    >>> hours_words((1.5, 1.5, 1.5)), hours_words((1.0, 2.0, 4.0)), hours_words(())
    ('1.5', '1/2/4', '')
    """
    return "/".join(f"{each:g}" for each in (hours if len(set(hours)) > 1 else hours[:1]))


def work_words(works: tuple[OutsideWork, ...], usual: str) -> str:
    """Return the outside work that a part needs, in order.

    >>> work_words((OutsideWork("blasted"), OutsideWork("painted", 10, 18000)), "EUR")
    'blasted; painted, 10 days, 180.00'
    """
    return "; ".join(
        ", ".join(
            words
            for words in (
                work.work,
                f"{work.days} days" if work.days else "",
                amount_words(work.cost_minor, usual, usual),
            )
            if words
        )
        for work in works
    )

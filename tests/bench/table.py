"""The printed table of a bench: what was measured, beside what, and the goal."""

import shutil
from statistics import median, quantiles


def row(what: str, value: str, beside: str = "", goal: str = "") -> None:
    """Print one row."""
    print(f"{what:44} {value:>26}   {beside:44} {goal}".rstrip(), flush=True)  # noqa: T201 - the table is the point


def ms(seconds: list[float]) -> str:
    """Return median and 99th percentile in milliseconds."""
    return f"{median(seconds) * 1000:.2f} ms (p99 {p99(seconds) * 1000:.2f})"


def p99(seconds: list[float]) -> float:
    """Return the 99th percentile."""
    return quantiles(seconds, n=100, method="inclusive")[98]


def times(seconds: list[float], baseline: list[float], what: str) -> str:
    """Return how many times a baseline the median is."""
    return f"{median(seconds) / median(baseline):.2f} x {what}"


def rule() -> None:
    """Print a line between tables."""
    print("-" * min(140, shutil.get_terminal_size((120, 24)).columns))  # noqa: T201 - likewise

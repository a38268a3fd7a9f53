"""What the values of a shop's file mean: working days, a vehicle's number and odometer, counts."""

from shoptui.domain import vin
from shoptui.domain.cells import MOST_PIECES, CellError, listed, whole
from shoptui.domain.inert import inert

DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
ODOMETER_UNITS = ("km", "mi")


def working_days(cell: str) -> tuple[int, ...]:
    """Return days of the week, Monday is 0.

    Raises:
        CellError: No days.

    """
    days = [each[:3].lower() for each in listed(cell)]
    if any(each not in DAYS for each in days):
        raise CellError(f'Days such as "Mon", "Tue" were expected; {inert(cell, 40)} came.')
    return tuple(sorted({DAYS.index(each) for each in days}))


def odometer(cell: str) -> int:
    """Return a reading in the vehicle's own unit.

    Raises:
        CellError: Not a whole number.

    """
    try:
        return whole(cell)
    except CellError as error:
        raise CellError(
            f"A reading in whole kilometres or miles was expected; {inert(cell, 40)} came."
        ) from error


def odometer_unit(cell: str) -> str:
    """Return km or mi.

    Raises:
        CellError: Another unit.

    """
    unit = cell.strip().lower()
    if unit not in ODOMETER_UNITS:
        raise CellError(f"{' or '.join(ODOMETER_UNITS)} was expected; {inert(cell, 40)} came.")
    return unit


def vehicle_number(cell: str) -> str:
    """Return a VIN without blanks.

    Raises:
        CellError: Not well formed.

    """
    if problem := vin.check(cell):
        raise CellError(problem)
    return vin.plain(cell)


def count(cell: str) -> int:
    """Return the pieces that one scan means.

    Raises:
        CellError: Not a whole number from 1.

    """
    number = whole(cell)
    if not 1 <= number <= MOST_PIECES:
        raise CellError(f"1 to {MOST_PIECES} pieces were expected; {inert(cell, 40)} came.")
    return number

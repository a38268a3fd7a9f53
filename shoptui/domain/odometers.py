"""Odometers: what a vehicle has driven, whatever its instrument shows and in whichever unit it counts."""

from shoptui.domain.records import Build, Meter, Reading

KM_IN_A_MILE = 1.609344
"""Exact: 1760 yards of 0.9144 m (NIST SP 811, appendix B)."""


def in_km(distance: float, unit: str) -> float:
    """Return a distance of an odometer in kilometres.

    >>> in_km(100, "mi"), in_km(100, "km")
    (160.9344, 100.0)
    """
    return distance * (KM_IN_A_MILE if unit == "mi" else 1.0)


def in_unit(km: float, unit: str) -> float:
    """Return kilometres in the unit of an odometer.

    >>> round(in_unit(160.9344, "mi"), 6), in_unit(100, "km")
    (100.0, 100.0)
    """
    return km / in_km(1, unit)


def unit_then(build: Build, reading: Reading) -> str:
    """Return the unit in which the odometer counted when a reading was made."""
    meter = next((each for each in build.meters if reading.id <= each.until), None)
    return meter.unit if meter else reading.odometer_unit or build.odometer_unit


def driven_then(build: Build, reading: Reading) -> float | None:
    """Return the kilometres at which a reading was made, as if one odometer had counted them all.

    >>> build = Build(1, "", "", "", odometer=90, meters=(Meter(7, "km", behind_km=110),))
    >>> driven_then(build, Reading(5, "tightened", 1, "nuts", odometer=150)), driven_now(build)
    (150.0, 200.0)
    """
    if reading.odometer is None:
        return None
    before = sum(reading.id > each.until for each in build.meters)
    km = in_km(reading.odometer, unit_then(build, reading)) + _behind(build.meters[:before])
    return min([km, *(each.most_km for each in build.meters[before:] if each.most_km is not None)])


def driven_now(build: Build) -> float | None:
    """Return the kilometres that a vehicle has driven by now, None where nobody read its odometer."""
    if build.odometer is None:
        return None
    return in_km(build.odometer, build.odometer_unit) + _behind(build.meters)


def _behind(meters: tuple[Meter, ...]) -> float:
    return sum(each.behind_km for each in meters)

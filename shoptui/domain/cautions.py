"""Short cautions for work that can hurt somebody.

They remind; they instruct nobody. The maker's papers, the law of the place and licensed people come first.
Where no standard or authority is named, the caution is common practice, no source.
"""

import re
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution.

    Args:
        words: At most two lines of 76 letters.
        source: Who says so.
        short: The same at the top of a card, where two or three of them share two lines.

    """

    words: str
    source: str
    short: str = ""


_MAKERS_PAPERS = "common practice, no source"

LIFTING = Caution(
    "Never work under a load that only a jack holds: support it first.",
    # The rule's own text was seen for the first; the federal rule in a reprint.
    "Washington WAC 296-307-22509(3); 29 CFR 1926.305(d)(1)(i)",
    "Never under a load that only a jack holds.",
)
BRAKES = Caution(
    "Brakes: by the maker's papers only. Bleed, check for leaks and bed in before any drive; "
    "have it checked by somebody who may.",
    _MAKERS_PAPERS,
    "Brakes: bleed, no leaks, bed in, have it checked.",
)
STEERING = Caution(
    "Steering: values and new fasteners by the maker's papers. Check lock to lock, then alignment, "
    "before any drive.",
    _MAKERS_PAPERS,
    "Steering: lock to lock, then alignment.",
)
SUSPENSION = Caution(
    "Springs store force: use the right compressor. Bushings are tightened at ride height where the "
    "maker says so.",
    _MAKERS_PAPERS,
    "Springs store force: the right compressor.",
)
WHEELS = Caution(
    "Wheels: clean dry seats, the maker's value and pattern, and a check again after the first distance.",
    _MAKERS_PAPERS,
    "Wheels: clean dry seats, a check after the first distance.",
)
RESTRAINTS = Caution(
    "Belts and airbags: battery off, wait as long as the maker says, treat as live; "
    "licensed people where the law says so.",
    # Waiting times differ by maker, so none is given here; seen in a technicians' library.
    "technicians' published practice; times are the maker's",
    "Belts, airbags: battery off, wait, treat as live.",
)
FUEL = Caution(
    "Fuel: vapour is heavier than air and finds sparks far away. Fresh air, no flame, no lamp that can "
    "break, an approved can.",
    "fire department and laboratory safety bulletins on gasoline vapour",
    "Fuel: fresh air, no flame, no lamp that can break.",
)
BATTERY = Caution(
    "Battery: negative off first and on last; no spark, eyes covered. High voltage: trained people only.",
    _MAKERS_PAPERS,
    "Battery: negative off first, on last. High voltage: trained only.",
)
MOVING = Caution(
    "Whether the vehicle may move is for the person in charge to decide, at the vehicle. These books know "
    "only what was written down.",
    _MAKERS_PAPERS,
)

_WORDS: tuple[tuple[re.Pattern[str], Caution], ...] = tuple(
    (re.compile(rf"\b(?:{pattern})", re.IGNORECASE), caution)
    for pattern, caution in (
        (r"brak|calip|rotors?\b|master cylinder|brake line", BRAKES),
        (r"steer|tie rods?\b|rack and pinion|pitman|drag link|idler arm", STEERING),
        (
            r"suspen|springs?\b|struts?\b|shocks?\b|control arms?|ball joint|subframe|sway|dampers?\b",
            SUSPENSION,
        ),
        (r"wheels?\b|hubs?\b|tyres?\b|tires?\b|lug|studs?\b", WHEELS),
        (r"seat ?belt|belts? and|restraint|airbag|air bag|harness(?:es)?\b(?! clip)|pretension", RESTRAINTS),
        (r"fuel|petrol|gasoline|carburett?or|injector|tank\b", FUEL),
        (r"batter|high.voltage|traction", BATTERY),
    )
)
_UNDER_THE_VEHICLE = (BRAKES, SUSPENSION, STEERING, WHEELS)
"""What a vehicle that moves depends on; under the vehicle, too."""


def cautions(section: str, description: str) -> tuple[str, ...]:
    """Return the cautions for work on a part, by the words of its section and description.

    >>> cautions("Interior", "dome light")
    ()
    >>> cautions("Fuel", "tank, 60 litres")[0][:13]
    'Fuel: vapour '
    """
    return tuple(caution.words for caution in for_work(section, description))


def moves_by(section: str, description: str) -> bool:
    """Return whether a vehicle that moves depends on a part: brakes, steering, suspension, wheels.

    >>> moves_by("Brakes", "caliper"), moves_by("Interior", "dome light")
    (True, False)
    """
    return any(caution in _UNDER_THE_VEHICLE for caution in for_work(section, description))


def may_be_plain(section: str, description: str) -> bool:
    """Return whether a handbook value may stand in for a part's sheet: nobody is hurt where it fails.

    >>> may_be_plain("Trim", "bumper bracket"), may_be_plain("Interior", "seat belt anchor")
    (True, False)
    >>> may_be_plain("Interior", "seat, driver"), may_be_plain("Body", "tow hook")
    (False, False)
    """
    return not for_work(section, description) and not _HOLDS.search(f"{section} / {description}")


_HOLDS = re.compile(r"\bseats?\b|\btow|\bhitch", re.IGNORECASE)
"""What holds a person or another vehicle, and has no caution of its own here."""


def for_work(section: str, description: str) -> tuple[Caution, ...]:
    """Return the cautions with their sources; that of lifting last, with all that is done under a vehicle."""
    text = f"{section} / {description}"
    found = [caution for pattern, caution in _WORDS if pattern.search(text)]
    if any(caution in _UNDER_THE_VEHICLE for caution in found) or re.search(
        r"\b(jack|lift|hoist)", text, re.IGNORECASE
    ):
        found.append(LIFTING)
    return tuple(found)

"""What a script names by a code: a part, a bin, a person; what is unknown is refused in words."""

import re
from collections.abc import Mapping
from difflib import get_close_matches

from shoptui.cli.opening import CannotDoError
from shoptui.domain.inert import inert
from shoptui.domain.recognise import read
from shoptui.domain.records import Bin, Part, Person
from shoptui.jobs.at import At, name_and_code
from shoptui.jobs.matching import matches_of
from shoptui.jobs.place_words import bin_name
from shoptui.store.shop import Shop

_LISTED = 3
"""Names that a sentence offers."""

_NEAR = 0.7
"""Share of letters that a slip of the finger leaves as they were. Common practice, no source."""


def person_of(shop: Shop, badge: str) -> Person | None:
    """Return the person of a badge; None where none was given.

    Raises:
        CannotDoError: Nobody has it.

    """
    person = shop.people.by_code(badge) if badge else None
    if badge and person is None:
        raise CannotDoError(f"Nobody here has the badge {inert(badge)}: a person's code or tag was expected.")
    return person


def bin_of(shop: Shop, code: str) -> Bin:
    """Return the bin of a code.

    Raises:
        CannotDoError: There is none.

    """
    found = shop.bins.by_code(code)
    if found is None:
        like = meant(code, {each.code: bin_name(each) for each in shop.bins.all()})
        raise CannotDoError(f"There is no bin {inert(code)}.{like}")
    return found


def part_of(at: At, code: str) -> Part:
    """Return the part that a code stands for, the build narrowing what several share.

    Raises:
        CannotDoError: It stands for none, or for several.

    """
    return counted(at, code, 1)[0]


def counted(at: At, code: str, times: int) -> tuple[Part, int]:
    """Return the part that a code stands for and its pieces, if it was scanned so often: a carton has more.

    Raises:
        CannotDoError: It stands for no part, or for several.

    """
    parts, reading = at.shop.parts, read(code)
    matches = [match for match in matches_of(at, reading) if match.kind == "part"]
    if len(matches) == 1:
        return parts.get(matches[0].record), matches[0].pieces(reading) * times
    if matches:
        found = [parts.get(match.record) for match in matches]
        names = ", ".join(map(name_and_code, found[:_LISTED]))
        more = f" and {len(found) - _LISTED} more" if len(found) > _LISTED else ""
        raise CannotDoError(f"{inert(code)} is more than one part: {names}{more}. Give the code of one.")
    like = meant(code, {each.code: name_and_code(each) for each in parts.all()})
    raise CannotDoError(
        f"No part has the code {inert(code)}: a tag, a code or a maker's number was expected.{like}"
    )


def meant(text: str, names: Mapping[str, str]) -> str:
    """Ask whether one of the things was meant whose code, or a word of whose name, is near what was typed.

    Args:
        text: What was typed.
        names: Code to the name that is offered.

    >>> meant("SE-70", {"SE-07": "Dashboard panel (SE-07)", "EN-01": "Thermostat (EN-01)"})
    ' Was Dashboard panel (SE-07) meant?'
    >>> meant("brakes", {"brake-post": "Brake parts by post", "paint": "Paint booth"}), meant("xyz", {})
    (' Was Brake parts by post meant?', '')

    """
    near: dict[str, dict[str, None]] = {}
    for code, name in names.items():
        for word in (code, *re.findall(r"\w{3,}", name)):
            near.setdefault(word.casefold(), {})[name] = None
    found = get_close_matches(text.casefold(), near, _LISTED, _NEAR)
    like = list(dict.fromkeys(name for word in found for name in near[word]))[:_LISTED]
    return f" Was {' or '.join(like)} meant?" if like else ""

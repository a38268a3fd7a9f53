"""What cells of lists of parts and orders mean: hours, positions on the vehicle, codes, tracking numbers."""

import re

from shoptui.domain.cells import CellError, words
from shoptui.domain.codes import s10, sscc
from shoptui.domain.inert import inert


def hours(text: str) -> tuple[float, ...]:
    """Return hours as low, likely, high; one number is all three, two are the ends.

    Raises:
        CellError: Not one to three rising numbers.

    >>> hours("1,5 h"), hours("1 / 2 / 4"), hours("1-3")
    ((1.5, 1.5, 1.5), (1.0, 2.0, 4.0), (1.0, 2.0, 3.0))

    """
    text = words(text)
    if not text:
        return ()
    plain = re.sub(r"\s*\b(?:hours?|hrs?|h)\b\.?|(?<=\d)h\b", "", text, flags=re.IGNORECASE)
    found = re.split(r"\s*(?:/|;|-|\u2013|to)\s*", plain)
    if (
        not all(re.fullmatch(r"\d{1,4}(?:[.,]\d{1,2})?", each, re.ASCII) for each in found)
        or len(found) > _THREE
    ):
        raise CellError(
            f'Hours such as "1.5" or low/likely/high as "1/2/4" were expected; {inert(text, 40)} came.'
        )
    numbers = [float(each.replace(",", ".")) for each in found]
    if numbers != sorted(numbers):
        raise CellError(f"Hours from low to high were expected; {inert(text, 40)} came.")
    if len(numbers) == _THREE:
        return tuple(numbers)
    return (numbers[0], (numbers[0] + numbers[-1]) / 2, numbers[-1])


_THREE = 3

_KNOWN_POSITIONS = {each.lower(): each for each in ("LF", "RF", "LR", "RR", "front", "rear", "left", "right")}


def positions(text: str) -> tuple[str, ...]:
    """Return positions on the vehicle, separated by commas, semicolons, slashes or blanks between known ones.

    >>> positions("lf, rf"), positions("LR RR"), positions("gearbox end; axle end")
    (('LF', 'RF'), ('LR', 'RR'), ('gearbox end', 'axle end'))
    """
    text = words(text)
    found = re.split(r"[;,/|]", text)
    if len(found) == 1 and all(each.lower() in _KNOWN_POSITIONS for each in text.split()):
        found = text.split()
    return tuple(
        dict.fromkeys(
            _KNOWN_POSITIONS.get(each.strip().lower(), each.strip()) for each in found if each.strip()
        )
    )


def codes(text: str) -> tuple[tuple[str, int], ...]:
    """Return codes with the pieces that one scan of each means; `*2` after a code is a carton of two.

    Codes are separated by blanks or semicolons.

    >>> codes("9521234543213 09521234543220*2")
    (('9521234543213', 1), ('09521234543220', 2))
    """
    found = []
    for each in re.split(r"[\s;]+", words(text, limit=1000)):
        if not each:
            continue
        if re.fullmatch(r"\d[.,]\d+E\+\d+", each, re.ASCII | re.IGNORECASE):
            raise CellError(f"A spreadsheet has rounded this code to {each}; format its column as text.")
        code, star, count = each.rpartition("*")
        if star and re.fullmatch(r"\d{1,4}", count, re.ASCII) and code:
            if int(count) < 1:
                raise CellError(f"A code for 1 or more pieces was expected; {inert(each, 40)} came.")
            found.append((code, int(count)))
        else:
            found.append((each, 1))
    return tuple(found)


def in_kit(text: str) -> tuple[str, int | None]:
    """Return the kit that a row belongs to; `*2` after its name says that one kit holds two of the row.

    >>> in_kit("GK-1"), in_kit("Gasket kit *2")
    (('GK-1', None), ('Gasket kit', 2))
    """
    name, star, count = words(text).rpartition("*")
    if not star:
        return count, None
    if not re.fullmatch(r"\s*\d{1,4}\s*", count, re.ASCII) or int(count) < 1 or not name.strip():
        raise CellError(
            f'A kit such as "GK-1", or "GK-1*2" for two in one, was expected; {inert(text, 40)} came.'
        )
    return name.strip(), int(count)


def tracking(text: str) -> tuple[str, ...]:
    """Return tracking numbers, separated by commas, semicolons, bars or line breaks.

    They are printed in groups, so blanks stay inside, unless each piece is a whole number whose check digit
    holds (postal item, SSCC).

    >>> tracking("CE 104 200 075 XZ, 1Z-9"), tracking("CE104200075XZ CE104201059XZ")
    (('CE 104 200 075 XZ', '1Z-9'), ('CE104200075XZ', 'CE104201059XZ'))
    """
    found: list[str] = []
    for each in re.split(r"[,;|\n\r]", text):
        number = words(each)
        apart = number.split()
        found += apart if all(s10(piece) or sscc(piece) for piece in apart) else [number]
    return tuple(dict.fromkeys(each for each in found if each))

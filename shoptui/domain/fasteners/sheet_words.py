"""What sheets write of a torque, in plain signs: one kind of dash, a plus between steps, turns in degrees."""

import re

_SIGNS = str.maketrans(
    {
        **dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212", "-"),
        **dict.fromkeys("\u00a0\u2009\u202f", " "),
        "\u00bc": " 1/4",
        "\u00bd": " 1/2",
        "\u00be": " 3/4",
        "\u2153": " 1/3",
        "\u2154": " 2/3",
    }
)
"""Dashes and blanks are one each; a fraction of a turn is one of figures."""

_THEN = re.compile(
    r"\s*[,;]?\s+(?:and\s+)?then\s+|\s*;\s*|\s+(?:and|plus)\s+|,\s+(?=\d)", re.IGNORECASE | re.ASCII
)
"""What stands between two steps, beside a plus sign."""

_TOLERANCE = re.compile(r"[(\[]\s*((?:[+\u00b1]|-\s?\d)[^()\[\]]*?)\s*[)\]]", re.ASCII)
"""A tolerance in brackets: what begins with its sign."""

_TURN = re.compile(
    r"(?:(?:an?\s|one\s)?(?P<word>half|quarter)|(?P<over>\d{1,2})/(?P<under>\d{1,2})|(?<![\d.,/])(?P<whole>1))"
    r"[\s-]*(?:of\s+)?(?:an?\s+)?(?:full\s+)?turns?\b",
    re.IGNORECASE | re.ASCII,
)
_FULL_TURN = 360
_WORDS = {"half": (1, 2), "quarter": (1, 4)}


def plain_value(text: str) -> str:
    """Return a sheet's value in plain signs; what is plain stays as it is.

    >>> [plain_value(each) for each in ("40 Nm, then 1/2 turn", "80 (\u22125/+10) Nm", "100\u2013120 N m")]
    ['40 Nm + 180 deg', '80 -5/+10 Nm', '100-120 N m']
    """
    text = " ".join(text.translate(_SIGNS).split())
    return _THEN.sub(" + ", _TOLERANCE.sub(r"\1", _TURN.sub(_degrees, text)))


def _degrees(match: re.Match[str]) -> str:
    """Return a part of a turn in degrees; as it stands where whole degrees do not give it."""
    over, under = _WORDS.get((match["word"] or "").lower(), (1, 1))
    if match["over"]:
        over, under = int(match["over"]), int(match["under"])
    if not over or not under or _FULL_TURN * over % under:
        return match[0]
    return f"{_FULL_TURN * over // under} deg"

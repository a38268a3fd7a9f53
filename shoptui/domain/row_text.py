"""Rows of a form as one text: a list within a form is kept, compared and drafted as a field is."""

import json
from collections.abc import Iterable, Mapping

Row = dict[str, str]
"""Name of a field to what stands in it; a field of a row may itself hold rows as text."""


def row_text(rows: Iterable[Mapping[str, str]]) -> str:
    """Return rows as one text; fields in which nothing stands are left out, no rows are no text.

    >>> row_text([{"part": "BR-1", "qty": "2", "total": ""}]), row_text([])
    ('[{"part": "BR-1", "qty": "2"}]', '')
    """
    found = [{name: text for name, text in row.items() if text} for row in rows]
    return json.dumps(found, ensure_ascii=False) if found else ""


def rows_in(text: str) -> tuple[Row, ...]:
    """Return the rows that a text holds; what `row_text` did not write is none.

    >>> rows_in('[{"part": "BR-1", "qty": "2"}]'), rows_in("two rotors")
    (({'part': 'BR-1', 'qty': '2'},), ())
    """
    try:
        found = json.loads(text) if text else []
    except ValueError:
        return ()
    if not isinstance(found, list):
        return ()
    return tuple(
        {str(name): str(each) for name, each in row.items()} for row in found if isinstance(row, dict)
    )

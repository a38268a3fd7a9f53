"""Label stock: sheets and rolls, each described by a small file that is named by its geometry.

All lengths are millimetres, measured from the top left corner. A user's own files are looked at first.
"""

from dataclasses import dataclass
from pathlib import Path

from shoptui.labels.descriptions import Fields, document, names
from shoptui.labels.errors import PositionError

FOLDER = "stock"
LEAST, MOST = 8.0, 1000.0
"""Millimetres of the smallest and the largest label or page that makes sense."""

LEAST_DPI, MOST_DPI = 100.0, 2400.0
MOST_LABELS = 500
_SLACK = 0.01
"""Millimetres by which sizes that a person rounded may overlap."""

MM_PER_INCH = 25.4


@dataclass(frozen=True, slots=True)
class Stock:
    """One kind of sheet or roll.

    Args:
        name: As its file is named.
        roll: Whether the labels hang on a roll, one page each.
        page_width: Of the sheet, or of the label of a roll.
        page_height: Likewise.
        columns: Labels across.
        rows: Labels down.
        width: Of one label.
        height: Of one label.
        across: From the left edge of one label to that of its right neighbour.
        down: From the top edge of one label to that of the next below.
        left: From the page's left edge to the first label.
        top: From the page's top edge to the first label.
        gap: Between two labels of a roll, which the printer finds by itself.
        inset: What stays white along each edge of a label, since paper moves in the printer.
        dpi: Dots per inch of the printer that the stock is meant for.

    """

    name: str
    roll: bool
    page_width: float
    page_height: float
    columns: int
    rows: int
    width: float
    height: float
    across: float
    down: float
    left: float
    top: float
    gap: float
    inset: float
    dpi: float

    @property
    def labels(self) -> int:
        """How many labels one page has."""
        return self.columns * self.rows

    @property
    def dot(self) -> float:
        """Width of one dot of the printer, mm."""
        return MM_PER_INCH / self.dpi

    @property
    def words(self) -> str:
        """What a person reads in a list of stock."""
        size = f"{self.width:g} x {self.height:g} mm"
        if self.roll:
            return f"roll, {size}, gap {self.gap:g} mm, {self.dpi:g} dpi"
        page = f"{self.page_width:g} x {self.page_height:g} mm"
        return f"sheet {page}, {self.columns} x {self.rows} labels of {size}, {self.dpi:g} dpi"

    def corner(self, position: int) -> tuple[float, float]:
        """Return the top left corner of a label on its page, mm.

        Args:
            position: From 1, row by row from the top left.

        Raises:
            PositionError: The page has no such position.

        """
        if not 1 <= position <= self.labels:
            raise PositionError(
                f"A position from 1 to {self.labels} was expected on {self.name}; {position} came. "
                f"Positions are counted row by row from the top left."
            )
        row, column = divmod(position - 1, self.columns)
        return self.left + column * self.across, self.top + row * self.down


def stock_names(own: Path | None = None) -> tuple[str, ...]:
    """Return the names of all stock; `own` is the user's folder of labels, None for none."""
    return names(FOLDER, own)


def read_stock(name: str, own: Path | None = None) -> Stock:
    """Return the stock of a name.

    Raises:
        DescriptionError: There is none, or its file is wrong, which is named with its line.

    >>> read_stock("roll-60x40-203dpi").words
    'roll, 60 x 40 mm, gap 3 mm, 203 dpi'

    """
    file, text, values = document(FOLDER, name, own)
    fields = Fields(file, text, values)
    stock = (
        _roll(name, fields) if fields.one_of("kind", ("sheet", "roll")) == "roll" else _sheet(name, fields)
    )
    fields.finish()
    if 2 * stock.inset >= min(stock.width, stock.height):
        raise fields.wrong("inset", "An inset that leaves something of the label was expected.")
    return stock


def _roll(name: str, fields: Fields) -> Stock:
    width = fields.number("label_width", LEAST, MOST)
    height = fields.number("label_length", LEAST, MOST)
    gap = fields.number("gap", 0, MOST)
    inset, dpi = _common(fields)
    return Stock(name, True, width, height, 1, 1, width, height, width, height + gap, 0, 0, gap, inset, dpi)  # noqa: FBT003 - fields in their order


def _sheet(name: str, fields: Fields) -> Stock:
    page = (fields.number("page_width", LEAST, MOST), fields.number("page_height", LEAST, MOST))
    count = (fields.whole("columns", 1, MOST_LABELS), fields.whole("rows", 1, MOST_LABELS))
    label = (fields.number("label_width", LEAST, MOST), fields.number("label_height", LEAST, MOST))
    pitch = (fields.number("pitch_across", LEAST, MOST), fields.number("pitch_down", LEAST, MOST))
    margin = (fields.number("margin_left", 0, MOST), fields.number("margin_top", 0, MOST))
    sides = zip(("width", "height"), ("across", "down"), page, count, label, pitch, margin, strict=True)
    for side, way, whole, many, size, step, edge in sides:
        end = edge + (many - 1) * step + size
        if end > whole + _SLACK:
            raise fields.wrong(
                f"label_{side}",
                f"Labels within the page's {side} of {whole:g} mm were expected; the last one ends at "
                f"{end:g} mm. Make the labels, the pitch or the margin smaller.",
            )
        if many > 1 and step < size - _SLACK:
            raise fields.wrong(
                f"pitch_{way}",
                f"A pitch of at least the label's {side} of {size:g} mm was expected; {step:g} came, so that "
                f"labels would overlap.",
            )
    inset, dpi = _common(fields)
    return Stock(name, False, *page, *count, *label, *pitch, *margin, 0, inset, dpi)  # noqa: FBT003 - fields in their order


def _common(fields: Fields) -> tuple[float, float]:
    return fields.number("inset", 0, MOST), fields.number("dpi", LEAST_DPI, MOST_DPI)

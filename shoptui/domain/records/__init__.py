"""The records of a shop: one frozen dataclass for each kind, one TinyDB table for each dataclass.

`id` is the document's id, 0 before the store has given one. `code` is the shop's own short name for the
record, unique in the shop; where the shop gave none it is the tag. `tag` is our own scannable tag.
Dates are `date`, moments are aware `datetime` in UTC, money is an integer of the currency's minor unit.
"""

from shoptui.domain.records.joints import How, Joint, Reading, What
from shoptui.domain.records.kept import Attachment, CountLine, DraftValue, LearnedCode, Lever, Terminal
from shoptui.domain.records.orders import CHARGES, Box, BoxLine, Charge, Order, OrderLine, Supplier
from shoptui.domain.records.parts import HARDWARE, HardwareLine, KitLine, OutsideWork, Part
from shoptui.domain.records.printed import LabelChoice, LabelRun, PrinterCorrection
from shoptui.domain.records.workplace import Bin, Build, Meter, Person, Settings, Wrench

__all__ = [
    "CHARGES",
    "HARDWARE",
    "Attachment",
    "Bin",
    "Box",
    "BoxLine",
    "Build",
    "Charge",
    "CountLine",
    "DraftValue",
    "HardwareLine",
    "How",
    "Joint",
    "KitLine",
    "LabelChoice",
    "LabelRun",
    "LearnedCode",
    "Lever",
    "Meter",
    "Order",
    "OrderLine",
    "OutsideWork",
    "Part",
    "Person",
    "PrinterCorrection",
    "Reading",
    "Settings",
    "Supplier",
    "Terminal",
    "What",
    "Wrench",
]

"""A sheet's torque held against what its bolt bears: what is far off was misread, or is in another unit."""

from decimal import Decimal

from shoptui.domain.fasteners.designations import Designation, Kind
from shoptui.domain.fasteners.figures import FastenerError
from shoptui.domain.fasteners.forms import short_form_nm
from shoptui.domain.fasteners.sheet_values import SheetValue
from shoptui.domain.fasteners.strength import Scale, Strength, proof_load_n
from shoptui.domain.fasteners.threads import System
from shoptui.domain.fasteners.torque import tightening
from shoptui.domain.fasteners.units import Unit, converted

MOST_NUT_FACTOR = 0.30
"""Of a black finish, dry: the highest of Shigley's table, as quoted publicly. The less threads rub, the
sooner a torque takes a bolt past its proof load; one that does so even with these is too much however they
are prepared. It is twice what is usual, so that sheets that go up to the yield point stay below it."""

LEAST_SHARE = 0.1
"""Of the usual torque. A drain plug, a banjo bolt, a cover's bolts in aluminium are given a fifth of what a
bolt of steel in steel is, and a sheet is right about them: so only what is far below is asked about. Inches
taken for feet make a twelfth of a torque, kgf m taken for N m a tenth; lbf ft taken for N m make three
quarters, which nobody can see. Common practice, no source."""

LEAST_N_M = 0.2
"""No fastener of a vehicle is given less: a screw of M2, smaller than any of them, is given as much. From
memory."""

_STRONGEST = {System.METRIC: Strength(Scale.CLASS, "12.9"), System.UNIFIED: Strength(Scale.GRADE, "8")}
MISREAD = "Misread, or in another unit?"


def far_off(value: SheetValue, fastener: Designation | None, *, turned: bool) -> str:
    """Say that a torque is far from what its bolt is given, empty if it is not; no better one is named.

    Args:
        value: As the sheet has it.
        fastener: None where nobody wrote it down. Of a thread without a class, and of a nut, the strongest
            bolt is taken, and too little is not said: it may be a plug, or hollow.
        turned: Whether angles follow, to which a small torque may lead.

    >>> from shoptui.domain.fasteners.reading import designation
    >>> from shoptui.domain.fasteners.sheet_values import sheet_value
    >>> far_off(sheet_value("1000 N m", Unit.N_M), designation("M10x1.25 10.9"), turned=False)
    '1000 N m takes M10 x 1.25 - 10.9 past its proof load, however its threads are prepared'
    >>> far_off(sheet_value("25 N m", Unit.N_M), designation("M14x1.5 8.8"), turned=False)
    ''

    """
    low, high = (_n_m(each, value.unit) for each in (value.low, value.high))
    if low < LEAST_N_M:
        return f"{value} is less than any fastener of a vehicle is given"
    if fastener is None:
        return ""
    known = fastener.strength if fastener.is_bolt else None
    strength = known or _STRONGEST[fastener.thread.system]
    bolt = fastener if known else Designation(Kind.BOLT, fastener.thread, strength=strength)
    try:
        proof_n = proof_load_n(strength, bolt.thread, bolt.length_mm)
        usual_nm = tightening(bolt).torque_nm.likely
    except FastenerError:
        return ""  # a size that its standard does not cover
    if high > short_form_nm(MOST_NUT_FACTOR, proof_n, bolt.thread):
        even = "" if known else "even "
        return f"{value} takes {even}{bolt} past its proof load, however its threads are prepared"
    if known and not turned and low < LEAST_SHARE * usual_nm:
        return f"{value} is less than a tenth of what {bolt} is usually given"
    return ""


def _n_m(value: Decimal, named: Unit) -> float:
    return float(converted(value, named, Unit.N_M).exact)

"""What a torque wrench is set to when a lever at its drive makes it longer or shorter."""

import math

from shoptui.domain.fasteners.figures import FastenerError, above_zero

FULL_TURN = 360

CAUTION = (
    "Valid at this angle only, with the hand in the middle of the grip: another angle, or an extension that "
    "flexes, makes it void. A socket extension along the drive's axis changes nothing. The maker's sheet "
    "comes first."
)


def set_to(torque: float, length: float, extension: float, angle_deg: float = 0) -> float:
    """Return the value to set for a torque at the fastener: T L / (L + E cos angle).

    Args:
        torque: Wanted at the fastener, in any unit.
        length: From the middle of the grip to the wrench's drive.
        extension: From the drive to the fastener, in the same unit of length.
        angle_deg: Between the two: 0 goes straight on, 90 changes nothing, 180 points back to the hand.

    Raises:
        FastenerError: A value not above 0, an angle past a full turn, an extension as long as the wrench.

    Source: torque-wrench instruction sheets and public calculators, as quoted in secondary pages.

    >>> round(set_to(80, 40, 5), 1), round(set_to(80, 40, 5, 90), 1)
    (71.1, 80.0)

    """
    above_zero(torque, "A torque to reach")
    above_zero(length, "A length of the wrench")
    above_zero(extension, "A length of the extension")
    if not 0 <= angle_deg <= FULL_TURN:
        raise FastenerError(f"An angle from 0 to {FULL_TURN} degrees was expected; {angle_deg:g} came.")
    if extension >= length:
        raise FastenerError(
            f"An extension shorter than the wrench, {length:g}, was expected; {extension:g} came."
        )
    return torque * length / (length + extension * math.cos(math.radians(angle_deg)))

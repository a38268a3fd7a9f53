"""What speaks against filming a shot as its parts stand, although none is missing; a person decides."""

from dataclasses import dataclass
from enum import StrEnum

from shoptui.domain.cautions import MOVING
from shoptui.domain.places import Place, State
from shoptui.domain.records import Part
from shoptui.domain.shoots import Condition, Shot

DECIDES = "the person in charge"

HANDBOOK = (
    "Whether a handbook's value will do is for the person in charge to decide: it is no specification, and "
    "the maker's sheet comes first."
)


class Why(StrEnum):
    """Why it is listed."""

    MOCKED_UP = "mocked up"
    NOT_TIGHT = "not tight"
    GENERIC = "generic value"


_NEEDS = {
    Why.MOCKED_UP: "nothing mocked up",
    Why.NOT_TIGHT: "torque done",
    Why.GENERIC: Condition.TORQUE_DONE.value,
}
_ACTS = {
    Why.MOCKED_UP: "have it taken down, or decide that it may stay",
    Why.NOT_TIGHT: "have it tightened or checked, or decide that it may move",
    Why.GENERIC: "find the maker's sheet, or decide that it will do",
}


@dataclass(frozen=True, slots=True)
class Against:
    """What speaks against a shot: on a vehicle that moves, or tightened to a handbook's value alone.

    Args:
        part: The part.
        number: Number of the shot in its day, 1 first.
        shot: The shot.
        place: Where the part is.
        qty: Pieces of the part there.
        where: That place in words; of a joint its name and positions.
        reason: Why it is listed.
        stands: How a joint, a check or a re-check stands; empty for what is mocked up.

    """

    part: Part
    number: int
    shot: Shot
    place: Place
    qty: int
    where: str
    reason: Why
    stands: str = ""

    @property
    def state(self) -> State:
        """State of the ledger."""
        return self.place.state

    @property
    def needs(self) -> str:
        """What the shot needs."""
        return _NEEDS[self.reason]

    @property
    def found(self) -> str:
        """Where it is, and how a joint stands."""
        return f"{self.where}, {self.stands}" if self.stands else self.where

    @property
    def why(self) -> str:
        """Why it is listed, in words."""
        return self.found if self.reason is Why.GENERIC else f"{self.found}, and the vehicle moves"

    @property
    def act(self) -> str:
        """Who acts next, and what."""
        return f"{DECIDES}: {_ACTS[self.reason]}"

    @property
    def caution(self) -> str:
        """What it is, and is not, that these books know."""
        return HANDBOOK if self.reason is Why.GENERIC else MOVING.words

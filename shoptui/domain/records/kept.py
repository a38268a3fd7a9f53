"""What is kept beside: learned codes, files, and what each terminal was at."""

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True)
class LearnedCode:
    """A code that stands for something because a person or a list said so.

    Args:
        id: Document id.
        code: As scanned.
        normal: As compared, see `shoptui.domain.codes.normal`.
        kind: Table of the record: parts, bins, builds, people, boxes.
        record: Id there.
        qty: Pieces that one scan means.
        withdrawn: Whether an undo took it back.

    """

    id: int
    code: str
    normal: str
    kind: str
    record: int
    qty: int = 1
    withdrawn: bool = False


@dataclass(frozen=True, slots=True)
class Attachment:
    """A file kept with a record; its bytes lie in the shop's folder under their SHA-256.

    Args:
        id: Document id.
        code: Its digest: the same bytes kept twice lie there once.
        name: The file's name as it was given.
        kind: Type by its name, as `image/jpeg`; empty if not known.
        size: Bytes.
        sha256: Hexadecimal.
        table: Table of the record that it belongs to.
        record: Id there.
        note: In words.
        withdrawn: Whether an undo took it back.

    """

    id: int
    code: str
    name: str
    kind: str
    size: int
    sha256: str
    table: str
    record: int
    note: str = ""
    withdrawn: bool = False


@dataclass(frozen=True, slots=True)
class CountLine:
    """Pieces of a part that one scan counted."""

    part: int
    qty: int


@dataclass(frozen=True, slots=True)
class DraftValue:
    """What stands in one field of a form that is not saved yet, and what stood in it when it was opened."""

    field: str
    text: str
    before: str = ""


@dataclass(frozen=True, slots=True)
class Lever:
    """An extension at the drive of a torque tool: its length in millimetres, its angle in degrees."""

    length_mm: float
    angle_deg: float = 0.0


@dataclass(frozen=True, slots=True)
class Terminal:
    """What one terminal was at, so that closing the program loses nothing.

    `card` names the Lift's open card as verb and part (`install`, 12), and the joint that it asked about with
    its position, and the verb that was said and holds until it is answered; `bin` says where removed things
    go, `wrench` is taken for the next readings, `lever` is the extension at it, `look` names the colours.
    `counting` is the bin whose contents are being counted at it, `counted` its scans, the last one last;
    one that was put aside rests until its bin is counted again.
    `form` names a form that is being filled in (`parts 12`, `parts new`), and `draft` what stands in it.
    """

    id: int
    code: str
    build: int | None = None
    person: int | None = None
    badge_at: datetime | None = None
    card_verb: str = ""
    card_part: int | None = None
    card_joint: str = ""
    card_where: str = ""
    card_said: str = ""
    bin: int | None = None
    wrench: int | None = None
    lever: Lever | None = None
    look: str = ""
    counting: int | None = None
    counted: tuple[CountLine, ...] = ()
    count_rests: bool = False
    form: str = ""
    draft: tuple[DraftValue, ...] = ()
    withdrawn: bool = False

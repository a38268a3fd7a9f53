"""The card that lies open at the lift, and the verb that was said of the part that comes next.

A verb that a tag or a key said holds for the next part, whatever card lies open meanwhile, until that part's
question is answered or let go of, or another part is scanned. A badge or a tool in between is neither.
"""

from dataclasses import dataclass

from shoptui.jobs.answers import Answer, Said
from shoptui.store.shop import Shop


@dataclass(slots=True)
class CardInHand:
    """What lies open at one terminal's lift.

    Args:
        part: Id of the part whose card lies open, None for none.
        verb: What that card is turned to; with none open, what was said of the next part.
        qty: Pieces that it is about.
        joint: Name and position of the joint that it asked about last; empty for none.
        said: The verb that was said and still holds, empty for none.
        said_of: Id of the part that it is said of; None while that is whichever comes next.

    """

    part: int | None = None
    verb: str = ""
    qty: int = 1
    joint: tuple[str, str] = ("", "")
    said: str = ""
    said_of: int | None = None

    @property
    def kept(self) -> tuple[object, ...]:
        """What outlives the program: another value, and it is to be written down."""
        return self.part, self.verb, self.joint, self.said

    def remember(self, shop: Shop, terminal: str) -> None:
        """Write it down, so that it lies open again when the program is opened again."""
        joint, where = self.joint
        shop.remember(
            terminal,
            card_part=self.part,
            card_verb=self.verb,
            card_joint=joint,
            card_where=where,
            card_said=self.said,
        )

    def take_up(self, shop: Shop, terminal: str) -> None:
        """Let it be what was written down last."""
        memory = shop.terminal(terminal)
        self.part, self.verb = memory.card_part, memory.card_verb
        self.joint = (memory.card_joint, memory.card_where)
        self.said = memory.card_said if self.part is not None else self.verb
        self.said_of = self.part

    def put_down(self) -> None:
        """Lay the card aside, and forget what the next part's was to be."""
        self.part, self.verb, self.qty, self.joint = None, "", 1, ("", "")
        self.say("")

    def say(self, verb: str, part: int | None = None) -> None:
        """Take a verb: a tag says it of the next part, whatever lies open; a key of the part it is on."""
        self.said, self.said_of = verb, part

    def spoken_to(self, asked: Answer) -> None:
        """Let the verb be that of the part whose question is answered."""
        if self.said and asked.asks and asked.subject == self.part:
            self.said_of = self.part

    def let_go(self, asked: Answer | None) -> None:
        """Forget the verb: the question of its part is dropped by hand."""
        if asked is not None and asked.asks and self.part is not None and asked.subject == self.part:
            self.say("")

    def follow(self, answer: Answer) -> None:
        """Let the card be that of the part that is spoken of, and the verb be over when its part is done."""
        before = self.verb
        if answer.show == "lift" and answer.subject:
            if answer.joint:
                self.joint = (answer.joint, answer.where)
            elif answer.subject != self.part:
                self.joint = ("", "")
            self.part, self.verb, self.qty = answer.subject, answer.card, max(1, answer.qty)
        elif answer.card:
            self.part, self.verb = None, answer.card
            return
        else:
            return
        if self.said_of is None and answer.asks:
            self.said_of = self.part if self.said else None
        elif not answer.asks or answer.subject != self.said_of or answer.card != before:
            self.say("")

    def done(self, answer: Answer) -> None:
        """Forget the verb where the answer to its part's question was that something is done."""
        if answer.said is Said.DONE and self.said_of is not None:
            self.say("")

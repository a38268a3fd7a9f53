"""One thing's card: facts with their labels, headings and sentences, to read and to scroll."""

from collections.abc import Sequence
from dataclasses import dataclass

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from shoptui.domain.inert import inert
from shoptui.stations.marks import TONE_STYLES, Tone

LABEL_WIDTH = 14
LONGEST = 400


@dataclass(frozen=True, slots=True)
class Fact:
    """One line of a card.

    Args:
        label: What it is; empty for a sentence that stands alone.
        text: What it says; empty makes the label a heading.
        tone: How it looks.

    """

    label: str = ""
    text: str = ""
    tone: Tone = Tone.PLAIN


class Card(VerticalScroll):
    """The card."""

    DEFAULT_CSS = """
    Card {
        height: 1fr;
        padding: 0 1;
        background: $background;
        &:focus { background-tint: $foreground 3%; }
    }
    """

    def compose(self) -> ComposeResult:
        """One text holds all lines: a card is read, not worked in."""
        yield Static("", markup=False)

    def show(self, title: str, facts: Sequence[Fact]) -> None:
        """Show another thing, or the same as it is now."""
        plain = self.app.no_color
        lines = [Content.styled(inert(title, limit=LONGEST), "bold")]
        lines.extend(_drawn(fact, plain=plain) for fact in facts)
        self.query_one(Static).update(Content("\n").join(lines))


def _drawn(fact: Fact, *, plain: bool) -> Content:
    style = "" if plain else TONE_STYLES[fact.tone]
    text = Content.styled(inert(fact.text, limit=LONGEST), style)
    if not fact.text:
        return (
            Content.styled(inert(fact.label, limit=LONGEST), "bold underline") if fact.label else Content("")
        )
    if not fact.label:
        return text
    label = f"{inert(fact.label, limit=LABEL_WIDTH):<{LABEL_WIDTH}} "
    return Content.styled(label, "" if plain else TONE_STYLES[Tone.QUIET]) + text

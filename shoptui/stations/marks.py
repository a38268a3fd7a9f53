"""Marks and tones: how a state looks when colour helps, and what it is called when there is none.

The word always stands beside the mark, and colour only on top of both, so that a monochrome terminal, a
printed screen and eyes that do not tell red from green read the same thing. Marks are plain ASCII: every
terminal font has them, and each is one cell wide everywhere.
"""

from enum import StrEnum

from shoptui.jobs.answers import Said


class Tone(StrEnum):
    """What a line is like; the value is the name of its style in the style sheets."""

    PLAIN = "plain"
    GOOD = "good"
    WARN = "warn"
    BAD = "bad"
    QUIET = "quiet"


TONE_STYLES: dict[Tone, str] = {
    Tone.PLAIN: "",
    Tone.GOOD: "$text-success",
    Tone.WARN: "$text-warning",
    Tone.BAD: "bold $text-error",
    Tone.QUIET: "dim",
}
"""Content styles of the tones, in variables of the theme."""

ANSWER_MARKS: dict[Said, str] = {
    Said.DONE: "+",
    Said.QUESTION: "?",
    Said.STOP: "!",
    Said.UNKNOWN: "~",
}
"""One mark for each answer."""

CURSOR = ">"
"""Stands before the row that Enter opens."""

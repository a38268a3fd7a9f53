"""How the list looks: in colour, in the terminal's own sixteen, and without any."""

from shoptui.stations.marks import Tone

PARTS: frozenset[str] = frozenset(
    {"head", "number", "cursor", *(tone for tone in Tone if tone is not Tone.PLAIN)}
)
"""What has a style of its own; the classes are these names behind `long-list--`."""

LIST_CSS = """
LongList {
    height: 1fr;
    background: $background;
    color: $foreground;
    overflow-x: hidden;
    & > .long-list--head { color: $text-primary; text-style: bold; }
    & > .long-list--number { color: $foreground; text-style: dim; }
    & > .long-list--cursor { background: $block-cursor-blurred-background; color: $foreground; }
    & > .long-list--good { color: $text-success; }
    & > .long-list--warn { color: $text-warning; }
    & > .long-list--bad { color: $text-error; text-style: bold; }
    & > .long-list--quiet { color: $foreground; text-style: dim; }
    &:focus > .long-list--cursor {
        background: $block-cursor-background; color: $block-cursor-foreground; text-style: bold;
    }
    &:ansi > .long-list--cursor { text-style: reverse; background: ansi_default; color: ansi_default; }
    &:nocolor > .long-list--good { color: $foreground; }
    &:nocolor > .long-list--warn { color: $foreground; }
    &:nocolor > .long-list--bad { color: $foreground; text-style: bold; }
    &:nocolor > .long-list--quiet { color: $foreground; text-style: none; }
    &:nocolor > .long-list--number { color: $foreground; text-style: none; }
    &:nocolor > .long-list--head { color: $foreground; text-style: bold underline; }
}
"""

"""The looks: two of our own choice, and two that use the sixteen colours of the terminal itself."""

THEMES: dict[str, str] = {
    "textual-dark": "dark",
    "textual-light": "light",
    "ansi-dark": "the terminal's own colours, dark",
    "ansi-light": "the terminal's own colours, light",
}
"""Textual's name to ours."""

WITHOUT_COLOUR = "ansi-dark"
"""Where NO_COLOR is set: the terminal's own foreground and background and nothing else."""

"""The looks: two of our own choice, and two that use the sixteen colours of the terminal itself."""

THEMES: dict[str, str] = {
    "textual-dark": "dark",
    "textual-light": "light",
    "ansi-dark": "dark, the terminal's own",
    "ansi-light": "light, the terminal's own",
}
"""Textual's name to ours."""

WITHOUT_COLOUR = "ansi-dark"
"""Where NO_COLOR is set: the terminal's own foreground and background and nothing else."""

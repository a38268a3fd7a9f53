"""The looks: two of our own choice, and two that use the sixteen colours of the terminal itself."""

from dataclasses import replace

from textual.theme import BUILTIN_THEMES, Theme

THEMES: dict[str, str] = {
    "shop-dark": "dark",
    "shop-light": "light",
    "ansi-dark": "dark, the terminal's own",
    "ansi-light": "light, the terminal's own",
}
"""Name of a look to what it is called."""

USUAL = "shop-dark"

WITHOUT_COLOUR = "ansi-dark"
"""Where NO_COLOR is set: the terminal's own foreground and background and nothing else."""


def _of(base: str, name: str, primary: str, **colours: str) -> Theme:
    """Return a theme of the framework's with its first colour, and some for text, of our own."""
    theme = BUILTIN_THEMES[base]
    variables = {**theme.variables, **{colour.replace("_", "-"): value for colour, value in colours.items()}}
    return replace(theme, name=name, primary=primary, variables=variables)


OWN_THEMES: tuple[Theme, ...] = (
    # What stands in an empty field is there to be read, which the framework's own is hardly.
    _of("textual-dark", "shop-dark", "#0063b0", text_disabled="auto 75%"),
    # Likewise its greens and ambers on a light ground.
    _of(
        "textual-light",
        "shop-light",
        "#004578",
        text_success="#14532d",
        text_warning="#6b3a00",
        text_error="#8f1220",
        text_accent="#6b3a00",
        text_primary="#003a63",
        text_disabled="auto 75%",
    ),
)

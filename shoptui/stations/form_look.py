"""What a form looks like."""

MANY = 7
"""Fields that stand with a line between them; more stand one beneath the other."""

FORM_CSS = """
FormFields {
    & .fields { padding: 1 2 0 2; height: 1fr; }
    & .field { height: 1; margin-bottom: 1; }
    & .-many .field { margin-bottom: 0; }
    & .label { width: 22; color: $foreground; }
    & Input { width: 1fr; background: $surface; color: $foreground; }
    & Input:focus { background: $panel; text-style: bold; }
    & Input > .input--selection { background: $foreground; color: $background; }
    &:ansi Input > .input--selection { background: ansi_default; color: ansi_default; text-style: reverse; }
    &:ansi Input > .input--cursor { text-style: reverse; }
    & .about { height: auto; margin-bottom: 1; }
    & .buttons { height: 1; }
    & .-many .buttons { margin-top: 1; }
    & .hint { height: 1; padding: 0 2 0 24; color: $foreground; }
    & Button { margin-right: 2; }
}
"""

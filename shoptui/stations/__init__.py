"""The screens: the only part that knows Textual."""

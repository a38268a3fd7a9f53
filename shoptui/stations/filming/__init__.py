"""Filming: what is missing before a day."""

"""The form of the shop's settings."""

from collections.abc import Callable, Mapping
from functools import partial
from typing import TYPE_CHECKING

from shoptui.domain.inert import inert
from shoptui.jobs.answers import Answer
from shoptui.jobs.shop_settings import READERS, change_settings, in_words
from shoptui.stations.field import Field
from shoptui.stations.form import Form
from shoptui.stations.key_names import key_named, key_words
from shoptui.stations.keyboard import Keyboard

if TYPE_CHECKING:
    from shoptui.stations.app import ShopApp

LABELS: dict[str, tuple[str, str]] = {
    "name": ("Shop's name", "as it stands on lists"),
    "currency": ("Currency", "such as EUR: new amounts are in it"),
    "units": ("Units first", "N m or lbf ft"),
    "working_days": ("Working days", "such as Mon, Tue, Wed, Thu, Fri"),
    "working_hours": ("Working hours", "such as 08:00-17:00; may be empty"),
    "holidays": ("Holidays", "such as 2026-12-25, 2027-01-01; may be empty"),
    "twice_seconds": ("Twice is once within", "seconds, such as 0.4: the same code again is one reading"),
    "badge_minutes": ("A badge lasts", "minutes, such as 20"),
    "any_wrench": ("Wrench overdue", "yes: may be used with a reason, which stays visible; no: may not"),
    "scanner_prefix": ("Scanner sends first", "the key that it sends before a code, F9 if it can"),
}
"""Name of a setting to its label and hint."""

LAST_FUNCTION_KEY = 12

ADDED_TO = ("name", "working_days", "holidays")
"""Names and lists, which are added to; any other setting is one value."""

MAY_BE_EMPTY = ("name", "working_hours", "holidays")


def settings_form(app: "ShopApp") -> Form:
    """Return the form of the settings."""
    settings = app.shop.settings
    readers: dict[str, Callable[[str], object]] = {
        **READERS,
        "scanner_prefix": partial(_prefix, app.keyboard),
    }
    now = {**in_words(settings), "scanner_prefix": key_words(settings.scanner_prefix)}
    fields = tuple(
        Field(name, label, hint, now[name], one_value=name not in ADDED_TO, check=readers[name])
        for name, (label, hint) in LABELS.items()
    )

    def save(values: Mapping[str, str]) -> Answer:
        return change_settings(
            app.scanning.at,
            **{
                name: readers[name](values[name].strip())
                for name in LABELS
                if values[name].strip() or name in MAY_BE_EMPTY
            },
        )

    return Form("Set-up: the shop's settings", fields, save)


def _prefix(keyboard: Keyboard, text: str) -> str:
    """Return Textual's name of the key that the scanner sends first.

    Raises:
        ValueError: None that it could be.

    """
    key = key_named(text)
    if key == keyboard.prefix:
        return key
    if not (key.startswith("f") and key[1:].isdecimal() and 1 <= int(key[1:]) <= LAST_FUNCTION_KEY):
        raise ValueError(f"One of F1 to F{LAST_FUNCTION_KEY} was expected; {inert(text, 40)} came.")
    for action in keyboard.actions.values():
        if key in keyboard.keys(action.name):
            raise ValueError(
                f"{key_words(key)} is “{action.words}” ({action.place_words}): F9 is free, or give that "
                "another key first."
            )
    return key

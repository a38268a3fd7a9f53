"""The fields of a form: how they are laid out, and going through them."""

from collections.abc import Iterable, Mapping
from typing import ClassVar

from textual import events, on
from textual.binding import BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.css.query import NoMatches
from textual.widget import Widget
from textual.widgets import Button, Input, Static

from shoptui.domain.inert import inert
from shoptui.jobs.answers import done, stop
from shoptui.jobs.matching import codes_of
from shoptui.stations.field import Entry, Field, entry_of
from shoptui.stations.form_look import FORM_CSS, MANY
from shoptui.stations.keys import quiet
from shoptui.stations.name_field import NAME_KEYS, NameInput, Offered
from shoptui.stations.shell import Shell
from shoptui.store.command_tags import command_named


class Fields(VerticalScroll, can_focus=False, inherit_bindings=False):
    """What scrolls; its arrow keys go through the fields instead."""

    def on_resize(self) -> None:
        """Keep the field in view that the cursor is in: a long sentence below leaves less room."""
        focused = self.screen.focused
        if focused is not None and self in focused.ancestors:
            focused.scroll_visible(animate=False)


class FormFields(Shell[bool]):
    """The fields; what becomes of what stands in them is the form's.

    Args:
        title: What the form is for.
        fields: What it asks for.
        about: What stands above the fields.

    """

    DEFAULT_CSS = FORM_CSS
    BINDINGS: ClassVar[list[BindingType]] = [
        quiet("up", "go(-1)", "Up", "The field above", "form.up", NAME_KEYS),
        quiet("down", "go(1)", "Down", "The field below", "form.down", NAME_KEYS),
    ]
    AUTO_FOCUS = "Input, LinesEntry"
    SAVE_WORDS: ClassVar[str] = "Save"
    """What the button says that does what the form is for."""

    def __init__(self, title: str, fields: tuple[Field, ...], about: str) -> None:
        super().__init__()
        self.form_title = title
        self._fields = fields
        self._about = about
        self._entries: dict[str, Entry] = {}
        self.before = {field.name: field.value for field in fields}
        """What stood in each field when it was read from the shop."""
        self._scanned = ""
        """What was last scanned into a field."""

    # What stands in it

    def heading(self) -> str:
        """Return what the form is for."""
        return self.form_title

    def body(self) -> Iterable[Widget]:
        """Lay the fields out, one to a line; many stand closer together, and all of them scroll."""
        self._entries = {field.name: entry_of(field) for field in self._fields}
        with Fields(classes="fields" + " -many" * (len(self._fields) > MANY)):
            if self._about:
                yield Static(inert(self._about, limit=600), classes="about", markup=False)
            for field in self._fields:
                entry = self._entries[field.name]
                with Horizontal(classes="field"):
                    yield Static(field.label, classes="label", markup=False)
                    yield entry
                if isinstance(entry, NameInput):
                    yield entry.offered
            with Horizontal(classes="buttons"):
                yield Button(self.SAVE_WORDS, id="save", compact=True, variant="primary")
                yield Button("Back", id="leave", compact=True)
        yield Static("", classes="hint", markup=False)

    @property
    def values(self) -> dict[str, str]:
        """What stands in the fields."""
        return {name: entry.value for name, entry in self._entries.items()}

    @property
    def changed(self) -> bool:
        """Whether anything was typed."""
        return self.values != self.before

    def put_back(self, draft: Mapping[str, tuple[str, str]]) -> None:
        """Put what was typed before back: name of a field to its text, and to what stood there then."""
        for name, (text, before) in draft.items():
            if name in self._entries:
                self._entries[name].value = text
                self.before[name] = before
                self.set_focus(self._entries[name])

    # Going through the fields

    def action_back(self) -> None:
        """Close the list of names first, where one lies open; what is asked goes before that."""
        entry = self.focused
        asked = self.shop_app.asking.open_question is not None
        if asked or not isinstance(entry, NameInput) or not entry.put_away():
            super().action_back()

    @on(Input.Submitted)
    def _next(self, message: Input.Submitted) -> None:
        """Enter goes to the next field, and after the last it saves."""
        message.stop()
        if isinstance(message.input, NameInput):
            self._settle(message.input)
        if not self._after(message.input):
            self.action_save()

    def action_save(self) -> None:
        """Save what the form says."""

    def _after(self, entry: Widget) -> bool:
        """Go to the next field; return whether there is one."""
        entries: list[Widget] = [*self._entries.values()]
        place = entries.index(entry) + 1
        # At once: `Widget.focus` comes later, and would take it back from the field that a refusal goes to.
        self.set_focus(entries[place] if place < len(entries) else entry)
        return place < len(entries)

    def action_go(self, fields: int) -> None:
        """Go so many fields down."""
        entries: list[Widget] = [*self._entries.values()]
        if self.focused in entries:
            place = entries.index(self.focused) + fields
            self.set_focus(entries[max(0, min(place, len(entries) - 1))])

    @on(events.DescendantFocus)
    @on(Input.Changed)
    def _offer(self) -> None:
        """List the known names beneath the field that is typed in, and nowhere else."""
        for entry in self._name_inputs():
            entry.offer()
        self._show_hint()

    def _name_inputs(self) -> Iterable[NameInput]:
        return (entry for entry in self._entries.values() if isinstance(entry, NameInput))

    def _show_hint(self) -> None:
        """Say at the foot what is expected, once something stands in the field and hides it there."""
        field = next((each for each in self._fields if self._entries[each.name] is self.focused), None)
        words = field.hint if field is not None and self._entries[field.name].value else ""
        try:
            self.query_one(".hint", Static).update(words, layout=False)
        except NoMatches:
            return

    @on(Input.Blurred)
    def _left(self, message: Input.Blurred) -> None:
        """Leaving a field takes the only name that matches."""
        if isinstance(message.input, NameInput):
            self._settle(message.input)
            self._offer()

    def _settle(self, entry: NameInput) -> None:
        typed = entry.asked
        if (name := entry.settle()) is not None:
            words = f"“{typed}” is taken for {name}. If it is another, type it again."
            self.shop_app.hearing.hear(done(words))

    @on(Offered.Taken)
    def _tapped(self, message: Offered.Taken) -> None:
        message.stop()
        for entry in self._name_inputs():
            if entry.offered is message.offered:
                entry.take(message.name)
                self._after(entry)

    # Scans

    def take_scan(self, text: str, *, twice: bool) -> bool:
        """Put what was scanned into the field in front and go on, where that is for such a thing.

        Args:
            text: What was scanned.
            twice: Whether it is the scan before, seen once more.

        Returns:
            Whether it was for the field; if not, the scan means what it means everywhere.

        """
        entry = self.focused
        if twice and text == self._scanned:
            return True
        self._scanned = ""
        if not isinstance(entry, NameInput) or command_named(text) is not None:
            return False
        known = (entry.known.exact(code) for code in (text, *codes_of(self.shop_app.shop, text)))
        names = tuple(dict.fromkeys(name for name in known if name is not None))
        if names:
            self._scanned = text
            entry.call_later(self._take_scanned, entry, names)  # behind the letters that are taken out again
        return bool(names)

    def _take_scanned(self, entry: NameInput, names: tuple[str, ...]) -> None:
        app = self.shop_app
        label = next(field.label for field in self._fields if self._entries[field.name] is entry)
        app.asking.drop()
        if len(names) > 1:
            told = "; ".join(inert(name, 60) for name in names)
            app.hearing.hear(
                stop(f"{label}: this code means {len(names)} things ({told}). Type which it is.")
            )
            return
        entry.take(names[0])
        self._after(entry)
        app.hearing.hear(done(f"{label}: {inert(names[0], 60)}."))

    def on_click(self, event: events.Click) -> None:
        """A tap on a label goes to its field."""
        tapped = event.widget
        if tapped is not None and tapped.has_class("label") and tapped.parent is not None:
            next(entry for entry in self._entries.values() if entry.parent is tapped.parent).focus()

"""Keeps what is half typed in a form: at the first key and every moment after, never on a key's own path."""

from typing import TYPE_CHECKING

from shoptui.jobs.answers import done
from shoptui.jobs.drafts import drop_draft, keep_draft, open_draft, open_elsewhere

if TYPE_CHECKING:
    from textual.timer import Timer

    from shoptui.stations.form import Form

KEEP_EVERY = 0.5
"""Seconds between two times that what was typed is written down: no more of it is ever lost."""


class Draft:
    """The draft of one form.

    Args:
        form: The form.
        name: Its name among drafts; empty for a form that keeps none.

    """

    def __init__(self, form: "Form", name: str) -> None:
        self._form = form
        self._name = name
        self._timer: Timer | None = None
        """Runs since it was last written down."""
        self._unkept = False
        """Whether something was typed since."""
        self._let_go = not name

    def open(self) -> None:
        """Put back what was half typed here before, and say where else the form lies open."""
        if self._name:
            self._form.shop_app.jobs.later(self._open)

    def _open(self) -> None:
        app = self._form.shop_app
        if self._let_go:
            return
        at = app.scanning.at
        if words := open_elsewhere(at, self._name):
            app.hearing.hear(done(words))
        if (draft := open_draft(at, self._name)) and not self._form.changed:
            self._form.put_back({each.field: (each.text, each.before) for each in draft})
            app.hearing.hear(
                done(
                    "What was typed here before is back. It is not saved yet: Ctrl+G saves it, "
                    "Escape and then Enter drops it."
                )
            )

    def typed(self) -> None:
        """Keep what was typed: at once where nothing was kept a moment ago, else when that moment is over."""
        if self._let_go:
            return
        self._unkept = True
        if self._timer is None:
            self._timer = self._form.set_timer(KEEP_EVERY, self._rested)
            self._form.shop_app.jobs.later(self._keep)

    def _rested(self) -> None:
        self._timer = None
        if self._unkept:
            self.typed()

    def _keep(self) -> None:
        if self._unkept and not self._let_go:
            self._unkept = False
            form = self._form
            keep_draft(form.shop_app.scanning.at, self._name, form.values, form.before)

    def close(self) -> None:
        """Forget it: the form was saved, or its words were dropped."""
        if not self._let_go:
            self._let_go = True
            drop_draft(self._form.shop_app.scanning.at, self._name)

    def flush(self) -> None:
        """The program closes while the form is open: what was typed a moment ago is kept too."""
        self._keep()

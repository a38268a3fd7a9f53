"""One form for everything that has to be typed: labelled fields, what is wrong with them, save and back."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from typing import ClassVar

from textual import on
from textual.binding import BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.suggester import SuggestFromList
from textual.widget import Widget
from textual.widgets import Button, Input, Static

from shoptui.domain.inert import inert
from shoptui.jobs.answers import Answer, Choice, Question, Said
from shoptui.stations.keys import here
from shoptui.stations.shell import Shell


@dataclass(frozen=True, slots=True)
class Field:
    """One field.

    Args:
        name: Name of the value that the form hands over.
        label: In words.
        hint: What is expected, shown while the field is empty.
        value: What stands in it at first.
        known: What may be completed with the right arrow.

    """

    name: str
    label: str
    hint: str = ""
    value: str = ""
    known: tuple[str, ...] = ()


Save = Callable[[Mapping[str, str]], Answer]
"""Runs the job; an answer other than done keeps the form open."""


class Form(Shell[bool]):
    """Asks for some fields, then runs a job with them; closes with whether it was done."""

    DEFAULT_CSS = """
    Form {
        & .fields { padding: 1 2; height: 1fr; }
        & .field { height: 2; }
        & .label { width: 22; color: $foreground; }
        & Input { width: 1fr; background: $surface; color: $foreground; }
        & Input:focus { background: $panel; text-style: bold; }
        & .about { height: auto; margin-bottom: 1; }
        & .buttons { height: 1; }
        & Button { margin-right: 2; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        here("ctrl+g", "save", "Save", "Save what the form says", "form.save"),
    ]
    AUTO_FOCUS = "Input"

    def __init__(self, title: str, fields: tuple[Field, ...], save: Save, *, about: str = "") -> None:
        super().__init__()
        self._title = title
        self._fields = fields
        self._save = save
        self._about = about
        self._outcome: bool | None = None
        """Whether it was saved, once the form is done with but another screen lies in front."""

    def heading(self) -> str:
        """Return what the form is for."""
        return self._title

    def body(self) -> Iterable[Widget]:
        """Lay the fields out, one to a line."""
        with VerticalScroll(classes="fields", can_focus=False) as page:
            if self._about:
                yield Static(inert(self._about, limit=600), classes="about", markup=False)
            for field in self._fields:
                with Horizontal(classes="field"):
                    yield Static(field.label, classes="label", markup=False)
                    suggester = SuggestFromList(field.known, case_sensitive=False) if field.known else None
                    yield Input(
                        field.value,
                        placeholder=field.hint,
                        id=f"field-{field.name}",
                        compact=True,
                        suggester=suggester,
                        select_on_focus=False,
                    )
            with Horizontal(classes="buttons"):
                yield Button("Save", id="save", compact=True, variant="primary")
                yield Button("Back", id="leave", compact=True)
        del page

    @property
    def values(self) -> dict[str, str]:
        """What stands in the fields."""
        return {field.name: self.query_one(f"#field-{field.name}", Input).value for field in self._fields}

    @property
    def changed(self) -> bool:
        """Whether anything was typed."""
        return any(self.values[field.name] != field.value for field in self._fields)

    @on(Input.Submitted)
    def _next(self, message: Input.Submitted) -> None:
        """Enter goes to the next field, and after the last it saves."""
        message.stop()
        inputs = list(self.query(Input))
        place = inputs.index(message.input)
        if place + 1 < len(inputs):
            inputs[place + 1].focus()
        else:
            self.action_save()

    @on(Button.Pressed, "#save")
    def _save_pressed(self, message: Button.Pressed) -> None:
        message.stop()
        self.action_save()

    @on(Button.Pressed, "#leave")
    def _leave_pressed(self, message: Button.Pressed) -> None:
        message.stop()
        self.action_back()

    def action_save(self) -> None:
        """Run the job; stay if it could not be done, or until what it asks is answered."""
        self.shop_app.talk.run_job(lambda: self._followed(self._save(self.values)))

    def _followed(self, answer: Answer) -> Answer:
        """Close once the job is done, also where it is done by the answer to a question."""
        if answer.said is Said.DONE:
            self.close(saved=True)
        asked = answer.question
        if asked is None:
            return answer
        yes, accepts = asked.yes, asked.accepts

        def accepted(text: str) -> Answer | None:
            reply = accepts(text) if accepts else None
            return None if reply is None else self._followed(reply)

        question = Question(
            yes=(lambda: self._followed(yes())) if yes else None,
            choices=tuple(Choice(choice.label, self._follower(choice.take)) for choice in asked.choices),
            accepts=accepted if accepts else None,
        )
        return replace(answer, question=question)

    def _follower(self, take: Callable[[], Answer]) -> Callable[[], Answer]:
        return lambda: self._followed(take())

    def close(self, *, saved: bool) -> None:
        """Go away now, or as soon as the form is in front again."""
        if self.is_current:
            self.dismiss(result=saved)
        else:
            self._outcome = saved

    def on_screen_resume(self) -> None:
        """Go away if the last question was answered while another screen was in front."""
        if self._outcome is not None:
            self.call_after_refresh(self._close_late, self._outcome)

    def _close_late(self, saved: bool) -> None:  # noqa: FBT001 - called by position
        if self.is_current and self._outcome is not None:
            self._outcome = None
            self.dismiss(result=saved)

    def step_back(self) -> None:
        """Leave, and ask first where words would be lost."""
        if self.changed:
            self.shop_app.talk.ask(
                f"Leave without saving? What was typed into {self._title} is then lost.",
                lambda: self.close(saved=False),
                "The form is left; nothing was saved.",
            )
        else:
            self.close(saved=False)

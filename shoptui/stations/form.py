"""One form for everything that has to be typed: labelled fields, what is wrong with them, save and back."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from typing import ClassVar

from textual import events, on
from textual.binding import BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.widget import Widget
from textual.widgets import Button, Input, Static

from shoptui.domain.inert import inert
from shoptui.jobs.answers import Answer, Choice, Question, Said, done, stop
from shoptui.stations.field import Field, entry_of
from shoptui.stations.keys import here
from shoptui.stations.name_field import NameInput, Offered
from shoptui.stations.question import QuestionPanel
from shoptui.stations.shell import Shell

Save = Callable[[Mapping[str, str]], Answer]
"""Runs the job; an answer other than done keeps the form open."""


class Form(Shell[bool]):
    """Asks for some fields, then runs a job with them; closes with whether it was done."""

    DEFAULT_CSS = """
    Form {
        & .fields { padding: 1 2; height: 1fr; }
        & .field { height: 1; margin-bottom: 1; }
        & .field.-offering { margin-bottom: 0; }
        & .label { width: 22; color: $foreground; }
        & Input { width: 1fr; background: $surface; color: $foreground; }
        & Input:focus { background: $panel; text-style: bold; }
        &:ansi Input > .input--cursor { text-style: reverse; }
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
        self._new: dict[str, str] = {}
        """Name of a field to the name in it that was said to be a new one."""
        self._left_for_question: Widget | None = None
        self._outcome: bool | None = None
        """Whether it was saved, once the form is done with but another screen lies in front."""

    def on_mount(self) -> None:
        """Words typed for the list beneath stay behind."""
        self.shop_app.clear_line()

    def heading(self) -> str:
        """Return what the form is for."""
        return self._title

    def body(self) -> Iterable[Widget]:
        """Lay the fields out, one to a line."""
        with VerticalScroll(classes="fields", can_focus=False) as page:
            if self._about:
                yield Static(inert(self._about, limit=600), classes="about", markup=False)
            for field in self._fields:
                entry = entry_of(field)
                with Horizontal(classes="field"):
                    yield Static(field.label, classes="label", markup=False)
                    yield entry
                if isinstance(entry, NameInput):
                    yield entry.offered
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
        if isinstance(message.input, NameInput):
            self._settle(message.input)
        if not self._after(message.input):
            self.action_save()

    def _after(self, entry: Input) -> bool:
        """Go to the next field; return whether there is one."""
        inputs = list(self.query(Input))
        place = inputs.index(entry) + 1
        # At once: `Widget.focus` comes later, and would take it back from the field that a refusal goes to.
        self.set_focus(inputs[place] if place < len(inputs) else entry)
        return place < len(inputs)

    @on(events.DescendantFocus)
    @on(Input.Changed)
    def _offer(self) -> None:
        """List the known names beneath the field that is typed in, and nowhere else."""
        for entry in self.query(NameInput):
            entry.offer()
            if entry.parent is not None:
                entry.parent.set_class(entry.offered.has_class("-open"), "-offering")

    @on(Input.Blurred)
    def _left(self, message: Input.Blurred) -> None:
        """Leaving a field takes the only name that matches."""
        if isinstance(message.input, NameInput):
            self._settle(message.input)
            self._offer()

    def _settle(self, entry: NameInput) -> None:
        typed = entry.value.strip()
        if (name := entry.settle()) is not None:
            words = f"“{typed}” is taken for {name}. If it is another, type it again."
            self.shop_app.talk.hear(done(words))

    @on(Offered.Taken)
    def _tapped(self, message: Offered.Taken) -> None:
        message.stop()
        for entry in self.query(NameInput):
            if entry.offered is message.offered:
                entry.take(message.name)
                self._after(entry)

    def on_click(self, event: events.Click) -> None:
        """A tap on a label goes to its field."""
        tapped = event.widget
        if tapped is not None and tapped.has_class("label") and tapped.parent is not None:
            tapped.parent.query_one(Input).focus()

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
        self.shop_app.talk.run_job(self._job)
        asked = self.shop_app.talk.open_question
        if asked is not None and asked.question is not None and asked.question.choices and self.is_current:
            # A number that is typed now is an answer, not more of a field.
            self._left_for_question = self.focused
            self.set_focus(self.query_one(QuestionPanel))

    def show_said(self) -> None:
        """Go back to the field once its question is answered or dropped."""
        super().show_said()
        if self._left_for_question is not None and self.shop_app.talk.open_question is None:
            self.set_focus(self._left_for_question)
            self._left_for_question = None

    def _job(self) -> Answer:
        values = self.values
        for field in self._fields:
            # All fields are read before a name is asked about: nobody says yes to what cannot be saved.
            if (wrong := _wrong(field, values[field.name])) is not None:
                self._go_to(field)
                return wrong
        for field in self._fields:
            if (question := self._ask_name(field)) is not None:
                return question
        return self._followed(self._save(self.values))

    def _go_to(self, field: Field) -> None:
        """Put the cursor into a field, also if the question that is being answered holds it now."""
        entry = self.query_one(f"#field-{field.name}", Input)
        if self._left_for_question is not None:
            self._left_for_question = entry
        self.set_focus(entry)

    def _ask_name(self, field: Field) -> Answer | None:
        """Ask about a name that is not known as it stands: it never makes a new record by itself."""
        entry = self.query_one(f"#field-{field.name}", Input)
        if not isinstance(entry, NameInput):
            return None
        self._settle(entry)
        text = entry.value.strip()
        if not text or entry.known.exact(text) or text == self._new.get(field.name):
            return None

        def means(name: str) -> Callable[[], Answer]:
            return lambda: self._named(field, entry, name)

        matches = () if entry.is_meant else entry.known.matches(text)
        if not matches:
            words = f"{inert(text)} is not known here. Enter makes it new."
            return Answer(Said.QUESTION, words, question=Question(yes=means(text)))
        return Answer(
            Said.QUESTION,
            f"“{inert(text)}” fits {len(matches)} names. Which is it? Its number, then Enter.",
            question=Question(
                choices=(
                    *(Choice(name, means(name)) for name in matches),
                    Choice(f"none of them: {text} is new", means(text)),
                )
            ),
        )

    def _named(self, field: Field, entry: NameInput, name: str) -> Answer:
        self._new[field.name] = name
        entry.take(name)
        entry.mean()
        return self._job()

    def _followed(self, answer: Answer) -> Answer:
        """Close once the job is done, also where it is done by the answer to a question."""
        if answer.said is Said.DONE:
            self.close(saved=True)
        elif answer.said is Said.STOP:
            named = next((field for field in self._fields if field.is_named_in(answer.text)), None)
            if named is not None:
                self._go_to(named)
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
            self._leave(saved=saved)
        else:
            self._outcome = saved

    def on_screen_resume(self) -> None:
        """Go away if the last question was answered while another screen was in front."""
        if self._outcome is not None:
            self.call_after_refresh(self._close_late, self._outcome)

    def _close_late(self, saved: bool) -> None:  # noqa: FBT001 - called by position
        if self.is_current and self._outcome is not None:
            self._outcome = None
            self._leave(saved=saved)

    def _leave(self, *, saved: bool) -> None:
        self.shop_app.clear_line()
        self.dismiss(result=saved)

    def step_back(self) -> None:
        """Leave, and ask first where words would be lost."""
        if self.changed:
            self.shop_app.talk.ask(
                "Leave the form? What you typed is dropped. Enter leaves, Escape stays.",
                lambda: self.close(saved=False),
                "The form is left; nothing was saved.",
            )
        else:
            self.close(saved=False)


def _wrong(field: Field, text: str) -> Answer | None:
    """Say what is wrong with a field, None if nothing is; an empty one is the job's to judge."""
    if field.check is None or not text.strip():
        return None
    try:
        field.check(text.strip())
    except ValueError as error:
        return stop(f"{field.label}: {error}")
    return None

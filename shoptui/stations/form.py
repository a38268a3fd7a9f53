"""One form for everything that has to be typed: labelled fields, what is wrong with them, save and back."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.binding import BindingType
from textual.widgets import Button, Input

from shoptui.domain.row_text import Row
from shoptui.jobs.answers import Answer, Question, Said, stop
from shoptui.stations.draft import Draft
from shoptui.stations.field import Field, Lines
from shoptui.stations.form_fields import FormFields
from shoptui.stations.keys import here
from shoptui.stations.lines_entry import LinesEntry
from shoptui.stations.lines_page import LinesPage
from shoptui.stations.name_field import NameInput
from shoptui.stations.question import QuestionPanel
from shoptui.stations.which_name import which_name

if TYPE_CHECKING:
    from textual.widget import Widget

Save = Callable[[Mapping[str, str]], Answer]
"""Runs the job; an answer other than done keeps the form open, and goes to the field that it names."""


class Form(FormFields):
    """Asks for some fields, then runs a job with them; closes with whether it was done.

    Args:
        title: What the form is for.
        fields: What it asks for.
        save: Runs the job with what stands in the fields.
        about: What stands above the fields.
        draft: Name under which what is half typed is kept; empty keeps nothing.
        typed: Takes what stands in the fields whenever that changes: a line goes into its list half typed.

    """

    BINDINGS: ClassVar[list[BindingType]] = [
        here("ctrl+g", "save", "Save", "Save what the form says", "form.save"),
    ]

    def __init__(
        self,
        title: str,
        fields: tuple[Field, ...],
        save: Save,
        *,
        about: str = "",
        draft: str = "",
        typed: Callable[[Row], None] | None = None,
    ) -> None:
        super().__init__(title, fields, about)
        self._save = save
        self._passes_on = typed
        self._draft = Draft(self, draft)
        self._new: dict[str, str] = {}
        """Name of a field to the name in it that was said to be a new one."""
        self._left_for_question: Widget | None = None
        self._outcome: bool | None = None
        """Whether it was saved, once the form is done with but another screen lies in front."""

    def on_mount(self) -> None:
        """Words typed for the list beneath stay behind; what was half typed here before comes back."""
        self.shop_app.clear_line()
        self._draft.open()

    def on_unmount(self) -> None:
        """What was typed a moment before the program closes is kept too."""
        self._draft.flush()

    @on(Input.Changed)
    @on(LinesEntry.Changed)
    def _keep_draft(self) -> None:
        self._draft.typed()
        if self._passes_on is not None and self.changed:
            self._passes_on(self.values)

    # Lists within it

    @on(LinesEntry.Opened)
    def _open_lines(self, message: LinesEntry.Opened) -> None:
        message.stop()
        entry = message.entry
        lines = next(field.lines for field in self._fields if self._entries[field.name] is entry)
        if lines is not None:
            ask, changed = partial(self._line_form, lines), partial(setattr, entry, "value")
            self.app.push_screen(LinesPage(self.form_title, lines, entry.value, ask, changed, self.values))

    def _line_form(
        self, lines: Lines, row: Row, take: Callable[[Row], Answer], typed: Callable[[Row], None]
    ) -> "Form":
        """Return the form of one line of a list."""
        fields = tuple(replace(field, value=row.get(field.name, field.value)) for field in lines.fields)
        title = f"{self.form_title}: {'a ' + lines.one if row else 'a new ' + lines.one}"
        return Form(title, fields, lambda values: take(dict(values)), about=lines.about, typed=typed)

    # Saving

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
        self.shop_app.asking.drop()
        self.shop_app.talk.run_job(self._job)
        asked = self.shop_app.asking.open_question
        if asked is not None and asked.question is not None and asked.question.choices and self.is_current:
            # A number that is typed now is an answer, not more of a field.
            self._left_for_question = self.focused
            self.set_focus(self.query_one(QuestionPanel))

    def show_said(self) -> None:
        """Go back to the field once its question is answered or dropped."""
        super().show_said()
        if self._left_for_question is not None and self.shop_app.asking.open_question is None:
            self.set_focus(self._left_for_question)
            self._left_for_question = None

    def _job(self) -> Answer:
        questions: list[Answer] = []
        for field in self._fields:
            # All fields are read before a name is asked about: nobody says yes to what cannot be saved.
            question = self._ask_name(field)
            if question is not None:
                questions.append(question)
            elif (wrong := _wrong(field, self._entries[field.name].value)) is not None:
                self._go_to(field.name)
                return wrong
        return questions[0] if questions else self._followed(self._save(self.values))

    def _ask_name(self, field: Field) -> Answer | None:
        """Take the only name that is meant by what was typed; ask where there are several, or none."""
        entry = self._entries[field.name]
        if not isinstance(entry, NameInput):
            return None
        self._settle(entry)
        return which_name(entry, self._new.get(field.name, ""), partial(self._named, field.name, entry))

    def _go_to(self, name: str) -> None:
        """Put the cursor into a field, also if the question that is being answered holds it now."""
        entry = self._entries.get(name)
        if entry is None:
            return
        if self._left_for_question is not None:
            self._left_for_question = entry
        self.set_focus(entry)

    def _named(self, field: str, entry: NameInput, name: str) -> Answer:
        self._new[field] = name
        entry.take(name)
        entry.mean()
        return self._job()

    def _followed(self, answer: Answer) -> Answer:
        """Close once the job is done, also where it is done by the answer to a question."""
        if answer.said is Said.DONE:
            self.close(saved=True)
        elif answer.said is Said.STOP:
            self._go_to(answer.field)
        asked = answer.question
        if asked is None:
            return answer
        yes, accepts = asked.yes, asked.accepts

        def accepted(text: str) -> Answer | None:
            reply = accepts(text) if accepts else None
            return None if reply is None else self._followed(reply)

        question = Question(
            yes=(lambda: self._followed(yes())) if yes else None,
            choices=tuple(replace(choice, take=self._follower(choice.take)) for choice in asked.choices),
            accepts=accepted if accepts else None,
        )
        return replace(answer, question=question)

    def _follower(self, take: Callable[[], Answer]) -> Callable[[], Answer]:
        return lambda: self._followed(take())

    # Leaving

    def close(self, *, saved: bool) -> None:
        """Go away now, or as soon as the form is in front again."""
        self._draft.close()
        if self._is_in_front:
            self._leave(saved=saved)
        else:
            self._outcome = saved

    def on_screen_resume(self) -> None:
        """Go away if the last question was answered while another screen was in front."""
        if self._outcome is not None:
            self.call_after_refresh(self._close_late, self._outcome)

    def _close_late(self, saved: bool) -> None:  # noqa: FBT001 - called by position
        if self._is_in_front and self._outcome is not None:
            self._outcome = None
            self._leave(saved=saved)

    @property
    def _is_in_front(self) -> bool:
        """Whether nothing lies over it, a page of help neither: what is left is always what lies on top."""
        return self.app.screen is self

    def _leave(self, *, saved: bool) -> None:
        self.shop_app.clear_line()
        self.dismiss(result=saved)

    def step_back(self) -> None:
        """Leave, and ask first where words would be lost."""
        if self.changed:
            self.shop_app.asking.ask(
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
        return stop(f"{field.label}: {error}", field=field.name)
    return None

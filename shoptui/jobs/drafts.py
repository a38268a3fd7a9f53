"""What is half typed in a form, kept for each terminal, so that a crash loses none of it.

A terminal keeps one draft: what was typed last. It is no part of the history.
"""

from collections.abc import Mapping

from shoptui.domain.inert import inert
from shoptui.domain.records import DraftValue
from shoptui.jobs.at import At


def keep_draft(at: At, form: str, values: Mapping[str, str], before: Mapping[str, str]) -> None:
    """Write down what was typed into a form.

    Args:
        at: Where it lies open.
        form: Name of the form: `parts 12`, `parts new`, `order 12`.
        values: What stands in its fields.
        before: What stood in them when it was opened.

    """
    draft = tuple(
        DraftValue(name, text, before.get(name, ""))
        for name, text in values.items()
        if text != before.get(name, "")
    )
    at.shop.remember(at.terminal, form=form, draft=draft)


def open_draft(at: At, form: str) -> tuple[DraftValue, ...]:
    """Say that a form lies open here; return what was half typed in it before.

    What is half typed in another form stays kept until something is typed into this one.
    """
    memory = at.memory
    if memory.form == form:
        return memory.draft
    if not memory.draft:
        at.shop.remember(at.terminal, form=form)
    return ()


def drop_draft(at: At, form: str) -> None:
    """Forget what was typed into a form: it is saved, or let go of."""
    if at.memory.form == form:
        at.shop.remember(at.terminal, form="", draft=())


def open_elsewhere(at: At, form: str) -> str:
    """Say at which other terminal a form lies open, and with whom; empty if at none."""
    for other in at.shop.terminals.all():
        if other.form == form and other.code != at.terminal:
            person = At(at.shop, other.code).person
            who = f"{inert(person.name)} at {inert(other.code)}" if person else inert(other.code)
            return f"It lies open at another terminal too: {who}. What is saved there first is shown here."
    return ""

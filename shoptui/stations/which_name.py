"""Asks about a name in a form that is not known as it stands: it never makes a new record by itself."""

from collections.abc import Callable

from shoptui.domain.inert import inert
from shoptui.jobs.answers import Answer, Choice, Question, Said
from shoptui.stations.name_field import NameInput


def which_name(entry: NameInput, said_new: str, mean: Callable[[str], Answer]) -> Answer | None:
    """Return the question about the name in a field, None if there is nothing to ask.

    Args:
        entry: The field.
        said_new: The name in it that was said to be a new one.
        mean: Takes the answer: the name that is meant.

    """
    text = entry.asked
    if not text or entry.known.exact(text) or text == said_new:
        return None

    def means(name: str) -> Callable[[], Answer]:
        return lambda: mean(name)

    matches = () if entry.is_meant else entry.known.matches(text)
    if entry.closed and not matches:
        return None  # nothing to choose from: the job says what was expected
    if not matches:
        words = f"{inert(text)} is not known here. Enter makes it new."
        return Answer(Said.QUESTION, words, question=Question(yes=means(text)))
    choices = [Choice(name, means(name)) for name in matches]
    if not entry.closed:
        choices.append(Choice(f"none of them: {text} is new", means(text)))
    words = f"“{inert(text)}” fits {len(matches)} names. Which is it? Its number, then Enter."
    return Answer(Said.QUESTION, words, question=Question(choices=tuple(choices)))

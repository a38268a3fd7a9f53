"""An answer of the program on standard output, and what is said if nobody can read it."""

import re
import sys
from collections.abc import Iterator
from contextlib import contextmanager

from shoptui.cli.opening import CannotDoError
from shoptui.cli.output import LONGEST, as_json, lines, write, write_data
from shoptui.domain.inert import inert
from shoptui.jobs.answers import Answer, Said


def scanned(answer: Answer, *, json: bool) -> None:
    """Write the answer to a scan, one line, and send it on at once.

    Raises:
        CannotDoError: Nobody can read it. What the scan did stands, so the words say what that was.

    """
    with _heard(f"The answer to {inert(answer.code)}", answer, "; what came after it was not taken"):
        if json:
            write_data(f"{as_json(_values(answer), indent=None)}\n")
        else:
            told = (answer.said.value, answer.kind, _without_keys(answer.text))
            write("\t".join(inert(each, LONGEST) for each in told) + "\n")


def done_or_not(answer: Answer, *, json: bool) -> int:
    """Write what a command did, or why it changed nothing; return the exit code.

    Raises:
        CannotDoError: It was not done, and the words say why; or nobody can read that it was.

    """
    done = answer.said is Said.DONE
    if json:
        with _heard("The answer", answer):
            choices = [choice.label for choice in answer.question.choices] if answer.question else []
            write_data(f"{as_json({**_values(answer), 'choices': choices}, indent=None)}\n")
        return 0 if done else 1
    if not done:
        raise CannotDoError(_why_not(answer))
    with _heard("The answer", answer):
        lines([_without_keys(answer.text)])
    return 0


def _why_not(answer: Answer) -> str:
    question = answer.question
    text = _without_keys(answer.text)
    if question is None:
        return text
    ways = [f"{count} {inert(choice.label)}" for count, choice in enumerate(question.choices, 1)]
    say = ["yes with --yes"] if question.yes is not None else []
    say += [f"which with --choose: {'; '.join(ways)}"] if ways else []
    return f"{text} Nothing changed{'; say ' if say else ''}{' or '.join(say)}."


@contextmanager
def _heard(what: str, answer: Answer, rest: str = "") -> Iterator[None]:
    try:
        yield
        sys.stdout.flush()
    except OSError as error:
        why = (error.strerror or "the system refused it").lower()
        stands = "What it did stands" if answer.said is Said.DONE else "It changed nothing"
        raise CannotDoError(
            f"{what} could not be written ({why}): {inert(answer.text, 400)} {stands}{rest}."
        ) from error


def _without_keys(text: str) -> str:
    """Return a sentence without the keys of the screens that it names in brackets.

    >>> _without_keys("What becomes of it (Ctrl+K) can wait.")
    'What becomes of it can wait.'
    """
    return _KEYS.sub("", text)


_KEYS = re.compile(r" \(Ctrl\+[A-Z]\)")


def _values(answer: Answer) -> dict[str, object]:
    return {
        "answer": answer.said.value,
        "kind": answer.kind,
        "code": answer.code,
        "text": _without_keys(answer.text),
        "part": answer.part,
        "qty": answer.qty,
        "state": answer.state,
        "where": answer.where,
    }

"""How a script's deeds are done: at one terminal, by somebody, their questions answered beforehand."""

import argparse
from collections.abc import Callable, Iterator

from shoptui.cli.answering import done_or_not
from shoptui.cli.named import part_of, person_of
from shoptui.cli.opening import build_of, opened, terminal_name
from shoptui.cli.progress import under_way
from shoptui.domain.inert import inert
from shoptui.domain.records import Part
from shoptui.jobs.answers import Answer, Question, Said, Work
from shoptui.jobs.at import At

Job = Callable[[At], Answer]


def do(arguments: argparse.Namespace, job: Job, kind: str, code: str) -> int:
    """Do one job, answer what it asks as was said before, and tell.

    Args:
        arguments: With `build`, `who`, `yes`, `choose` and `json`.
        job: Does it; what cannot be named is raised.
        kind: What it is done to: part, bin, filming day.
        code: As it was typed.

    Returns:
        Exit code.

    """
    name = terminal_name(arguments)
    with opened(arguments) as shop:
        build_of(shop, arguments.build)
        person_of(shop, arguments.who)
        answer = job(At(shop, name, build_given=arguments.build, who_given=arguments.who))
        chosen = iter(arguments.choose)
        while answer.said is Said.QUESTION and answer.question is not None:
            reply = _reply(answer.question, chosen, yes=arguments.yes)
            if reply is None:
                break
            answer = reply()
    return done_or_not(answer.of(kind, code), json=arguments.json)


def _reply(question: Question, chosen: Iterator[int], *, yes: bool) -> Callable[[], Answer] | None:
    """Return what was said before to a question: the next number where it has choices, else yes."""
    if question.choices and (number := next(chosen, None)) is not None:
        return question.choices[number - 1].take if number <= len(question.choices) else None
    return question.yes if yes else None


def worked(answer: Answer) -> Answer:
    """Do the work that an answer says is to be done, and return the true answer; any other as it is.

    Raises:
        KeyboardInterrupt: It was stopped; with the words.

    """
    if not isinstance(answer.work, Work):
        return answer
    with under_way("Nothing changed.") as shown:
        answer = answer.work.at_once()
    if not shown.goes_on and answer.said is Said.STOP:
        raise KeyboardInterrupt(answer.text)
    return answer


def do_with_part(arguments: argparse.Namespace, job: Callable[[At, Part], Answer]) -> int:
    """Do a job with the part that the code stands for."""
    return do(arguments, lambda at: job(at, part_of(at, arguments.code)), "part", inert(arguments.code))

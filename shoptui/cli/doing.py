"""How a script's deeds are done: at one terminal, by somebody, their questions answered by --yes."""

import argparse
from collections.abc import Callable

from shoptui.cli.answering import done_or_not
from shoptui.cli.named import person_of
from shoptui.cli.opening import build_of, opened, terminal_name
from shoptui.jobs.answers import Answer, Said
from shoptui.jobs.at import At

Job = Callable[[At], Answer]


def do(arguments: argparse.Namespace, job: Job, kind: str, code: str) -> int:
    """Do one job, answer what it asks with yes where that was said before, and tell.

    Args:
        arguments: With `build`, `who`, `yes` and `json`.
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
        while arguments.yes and answer.said is Said.QUESTION and answer.question and answer.question.yes:
            answer = answer.question.yes()
    return done_or_not(answer.of(kind, code), json=arguments.json)

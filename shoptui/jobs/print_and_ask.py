"""Printing, then asking how it came out: one kind of label after the other, and on to what comes next."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any

from shoptui.jobs.answers import Answer, Question, Said, Work, done
from shoptui.jobs.at import At
from shoptui.jobs.came_out import ask_came_out
from shoptui.labels.files import KINDS as FILES

Then = Callable[[Answer], Answer]
"""Given what was said last, goes on."""

BY_HAND = "Print the file at its actual size first."


def _no_more(answer: Answer) -> Answer:
    return answer


def then_ask(at: At, answers: Sequence[Answer], then: Then = _no_more) -> Answer:
    """Return one answer for several printings: its work does them all, its end asks how each came out.

    Args:
        at: Where it is done.
        answers: Of `print_labels` and its like; those that are stops are said at the end.
        then: What comes when all of them came out well.

    """
    works = [answer.work for answer in answers if isinstance(answer.work, Work)]
    trouble = " ".join(answer.text for answer in answers if not isinstance(answer.work, Work))
    if not works:
        return answers[0]

    def finish(results: list[Any]) -> Answer:
        printed = [work.finish(result) for work, result in zip(works, results, strict=False)]
        words = " ".join(filter(None, (*(answer.text for answer in printed), trouble)))
        runs = tuple(each.subject for each in printed if each.said is Said.DONE and each.subject)
        stopped = [each for each in printed if each.said is not Said.DONE]
        if stopped or trouble or not runs:
            # What went wrong is read first; what came out waits on the list of labels.
            return replace(stopped[0] if stopped else answers[0], said=Said.STOP, text=words, work=None)
        return ask_each(at, runs, then, after=words)

    words = works[0].words if len(works) == 1 else "Drawing labels"
    work = Work(words, partial(_one_after_the_other, works), finish)
    return done(f"{words} ...", kind="labels", work=work)


def _one_after_the_other(works: Sequence[Work], progress: Callable[[int, int], bool]) -> list[Any]:
    """Do some work and then the next; what was stopped says so itself, and ends the rest too."""
    results: list[Any] = []
    before, goes_on = 0, True
    for work in works:
        far = 0

        def so_far(done_: int, all_: int) -> bool:
            nonlocal far, goes_on
            far = all_
            goes_on = progress(before + done_, before + all_)  # noqa: B023 - called while it is so
            return goes_on

        results.append(work.run(so_far))
        before += far
        if not goes_on:
            break
    return results


def ask_each(
    at: At, runs: Sequence[int], then: Then = _no_more, *, before: str = "", after: str = ""
) -> Answer:
    """Ask of each run in turn whether its labels came out well.

    Args:
        at: Where it is asked.
        runs: Their ids, one or more.
        then: What comes when all of them did.
        before: What is said before the question.
        after: What may be read after it.

    """
    first, *others = runs
    run = at.shop.label_runs.get(first)
    asked = ask_came_out(at, run)
    question = asked.question
    assert question is not None  # noqa: S101 - it asks
    yes, accepts = question.yes, question.accepts
    by_hand = BY_HAND if Path(run.to).suffix.lower() in FILES else ""

    def go_on(answer: Answer) -> Answer:
        return ask_each(at, others, then, before=answer.text) if others else then(answer)

    def agreed() -> Answer:
        answer = yes() if yes is not None else asked
        return go_on(answer) if answer.said is Said.DONE else answer

    def again(text: str) -> Answer | None:
        answer = accepts(text) if accepts is not None else None
        return None if answer is None else then_ask(at, (answer,), go_on)

    words = " ".join(filter(None, (before, asked.text, by_hand, after)))
    return replace(asked, text=words, question=Question(yes=agreed, accepts=again))

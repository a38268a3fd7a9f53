"""Printing, then asking how it came out: one kind of label after the other, and on to what comes next."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from typing import Any

from shoptui.domain.inert import inert
from shoptui.jobs.answers import Answer, Choice, Question, Said, Work, done
from shoptui.jobs.at import At
from shoptui.jobs.came_out import ask_came_out
from shoptui.jobs.label_output import LONGEST_PATH

Then = Callable[[Answer], Answer]
"""Given what was said last, goes on."""


def _no_more(answer: Answer) -> Answer:
    return answer


def then_ask(at: At, answers: Sequence[Answer], then: Then = _no_more, failed: Then = _no_more) -> Answer:
    """Return one answer for several printings: its work does them all, its end asks how each came out.

    Args:
        at: Where it is done.
        answers: Of `print_labels` and its like; those that are stops are said at the end.
        then: What comes when all of them came out well.
        failed: What comes when something could not be printed.

    """
    works = [answer.work for answer in answers if isinstance(answer.work, Work)]
    trouble = " ".join(answer.text for answer in answers if not isinstance(answer.work, Work))
    if not works:
        return failed(answers[0])

    def finish(results: list[Any]) -> Answer:
        printed = [work.finish(result) for work, result in zip(works, results, strict=False)]
        words = " ".join(filter(None, (*(answer.text for answer in printed), trouble)))
        runs = tuple(each.subject for each in printed if each.said is Said.DONE and each.subject)
        stopped = [each for each in printed if each.said is not Said.DONE]
        if stopped or trouble or not runs:
            # What went wrong is read first; what came out waits on the list of labels.
            return failed(
                replace(stopped[0] if stopped else answers[0], said=Said.STOP, text=words, work=None)
            )
        beside = " ".join(filter(None, (_beside(at, each) for each in printed)))
        return ask_each(at, runs, then, after=beside)

    words = works[0].words if len(works) == 1 else "Drawing labels"
    work = Work(words, partial(_one_after_the_other, works), finish)
    return done(f"{words} ...", kind="labels", work=work)


def _beside(at: At, printed: Answer) -> str:
    """Return what was said of a printing without its file, which the question names."""
    return printed.text.split(f" in {inert(at.shop.label_runs.get(printed.subject).to, LONGEST_PATH)}. ")[-1]


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
    at: At,
    runs: Sequence[int],
    then: Then = _no_more,
    *,
    before: str = "",
    after: str = "",
    by_number: bool = False,
) -> Answer:
    """Ask of each run in turn whether its labels came out well.

    Args:
        at: Where it is asked.
        runs: Their ids, one or more.
        then: What comes when all of them did.
        before: What is said before the question.
        after: What may be read after it.
        by_number: Whether only a number says so: where Enter may be meant for something else.

    """
    first, *others = runs
    asked = ask_came_out(at, at.shop.label_runs.get(first), by_number=by_number)
    question = asked.question
    assert question is not None  # noqa: S101 - it asks

    def go_on(answer: Answer) -> Answer:
        return ask_each(at, others, then, before=answer.text, by_number=by_number) if others else then(answer)

    def failed(answer: Answer) -> Answer:
        """Say what is wrong, and ask on: of this run too, if nobody has said yet how it came out."""
        found = (at.shop.label_runs.get(run) for run in runs)
        left = [run.id for run in found if run.came is None and not run.withdrawn]
        return ask_each(at, left, then, before=answer.text, by_number=by_number) if left else answer

    def on(answer: Answer) -> Answer:
        """Follow what was answered: said, printed again, or asked once more."""
        if answer.work is not None:
            return then_ask(at, (answer,), go_on, failed)
        if answer.question is not None:
            return replace(answer, question=followed(answer.question))
        return go_on(answer) if answer.said is Said.DONE else failed(answer)

    def followed(asks: Question) -> Question:
        yes, accepts = asks.yes, asks.accepts
        return replace(
            asks,
            yes=None if yes is None else lambda: on(yes()),
            choices=tuple(replace(each, take=partial(_taken, each, on)) for each in asks.choices),
            accepts=None if accepts is None else lambda text: _if_any(accepts(text), on),
        )

    words = " ".join(filter(None, (before, asked.text, after)))
    return replace(asked, text=words, question=followed(question))


def _taken(choice: Choice, on: Then) -> Answer:
    return on(choice.take())


def _if_any(answer: Answer | None, on: Then) -> Answer | None:
    return None if answer is None else on(answer)

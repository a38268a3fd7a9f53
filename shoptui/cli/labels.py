"""Printing labels from a script, and saying whether they came out well."""

import argparse
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from typing import Any

from shoptui.cli.doing import do, worked
from shoptui.cli.named import meant, part_of
from shoptui.cli.opening import CannotDoError, build_of
from shoptui.domain.inert import inert
from shoptui.domain.recognise import read
from shoptui.domain.tags import Kind
from shoptui.jobs import print_labels as printing
from shoptui.jobs.answers import Answer, Question, Said, done
from shoptui.jobs.at import At, shown
from shoptui.jobs.bins_in_rows import bins_in_rows, bins_of, rows_said
from shoptui.jobs.came_out import came_out, last_run, open_runs, run_words
from shoptui.jobs.label_kinds import BLANKS, COMMANDS, KINDS, LabelKind, kind_of, lacking, lacks, of_build
from shoptui.jobs.label_output import Onto
from shoptui.jobs.label_printers import choice_of, measured, print_test_page, stock_named
from shoptui.labels.errors import LabelError
from shoptui.store.code_feed import TAGGED

LISTED = 8
"""Codes that a sentence names."""

WHERE_TO = "Say where to: --out FILE.pdf, or --print."
MEASURED = "What you measured: the same with --across MM, --down MM, --left MM, --top MM."


def _things(many: str, arguments: argparse.Namespace) -> int:
    """Print the labels of one kind of things."""
    kind = KINDS[many]

    def job(at: At) -> Answer:
        things = _named_all(at, kind, arguments)
        if arguments.again_from is not None:
            return _again(at, kind.layout, arguments, tuple(thing.id for thing in things))
        if getattr(arguments, "rows", None):
            if things:
                raise CannotDoError("Codes or --rows were expected, not both: --rows names the bins itself.")
            return _in_rows(at, kind, arguments)
        return _print(at, kind, things if arguments.codes else _chosen(at, kind, arguments), arguments)

    return do(arguments, job, "labels", many)


bins = partial(_things, "bins")
parts = partial(_things, "parts")
hardware = partial(_things, "hardware")
bags = partial(_things, "bags")
boxes = partial(_things, "boxes")
vehicles = partial(_things, "vehicles")
wrenches = partial(_things, "wrenches")
people = partial(_things, "people")


def commands(arguments: argparse.Namespace) -> int:
    """Print the page of commands and positions."""

    def job(at: At) -> Answer:
        if arguments.again_from is not None:
            return _again(at, COMMANDS, arguments)
        return _onto(
            at, arguments, "The page of commands and positions", partial(printing.print_commands, at)
        )

    return do(arguments, job, "labels", "commands")


def blanks(arguments: argparse.Namespace) -> int:
    """Print tags that stand for nothing yet."""
    kind = Kind[arguments.kind.upper()]

    def job(at: At) -> Answer:
        if arguments.again_from is not None:
            return _again(at, BLANKS[kind], arguments)
        count = arguments.count or _one_sheet(at, BLANKS[kind], arguments)
        print_ = partial(printing.print_blanks, at, kind, count)
        return _onto(at, arguments, f"{count} blank {kind.words} tags", print_)

    return do(arguments, job, "labels", "blanks")


def said(arguments: argparse.Namespace) -> int:
    """Write down that what was printed last came out well, or how much of it."""

    def job(at: At) -> Answer:
        run = last_run(at, said=False)
        if run is None:
            raise CannotDoError(
                f"Of all labels printed at {inert(at.terminal)} it is known how they came out. Others are "
                "listed by shoptui labels lacking; say which terminal with --terminal NAME."
            )
        answer = came_out(at, run, arguments.number)
        others = [each for each in open_runs(at.shop) if each.terminal == at.terminal]
        if answer.said is not Said.DONE:
            return answer
        left = f" Not said yet: {run_words(others[-1])}." if others else ""
        return replace(answer, text=f"{run_words(run)}: {answer.text}{left}")

    return do(arguments, job, "labels", "came-out")


def test_page(arguments: argparse.Namespace) -> int:
    """Print a test page, or keep what was measured on it."""
    sides = {side: getattr(arguments, side) for side in ("across", "down", "left", "top")}

    def job(at: At) -> Answer:
        usual = choice_of(at.shop, "part")
        stock = arguments.label_stock or usual.stock
        queue = usual.queue if arguments.queue is None else arguments.queue
        if any(each is not None for each in sides.values()):
            return measured(at, stock, queue, **sides)
        onto = Onto(file=arguments.out, print=_to_queue(arguments), queue=queue)
        if onto.file is None and not onto.print:
            raise CannotDoError(f"Nothing was printed, and nothing measured. {WHERE_TO} {MEASURED}")
        answer = worked(print_test_page(at, stock, onto))
        return replace(answer, text=f"{answer.text} {MEASURED}") if answer.said is Said.DONE else answer

    return do(arguments, job, "labels", "test-page")


def _named_all(at: At, kind: LabelKind, arguments: argparse.Namespace) -> tuple[Any, ...]:
    """Return the things that were named, each once; with `--unlabelled` those that lack their label."""
    named = {thing.id: thing for code in arguments.codes if (thing := _named(at, kind, code))}
    return tuple(each for each in named.values() if not arguments.unlabelled or lacks(at.shop, each))


def _named(at: At, kind: LabelKind, code: str) -> Any:  # noqa: ANN401 - any record that carries a tag
    """Return the thing of a code.

    Raises:
        CannotDoError: There is none of that kind.

    """
    if kind.table == "parts":
        return _of_kind(at, kind, part_of(at, code), code)
    shelf = next(shelf for shelf in at.shop.shelves.values() if shelf.table == kind.table)
    found = shelf.by_code(code)
    if found is None:
        matches = [each for each in at.shop.codes.find(read(code)) if each.kind == TAGGED[kind.table]]
        found = shelf.get(matches[0].record) if len(matches) == 1 else None
    if found is None:
        names = {each.code: f"{kind.label(at.shop, each).title} ({shown(each.code)})" for each in shelf.all()}
        raise CannotDoError(f"There is no {kind.one} {inert(code)}.{meant(code, names)}")
    return _of_kind(at, kind, found, code)


def _of_kind(at: At, kind: LabelKind, found: Any, code: str) -> Any:  # noqa: ANN401 - any record that carries a tag
    if (other := kind_of(at.shop, found)).many != kind.many:
        raise CannotDoError(f"{inert(code)} is a {other.one}: shoptui labels {other.many} prints its label.")
    return found


def _chosen(at: At, kind: LabelKind, arguments: argparse.Namespace) -> tuple[Any, ...]:
    """Return all things of a kind, or those that lack their label."""
    build = build_of(at.shop, arguments.build)
    if arguments.all:
        return tuple(of_build(kind.every(at.shop), build))
    return lacking(at.shop, kind, build)


def _print(at: At, kind: LabelKind, things: tuple[Any, ...], arguments: argparse.Namespace) -> Answer:
    if not things:
        here = (
            f"There are no {kind.several or kind.many}"
            if arguments.all
            else f"No {kind.one} that is here lacks its label"
        )
        return done(f"{here}: nothing to print.")
    codes = ", ".join(shown(each.code) for each in things[:LISTED])
    more = f" and {len(things) - LISTED} more" if len(things) > LISTED else ""
    many = kind.one if len(things) == 1 else kind.many
    what = f"{len(things)} {many}: {codes}{more}"
    return _onto(at, arguments, what, partial(printing.print_labels, at, things))


def _onto(at: At, arguments: argparse.Namespace, what: str, print_: Callable[[Onto], Answer]) -> Answer:
    """Print, or say what would be printed where nobody said where to."""
    onto = _said(arguments)
    if onto.file is None and not onto.print:
        return done(f"To print: {what}. {WHERE_TO}")
    return _asking(at, worked(print_(onto)))


def _said(arguments: argparse.Namespace) -> Onto:
    return Onto(
        arguments.label_stock,
        arguments.start,
        arguments.copies,
        arguments.out,
        _to_queue(arguments),
        arguments.queue,
    )


def _to_queue(arguments: argparse.Namespace) -> bool:
    return arguments.print or arguments.queue is not None


def _asking(at: At, answer: Answer) -> Answer:
    """Add how to say whether the labels came out well, where some were printed."""
    if not answer.subject or at.shop.label_runs.get(answer.subject).came is not None:
        return answer
    how = "When they came out well: shoptui labels came-out. After a jam: the same again with --again-from N."
    return replace(answer, text=f"{answer.text} {how}")


def _again(at: At, layout: str, arguments: argparse.Namespace, records: tuple[int, ...] = ()) -> Answer:
    """Print what this terminal printed last of a kind again, from one of its labels."""
    run = last_run(at, layout)
    if run is None:
        raise CannotDoError(
            f"No {layout.replace('-', ' ')} labels were printed at {inert(at.terminal)}: there are none to "
            "print again."
        )
    if records and records != run.records:
        raise CannotDoError(
            f"The last ones printed here were others ({run_words(run)}): leave the codes out, or leave out "
            "--again-from."
        )
    what = f"{run_words(run)}, again from label {arguments.again_from}"
    return _onto(at, arguments, what, partial(printing.print_again, at, run, arguments.again_from))


def _in_rows(at: At, kind: LabelKind, arguments: argparse.Namespace) -> Answer:
    """Make bins in rows, then print the labels that they lack."""
    answer = bins_in_rows(at, arguments.rows, arguments.room)

    def then_print(before: Answer) -> Answer:
        every = bins_of(at.shop, rows_said(arguments.rows))
        things = tuple(each for each in every if arguments.all or lacks(at.shop, each))
        if before.said is not Said.DONE and len(every) < len(rows_said(arguments.rows).codes):
            return before
        printed = _print(at, kind, things, arguments)
        return replace(printed, text=f"{before.text} {printed.text}")

    if answer.question is None or answer.question.yes is None:
        return answer if answer.field else then_print(answer)
    make = answer.question.yes
    return replace(answer, question=Question(yes=lambda: then_print(make())))


def _one_sheet(at: At, layout: str, arguments: argparse.Namespace) -> int:
    """Return how many labels the rest of one sheet has."""
    try:
        stock = stock_named(at.shop, arguments.label_stock or choice_of(at.shop, layout).stock)
    except LabelError as error:
        raise CannotDoError(str(error)) from None
    if stock.roll:
        raise CannotDoError(f"{stock.name} is a roll: say how many with --count N.")
    start: int = arguments.start
    return max(1, stock.labels - start + 1)

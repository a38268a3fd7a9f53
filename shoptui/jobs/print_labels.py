"""Printing labels: of things, of commands, blank ones, and again after a jam.

What is printed is a run, which is written down when its file is there; whether its labels came out well is
asked after (`jobs/came_out.py`). Blank tags are written down first, so that none is ever given out twice.
"""

from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from typing import Any

from shoptui.domain.inert import inert
from shoptui.domain.records import LabelRun
from shoptui.domain.tags import Kind
from shoptui.jobs.answers import Answer, Said, done, stop
from shoptui.jobs.at import At
from shoptui.jobs.label_kinds import BLANKS, COMMANDS, KINDS, kind_of
from shoptui.jobs.label_output import Onto, Outcome, notes_words, output
from shoptui.jobs.label_printers import choice_of, choices_with, correction_of, own_labels, stock_named
from shoptui.jobs.label_words import blank_label, command_label
from shoptui.labels.errors import LabelError
from shoptui.labels.files import file_kind, write_labels
from shoptui.labels.layout import Label
from shoptui.labels.sheets import Job
from shoptui.store.command_tags import command_tags
from shoptui.store.shop import Shop

MOST_BLANKS = 10_000
"""Blank tags of one run: more than a year's rolls of a small shop."""


def print_labels(at: At, things: Sequence[Any], onto: Onto) -> Answer:
    """Print the labels of things of one kind, one for each; parts, bins, bags, boxes...

    Returns:
        An answer whose work draws and prints; its answer is about the run, which is its subject. A stop where
        nothing can be printed, with the reason.

    """
    if not things:
        return stop("There is nothing to print.", kind="labels")
    kind = kind_of(at.shop, things[0])
    run = LabelRun(0, kind.layout, kind.table, tuple(thing.id for thing in things))
    return _print(at, run, onto)


def print_commands(at: At, onto: Onto) -> Answer:
    """Print the page of commands and positions that hangs beside a terminal."""
    return _print(at, LabelRun(0, COMMANDS, tags=tuple(command_tags())), onto)


def print_blanks(at: At, kind: Kind, count: int, onto: Onto) -> Answer:
    """Print blank tags, which stand for nothing until one is scanned and bound.

    Args:
        at: Where it is done.
        kind: Part, bag or bin.
        count: How many.
        onto: What they are printed on, and where to.

    """
    if not 1 <= count <= MOST_BLANKS:
        return stop(f"1 to {MOST_BLANKS} blank tags were expected; {count} came.", field="count")
    run = LabelRun(0, BLANKS[kind], tags=("",) * count)
    if (asked := _print(at, run, onto)).said is Said.STOP:
        return asked  # before any tag is taken
    with at.doing(f"took {counted(run)}") as tx:
        tags = at.shop.new_tags(kind, count)
        run = tx.add(replace(_made(at, run, onto), tags=tags))
    return _print(at, run, onto)


def print_again(at: At, run: LabelRun, number: int, onto: Onto) -> Answer:
    """Print a run again from one of its labels: those before it came out well, and are not printed twice.

    Args:
        at: Where it is done.
        run: What was printed.
        number: Number of the first label to print, copies counted.
        onto: As for any printing; what it was printed on where no stock is said. Its copies are the run's.

    """
    if not 1 <= number <= run.last:
        words = f"A label from 1 to {run.last} to print again from was expected; {number} came."
        return stop(words, kind="labels")
    new = replace(run, id=0, first=number, came=None)
    return _print(at, new, replace(onto, stock=onto.stock or run.stock, copies=run.copies), before=run)


def labels_of(shop: Shop, run: LabelRun) -> tuple[Label, ...]:
    """Return a run's labels without their copies, as they are printed today."""
    if run.kind == COMMANDS:
        return tuple(command_label(command_tags()[code]) for code in run.tags)
    if run.kind in BLANKS.values():
        return tuple(blank_label(run.kind, tag) for tag in run.tags)
    kind = next(kind for kind in KINDS.values() if kind.layout == run.kind)
    shelf = next(shelf for shelf in shop.shelves.values() if shelf.table == run.table)
    return tuple(kind.label(shop, shelf.get(number)) for number in run.records)


def _job(shop: Shop, run: LabelRun, onto: Onto) -> Job:
    """Return what is to be drawn.

    Raises:
        LabelError: The stock, where to begin on it, or the kind of file is none.

    """
    if onto.file is not None:
        file_kind(onto.file)
    stock = stock_named(shop, onto.stock or choice_of(shop, run.kind).stock)
    return Job(
        labels_of(shop, run),
        stock,
        start=onto.start,
        copies=onto.copies,
        again_from=run.first,
        correction=correction_of(shop, _queue(shop, run, onto), stock.name),
        own=own_labels(shop),
    )


def _queue(shop: Shop, run: LabelRun, onto: Onto) -> str:
    return choice_of(shop, run.kind).queue if onto.queue is None else onto.queue


def _print(at: At, run: LabelRun, onto: Onto, before: LabelRun | None = None) -> Answer:
    onto = replace(onto, queue=_queue(at.shop, run, onto))
    try:
        job = _job(at.shop, run, onto)
    except LabelError as error:
        return stop(str(error), kind="labels")
    made = _made(at, run, onto)
    return output(
        f"Drawing {counted(made)}",
        f"labels-{run.kind}",
        onto,
        partial(write_labels, job),
        partial(_written_down, at, made, onto, before),
    )


def _made(at: At, run: LabelRun, onto: Onto) -> LabelRun:
    """Return a run with what it is printed on, and when and where."""
    stock = onto.stock or choice_of(at.shop, run.kind).stock
    return replace(
        run,
        stock=stock,
        copies=onto.copies,
        start=onto.start,
        printed=at.shop.clock(),
        terminal=at.terminal,
    )


def _written_down(at: At, run: LabelRun, onto: Onto, before: LabelRun | None, outcome: Outcome) -> Answer:
    """Write down what was printed. Where the queue refused a file, that lies there to be printed by hand."""
    if outcome.written is None:
        kept = " Their tags are kept: print them again from label 1." if run.id else ""
        return stop(f"{outcome.trouble}{kept}", kind="labels", subject=run.id)
    with at.doing(f"printed {counted(run)}: {inert(outcome.to, 60)}") as tx:
        if before is not None:
            tx.change(before, came=run.first - 1)
        run = tx.change(run, to=outcome.to) if run.id else tx.add(replace(run, to=outcome.to))
        if not outcome.trouble:
            choice = replace(choice_of(at.shop, run.kind), stock=run.stock, queue=onto.queue or "")
            tx.change_settings(label_choices=choices_with(at.shop.settings, choice))
    said = f"{outcome.trouble or outcome.said} Stock: {run.stock}."
    words = " ".join(filter(None, (said, notes_words(outcome.written))))
    return (stop if outcome.trouble else done)(words, kind="labels", subject=run.id)


def counted(run: LabelRun) -> str:
    """Return how many labels of what a run is.

    >>> counted(LabelRun(1, "bin", "bins", (7, 8), copies=2)), counted(LabelRun(2, "blank-bag", tags=("",)))
    ('4 bin labels', '1 blank bag tag')

    """
    count = run.last - run.first + 1
    noun = "tag" if run.kind in BLANKS.values() else "label"
    return f"{count} {inert(run.kind).replace('-', ' ')} {noun}{'' if count == 1 else 's'}"

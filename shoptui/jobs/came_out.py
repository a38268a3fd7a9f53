"""Did the labels come out well? Until somebody says so, the things still lack them."""

from pathlib import Path

from shoptui.domain.inert import inert
from shoptui.domain.records import LabelRun
from shoptui.jobs.answers import Answer, Question, Said, done, stop
from shoptui.jobs.at import At
from shoptui.jobs.label_output import Onto
from shoptui.jobs.print_labels import counted, print_again
from shoptui.labels.files import KINDS as FILES
from shoptui.store.shop import Shop


def open_runs(shop: Shop) -> tuple[LabelRun, ...]:
    """Return the runs of which nobody has said yet whether they came out well, the oldest first."""
    return tuple(run for run in shop.label_runs.all() if run.came is None)


def last_run(at: At, layout: str = "", *, said: bool = True) -> LabelRun | None:
    """Return what this terminal printed last, None if nothing.

    Args:
        at: Which terminal.
        layout: Only of this kind of label, empty for any.
        said: Whether one counts of which somebody has said how it came out.

    """
    for run in reversed(tuple(at.shop.label_runs.all())):
        if (
            run.stock
            and run.terminal == at.terminal
            and layout in ("", run.kind)
            and (said or run.came is None)
        ):
            return run
    return None


def came_out(at: At, run: LabelRun, number: int | None = None) -> Answer:
    """Write down that a run's labels came out well, all of them or those up to a number.

    Args:
        at: Where it is said.
        run: What was printed.
        number: Number of the last that came out well, copies counted; 0 for none, None for all.

    """
    upto = run.last if number is None else number
    if upto != 0 and not run.first <= upto <= run.last:
        expected = f"A label from {run.first} to {run.last}, or 0 for none, was expected; {upto} came."
        return stop(f"{expected} Nothing changed.", kind="labels")
    with at.doing() as tx:
        run = at.shop.label_runs.get(run.id)
        if run.withdrawn:
            return stop("That these labels were printed was undone meanwhile.", kind="labels")
        tx.say(f"{_well(run, upto)}: {counted(run)}")
        tx.change(run, came=upto)
    rest = "" if upto == run.last else " The others are still lacking."
    return done(f"{_well(run, upto)[0].upper()}{_well(run, upto)[1:]}.{rest}", kind="labels", subject=run.id)


def _well(run: LabelRun, upto: int) -> str:
    if upto == 0:
        return "no label came out well"
    if upto == run.last:
        return "all labels came out well"
    return (
        f"labels {run.first} to {upto} came out well" if upto > run.first else f"label {upto} came out well"
    )


def ask_came_out(at: At, run: LabelRun) -> Answer:
    """Ask whether a run's labels came out well; a number prints the rest again from there."""

    def from_there(text: str) -> Answer | None:
        plain = text.strip()
        if not (plain.isascii() and plain.isdigit()):
            return None
        return print_again(at, at.shop.label_runs.get(run.id), int(plain), _where_it_went(run))

    return Answer(
        Said.QUESTION,
        f"{run_words(run)}. Did all come out well? Enter: yes. After a jam: the number of the first to print "
        "again.",
        kind="labels",
        subject=run.id,
        question=Question(yes=lambda: came_out(at, run), accepts=from_there),
    )


def _where_it_went(run: LabelRun) -> Onto:
    path = Path(run.to)
    return Onto(file=path) if path.suffix.lower() in FILES else Onto(print=True)


def run_words(run: LabelRun) -> str:
    """Return a run as a list names it: `12 labels of bins, to office`."""
    words = f"{counted(run)}, to {inert(run.to, 100)}" if run.to else f"{counted(run)}, not printed yet"
    return f"{words[0].upper()}{words[1:]}"

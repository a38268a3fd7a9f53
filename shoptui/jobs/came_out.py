"""Did the labels come out well? Until somebody says so, the things still lack them."""

from collections.abc import Callable
from pathlib import Path

from shoptui.domain.inert import inert
from shoptui.domain.recognise import read
from shoptui.domain.records import LabelRun
from shoptui.jobs.answers import Answer, Choice, Question, Said, done, stop
from shoptui.jobs.at import At
from shoptui.jobs.label_output import LONGEST_PATH, Onto
from shoptui.jobs.print_labels import counted, labels_of, print_again
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


def ask_came_out(at: At, run: LabelRun, *, by_number: bool = False) -> Answer:
    """Ask whether a run's labels came out well; a number prints the rest again from there.

    Args:
        at: Where it is asked.
        run: What was printed.
        by_number: Whether it has to be picked: where Enter may be meant for something else.

    """

    def from_label(number: int) -> Answer:
        return print_again(at, at.shop.label_runs.get(run.id), number, _where_it_went(run))

    def from_there(text: str) -> Answer | None:
        plain = text.strip()
        if plain.isascii() and plain.isdigit():
            return from_label(int(plain))
        number = _number_of(at, run, plain)
        return None if number is None else _ask_from(run, number, lambda: from_label(number))

    def well() -> Answer:
        return came_out(at, run)

    def again() -> Answer:
        which = f"Enter: all of them; else its number, {run.first} to {run.last}"
        words = f"{run_words(run)}. From which label on? {which}."
        asks = Question(yes=lambda: from_label(run.first), accepts=from_there)
        return Answer(Said.QUESTION, words, kind="labels", subject=run.id, question=asks)

    if by_number:
        how = " 1 or 2 and Enter."
        choices = (Choice("all came out well", well), Choice("print them again, all or some", again))
        question = Question(
            choices=choices, accepts=lambda text: asked if text.isdigit() else from_there(text)
        )
    else:
        how = " Enter: yes. After a jam: the number of the first to print again."
        question = Question(yes=well, accepts=from_there)
    words = f"{_asked_of(run)} Did all come out well?{how}"
    asked = Answer(Said.QUESTION, words, kind="labels", subject=run.id, question=question)
    return asked


def _ask_from(run: LabelRun, number: int, print_: Callable[[], Answer]) -> Answer:
    """Ask before a scan prints: a label is also scanned because somebody puts things into its bin."""
    well = f" Labels {run.first} to {number - 1} came out well then." if number > run.first + 1 else ""
    words = f"Label {number} of {run.last}. Enter prints again from it on.{well}"
    return Answer(Said.QUESTION, words, kind="labels", subject=run.id, question=Question(yes=print_))


def _number_of(at: At, run: LabelRun, text: str) -> int | None:
    """Return the number of the first label of a run that carries a tag; None if none does."""
    tag = read(text).tag
    codes = [label.code for label in labels_of(at.shop, run)] if tag is not None else []
    return codes.index(str(tag)) * run.copies + 1 if str(tag) in codes else None


def _asked_of(run: LabelRun) -> str:
    """Return what a question is about; a file has to be printed by hand before it can be answered."""
    if Path(run.to).suffix.lower() not in FILES:
        return f"{run_words(run)}."
    return f"Print {inert(run.to, LONGEST_PATH)} ({counted(run)}) at its actual size first."


def _where_it_went(run: LabelRun) -> Onto:
    path = Path(run.to)
    return Onto(file=path) if path.suffix.lower() in FILES else Onto(print=True)


def run_words(run: LabelRun) -> str:
    """Return a run as a list names it: `12 labels of bins, to office`."""
    words = f"{counted(run)}, to {inert(run.to, 100)}" if run.to else f"{counted(run)}, not printed yet"
    return f"{words[0].upper()}{words[1:]}"

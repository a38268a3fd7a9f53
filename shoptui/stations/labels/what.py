"""What a print form prints: things of one kind, blank tags, the page of commands."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from shoptui.domain import cells
from shoptui.domain.cells import CellError
from shoptui.domain.inert import inert
from shoptui.domain.tags import Kind
from shoptui.jobs.answers import Answer
from shoptui.jobs.at import At, shown
from shoptui.jobs.label_kinds import BLANKS, COMMANDS, LabelKind, lacking
from shoptui.jobs.label_output import Onto
from shoptui.jobs.label_printers import stock_named
from shoptui.jobs.label_words import blank_label, command_label
from shoptui.jobs.print_labels import MOST_BLANKS, print_blanks, print_commands, print_labels
from shoptui.jobs.print_lacking import counted
from shoptui.jobs.usual_outlet import usual_onto
from shoptui.labels.errors import LabelError
from shoptui.labels.layout import Label
from shoptui.stations.field import Field
from shoptui.stations.known_names import KnownNames
from shoptui.store.command_tags import command_tags

Values = Mapping[str, str]
ON_A_ROLL = 30
"""Blank tags that are offered where no sheet says how many."""


@dataclass(frozen=True, slots=True)
class What:
    """What is printed.

    Args:
        title: Of the form.
        layout: Name of the labels' layout.
        fields: What is asked beside stock, printer and so on.
        count: Returns how many labels what stands in the fields means; raises ValueError.
        example: Returns one of them, None if there is none; likewise.
        start: Prints them onto something.

    """

    title: str
    layout: str
    fields: tuple[Field, ...]
    count: Callable[[Values], int]
    example: Callable[[Values], Label | None]
    start: Callable[[Values, Onto], Answer]


def things(
    at: At,
    kind: LabelKind,
    first: Any = None,  # noqa: ANN401 - any record that carries a tag
    listed: Sequence[Any] = (),
    called: str = "all on the list",
) -> What:
    """Return things of a kind: what lacks its label, a list, or some that are named.

    Args:
        at: Where they are printed.
        kind: Which kind.
        first: What stands in the field at first; None for the list, or without one all that lack their label.
        listed: A list of things; none where there is no such list.
        called: What the list is called.

    """
    shop, build = at.shop, at.build
    every = tuple(kind.every(shop))
    own = build if kind.table == "parts" else None
    choices = {
        called: listed,
        f"{inert(own.code)}: all that lack one" if own else "": lacking(shop, kind, own),
        "all that lack one": lacking(shop, kind),
        "all there are": every,
    }
    lists = {f"{words} ({len(found)})": found for words, found in choices.items() if words and found}
    named = {_called(each): each for each in every}
    codes = tuple((code, name) for name, each in named.items() for code in (each.code, each.tag))
    known = KnownNames((*lists, *named), codes)

    def meant(values: Values) -> tuple[Any, ...]:
        found: dict[int, Any] = {}
        for text in cells.listed(values["which"]):
            name = known.exact(text)
            if name is None:
                raise CellError(f"A {kind.one} was expected; {inert(text, 40)} is none.")
            found |= {each.id: each for each in lists.get(name) or (named[name],)}
        if not found:
            raise CellError(f"One {kind.one} or more was expected; none came.")
        return tuple(found.values())

    def example(values: Values) -> Label | None:
        return kind.label(shop, meant(values)[0])

    field = Field(
        "which",
        "Which",
        "some letters of it; several with ; between",
        _called(first) if first is not None else next(iter(lists), ""),
        names=known,
        closed=True,
        check=lambda text: meant({"which": text}),
    )
    return What(
        f"Print labels: {kind.many}",
        kind.layout,
        (field,),
        lambda values: len(meant(values)),
        example,
        lambda values, onto: print_labels(at, meant(values), onto),
    )


def blanks(at: At, kind: Kind) -> What:
    """Return blank tags."""
    field = Field(
        "count",
        "How many",
        f"1 to {MOST_BLANKS}",
        str(_one_sheet(at, kind)),
        one_value=True,
        check=cells.quantity,
    )

    def count(values: Values) -> int:
        return cells.quantity(values["count"])

    return What(
        f"Print blank {kind.words} tags",
        BLANKS[kind],
        (field,),
        count,
        lambda _: blank_label(BLANKS[kind], f"{kind}234567"),
        lambda values, onto: print_blanks(at, kind, count(values), onto),
    )


def _one_sheet(at: At, kind: Kind) -> int:
    """Return how many blank tags what is left of one sheet takes."""
    usual = usual_onto(at, BLANKS[kind])
    try:
        stock = stock_named(at.shop, usual.stock)
    except LabelError:
        return ON_A_ROLL
    return ON_A_ROLL if stock.roll else stock.labels - usual.start + 1


def commands(at: At) -> What:
    """Return the page of commands and positions."""
    tags = tuple(command_tags().values())
    return What(
        "Print the page of commands and positions",
        COMMANDS,
        (),
        lambda _: len(tags),
        lambda _: command_label(tags[0]),
        lambda _, onto: print_commands(at, onto),
    )


def lacking_title(kind: LabelKind, lack: int, every: int) -> str:
    """Return how a kind stands: how many of its things lack their label."""
    if lack:
        return f"! {counted(lack, kind)} lack{'s' if lack == 1 else ''} one"
    return f"+ none of {every}" if every else ""


def _called(thing: Any) -> str:  # noqa: ANN401 - any record that carries a tag
    """Return a thing as the form names it; a semicolon stands between several."""
    fields = ("title", "name", "description")
    words = next((text for field in fields if (text := getattr(thing, field, ""))), "")
    code = shown(thing.code)
    return (f"{inert(words)} ({code})" if words else code).replace(";", ",")

"""Questions: what is missing, where is it, what happened to it; undo; the health of the store."""

import argparse

from shoptui.cli.opening import CannotDoError, opened, terminal_name
from shoptui.cli.output import WIDTH, as_csv, as_json, lines, write, write_data
from shoptui.domain.inert import inert
from shoptui.domain.wrapping import wrapped
from shoptui.jobs.answers import Said
from shoptui.store.shop import Shop


def missing(arguments: argparse.Namespace) -> int:
    """Print what is missing before a filming day; 0 whether or not anything is."""
    from shoptui.jobs import missing_sheet  # noqa: PLC0415 - others need not wait for it
    from shoptui.jobs.missing import NothingAheadError, find_shoot  # noqa: PLC0415 - likewise
    from shoptui.jobs.missing import missing as missing_of  # noqa: PLC0415 - likewise
    from shoptui.jobs.place_words import today  # noqa: PLC0415 - likewise

    with opened(arguments) as shop:
        day = today(shop)
        try:
            report = missing_of(shop, find_shoot(shop, arguments.shoot, day), day)
        except NothingAheadError as error:
            report, nothing = None, str(error)
        match arguments.format:
            case "json":
                write_data(as_json(missing_sheet.as_values(report)) + "\n")
            case "csv":
                write_data(as_csv(missing_sheet.COLUMNS, missing_sheet.rows(report)))
            case _ if report is None:
                lines([nothing])
            case "md":
                write_data(missing_sheet.as_markdown(report))
            case _:
                write(missing_sheet.as_text(report))
    return 0


def where(arguments: argparse.Namespace) -> int:
    """Print where a thing is, by a code or by words."""
    from shoptui.jobs.find import where as find  # noqa: PLC0415 - reads codes, which `missing` need not

    text = " ".join(arguments.words)
    with opened(arguments) as shop:
        found = find(shop, text)
        if not found:
            raise CannotDoError(
                f"Nothing here is called {inert(text)}: a code, or words of a description, was expected."
            )
        lines(line for each in found for line in (each.name, *(f"  {place}" for place in each.places)))
    return 0


def history(arguments: argparse.Namespace) -> int:
    """Print what happened to a part, oldest first."""
    from shoptui.jobs.at import name_and_code  # noqa: PLC0415 - as above
    from shoptui.jobs.find import where as find  # noqa: PLC0415 - as above
    from shoptui.jobs.story import story  # noqa: PLC0415 - as above

    with opened(arguments) as shop:
        part = shop.parts.by_code(arguments.code)
        if part is None:
            found = [each for each in find(shop, arguments.code) if each.kind == "part"]
            if len(found) != 1:
                raise CannotDoError(_which(arguments.code, [each.name for each in found]))
            part = shop.parts.get(found[0].record)
        write(f"{name_and_code(part)}\n")
        for sentence in story(shop, part):
            write("\n".join(wrapped(sentence, WIDTH, "    ")) + "\n")
    return 0


def _which(code: str, names: list[str]) -> str:
    if not names:
        return f"No part has the code {inert(code)}: a tag, a code or a maker's number was expected."
    return f"{inert(code)} is more than one part: {', '.join(names[:5])}. Give the code of one."


def undo(arguments: argparse.Namespace) -> int:
    """Take back the last thing done at this terminal."""
    from shoptui.jobs.at import At  # noqa: PLC0415 - as above
    from shoptui.jobs.undo import undo as take_back  # noqa: PLC0415 - as above

    name = terminal_name(arguments)
    with opened(arguments) as shop:
        answer = take_back(At(shop, name))
    if answer.said is not Said.DONE:
        raise CannotDoError(answer.text)
    lines([answer.text])
    return 0


def check(arguments: argparse.Namespace) -> int:
    """Print the whole store's problems: where, what, remedy; 1 if there are any."""
    from shoptui.jobs.check import check as problems_of  # noqa: PLC0415 - as above

    with opened(arguments) as shop:
        problems = problems_of(shop)
        for problem in problems:
            lines([f"{problem.where}: {problem.what}."])
            lines([f"  > {problem.remedy}"])
        if not problems:
            lines([f"No problems in {_size(shop)}."])
    return 1 if problems else 0


def _size(shop: Shop) -> str:
    moves, parts = len(shop.database.documents("moves")), sum(1 for _ in shop.parts.all())
    return f"{moves} move{'s' * (moves != 1)} of {parts} part{'s' * (parts != 1)}"

"""What a script does to the pieces of a part, and that a shot is filmed: the jobs that the screens do."""

import argparse
from collections.abc import Callable

from shoptui.cli.doing import do, do_with_part
from shoptui.cli.named import meant
from shoptui.cli.opening import CannotDoError, build_of
from shoptui.domain.amounts import money
from shoptui.domain.inert import inert
from shoptui.domain.places import State
from shoptui.domain.records import Part
from shoptui.jobs import dispose as disposing
from shoptui.jobs import order as ordering
from shoptui.jobs import send_out as outside
from shoptui.jobs import transfer as giving
from shoptui.jobs.answers import Answer, Question, ask_about, stop
from shoptui.jobs.at import At
from shoptui.jobs.film import film, not_filmed
from shoptui.jobs.missing import find_shoot
from shoptui.jobs.place_words import order_name, today

STOCK = "stock"
"""What stands for the shop's stock where a build is expected."""


def order(arguments: argparse.Namespace) -> int:
    """Order pieces of a part."""

    def job(at: At, part: Part) -> Answer:
        total = _total(at, arguments.price)
        return _known_or_new(
            at,
            part,
            arguments.supplier,
            lambda: ordering.order(
                at,
                part,
                arguments.qty,
                supplier=arguments.supplier,
                number=arguments.number,
                due=arguments.due,
                total_minor=total,
            ),
        )

    return do_with_part(arguments, job)


def send_out(arguments: argparse.Namespace) -> int:
    """Send pieces to an outside shop."""

    def job(at: At, part: Part) -> Answer:
        return _known_or_new(
            at,
            part,
            arguments.to,
            lambda: outside.send_out(
                at,
                part,
                arguments.qty,
                to=arguments.to,
                work=arguments.work,
                due=arguments.due,
                number=arguments.number,
            ),
        )

    return do_with_part(arguments, job)


def take_back(arguments: argparse.Namespace) -> int:
    """Take pieces back from an outside shop."""

    def job(at: At, part: Part) -> Answer:
        number = _outside_job(at, part, arguments.job)
        return outside.take_back(at, part, arguments.qty, job=number, done=not arguments.as_it_went)

    return do_with_part(arguments, job)


def dispose(arguments: argparse.Namespace) -> int:
    """Let pieces go for good."""

    def job(at: At, part: Part) -> Answer:
        return disposing.dispose(
            at,
            part,
            arguments.qty,
            reason=arguments.reason,
            no_longer_needed=arguments.no_longer_needed,
            note=arguments.note,
        )

    return do_with_part(arguments, job)


def transfer(arguments: argparse.Namespace) -> int:
    """Give pieces to another build, or to the shop's stock."""

    def job(at: At, part: Part) -> Answer:
        to = None if arguments.to.casefold() == STOCK else build_of(at.shop, arguments.to or "of no name")
        return giving.transfer(at, part, arguments.qty, to=to, no_longer_needed=arguments.no_longer_needed)

    return do_with_part(arguments, job)


def filmed(arguments: argparse.Namespace) -> int:
    """Mark a shot filmed, or all of a day; or take that back for a shot."""

    def job(at: At) -> Answer:
        shoot = find_shoot(at.shop, arguments.day, today(at.shop))
        if not arguments.not_filmed:
            return film(at, shoot, arguments.shot)
        if arguments.shot is None:
            return stop("Which shot is not filmed after all? Its number was expected behind the day.")
        return not_filmed(at, shoot, arguments.shot)

    return do(arguments, job, "filming day", inert(arguments.day))


def _known_or_new(at: At, part: Part, supplier: str, job: Callable[[], Answer]) -> Answer:
    """Do a job that makes a supplier of a name that nobody knows only if that is meant."""
    if not supplier.strip() or ordering.known_supplier(at.shop, supplier):
        return job()
    like = meant(supplier, {each.code: f"{each.name} ({each.code})" for each in at.shop.suppliers.all()})
    return ask_about(
        part, f"No supplier is called {inert(supplier)}.{like} Is it a new one?", Question(yes=job)
    )


def _total(at: At, text: str) -> int | None:
    """Return an amount in the shop's currency, in its minor unit; None where it is not known."""
    currency = at.shop.settings.currency
    amount, unit = money(text, currency)
    if unit != currency:
        raise CannotDoError(f"An amount in {currency} was expected; {inert(text, 40)} came.")
    return amount


def _outside_job(at: At, part: Part, named: str) -> int:
    """Return the id of the outside job that a part's pieces are out on: the one named, else the only one."""
    out = {
        place.where: at.shop.orders.get(place.where)
        for place, _ in at.shop.book.places(part.id, State.SENT_OUT)
        if isinstance(place.where, int)
    }
    wanted = named.strip().casefold()
    found = [
        number
        for number, each in out.items()
        if not wanted or wanted in (each.number.casefold(), each.code.casefold())
    ]
    if len(found) == 1:
        return found[0]
    jobs = ", ".join(map(order_name, out.values()))
    if not out:
        raise CannotDoError(f"None of {inert(part.description)} is out. Nothing changed.")
    raise CannotDoError(
        f"{inert(part.description)} is out on {jobs}; say which with --job."
        if not wanted
        else f"{inert(part.description)} is not out on {inert(named)} but on {jobs}. Nothing changed."
    )

"""The moves by which pieces go from one line to another, with what is built in and why they are held."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from shoptui.domain import verbs
from shoptui.domain.carriers import taken_along
from shoptui.domain.ledger import Move
from shoptui.domain.places import OTHER_BUILD, Place, State
from shoptui.domain.records import Build, Part
from shoptui.domain.verbs import ON_A_SHELF
from shoptui.jobs.at import shown
from shoptui.jobs.held import drawn, held_lots
from shoptui.jobs.same_line import copy_line, line_for
from shoptui.store.shop import Shop
from shoptui.store.transaction import Transaction


def give(
    shop: Shop,
    tx: Transaction,
    part: int,
    qty: int,
    *,
    line: int,
    sources: Iterable[Place],
    inside: Mapping[int, int],
) -> tuple[Move, ...]:
    """Return the moves of a transfer, as `verbs.transfer` has it; why pieces are held goes along.

    The files of a part whose pieces are held do too: what is wrong may be seen on one of them.
    """
    moves = verbs.transfer(shop.book, part, qty, line=line, sources=sources, inside=inside)
    return tuple(_with_why(shop, tx, moves))


def _with_why(shop: Shop, tx: Transaction, moves: tuple[Move, ...]) -> Iterator[Move]:
    for out, into in zip(moves[::2], moves[1::2], strict=True):
        if into.target.state is not State.HELD:
            yield from (out, into)
            continue
        for lot in drawn(held_lots(shop, out.part), out.source, out.qty):
            note, *more = lot.notes or ("",)
            yield replace(out, qty=lot.qty)
            yield replace(into, qty=lot.qty, note=note)
            for other in more:
                yield Move(into.part, lot.qty, into.target, into.target, note=other)
        _copy_files(shop, tx, out.part, into.part)


def _copy_files(shop: Shop, tx: Transaction, giver: int, getter: int) -> None:
    own = {file.sha256 for file in shop.files.all() if (file.table, file.record) == ("parts", getter)}
    for file in list(shop.files.all()):
        if (file.table, file.record) == ("parts", giver) and file.sha256 not in own:
            tx.add(replace(file, id=0, record=getter))


@dataclass(slots=True)
class Gift:
    """One gift; its fields are what `transfer` was told or asked.

    `got` is the id of the line that got the pieces, once the moves are known.
    """

    shop: Shop
    part: Part
    qty: int
    to: Build | None
    line: int
    off: str | None
    sources: tuple[Place, ...]
    got: int = 0

    def after(self) -> str:
        """Say which tag the pieces carry from now on: the one on them is that of the old line."""
        return f"Its tag is {shown(self.shop.parts.get(self.got).tag)} now."

    def _comes_off(self) -> tuple[Move, ...]:
        lacking = self.qty - self.shop.book.in_state(self.part.id, *ON_A_SHELF)
        if self.off is None or lacking <= 0:
            return ()
        return verbs.remove(self.shop.book, self.part.id, lacking, position=self.off)

    def _from(self) -> tuple[Place, ...]:
        return self.sources or tuple(place for place, _ in self.shop.book.places(self.part.id, *ON_A_SHELF))

    def out(self) -> tuple[Move, ...]:
        """Return the moves by which the pieces leave this line."""
        book, off = self.shop.book, self._comes_off()
        with book.supposing(off):
            return off + verbs.dispose(book, self.part.id, self.qty, reason=OTHER_BUILD, sources=self._from())

    def moves(self, tx: Transaction) -> tuple[Move, ...]:
        """Return the moves of the transfer; lines that the other build lacks are made."""
        book, off = self.shop.book, self._comes_off()
        with book.supposing(off):
            line = self.line or copy_line(self.shop, tx, self.part, self.to, self.qty).id
            inside = {
                number: line_for(self.shop, tx, self.shop.parts.get(number), self.to, n)
                for number, _, n in taken_along(book, self.part.id, self.qty)
            }
            self.got = line
            return off + give(
                self.shop, tx, self.part.id, self.qty, line=line, sources=self._from(), inside=inside
            )

"""Something else came in place of what was ordered: held until the lead accepts or refuses it."""

from shoptui.domain import verbs
from shoptui.domain.codes import loose
from shoptui.domain.inert import inert
from shoptui.domain.ledger import Move
from shoptui.domain.places import State
from shoptui.domain.recognise import read
from shoptui.domain.records import Box, Part
from shoptui.jobs.amiss import OFFER, with_offer
from shoptui.jobs.answers import Answer, Choice, Question, Said, ask_about, done, stop
from shoptui.jobs.at import At, name, pieces
from shoptui.jobs.at_the_door import ask_yes, on_the_bench, there_is
from shoptui.jobs.box_list import expected_in
from shoptui.jobs.carry_out import carry_out
from shoptui.jobs.find import parts_named
from shoptui.jobs.place_words import place_words
from shoptui.store.command_tags import command_named
from shoptui.store.shop import Shop
from shoptui.store.transaction import Transaction

CAME, ACCEPTED, REFUSED = "substitute: ", "substitute accepted: ", "substitute refused, to be returned: "
"""How the notes of the moves begin, before the number that came."""

NUMBER_LIMIT = 60


def substitute(at: At) -> Answer:
    """Ask what came instead of which line of the open box, and which number stands on it."""
    box = at.box
    if box is None:
        return stop("No box is open here: scan the box first.")
    short = {
        line.part: line.short
        for line in expected_in(at.shop, box)
        if line.short and _orders(at, box, line.part)
    }
    if not short:
        return stop(
            "Nothing is to come out of this box any more, so nothing can stand for it.", subject=box.id
        )
    parts = [at.shop.parts.get(part) for part in short]
    if len(parts) == 1:
        return _ask_number(at, box, parts[0], short[parts[0].id])

    def scanned(text: str) -> Answer | None:
        named = [part for part in parts_named(at.shop, text, parts[0].build) if part.id in short]
        return _ask_number(at, box, named[0], short[named[0].id]) if len(named) == 1 else None

    def choice(part: Part) -> Choice:
        return Choice(name(part), lambda: _ask_number(at, box, part, short[part.id]))

    return Answer(
        Said.QUESTION,
        "What did something else come instead of? Its number, then Enter, or scan its tag.",
        question=Question(choices=tuple(map(choice, parts)), accepts=scanned),
    )


def _orders(at: At, box: Box, part: int) -> list[tuple[int, int]]:
    """Return the purchases of a box that promise pieces of a part, and how many."""
    record = at.shop.parts.get(part)
    orders = [at.shop.orders.get(number) for number in (*box.orders, *box.also_orders)]
    return [
        (order.id, there)
        for order in orders
        if order.kind != "outside" and (there := there_is(at, order, record)) > 0
    ]


def _ask_number(at: At, box: Box, part: Part, short: int) -> Answer:
    def take(text: str) -> Answer | None:
        number = " ".join(text.split())
        if not 0 < len(number) <= NUMBER_LIMIT or not number.isprintable() or command_named(text):
            return None
        if any(match.kind != "part" for match in at.shop.codes.find(read(text))):
            return None  # a bin, a badge: something else was begun
        return _ask_how_many(at, box, part, number, short)

    return ask_about(
        part,
        f"Instead of {name(part)}{f', {inert(part.number)}' if part.number else ''}: "
        "scan or type the number that stands on what came.",
        Question(accepts=take),
    )


def _ask_how_many(at: At, box: Box, part: Part, number: str, short: int) -> Answer:
    if short == 1:
        return _hold(at, box, part, number, 1)

    def take(text: str) -> Answer | None:
        fits = text.isascii() and text.isdigit() and 1 <= int(text) <= short
        return _hold(at, box, part, number, int(text)) if fits else None

    return ask_about(
        part,
        f"{short} are to come. Enter: all {short} came as {inert(number)}; or type how many, then Enter.",
        Question(yes=lambda: _hold(at, box, part, number, short), accepts=take),
        qty=short,
    )


def _hold(at: At, box: Box, part: Part, number: str, qty: int) -> Answer:
    note = CAME + number
    with at.doing(f"held {pieces(qty, part)}: {inert(number)} came instead") as transaction:
        left = qty
        moves: list[Move] = []
        for order, there in _orders(at, box, part.id):
            if taken := min(left, there):
                moves += verbs.hold_ordered(
                    at.shop.book, part.id, taken, order=order, note=note, ref=box.code
                )
                left -= taken
        if left:
            return stop(f"{qty - left} of {name(part)} are to come now, not {qty}. Nothing changed.")
        transaction.enter(moves)
        if number not in (part.number, *part.other_numbers):
            # It is what stands on the thing: whoever looks for it has no other number.
            transaction.change(part, other_numbers=(*part.other_numbers, number))
    answer = on_the_bench(
        f"{pieces(qty, part)}: {inert(number)} came instead, held until the lead accepts it. {OFFER}",
        part,
        qty,
        State.HELD,
    )
    return with_offer(at, answer, part, moves[-1].target, f"{number} came instead")


def waiting(shop: Shop, part: Part) -> tuple[str, int] | None:
    """Return the number that came instead of a part and waits for the lead's word, and how many are held."""
    held = shop.book.in_state(part.id, State.HELD)
    number, qty = "", 0
    for entry in reversed(shop.history.moves_of_part(part.id)) if held else ():
        note = entry.move.note
        if shop.history.is_undone(entry.transaction) or shop.history.transaction(entry.transaction).undoes:
            continue
        if note.startswith((ACCEPTED, REFUSED)):
            break  # what came before that was decided on
        if note.startswith(CAME):
            number = number or note.removeprefix(CAME)
            qty += entry.move.qty if note == CAME + number else 0
    return (number, min(qty, held)) if number else None


def another(at: At, part: Part, code: str, qty: int) -> Answer | None:
    """Ask whether more came of a substitute, if a code is the number of one; None if it is not.

    Until the lead accepts it, what bears that number is not received as what was ordered.
    """
    number = next((each for each in part.other_numbers if loose(each) == loose(code)), "")
    stands = _stands(at.shop, part, number) if number else ""
    if stands in ("", ACCEPTED):
        return None
    how = "waits for the lead's word" if stands == CAME else "was refused"
    lies = [place_words(at.shop, place) for place, _ in at.shop.book.places(part.id, State.HELD)]
    told = f"{inert(number)}, instead of {name(part)}, {how}{f' ({lies[0]})' if lies else ''}."
    box = at.box
    if box is None or sum(there for _, there in _orders(at, box, part.id)) < qty:
        return stop(f"{told} The open box brings none.", kind="part", part=part.code, subject=part.id)
    return ask_yes(f"{told} Hold {qty} more?", part, qty, lambda: _hold(at, box, part, number, qty))


def _stands(shop: Shop, part: Part, number: str) -> str:
    """Return how the last note on a number begins: it came, was accepted or refused; empty for none."""
    for entry in reversed(shop.history.moves_of_part(part.id)):
        own = shop.history.transaction(entry.transaction)
        if own.undoes is None and not shop.history.is_undone(own.id):
            for how in (CAME, ACCEPTED, REFUSED):
                if entry.move.note == how + number:
                    return how
    return ""


def accept(at: At, part: Part, qty: int) -> Answer:
    """Let what came instead be used: its number becomes the part's, and its papers are to be read again."""
    came = waiting(at.shop, part)
    if came is None:
        return stop(f"Nothing came instead of {name(part)} that waits for a word.", subject=part.id)
    number = came[0]
    old = part.number
    others = tuple(dict.fromkeys((*part.other_numbers, *([old] if old else []))))

    def moves(transaction: Transaction) -> tuple[Move, ...]:
        transaction.change(
            part,
            number=number,
            other_numbers=tuple(each for each in others if each != number),
            read_again=f"instructions, hours, outside work ({old or 'another number'} became {number})",
        )
        return verbs.release(at.shop.book, part.id, qty, note=ACCEPTED + number)

    return carry_out(
        at,
        part,
        qty,
        f"accepted {inert(number)} instead of {inert(old) or 'what was ordered'}",
        moves,
        hint="What the old number's papers said is to be read again.",
    )


def refuse(at: At, part: Part, qty: int) -> Answer:
    """Leave what came instead held, to be returned; the part is to be ordered again."""
    came = waiting(at.shop, part)
    if came is None:
        return stop(f"Nothing came instead of {name(part)} that waits for a word.", subject=part.id)
    places = at.shop.book.places(part.id, State.HELD)
    place = places[0][0]
    with at.doing(f"refused {inert(came[0])} instead of {pieces(qty, part)}") as transaction:
        transaction.enter([Move(part.id, min(qty, places[0][1]), place, place, note=REFUSED + came[0])])
    return done(
        f"{inert(came[0])} refused: it stays held, to be returned. {name(part)} is to be ordered again.",
        kind="part",
        part=part.code,
        qty=qty,
        subject=part.id,
    )

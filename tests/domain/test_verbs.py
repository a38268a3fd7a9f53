import pytest

from shoptui.domain import verbs
from shoptui.domain.ledger import Balances, CannotMoveError
from shoptui.domain.places import OPENED, SEALED, Place, State


def book_of(*movings) -> Balances:
    book = Balances()
    for moving in movings:
        for move in moving(book) if callable(moving) else moving:
            book.apply(move)
    return book


def test_what_cannot_be_says_what_there_is():
    book = book_of(verbs.order(1, 4, supplier=1, order=1), lambda book: verbs.receive(book, 1, 2, order=1))
    with pytest.raises(CannotMoveError, match="2 are received or removed; 3 cannot be installed"):
        verbs.install(book, 1, 3, position="LF")


def test_received_is_sealed_and_installed_is_not():
    book = book_of(
        verbs.order(1, 1, supplier=1, order=1),
        lambda book: verbs.receive(book, 1, 1, order=1),
    )
    assert book.places(1, State.RECEIVED)[0][0] == Place(State.RECEIVED, "", SEALED)
    for move in verbs.install(book, 1, 1, position="LF"):
        book.apply(move)
    assert book.places(1, State.INSTALLED) == ((Place(State.INSTALLED, "LF", OPENED), 1),)


def test_what_is_painted_goes_on_before_what_is_sealed():
    book = book_of(
        verbs.order(1, 2, supplier=1, order=1),
        lambda book: verbs.receive(book, 1, 2, order=1),
        lambda book: verbs.send_out(book, 1, 1, job=9),
        lambda book: verbs.take_back(book, 1, 1, job=9, done="painted"),
    )
    (move,) = verbs.install(book, 1, 1, position="")
    assert move.source.condition == "painted"
    assert move.target.condition == "painted"


@pytest.mark.parametrize(
    ("original", "expected"), [(False, 0), (True, 1)], ids=["our own counts", "an original does not"]
)
def test_a_removed_piece_fills_a_need_only_if_it_is_ours(original, expected):
    book = book_of(verbs.as_bought(1, 1, position=""), lambda book: verbs.remove(book, 1, 1, position=""))
    assert verbs.to_order(book, 1, needed=1, original=original) == expected


def test_scrapped_is_missing_again():
    book = book_of(verbs.order(1, 1, supplier=1, order=1), lambda book: verbs.receive(book, 1, 1, order=1))
    assert verbs.to_order(book, 1, needed=1, original=False) == 0
    for move in verbs.dispose(book, 1, 1, reason="scrapped"):
        book.apply(move)
    assert verbs.to_order(book, 1, needed=1, original=False) == 1

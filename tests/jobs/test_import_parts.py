import pytest

from shoptui.domain.places import Place, State
from shoptui.domain.tables import ImportRefusedError
from shoptui.domain.verbs import to_order
from shoptui.jobs.import_parts import import_parts


def test_what_lies_in_the_shop_already_is_booked_where_it_lies(made, tmp_path):
    path = tmp_path / "list.csv"
    path.write_text(
        "description,qty,on hand,shelf\nDoor seal,4,3,A3\nClamp,2,2,\nLatch,1,,\n", encoding="utf-8"
    )
    import_parts(made.shop, path, "wagon", terminal="office")
    named = {part.description: part for part in made.shop.parts.all()}
    book = made.shop.book
    assert book.places(named["Door seal"].id, State.RECEIVED) == ((Place(State.RECEIVED, made.a3.id), 3),)
    assert book.places(named["Clamp"].id, State.RECEIVED) == ((Place(State.RECEIVED, ""), 2),)
    assert book.sum(named["Door seal"].id) == 0
    assert to_order(book, named["Door seal"].id, needed=4, original=False) == 1


@pytest.mark.parametrize(
    ("row", "told"),
    [
        ("Seal,1,two,A3,no", "A whole number"),
        ("Seal,1,1,Z9,no", "There is no bin Z9"),
        ("Seal,1,1,A3,yes", "take it off at the lift"),
    ],
)
def test_what_cannot_lie_there_is_named_with_its_line(made, tmp_path, row, told):
    path = tmp_path / "list.csv"
    path.write_text(f"description,qty,on hand,bin,original\n{row}\n", encoding="utf-8")
    with pytest.raises(ImportRefusedError, match=told):
        import_parts(made.shop, path, "wagon", terminal="office")

import pytest

from shoptui.domain.places import Place, State
from shoptui.domain.tables import ImportRefusedError
from shoptui.domain.verbs import to_order
from shoptui.jobs.box_list import expected_in
from shoptui.jobs.import_orders import import_orders
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


KIT = """code,description,qty,kit
GK-1,Gasket kit,1,
,Head gasket,2,GK-1
,Valve stem seal,16,Gasket kit
,Drain ring,3,GK-1*1
"""


def test_rows_name_the_kit_that_they_are_in(made, tmp_path):
    path = tmp_path / "list.csv"
    path.write_text(KIT, encoding="utf-8")
    import_parts(made.shop, path, "wagon", terminal="office")
    kit = made.shop.parts.by_code("GK-1")
    inside = {made.shop.parts.get(line.part).description: line.qty for line in kit.kit}
    assert inside == {"Head gasket": 2, "Valve stem seal": 16, "Drain ring": 1}
    assert (kit.needed, kit.sold_as) == (0, "kit"), "its contents are what is needed"
    more = tmp_path / "more.csv"
    more.write_text("description,part of kit\nDip stick ring,GK-1\n", encoding="utf-8")
    import_parts(made.shop, more, "wagon", terminal="office")
    assert len(made.shop.parts.get(kit.id).kit) == 4


@pytest.mark.parametrize(
    ("rows", "told"),
    [
        ("A,Kit a,1,A", "Kit a cannot be in itself"),
        ("A,Kit a,1,B\nB,Kit b,1,\nC,Ring,1,A", "Kit a is in a kit itself"),
        ("A,Kit a,2,\nB,Ring,3,A", '"A\\*2"'),
        ("A,Kit a,1,\nB,Ring,3,A\\*0", 'A kit such as "GK-1"'),
        ("A,Ring,1,Z", "No part has Z"),
    ],
)
def test_what_can_be_no_kit_is_named_with_its_line(made, tmp_path, rows, told):
    path = tmp_path / "list.csv"
    path.write_text("code,description,qty,kit\n" + rows.replace("\\", "") + "\n", encoding="utf-8")
    with pytest.raises(ImportRefusedError, match=told):
        import_parts(made.shop, path, "wagon", terminal="office")


def test_a_kit_that_is_ordered_promises_what_is_in_it(made, tmp_path):
    (tmp_path / "list.csv").write_text(KIT, encoding="utf-8")
    import_parts(made.shop, tmp_path / "list.csv", "wagon", terminal="office")
    orders = tmp_path / "orders.csv"
    orders.write_text(
        "order,supplier,part,qty,tracking,in box\n77,brakes,GK-1,2,RR123456785GB,1\n", encoding="utf-8"
    )
    import_orders(made.shop, orders, terminal="office")
    kit = made.shop.parts.by_code("GK-1")
    assert [made.shop.book.in_state(line.part, State.ORDERED) for line in kit.kit] == [4, 32, 2]
    box = next(box for box in made.shop.boxes.all() if box.tracking == ("RR123456785GB",))
    assert [(line.part, line.qty) for line in box.contents] == [(line.part, line.qty) for line in kit.kit]
    first, *_ = expected_in(made.shop, box)
    assert (first.part, first.is_kit) == (kit.id, True)
    assert made.shop.book.in_state(kit.id, State.ORDERED) == 0

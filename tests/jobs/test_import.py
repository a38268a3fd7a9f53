"""Files into a shop: all of a file or nothing of it."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from shoptui.domain.places import Place, State
from shoptui.domain.recognise import read
from shoptui.domain.records import OrderLine
from shoptui.domain.shoots import Condition, Shot
from shoptui.domain.tables import ImportRefusedError
from shoptui.jobs.at import At
from shoptui.jobs.check import check
from shoptui.jobs.import_orders import import_orders
from shoptui.jobs.import_parts import import_parts
from shoptui.jobs.import_shop import import_shop
from shoptui.jobs.undo import undo
from shoptui.store.shop import Shop

NOW = datetime(2026, 11, 5, 12, tzinfo=UTC)
TODAY = NOW.astimezone().date()

SHOP = """
[shop]
name = "Example"
currency = "EUR"
working_days = ["Mon", "Sat"]
holidays = [2026-12-25, "+3"]

[[builds]]
code = "ute"
title = "Utility"

[[builds]]
code = "van"
title = "Van"

[[people]]
code = "lead"
name = "Lead"
second_check = true

[[suppliers]]
code = "hoses"
name = "Hose bench (example)"
lead_days = 4

[[suppliers]]
code = "oven"
name = "Powder oven (example)"

[[bins]]
code = "A1"

[[bins]]
code = "bag one"
kind = "bag"

[[codes]]
code = "LENT-1"
bin = "A1"
"""

PARTS = """code,description,number,qty,positions,install after,original,codes,price
H1,Brake hose,BH-1,1 pair,LF RF,,,9521000000018 19521000000015*2,17.40
,Brake line,BL-1,1,,Clip,,,
,Clip,,1 pack of 20,,,,,12
O1,Old seat,,2,left right,,yes,,
"""

ORDERS = """order number,supplier,part,qty,total,placed,due,tracking,in box
77,hoses,H1,1,17.40,2026-11-01,2026-11-10,CE104200075XZ,1
77,hoses,H1,1,17.40,,,CE104200089XZ,1
77,hoses,BL-1,1,?,,,CE104200089XZ,
78,Hose bench (example),Clip,20,12,,,CE104200089XZ,
79,hoses,Clip,1 pack of 20,12,,+6,,
"""


@pytest.fixture
def shop(tmp_path):
    shop = Shop.create(tmp_path / "shop", clock=lambda: NOW)
    yield shop
    shop.close()


@pytest.fixture
def bring(shop, tmp_path):
    def bring(kind, text, build="ute"):
        path = tmp_path / ("in.toml" if kind == "shop" else "in.csv")
        path.write_text(text, encoding="utf-8")
        if kind == "shop":
            return import_shop(shop, path, terminal="t").text
        if kind == "parts":
            return import_parts(shop, path, build, terminal="t").text
        return import_orders(shop, path, terminal="t").text

    return bring


@pytest.fixture
def filled(bring, shop):
    bring("shop", SHOP)
    bring("parts", PARTS)
    return shop


def refused(shop, bring, *args):
    """Return what is said of a file, seeing that nothing changed."""
    before = _all(shop)
    with pytest.raises(ImportRefusedError) as error:
        bring(*args)
    assert _all(shop) == before
    return str(error.value)


def _all(shop):
    return {shelf.table: tuple(shelf.all()) for shelf in shop.shelves.values()}, tuple(
        shop.history.at_terminal("t")
    )


def test_the_shop(shop, bring):
    text = bring("shop", SHOP)
    assert text == "Settings, 2 builds, 1 person, 2 suppliers, 2 bins, 1 code imported from in.toml."
    assert shop.settings.working_days == (0, 5)
    assert shop.settings.holidays == (date(2026, 12, 25), TODAY + timedelta(days=3))
    assert shop.bins.by_code("bag one").tag[0] == "G"
    assert [match.kind for match in shop.codes.find(read("LENT-1"))] == ["bin"]
    assert shop.people.by_code("lead").second_check


def test_a_shop_file_twice_is_already_there(shop, bring):
    bring("shop", SHOP)
    text = refused(shop, bring, "shop", SHOP)
    assert "Line 8, code: ute is already there, as a vehicle." in text
    assert "The supplier Hose bench (example) is already there, as hoses." in text
    assert shop.bins.by_code("A1") is not None
    assert "lent-1 is already there" in refused(shop, bring, "shop", '[[codes]]\ncode = "lent-1"\nbin = "A1"')


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('[[bins]]\ncode = "A"\ncolour = "red"', "Line 1, colour: This is not known; known are code, tag"),
        ("[[tools]]", "tools: This is not known"),
        ('[[bins]]\ncode = "12"', "only digits"),
        ('[[bins]]\ncode = "Undo"', "Undo is a command or a position"),
        ('[[bins]]\ncode = "A"\n[[bins]]\ncode = "a"', "Line 3, code: a is already on line 1"),
        ('[[bins]]\ntag = "B7K3QXA"', "Expected check character"),
        ('[[people]]\nname = "x\\u202ey"', "invisible or control character (U+202E)"),
        ('[shop]\nworking_days = ["Someday"]', 'Days such as "Mon"'),
        ('[[builds]]\ntitle = ""', "title: This is needed"),
        ('[[builds]]\ntitle = "x"\nvin = "1M8GDM9A1KP042788"', "vin: "),
        ("bins = 3", "write the brackets twice"),
        ("# nothing yet", "[shop], [[builds]] or [[bins]] were expected; there are none"),
        ('[[builds]]\ntitle = "x"\nodometer = 12.5', "whole kilometres or miles was expected; 12.5 came"),
        ('[[builds]]\ntitle = "x"\nodometer_unit = "hours"', "km or mi was expected; hours came"),
        ("[shop]\nholidays = [1926-12-25]", "A day from 2000 to 2100"),
        ('[[codes]]\ncode = "x"', "one of part, bin, build, person"),
        ('[[bins]]\ncode = "lent"\n[[codes]]\ncode = "Lent"\nbin = "lent"\nqty = 0', "Line 3, qty: 1 to"),
    ],
)
def test_wrong_shop_files(shop, bring, text, said):
    assert said in refused(shop, bring, "shop", text)


@pytest.mark.parametrize(
    ("code", "said"),
    [
        ("12", "12 is only a row's number"),
        ("undo", "undo is a command or a position"),
        ("lf", "lf is a command or a position"),
        ("h-1", "h-1 is the name of part H1 already."),
        ("VAN", "VAN is the name of vehicle van already."),
        ("lent-1", "lent-1 already stands for bin A1."),
        ("9521000000018", "9521000000018 already stands for part H1."),
    ],
)
def test_a_code_that_is_taken_is_refused_by_its_line(filled, bring, code, said):
    bring("parts", "code,description,positions,codes\nE1,Elbow,LF RF,\n", "van")
    text = refused(filled, bring, "shop", f'\n[[codes]]\ncode = "{code}"\nbin = "bag one"\n')
    assert f"Line 2, code: {said}" in text
    if not code.startswith("9521"):
        rows = f"code,description,codes\nX9,Elbow,{code}\n"
        assert f"Line 2, codes: {said}" in refused(filled, bring, "parts", rows, "van")


def test_parts_may_share_a_gtin_and_two_builds_any_printed_code(filled, bring):
    bring(
        "parts", "code,description,codes\nL1,Lamp left,9521000000025 LABEL-7\nR1,Lamp right,9521000000025\n"
    )
    bring("parts", "code,description,codes\nL2,Lamp left,9521000000025 LABEL-7\n", "van")
    bring("shop", '[[codes]]\ncode = "9521000000018"\npart = "L1"\nqty = 2\n')
    assert [problem for problem in check(filled) if problem.where.startswith("code")] == []
    rows = "code,description,codes\nL8,Lamp,label-7\nL9,Lamp,P234567 X1 X1\nL0,Lamp,X1\n"
    text = refused(filled, bring, "parts", rows)
    assert "Line 2, codes: label-7 already stands for part L1." in text
    assert "Line 3, codes: X1 stands twice in this row." in text
    assert "Line 4, codes: X1 already stands for the part on line 3." in text


def test_a_code_of_a_file_is_no_name_of_another_row(filled, bring):
    rows = "code,description,codes\nL8,Lamp,L9\nL9,Lamp,l-9\n"
    text = refused(filled, bring, "parts", rows)
    assert "Line 2, codes: L9 is the name of what stands on line 3." in text
    assert "Line 3, codes" not in text
    assert "lent-1 is a code of something else already." in refused(
        filled, bring, "parts", "code,description\nlent-1,Lamp\n"
    )


def test_parts(filled):
    hose, line, clip, seat = filled.parts.all()
    assert (hose.code, hose.needed, hose.sold_as, hose.positions) == ("H1", 2, "pair", ("LF", "RF"))
    assert line.install_after == (clip.id,)
    assert (clip.needed, clip.code) == (20, clip.tag)
    assert (seat.needed, seat.original) == (0, True)
    assert filled.book.at(seat.id, Place(State.INSTALLED, "left")) == 1
    match = filled.codes.find(read("19521000000015"))
    assert [(each.record, each.qty) for each in match] == [(hose.id, 2)]


def test_a_list_twice_is_already_there(filled, bring):
    text = refused(filled, bring, "parts", PARTS)
    assert "Line 2, code: H1 is already there, as a part." in text
    (clip,) = (part for part in filled.parts.all() if part.description == "Clip")
    assert f"Line 4, description: Clip is already there, as P-{clip.tag[1:]}." in text
    assert f"P-{clip.tag[1:]} is already there, as a part." in refused(
        filled, bring, "parts", f"tag,description\n{clip.tag},Lamp\n"
    )


def test_every_wrong_row_is_named_and_nothing_comes_in(shop, bring):
    bring("shop", SHOP)
    rows = "".join(f"part {number},many\n" for number in range(30))
    text = refused(shop, bring, "parts", "description,qty\n" + rows)
    assert text.count("A quantity such as") == 20
    assert "Line 2, qty:" in text
    assert text.endswith("and 10 more.")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("description\nHose\nhose\n", "Line 3, description: hose is already on line 2"),
        ("code,description\nX,Hose\nx,Belt\n", "Line 3, code: x is already on line 2"),
        ("description,install after\nA,B\nB,C\nC,A\n", "Each waits for the other: A after B after C after A"),
        ("description,install after\nA,A\n", "Line 2, install after: A waits for itself."),
        ("description,install after\nA,Z\n", "Line 2, install after: No part has Z"),
        ("description,number,install after\nA,1,C\nC,2,\nC,3,\n", "C stands for 2 parts"),
        ("description,tag\nA,B7K3QXF\n", "tag"),
        ("description,qty\n,4\n", "Line 2, description: Words were expected"),
        ("description\n\x1b[2Jgone\n", "Line 2, description"),
        ("name of it\nx\n", 'The header lacks "description"'),
        ("description,qty\n", "Rows were expected below the header"),
        ("description,Price $\nA,3\n", "Which dollar"),
        ("item,what\nA,B\n", 'The columns "item" and "what" both mean this'),
        ("description,Qty per axle\nA,2\n", 'The column "Qty per axle" is not known; name it "qty"'),
        ("description,Qty (on hand)\nA,2\n", 'The column "Qty (on hand)" is not known; name it "qty"'),
        ("description,Net price\nA,2\n", 'The column "Net price" is not known; name it "price"'),
        ("description,qty\nBrakes,\nDisc,2\n", 'if it is a heading, write it as "Brakes:" above its parts'),
        ("description,qty\nDISC,2\nPAD,\nHOSE,1\n", "PAD stands alone"),
        ("description,qty\nDisc,2\nWHEELS,\n", "WHEELS stands alone"),
        ("description,section,qty\nBRAKES,,\nDisc,Brakes,2\n", "if it is a heading, take the row out"),
    ],
)
def test_wrong_lists(shop, bring, text, said):
    bring("shop", SHOP)
    assert said in refused(shop, bring, "parts", text)


def test_a_list_with_the_headers_of_an_ordinary_spreadsheet(shop, bring):
    bring("shop", SHOP)
    rows = "1,BH-1,Brake hose,2,17.40,\n2,BL-1,Brake line,1 pr,9.00,1\n,,Total,4,26.40,\n"
    header = "Item #,Part #,Part Description,Qty Required,Price (USD),after\n"
    text = bring("parts", header + rows)
    hose, line = shop.parts.all()
    assert (hose.description, hose.number, hose.needed, hose.code) == ("Brake hose", "BH-1", 2, hose.tag)
    assert (hose.price.low_minor, hose.price.currency) == (1740, "USD")
    assert (line.needed, line.install_after) == (2, (hose.id,))
    assert text == (
        "2 parts of ute imported from in.csv. Left out as a sum of others: line 4. "
        "Column Item # has only numbers: they were taken for the rows' numbers, and are no codes."
    )


def test_the_documented_name_of_a_column_wins(shop, bring):
    bring("shop", SHOP)
    text = bring("parts", "Item,Description,Qty.,Qty (pcs),Qty in the van\nA-1,Hose,2,3,4\n")
    (part,) = shop.parts.all()
    assert (part.description, part.needed) == ("Hose", 2)
    assert text == (
        "1 part of ute imported from in.csv. Not known here and left out: column Qty in the van. "
        "Left out, since another column says it more certainly: columns Item, Qty (pcs)."
    )


def test_headings_are_sections(shop, bring):
    bring("shop", SHOP)
    rows = "MY LIST,\nBRAKES,\nDisc,2\nPad,1 set of 4\nRear axle:,\nHub,2\n"
    text = bring("parts", "description,qty\n" + rows)
    assert [(part.description, part.section) for part in shop.parts.all()] == [
        ("Disc", "BRAKES"),
        ("Pad", "BRAKES"),
        ("Hub", "Rear axle"),
    ]
    assert text.endswith("Headings were taken for sections: MY LIST, BRAKES, Rear axle.")


@pytest.mark.parametrize(
    ("header", "heading"),
    [
        ("Item No.,description,qty", "BRAKES,,"),
        ("Item No.,description,qty", "Brakes,,"),
        ("#,description,qty", "BRAKES,,"),
        ("Line,description,qty", "Brakes:,,"),
        ("section,description,qty", "Brakes,,"),
        ("Item No.,description,qty", ",,Brakes:"),
    ],
)
def test_a_heading_stands_in_any_column(shop, bring, header, heading):
    bring("shop", SHOP)
    first = "" if header.startswith("section") else "1"
    text = bring("parts", f"{header}\n{first},Hub,2\n{heading}\n{first},Disc,2\n")
    sections = [
        (part.description, part.section.casefold(), part.code == part.tag) for part in shop.parts.all()
    ]
    assert sections == [("Hub", "", True), ("Disc", "brakes", True)]
    assert "Headings were taken for sections" in text


def test_a_heading_names_the_section_of_the_rows_that_leave_it_empty(shop, bring):
    bring("shop", SHOP)
    rows = "BRAKES,,\nDisc,,2\nHub,Axle,1\nBODY,,\nDoor,,2\n"
    text = bring("parts", "Description,Group,Qty\n" + rows)
    assert [part.section for part in shop.parts.all()] == ["BRAKES", "Axle", "BODY"]
    assert text.endswith("Headings were taken for sections: BRAKES, BODY.")


def test_a_code_alone_is_no_heading(shop, bring):
    bring("shop", SHOP)
    text = refused(shop, bring, "parts", "code,description,qty\nBR-1,Hub,2\nBR-2,,\nBR-3,Disc,2\n")
    assert "Line 3, code: BR-2 stands alone" in text


def test_where_not_every_part_has_a_quantity_one_alone_is_a_part(shop, bring):
    bring("shop", SHOP)
    bring("parts", "code,description,qty\n,DISC,\nX,Hub,\n,Pad,2\n")
    assert [part.needed for part in shop.parts.all()] == [1, 1, 2]


def test_two_of_one_description_with_codes_of_their_own_are_two(shop, bring):
    bring("shop", SHOP)
    bring("parts", "code,description\nX1,Hose\nX2,Hose\n")
    assert len(list(shop.parts.all())) == 2


def test_a_build_that_is_not_there(shop, bring):
    bring("shop", SHOP)
    assert "There is no build bus. Builds: ute, van." in refused(shop, bring, "parts", PARTS, "bus")


def test_formulas_and_markup_are_words(shop, bring):
    bring("shop", SHOP)
    text = bring("parts", 'description,[mood]\n"=HYPERLINK(""x"")",1\n[red]hose[/],2\n')
    assert [part.description for part in shop.parts.all()] == ['=HYPERLINK("x")', "[red]hose[/]"]
    assert text.endswith("left out: column [mood].")


def test_orders_and_their_boxes(filled, bring):
    assert bring("orders", ORDERS) == "3 orders imported from in.csv."
    first, second, third = filled.orders.all()
    hose, line, clip, _ = filled.parts.all()
    assert first.lines == (OrderLine(hose.id, 2, 3480), OrderLine(line.id, 1, None))
    assert (first.due, third.due) == (date(2026, 11, 10), TODAY + timedelta(days=6))
    assert filled.book.at(clip.id, Place(State.ORDERED, second.id)) == 20
    one, two, three = filled.boxes.all()
    assert (one.orders, [each.qty for each in one.contents]) == ((first.id,), [1])
    assert two.orders == (first.id, second.id)
    assert (three.orders, three.tracking) == ((third.id,), ())
    assert "77 is already there" in refused(filled, bring, "orders", ORDERS)


def test_rows_that_name_one_box_each_are_in_it(filled, bring):
    bring(
        "orders",
        "order,supplier,part,qty,tracking\n81,hoses,H1,2,A-81\n81,hoses,BL-1,3,A-81\n"
        "81,hoses,Clip,4 pcs,B-81\n",
    )
    hose, line, clip, _ = filled.parts.all()
    inside = [[(each.part, each.qty) for each in box.contents] for box in filled.boxes.all()]
    assert inside == [[(hose.id, 2), (line.id, 3)], [(clip.id, 4)]]


def test_a_number_alone_means_sets_where_it_cannot_mean_pieces(filled, bring):
    rows = "81,hoses,Clip,1,1,B-81,5.00\n81,hoses,H1,2,,B-81,\n"
    assert bring("orders", "order,supplier,part,qty,in box,tracking,price\n" + rows) == (
        "1 order imported from in.csv. Counted as they are sold: line 2, Clip: 1 pack of 20. "
        "Write “3 pieces” where pieces are meant."
    )
    (order,) = filled.orders.all()
    hose, _, clip, _ = filled.parts.all()
    assert [(line.part, line.qty, line.total_minor) for line in order.lines] == [
        (clip.id, 20, 500),
        (hose.id, 2, None),
    ]
    assert filled.book.at(clip.id, Place(State.ORDERED, order.id)) == 20
    (box,) = filled.boxes.all()
    assert next((each.part, each.qty) for each in box.contents) == (clip.id, 20)


def test_pieces_of_a_set_are_pieces_where_that_is_said(filled, bring):
    bring("orders", "order,supplier,part,qty\n81,hoses,Clip,3 pieces\n")
    (order,) = filled.orders.all()
    assert order.lines[0].qty == 3


def test_an_order_beside_it_in_one_of_the_boxes_is_on_its_slip_too(filled, bring):
    rows = "81,hoses,H1,2,A-81\n81,hoses,Clip,4 pcs,B-81\n82,oven,BL-1,1,b81\n"
    bring("orders", "order,supplier,part,qty,tracking\n" + rows)
    assert [[each.qty for each in box.contents] for box in filled.boxes.all()] == [[2], [4, 1]]


@pytest.mark.parametrize(
    "rows",
    [
        "81,hoses,H1,2,A-81;B-81,\n81,hoses,Clip,4 pcs,B-81,\n",
        "81,hoses,H1,2,A-81,\n81,hoses,Clip,4,,\n81,hoses,BL-1,4,B-81,\n",
        "81,hoses,H1,2,A-81,\n81,hoses,Clip,4,A-81,\n",
        "81,hoses,H1,2,A-81,\n81,hoses,Clip,4 pcs,B-81,\n82,oven,BL-1,1,B-81;C-81,\n",
        "81,hoses,H1,2,A-81,XTEN22J\n81,hoses,Clip,4 pcs,B-81,XTEN22J\n",
    ],
)
def test_where_rows_do_not_say_which_box_each_may_hold_all(filled, bring, rows):
    bring("orders", "order,supplier,part,qty,tracking,box\n" + rows)
    assert not any(box.contents for box in filled.boxes.all())


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("80,nobody,H1,1,,,,,", "There is no supplier nobody"),
        ("80,hoses,H9,1,,,,,", "No part has H9"),
        ("80,hoses,H1,,,,,,", "qty: This cell is needed"),
        (",hoses,H1,1,,,,,", "order: This cell is needed"),
        ("80,hoses,H1,1,1.234,,,,", "two ways"),
        ("80,hoses,H1,1,,05.11.2026,,,", "2026-11-05, was expected"),
        ("80,hoses,H1,1,,,,,2", "in box"),
        ("80,hoses,H1,1,,,2026-11-09,,\n80,hoses,Clip,1,,,2026-11-10,,", "differs from line 2"),
    ],
)
def test_wrong_orders(filled, bring, row, said):
    header = ORDERS.splitlines()[0]
    assert said in refused(filled, bring, "orders", f"{header}\n{row}\n")


def test_orders_as_an_ordinary_spreadsheet_has_them(filled, bring):
    header = "PO #,Vendor,Code,Description,Qty,Price (USD),Tracking #\n"
    rows = (
        "90,hoses,H1,whatever,1 pair,10.00,CE 104 200 075 XZ\n90,hoses,,Clip,20,0.50,\n"
        '91,hoses,O1,,3,,"CE104201059XZ CE104200141XZ, 1Z 9"\nTotal,,,,24,20.00,\n'
    )
    assert bring("orders", header + rows) == (
        "2 orders imported from in.csv. Left out as a sum of others: line 5."
    )
    hose, _, clip, seat = filled.parts.all()
    first, second = filled.orders.all()
    assert first.lines == (OrderLine(hose.id, 2, 1000), OrderLine(clip.id, 20, 1000))
    assert (first.currency, second.lines) == ("USD", (OrderLine(seat.id, 3, None),))
    tracking = [box.tracking for box in filled.boxes.all()]
    assert tracking == [("CE 104 200 075 XZ",), ("CE104201059XZ",), ("CE104200141XZ",), ("1Z 9",)]


def test_a_total_goes_before_a_price(filled, bring):
    header = "order,supplier,Part number,qty,unit price,total\n"
    bring("orders", header + "92,hoses,BL-1,1,2,\n93,hoses,BL-1,3,2,5\n94,hoses,BL-1,3,2,?\n")
    assert [order.lines[0].total_minor for order in filled.orders.all()] == [200, 500, 600]


def test_an_outside_job_sends_out_what_is_here(filled, bring):
    header = "order,supplier,part,qty,kind,work\n"
    assert "Line 2, qty: Old seat" in refused(
        filled, bring, "orders", header + "P,oven,O1,1,outside,coated\n"
    )
    assert "is needed" in refused(filled, bring, "orders", header + "P,oven,O1,1,outside,\n")


SHOOTS = """
[[shoots]]
code = "one"
title = "Day one"
date = 2026-11-20
call_time = 07:30:00

[[shoots.shots]]
title = "Hoses"
needs = [{ part = "H1", condition = "on hand", qty = 1 }, { part = "Old seat", condition = "removed" }]
"""


def test_undo_takes_a_whole_import_back(filled, bring):
    bring("orders", ORDERS)
    for _ in ("orders", "parts", "shop"):
        assert undo(At(filled, "t")).said == "done"
    left = {shelf.table: len(list(shelf.all())) for shelf in filled.shelves.values()}
    assert not any(count for table, count in left.items() if table != "settings")
    bring("shop", SHOP)
    bring("parts", PARTS)
    bring("orders", ORDERS)
    assert len(list(filled.orders.all())) == 3


def test_filming_days(filled, bring):
    bring("shop", SHOOTS)
    (shoot,) = filled.shoots.all()
    assert (shoot.date, shoot.call_time) == (date(2026, 11, 20), "07:30")
    assert [need.condition for need in shoot.shots[0].needs] == [Condition.ON_HAND, Condition.REMOVED]
    assert "Line 12, code: ONE is already on line 2." in refused(
        filled, bring, "shop", SHOOTS + SHOOTS.replace('"one"', '"ONE"')
    )
    wrong = SHOOTS.replace('"one"', '"two"')
    assert "No part has H9 as its code, tag, maker's number or description" in refused(
        filled, bring, "shop", wrong.replace("H1", "H9")
    )
    assert "Line 8, condition: One of sealed" in refused(
        filled, bring, "shop", wrong.replace("on hand", "near")
    )


def test_the_sentence_on_conditions_offers_all_of_them(filled, bring):
    text = refused(filled, bring, "shop", SHOOTS.replace("on hand", "near"))
    offered = (
        "sealed, before outside work, back from outside work, on hand, mocked up, installed, installed "
        "with torque done, removed, still in place"
    )
    assert f"One of {offered} was expected; near came." in text
    bring("shop", SHOOTS.replace("on hand", "installed with torque done"))
    (shoot,) = filled.shoots.all()
    assert shoot.shots[0].needs[0].condition is Condition.TORQUE_DONE


def test_a_filming_day_that_moved_is_imported_again(filled, bring):
    more = '[[shoots.shots]]\ntitle = "Wheels"\n[[shoots.shots]]\ntitle = "Seats"\n'
    bring("shop", SHOOTS + more.replace('"Wheels"', '"Wheels"\nfilmed = true'))
    (before,) = filled.shoots.all()
    bring("shop", '[[shoots]]\ncode = "ONE"\ndate = 2026-11-27\n')
    (moved,) = filled.shoots.all()
    assert moved == replace(before, date=date(2026, 11, 27))
    fewer = '[[shoots.shots]]\ntitle = "wheels"\nmoves = true\nfilmed = false\n'
    bring("shop", '[[shoots]]\ncode = "one"\ntitle = "Later"\ncall_time = 09:00:00\n' + fewer)
    (changed,) = filled.shoots.all()
    assert (changed.title, changed.date, changed.call_time) == ("Later", moved.date, "09:00")
    assert changed.shots == (Shot("wheels", moves=True, filmed=True),)
    assert undo(At(filled, "t")).said == "done"
    assert undo(At(filled, "t")).said == "done"
    assert tuple(filled.shoots.all()) == (before,)


@pytest.mark.parametrize("name", ["X-1", "x1", "P7K3QXV", "p-7k3qxv", "SE-4", "Seal"])
def test_a_part_has_the_same_names_everywhere(filled, bring, name):
    bring("parts", "code,tag,description,number\nX-1,P7K3QXV,Seal,SE-4\n")
    seal = filled.parts.by_code("X-1")
    bring("parts", f"description,install after\nCap,{name}\n")
    assert list(filled.parts.all())[-1].install_after == (seal.id,)
    bring("orders", f"order,supplier,part,qty\n7,hoses,{name},1\n")
    bring("shop", f'[[codes]]\ncode = "LABEL-9"\npart = "{name}"\n' + SHOOTS.replace("H1", name))
    (shoot,) = filled.shoots.all()
    assert shoot.shots[0].needs[0].part == seal.id
    assert [match.record for match in filled.codes.find(read("LABEL-9"))] == [seal.id]

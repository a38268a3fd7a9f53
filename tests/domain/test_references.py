from dataclasses import fields
from datetime import date

from shoptui.domain import records, shoots
from shoptui.domain.ledger import Move
from shoptui.domain.places import Place, State
from shoptui.domain.problems import cycles
from shoptui.domain.references import move_references, record_references


def test_every_record_says_what_it_points_at():
    need = shoots.Need(shoots.Condition.SEALED, part=4, build=5)
    pointing = {
        records.Part(1, "", "", 2, "x", install_after=(3,), replaces=(4,)): [
            ("builds", 2),
            ("parts", 3),
            ("parts", 4),
        ],
        records.Order(1, "", "purchase", 7, "", lines=(records.OrderLine(8, 1),)): [
            ("suppliers", 7),
            ("parts", 8),
        ],
        records.Box(1, "", (2,), contents=(records.BoxLine(3, 1),)): [("orders", 2), ("parts", 3)],
        shoots.Shoot(1, "", "", date(2026, 11, 4), shots=(shoots.Shot("", (need,)),)): [
            ("parts", 4),
            ("builds", 5),
        ],
        records.LearnedCode(1, "", "", "bins", 6): [("bins", 6)],
        records.Terminal(1, "", 2, 3, card_part=4, bin=5): [
            ("builds", 2),
            ("people", 3),
            ("parts", 4),
            ("bins", 5),
        ],
        records.Bin(1, "", ""): [],
    }
    for record, expected in pointing.items():
        assert list(record_references(record)) == expected


def test_no_new_field_that_points_somewhere_is_forgotten():
    # A field whose name is a record's is a reference; this list is what `record_references` reads.
    known = {
        "build",
        "install_after",
        "replaces",
        "supplier",
        "lines",
        "orders",
        "contents",
        "shots",
        "record",
    }
    known |= {"person", "card_part", "bin", "part"}
    names = {"build", "part", "order", "orders", "box", "supplier", "bin", "person", "shoot", "parts", "bins"}
    kinds = (records.Part, records.Order, records.Box, shoots.Shoot, records.LearnedCode, records.Terminal)
    assert {field.name for kind in kinds for field in fields(kind)} & names <= known


def test_a_move_points_at_its_part_and_at_the_records_of_its_places():
    move = Move(1, 1, Place(State.ORDERED, 4), Place(State.RECEIVED, 6))
    assert list(move_references(move)) == [("parts", 1), ("orders", 4), ("bins", 6)]
    assert list(move_references(Move(1, 1, Place(State.INSTALLED, "LF"), Place(State.GONE, "sold")))) == [
        ("parts", 1)
    ]


def test_rings_are_found_once_each():
    assert cycles({1: (2,), 2: (1,), 3: (3,), 4: (1,), 5: (6,), 6: ()}) == ((1, 2), (3,))
    assert cycles({1: (2, 3), 2: (4,), 3: (4,), 4: ()}) == ()


def test_a_long_chain_needs_no_deep_recursion():
    assert cycles({number: (number + 1,) for number in range(5000)}) == ()

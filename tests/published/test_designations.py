"""Designations as standards and public data have them."""

import pytest

from shoptui.domain.fasteners.designations import Kind
from shoptui.domain.fasteners.reading import designation


@pytest.mark.parametrize(
    ("text", "printed", "facts"),
    [
        ("M10", "M10", {"pitch": 1.5}),  # public pages on ISO 261
        ("M10x1", "M10 x 1", {"pitch": 1}),  # a fastener maker's page, as the next
        ("M10\u00d71-LH", "M10 x 1 - LH", {"pitch": 1, "left": True}),
        ("M10-6H", "M10 - 6H", {"fit": "6H"}),  # public pages on ISO 965-1, as the next three
        ("M20-6g", "M20 - 6g", {"fit": "6g"}),
        ("M8\u00d71.25 \u2013 6H/6g", "M8 - 6H/6g", {"fit": "6H/6g", "pitch": 1.25}),
        ("M16-5g6g", "M16 - 5g6g", {"fit": "5g6g"}),
        ("M10x1.25-6g", "M10 x 1.25 - 6g", {"fit": "6g", "pitch": 1.25}),  # by the same rules
        ("\u00bd-13 UNC-2A LH", "1/2-13 UNC - 2A - LH", {"fit": "2A", "left": True}),  # a public manual
        ("1/2-20 UNF-2A", "1/2-20 UNF - 2A", {"fit": "2A"}),  # from memory, as the next
        ("3/8-16 UNC-2B", "3/8-16 UNC - 2B", {"fit": "2B"}),
        ("0.2500\u201320 UNC", "1/4-20 UNC", {}),  # a public table, as the next
        (".250-20", "1/4-20 UNC", {}),
        (
            "ISO 4762 M8x30 - 10.9",
            "ISO 4762 - M8 x 30 - 10.9",
            {"length": 30, "pitch": 1.25},
        ),  # ISO form, memory
        ("ISO 4762 - M5 x 20 - 12.9", "ISO 4762 - M5 x 20 - 12.9", {"length": 20, "pitch": 0.8}),
        ("ISO 4762 - M3 x 12", "ISO 4762 - M3 x 12", {"length": 12}),  # public test data, as the rest
        (
            "DIN 912 ISO 4762 - M14 \u00d7 180 - 40",
            "DIN 912 ISO 4762 - M14 x 180 - 40",
            {"length": 180, "threaded": 40},
        ),
        ("DIN 933 - M22 x 270", "DIN 933 - M22 x 270", {"length": 270, "pitch": 2.5}),
        ("DIN 934 - M5", "DIN 934 - M5", {"kind": Kind.NUT, "length": None}),
        ("M10 x 1,25", "M10 x 1.25", {"pitch": 1.25}),  # decimal comma, as printed tables have it
    ],
)
def test_designations(text, printed, facts):
    found = designation(text)
    known = {
        "pitch": found.thread.pitch_mm,
        "left": found.left_hand,
        "fit": found.tolerance,
        "length": found.length_mm,
        "threaded": found.threaded_mm,
        "kind": found.kind,
    }
    assert str(found) == printed
    assert {name: known[name] for name in facts} == facts

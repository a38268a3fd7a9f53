"""Lists as spreadsheets export them."""

import pytest

from shoptui.domain.headers import Column
from shoptui.domain.tables import ImportRefusedError
from shoptui.store.files_in import read_csv, read_toml

COLUMNS = (
    Column("description", ("part",), needed=True),
    Column("qty", ("quantity",)),
    Column("maker's number"),
)


@pytest.fixture
def read(tmp_path):
    def read(data):
        path = tmp_path / "list.csv"
        path.write_bytes(data if isinstance(data, bytes) else data.encode())
        return read_csv(path, COLUMNS)

    return read


def refused(read, data):
    with pytest.raises(ImportRefusedError) as error:
        read(data)
    return str(error.value)


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("newline", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_separators_line_ends_and_encodings(read, separator, newline, encoding):
    lines = ["Part|QTY|Makers_Number||", '"hose, ½""; long"|2|A-1||', "||||", "", "clip|4|||"]
    table = read(newline.join(lines).replace("|", separator).encode(encoding))
    assert [(row.line, dict(row.cells)) for row in table.rows] == [
        (2, {"description": 'hose, ½"; long', "qty": "2", "maker's number": "A-1"}),
        (5, {"description": "clip", "qty": "4"}),
    ]
    assert table.ignored == ()


def test_a_line_break_in_a_cell_does_not_shift_the_line_numbers(read):
    table = read('part,qty\n"a\nb\nc",1\nd,2\n')
    assert [row.line for row in table.rows] == [2, 5]


@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_a_line_that_names_the_separator_is_no_header(read, separator):
    table = read(f"sep={separator}\r\npart{separator}qty\r\nhose{separator}2\r\n")
    assert [(row.line, row.cells["qty"]) for row in table.rows] == [(3, "2")]


def test_unknown_columns_are_named(read):
    assert read("part,colour,qty,mood\nx,red,1,\n").ignored == ("colour", "mood")


def test_missing_and_doubled_columns(read):
    assert 'lacks "description"' in refused(read, "name of it,qty\nx,1\n")
    assert "both mean this" in refused(read, "qty,Qty.\nx,y\n")
    assert read("part,description\nx,y\n").spare == ("part",)
    assert "empty" in refused(read, "\n\n")
    assert "beyond the last header" in refused(read, "part,qty\nx,1,lost\n")


def test_wrong_encoding_names_line_and_byte(read):
    text = refused(read, b"part,qty\nhose,1\nk\xfchler,1\n")
    assert "Line 3: UTF-8 was expected; byte 0xFC is none. Save it as CSV UTF-8." in text
    assert "zero byte" in refused(read, "part\nx\n".encode("utf-16-le"))
    assert "UTF-16 was expected" in refused(read, b"\xff\xfep\x00a")


def test_open_quotes(read):
    assert "Line 2: The quotation marks" in refused(read, 'part,qty\n"never closed,1\nx,2\n')


def test_a_file_that_is_not_there(tmp_path):
    with pytest.raises(ImportRefusedError, match="cannot be read: no such file"):
        read_csv(tmp_path / "none.csv", COLUMNS)
    with pytest.raises(ImportRefusedError, match="cannot be read"):
        read_csv(tmp_path, COLUMNS)


def test_toml(tmp_path):
    path = tmp_path / "shop.toml"
    path.write_text("[shop\n")
    with pytest.raises(ImportRefusedError, match="TOML was expected"):
        read_toml(path)


@pytest.mark.parametrize(
    ("text", "cells"),
    [
        ("part;qty, pcs\nhose, long;2\nclip;4\n", ["hose, long", "clip"]),
        ("part,qty;pcs\nhose; long,2\nclip,4\n", ["hose; long", "clip"]),
        ("part;qty\nhose, front, long;2\n", ["hose, front, long"]),
    ],
)
def test_of_two_separators_the_one_that_makes_even_rows(tmp_path, text, cells):
    path = tmp_path / "list.csv"
    path.write_text(text, encoding="utf-8")
    columns = (Column("part"), Column("qty", ("qty, pcs", "qty;pcs")))
    assert [row.cells["part"] for row in read_csv(path, columns).rows] == cells


def test_a_toml_file_in_another_encoding_is_to_be_saved_as_utf_8(tmp_path):
    path = tmp_path / "shop.toml"
    path.write_bytes(b'[shop]\nname = "Caf\xe9"\n')
    with pytest.raises(ImportRefusedError, match=r"byte 0xE9 is none\. Save it as UTF-8\."):
        read_toml(path)

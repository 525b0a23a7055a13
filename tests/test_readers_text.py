"""Text tables: encodings, separators, quotes; numbers stay the text that was typed."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pipeline.reading import LIMITS, read_book
from pipeline.reading.book import Book, UnreadableFileError
from pipeline.reading.limits import Budget
from pipeline.reading.text_file import read_text

HEAD = ["Site code", "Site name", "Post", "Post shape", "Post size", "Height above ground", "Notes"]
ROW = ["S-1", "Nørre Park", "P1", "round", '3 1/2"', "8'6\"", "by the gate, north; wet"]


def read(tmp_path: Path, data: bytes, name: str = "survey.csv") -> Book:
    path = tmp_path / name
    path.write_bytes(data)
    return read_book(str(path))


def rows(book: Book) -> list[list[str]]:
    grid: dict[int, dict[int, str]] = {}
    for cell in book.sheets[0].cells:
        grid.setdefault(cell.row, {})[cell.column] = str(cell.value)
    return [[grid[r].get(c, "") for c in range(1, max(grid[r]) + 1)] for r in sorted(grid)]


def table(separator: str = ",", lines: list[list[str]] | None = None) -> str:
    out = io.StringIO()
    csv.writer(out, delimiter=separator).writerows(lines or [HEAD, ROW])
    return out.getvalue()


@pytest.mark.parametrize("separator", [",", ";", "\t", "|"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252", "utf-32"])
def test_every_separator_in_every_encoding(tmp_path: Path, separator: str, encoding: str) -> None:
    book = read(tmp_path, table(separator).encode(encoding))
    assert rows(book) == [HEAD, ROW]
    assert book.format == ("tsv" if separator == "\t" else "csv")
    assert book.sheets[0].name == ""
    assert any("Windows-1252" in n for n in book.notes) == (encoding == "cp1252")


def test_the_headings_decide_where_commas_abound(tmp_path: Path) -> None:
    lines = ["Site code;Post;Size", "S,1,2,3;P,1,2,3;3,5", "S,1,2,3;P,2,2,3;3,5", "S,1,2,3;P,3,2,3;3,5"]
    assert rows(read(tmp_path, "\n".join(lines).encode()))[1] == ["S,1,2,3", "P,1,2,3", "3,5"]


def test_title_rows_blank_lines_and_quoted_line_ends_keep_their_rows(tmp_path: Path) -> None:
    text = 'District survey, spring\r\n\r\nSite code,Post,Notes\r\nS1,P1,"two\r\nlines"\r\nS1,P2,ok\r\n'
    cells = {c.address: c.value for c in read(tmp_path, text.encode()).sheets[0].cells}
    assert cells["A3"] == "Site code"
    assert cells["C4"] == "two\nlines"
    assert cells["B5"] == "P2"


def test_separator_line_is_no_row(tmp_path: Path) -> None:
    book = read(tmp_path, b"sep=;\r\nSite code;Post\r\nS1;P,1\r\n")
    assert [(c.address, c.value) for c in book.sheets[0].cells] == [
        ("A1", "Site code"), ("B1", "Post"), ("A2", "S1"), ("B2", "P,1"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    "error", ["#N/A", "#REF!", "#DIV/0!", "#VALUE!", "#NAME?", "#NUM!", "#NULL!", "Err:502", "#WERT!", "#¡VALOR!", "#NV", "####"]
)
def test_error_words_are_errors(tmp_path: Path, error: str) -> None:
    cells = read(tmp_path, f"Site code,Wall\nS1,{error}\n".encode()).sheets[0].cells
    assert (cells[-1].kind, cells[-1].value) == ("error", error)


@pytest.mark.parametrize("plain", ["#1", "#12?", "Error", "E", "F", "N/A", "# 3", "#", "##", "3.5"])
def test_other_words_are_not(tmp_path: Path, plain: str) -> None:
    cells = read(tmp_path, f"Site code,Post\nS1,{plain}\n".encode()).sheets[0].cells
    assert (cells[-1].kind, cells[-1].value) == ("text", plain)


UNCLOSED = [
    ("Site code,Post,Notes\nS1,P1,ok\nS1,P2,\"open\n" + "S1,P3,x\n" * 1000, "line 3"),
    ('Site code,Post,Notes\nS1,P1,"open\nS1,P2,x\nS1,P3,x\nS1,P4,"",\nS1,P5,x"\n', "line 2"),
    ('Site code,Post,Notes\nS1,P1,"odd"one\n', "Line 2"),
    ('Site code,Post,Notes\nS1,P1,"' + "x" * 200_000 + '"\n', "line 2"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "line"), UNCLOSED)
def test_a_quote_that_is_never_closed_is_named(tmp_path: Path, text: str, line: str) -> None:
    with pytest.raises(UnreadableFileError) as e:
        read(tmp_path, text.encode())
    assert line in e.value.reason
    assert e.value.remedy


NOTE = 'Site code,Post,Size,Notes\nS1,P1,3,"two lines:\nask at the gate, ring, wait, go in\nand close it"\nS2,P2,4,ok\n'


def test_a_note_may_hold_lines_with_as_many_commas_as_the_table(tmp_path: Path) -> None:
    cells = {c.address: c.value for c in read(tmp_path, NOTE.encode()).sheets[0].cells}
    assert cells["D2"] == "two lines:\nask at the gate, ring, wait, go in\nand close it"
    assert cells["A3"] == "S2"


def test_a_swallowed_row_is_no_note(tmp_path: Path) -> None:
    for row in ("S1,P9,3,x", "S7,P9,3,x", "S1, P9, 3, x"):
        with pytest.raises(UnreadableFileError):
            read(tmp_path, NOTE.replace("ask at the gate, ring, wait, go in", row).encode())


def test_spaces_after_a_closing_quote(tmp_path: Path) -> None:
    text = 'Site code;Post;Notes\n"S;1" ;"P ""1"""  ;"two\nlines" \nS2;P2;ok\n'
    cells = {c.address: c.value for c in read(tmp_path, text.encode()).sheets[0].cells}
    assert (cells["A2"], cells["B2"], cells["C2"], cells["C3"]) == ("S;1", 'P "1"', "two\nlines", "ok")


def test_a_first_heading_of_id_is_no_old_format(tmp_path: Path) -> None:
    assert rows(read(tmp_path, b"ID;Post;Size\n1;P1;3,5\n2;P2;4\n"))[1] == ["1", "P1", "3,5"]
    assert rows(read(tmp_path, b"ID;Pole;Size\r\nC;P1;3,5\r\n"))[1] == ["C", "P1", "3,5"]
    with pytest.raises(UnreadableFileError):
        read(tmp_path, b'ID;PWXL;N;E\r\nC;Y1;X1;K"Site"\r\nE\r\n')


def test_nul_bytes_are_shown_and_not_dropped(tmp_path: Path) -> None:
    cells = read(tmp_path, b"Site code,Post\nS1,P\x001\n").sheets[0].cells
    assert cells[-1].value == "P\ufffd1"


def test_spaces_only_is_a_table_without_cells(tmp_path: Path) -> None:
    assert read(tmp_path, b" \n,,\n").sheets[0].cells == ()


TABLES = st.lists(
    st.lists(st.text(st.characters(exclude_categories=["Cc", "Cs", "Co", "Cn"]), max_size=12), min_size=5, max_size=5),
    min_size=1,
    max_size=8,
)


@given(TABLES, st.sampled_from([",", ";", "\t"]))
def test_what_a_csv_writer_writes_is_read_back(lines: list[list[str]], separator: str) -> None:
    out = io.StringIO()
    csv.writer(out, delimiter=separator).writerows([HEAD, *lines])
    book = read_text(out.getvalue(), (), "a.csv", Budget(LIMITS))
    got = {(c.row, c.column): c.value for c in book.sheets[0].cells}
    for r, fields in enumerate(lines, 2):
        for c, field in enumerate(fields, 1):
            if (r, c) in got:
                assert got[r, c] == field or str(got[r, c]) == field.strip()
            else:
                assert not field.strip("\u200b\u200c\u200d\u2060\ufeff\u00ad\u200e\u200f").strip()

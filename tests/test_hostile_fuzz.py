"""Mutated files: whatever is done to a file, its reader answers, and with nothing but its own error."""

# ruff: noqa: E501 - crafted files
from __future__ import annotations

import io
import random
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest
from files_made import ods_parts, sheet, styles, xlsb, xlsb_cell, xlsx_parts, zipped

from pipeline.reading import read_book
from pipeline.reading.book import Book, UnreadableFileError

ROWS = "".join(
    f'<row r="{r}"><c r="A{r}" t="s"><v>{r % 2}</v></c><c r="B{r}" s="1"><v>{r}.5</v></c><c r="C{r}" t="inlineStr"><is><t>8\'6"</t></is></c>'
    f'<c r="D{r}"><f>1+1</f></c><c r="E{r}" t="e"><v>#N/A</v></c></row>'
    for r in range(1, 8)
)
TABLE = (
    '<table:table table:name="S"><table:table-row table:number-rows-repeated="2"><table:table-cell office:value-type="float" '
    'office:value="88.9"><text:p>88.9 mm</text:p></table:table-cell><table:table-cell table:formula="of:=1"/></table:table-row></table:table>'
)


def old_binary() -> bytes:
    import xlwt

    book = xlwt.Workbook()
    ws = book.add_sheet("S")
    for r in range(6):
        ws.write(r, 0, f"P{r}")
        ws.write(r, 1, r * 1.5, xlwt.easyxf(num_format_str='0.0" mm"'))
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


PARTS = xlsx_parts({"S": sheet(ROWS)}, strings="<si><t>a</t></si><si><t>b</t></si>", styles=styles('0.0" mm"', "d-mmm"))
MAKERS: dict[str, Callable[[], bytes]] = {
    "xlsx": lambda: zipped(PARTS, zipfile.ZIP_STORED),
    "packed xlsx": lambda: zipped(PARTS),
    "ods": lambda: zipped(ods_parts(TABLE), zipfile.ZIP_STORED),
    "xlsb": lambda: xlsb(
        [(r, False, xlsb_cell(7, 0, b"\0\0\0\0") + xlsb_cell(5, 1, b"\0" * 8, 1)) for r in range(5)], ["x"], ["0.0"]
    ),
    "xls": old_binary,
    "csv": lambda: 'Site code,Post,Size\nS1,P1,"3 1/2"""\nS1,P2,é\n'.encode(),
}


def mutated(data: bytes, rng: random.Random) -> bytes:
    """The bytes with a few changed, cut out, doubled or swapped."""
    out = bytearray(data)
    for _ in range(rng.choice((1, 1, 2, 5, 20))):
        at, size = rng.randrange(len(out) or 1), rng.choice((1, 2, 4, 16, 200))
        action = rng.randrange(5)
        if action == 0:
            out[at : at + 1] = bytes([rng.randrange(256)])
        elif action == 1:
            del out[at : at + size]
        elif action == 2:
            out[at:at] = out[at : at + size]
        elif action == 3:
            out[at : at + size] = rng.choice((b"\0", b"\xff", b"9", b"<", b'"')) * size
        else:
            out = out[:at] if rng.random() < 0.2 else out
    return bytes(out)


def answered(path: Path, data: bytes) -> Book | None:
    path.write_bytes(data)
    try:
        return read_book(str(path))
    except UnreadableFileError:
        return None


@pytest.mark.parametrize("kind", MAKERS)
def test_mutations_a_few(tmp_path: Path, kind: str) -> None:
    _fuzz(tmp_path, kind, 40)


@pytest.mark.slow
@pytest.mark.parametrize("kind", MAKERS)
def test_mutations_many(tmp_path: Path, kind: str) -> None:
    _fuzz(tmp_path, kind, 1500)


def _fuzz(tmp_path: Path, kind: str, times: int) -> None:
    rng = random.Random(kind)
    data = MAKERS[kind]()
    assert answered(tmp_path / "a", data) is not None
    for _ in range(times):
        book = answered(tmp_path / "a", mutated(data, rng))
        if book is not None:
            for made in book.sheets:
                made.name.encode()
                places = [(c.row, c.column) for c in made.cells]
                assert places == sorted(set(places))
                assert all(isinstance(c.value, str) for c in made.cells if c.kind in ("text", "error", "date"))


@pytest.mark.parametrize(
    "name", ["xl/worksheets/sheet1.xml", "xl/sharedStrings.xml", "xl/styles.xml", "xl/workbook.xml", "xl/_rels/workbook.xml.rels"]
)
def test_mutated_parts_in_a_sound_zip(tmp_path: Path, name: str) -> None:
    rng = random.Random(name)
    part = PARTS[name]
    raw = part.encode() if isinstance(part, str) else part
    for _ in range(60):
        answered(tmp_path / "a", zipped({**PARTS, name: mutated(raw, rng)}))

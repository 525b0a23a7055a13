"""Hostile, broken and misnamed files: each gets one plain answer, and takes nothing down with it."""

# ruff: noqa: E501 - crafted files, one a line
from __future__ import annotations

import resource
import struct
import time
import zipfile
from pathlib import Path

import pytest
from files_made import ods_parts, sheet, xlsb, xlsb_cell, xlsx, xlsx_parts, zipped

from pipeline.reading import Limits, Sandbox, read_book
from pipeline.reading.book import UnreadableFileError

ROW = '<row r="1"><c r="A1"><v>7</v></c></row>'
GOOD = xlsx(ROW)
SMALL = Limits(members=50, part_bytes=300_000, all_bytes=500_000, cells=100, elements=1000, sheets=5, strings=50, text=1000)
OLE2 = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 600
TABLE = '<table:table table:name="S"><table:table-row {}><table:table-cell {} office:value-type="float" office:value="1"/></table:table-row></table:table>'
DTD = '<!DOCTYPE a [<!ENTITY a "lol"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;">]>'


def with_part(name: str, content: str | bytes) -> bytes:
    return zipped({**xlsx_parts({"S": sheet(ROW)}), name: content})


def entity_sheet(declared: str, used: str) -> bytes:
    return with_part("xl/worksheets/sheet1.xml", sheet(ROW).replace('<?xml version="1.0"?>', declared).replace("7", used))


def encrypted_zip() -> bytes:
    data = bytearray(GOOD)
    at = data.index(b"PK\x03\x04")
    data[at + 6] |= 1
    at = -1
    while (at := data.find(b"PK\x01\x02", at + 1)) >= 0:
        data[at + 8] |= 1
    return bytes(data)


def lying_sizes() -> bytes:
    """A member that says that it holds ten bytes, and holds a million."""
    data = bytearray(with_part("xl/worksheets/sheet1.xml", sheet(" " * 1_000_000)))
    at = data.index(b"xl/worksheets/sheet1.xml", data.index(b"PK\x01\x02")) - 46
    data[at + 24 : at + 28] = struct.pack("<I", 10)
    return bytes(data)


def cells(count: int) -> str:
    return "".join(f'<row r="{r}"><c r="A{r}"><v>1</v></c></row>' for r in range(1, count + 1))


ANSWERS: dict[str, tuple[bytes, str]] = {
    "nothing at all": (b"", "empty"),
    "zip cut off": (GOOD[: len(GOOD) // 2], "damaged"),
    "zip without its end": (GOOD[:-30], "damaged"),
    "zip of nothing": (b"PK\x05\x06" + b"\0" * 18, "packed folder"),
    "wrong checksum": (zipped(xlsx_parts({"S": sheet(ROW)}), zipfile.ZIP_STORED).replace(b"<v>7</v>", b"<v>8</v>"), "damaged"),
    "encrypted zip": (encrypted_zip(), "password"),
    "encrypted package": (OLE2 + "EncryptedPackage".encode("utf-16-le"), "password"),
    "sizes that lie": (lying_sizes(), "damaged"),
    "unusual packing": (zipped(xlsx_parts({"S": sheet(ROW)}), zipfile.ZIP_LZMA), "unusual way"),
    "entity bomb": (entity_sheet(DTD, "&b;"), "entities"),
    "external entity": (entity_sheet('<!DOCTYPE a [<!ENTITY x SYSTEM "file:///etc/passwd">]>', "&x;"), "entities"),
    "entity bomb in an open document": (
        zipped({**ods_parts(""), "content.xml": DTD + '<office:document-content xmlns:office="x">&b;</office:document-content>'}), "entities",
    ),
    "XML cut off": (with_part("xl/worksheets/sheet1.xml", sheet(ROW)[:-30]), "damaged"),
    "no workbook": (zipped({"[Content_Types].xml": "<Types/>"}), "no workbook was found"),
    "no sheets": (zipped(xlsx_parts({})), "No sheet"),
    "a text that is not there": (xlsx('<row r="1"><c r="A1" t="s"><v>5</v></c></row>'), "text of a cell in row 1"),
    "a negative text number": (xlsx('<row r="1"><c r="A1" t="s"><v>-1</v></c></row>', strings="<si><t>x</t></si>"), "text of a cell"),
    "an address beyond the last": (xlsx('<row r="1"><c r="XFE1"><v>1</v></c></row>'), "column 16,385"),
    "an address that is none": (xlsx('<row r="1"><c r="1A"><v>1</v></c></row>'), "“1A”"),
    "row zero": (xlsx('<row r="0"><c r="A0"><v>1</v></c></row>'), "row 0"),
    "two parts of one name": (zipped({**xlsx_parts({"S": sheet(ROW)}), "/xl/workbook.xml": "x"}), "two parts"),
    "a word document": (zipped({"[Content_Types].xml": "<Types/>", "word/document.xml": "x"}), "text document"),
    "a packed folder": (zipped({"a.csv": "x"}), "packed folder"),
    "an open text document": (zipped({"mimetype": "application/vnd.oasis.opendocument.text", "content.xml": "x"}), "text document"),
    "encrypted open document": (zipped({**ods_parts(""), "META-INF/manifest.xml": "<m><encryption-data/></m>"}), "password"),
    "old word document": (OLE2 + "WordDocument".encode("utf-16-le"), "text document"),
    "old workbook, broken": (OLE2 + "Workbook".encode("utf-16-le"), "damaged"),
    "binary workbook, broken": (xlsb([(0, False, xlsb_cell(7, 0, b"\x09\0\0\0"))]), "text of a cell"),
    "a PDF": (b"%PDF-1.7\n", "PDF"),
    "a picture": (b"\x89PNG\r\n\x1a\n", "picture"),
    "gzip": (b"\x1f\x8b\x08\x00", "archive"),
    "a web page": (b"<html><body><table><tr><td>Site code</td></tr></table></body></html>", "web page"),
    "a web page with an encoding": ("<!DOCTYPE html><table></table>".encode("utf-16"), "web page"),
    "XML": (b'<?xml version="1.0"?><a/>', "XML file"),
    "workbook in XML of 2003": (b'<?xml version="1.0"?><?mso-application progid="Excel.Sheet"?><Workbook/>', "XML format of 2003"),
    "JSON": (b'{"url": "x", "doc_id": "y"}', "JSON"),
    "RTF": (b"{\\rtf1 x}", "RTF"),
    "random bytes": (bytes(range(256)) * 9, "no spreadsheet and no text table"),
    "prose": (b"# Read me\n\nSome words, with commas, and more.\nAnother line.\n", "no table"),
    "UTF-16 that lost a byte": ("Site code\tPost\nS1\tP1\n".encode("utf-16")[:5] + "Site code\tPost\nS1\tP1\n".encode("utf-16")[6:], "a byte of it is missing"),
    "zeros": (b"\0" * 5000, "no spreadsheet"),
}  # fmt: skip


@pytest.mark.parametrize("name", ANSWERS)
def test_each_gets_its_answer(tmp_path: Path, name: str) -> None:
    data, words = ANSWERS[name]
    path = tmp_path / "survey.xlsx"
    path.write_bytes(data)
    with pytest.raises(UnreadableFileError) as e:
        read_book(str(path))
    assert words in e.value.reason
    assert e.value.reason.endswith(".")
    assert e.value.remedy.endswith(".")


LIMITED: dict[str, tuple[bytes, str]] = {
    "parts": (zipped({f"p{i}": "" for i in range(60)}), "more than 50 parts"),
    "declared size": (with_part("xl/media/big.bin", b"\0" * 600_000), "once it is unpacked"),
    "one part": (with_part("xl/worksheets/sheet1.xml", sheet(" " * 400_000)), "a part of"),
    "filled cells": (xlsx(cells(101)), "100 filled cells"),
    "blank cells": (xlsx('<row r="1">' + "<c/>" * 1001 + "</row>"), "1,000 cells"),
    "sheets": (zipped(xlsx_parts({f"S{i}": sheet("") for i in range(6)})), "5 sheets"),
    "shared texts": (xlsx(ROW, strings="<si><t>x</t></si>" * 51), "50 different texts"),
    "a shared text": (xlsx(ROW, strings=f"<si><t>{'x' * 1001}</t></si>"), "1,000 characters"),
    "a cell's text": (xlsx(f'<row r="1"><c r="A1" t="inlineStr"><is><t>{"x" * 1001}</t></is></c></row>'), "1,000 characters"),
    "repeated columns": (zipped(ods_parts(TABLE.format("", 'table:number-columns-repeated="999999999"'))), "column 999,999,999"),
    "repeated rows": (zipped(ods_parts(TABLE.format('table:number-rows-repeated="500"', ""))), "100 filled cells"),
    "text cells": (("a,b,c\n" * 50).encode(), "100 filled cells"),
    "blank text cells": (("," * 30 + "\n").encode() * 50, "1,000 cells"),
}


@pytest.mark.parametrize("name", LIMITED)
def test_limits(tmp_path: Path, name: str) -> None:
    data, words = LIMITED[name]
    (tmp_path / "a.csv").write_bytes(data)
    with pytest.raises(UnreadableFileError, match=words):
        read_book(str(tmp_path / "a.csv"), limits=SMALL)


def test_large_but_honest(tmp_path: Path) -> None:
    """Far cells, merges over a whole sheet and a million formatted rows cost nothing."""
    far = '<row r="1"><c r="A1"><v>1</v></c></row><row r="1048576"><c r="XFD1048576"><v>2</v></c></row>'
    merged = '<mergeCells><mergeCell ref="A10:XFD1048576"/></mergeCells>'
    path = tmp_path / "a.xlsx"
    path.write_bytes(zipped(xlsx_parts({"S": sheet(far, after=merged)})))
    started = time.process_time()
    assert [c.address for c in read_book(str(path)).sheets[0].cells] == ["A1"]
    assert time.process_time() - started < 5  # a loop over every cell takes hours
    path.write_bytes(
        xlsx(
            "".join(f'<row r="{r}" s="1" customFormat="1"/>' for r in range(1, 200_000))
            + far.replace("A1", "A1000000", 1).replace('r="1"', 'r="1000000"')
        )
    )
    assert len(read_book(str(path)).sheets[0].cells) == 2
    assert time.process_time() - started < 20


BOMBS: dict[str, tuple[bytes, int, str]] = {
    "blanks": (b" " * 1_000_000, 240, "packed so tightly|damaged"),
    "blank cells": (b"<row><c/><c/><c/></row>" * 40_000, 240, "packed so tightly|cells"),
    "filled cells": (b"<row><c><v>1</v></c></row>" * 40_000, 230, "packed so tightly|a cell in row"),
    "nested tags": (b"<a>" * 300_000, 250, "nested too deeply"),
    "two gigabytes": (b" " * 1_000_000, 2000, "once it is unpacked"),
}


@pytest.mark.slow
@pytest.mark.parametrize("name", BOMBS)
def test_real_bombs(tmp_path: Path, name: str) -> None:
    """Source: our own, of the kinds that kill other readers."""
    content, times, words = BOMBS[name]
    path = tmp_path / "a.xlsx"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as z:
        for part_name, part_content in xlsx_parts({"S": sheet(ROW)}).items():
            if not part_name.endswith("sheet1.xml"):
                z.writestr(part_name, part_content)
        with z.open("xl/worksheets/sheet1.xml", "w", force_zip64=True) as part:
            part.write(b'<worksheet xmlns="x"><sheetData>')
            for _ in range(times):
                part.write(content)
    before = resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime
    with Sandbox("pipeline.reading:read_book") as box, pytest.raises(UnreadableFileError, match=words):
        box.run(str(path))
    assert resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime - before < 30

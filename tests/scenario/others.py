"""Writes what is no .xlsx: text tables, .ods, .xls and .xlsb."""

from __future__ import annotations

import csv
import io
import struct
from collections.abc import Sequence
from xml.sax.saxutils import escape, quoteattr

import xlwt
from files_made import xlsb_cell

from scenario.cells import Cell, Day, Formula, Row, Sheet, lines
from scenario.workbooks import zipped


def text(rows: Sequence[Row], separator: str = ",", encoding: str = "utf-8", newline: str = "\n") -> bytes:
    """A text table; `utf-16` and `utf-8-sig` have their mark in front."""
    out = io.StringIO()
    csv.writer(out, delimiter=separator, lineterminator=newline).writerows(lines(rows))
    if encoding == "utf-16":
        return b"\xff\xfe" + out.getvalue().encode("utf-16-le")
    return out.getvalue().encode(encoding)


# old binary workbooks


def xls(sheets: Sequence[Sheet]) -> bytes:
    """An old binary workbook."""
    book = xlwt.Workbook()
    for sheet in sheets:
        ws = book.add_sheet(sheet.name)
        for y, row in enumerate(sheet.all_rows):
            for x, value in enumerate(row):
                if isinstance(value, Day):
                    ws.write(y, x, value.day, xlwt.easyxf(num_format_str=value.form))
                elif value is not None:
                    ws.write(y, x, value)
        for n in sheet.hidden:
            ws.row(n - 1).hidden = True
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


# OpenDocument

_ODS = "application/vnd.oasis.opendocument.spreadsheet"
_URN = "urn:oasis:names:tc:opendocument:xmlns"
_SPACES = " ".join(f'xmlns:{n}="{_URN}:{n}:1.0"' for n in ("office", "table", "text"))


def ods(sheets: Sequence[Sheet]) -> bytes:
    """An OpenDocument spreadsheet. Source: OpenDocument 1.2, part 1 (content) and part 3 (packages)."""
    tables = "".join(_ods_table(s) for s in sheets)
    body = f"<office:body><office:spreadsheet>{tables}</office:spreadsheet></office:body>"
    head = '<?xml version="1.0" encoding="UTF-8"?>'
    content = f'{head}<office:document-content {_SPACES} office:version="1.2">{body}</office:document-content>'
    files = "".join(
        f'<m:file-entry m:full-path="{path}" m:media-type="{kind}"/>' for path, kind in (("/", _ODS), ("content.xml", "text/xml"))
    )
    manifest = f'{head}<m:manifest xmlns:m="{_URN}:manifest:1.0" m:version="1.2">{files}</m:manifest>'
    parts = {"mimetype": _ODS, "content.xml": content, "META-INF/manifest.xml": manifest}
    return zipped({n: p.encode() for n, p in parts.items()}, stored="mimetype")


def _ods_table(sheet: Sheet) -> str:
    rows = []
    for n, row in enumerate(sheet.all_rows, 1):
        hidden = ' table:visibility="collapse"' if n in sheet.hidden else ""
        rows.append(f"<table:table-row{hidden}>{''.join(_ods_cell(c) for c in row) or _ods_cell(None)}</table:table-row>")
    return f"<table:table table:name={quoteattr(sheet.name)}>{''.join(rows)}</table:table>"


def _ods_cell(value: Cell) -> str:
    if value is None:
        return "<table:table-cell/>"
    if isinstance(value, Formula):
        shown = "" if value.result is None else str(value.result)
        kind = 'office:value-type="string" office:string-value=""'
        head = f"<table:table-cell table:formula={quoteattr('of:' + value.text)} {kind}>"
        return f"{head}<text:p>{escape(shown)}</text:p></table:table-cell>"
    if isinstance(value, Day):
        raise TypeError("no example has a date in an OpenDocument file")
    kind = 'office:value-type="string"' if isinstance(value, str) else f'office:value-type="float" office:value="{value}"'
    return f"<table:table-cell {kind}><text:p>{escape(str(value))}</text:p></table:table-cell>"


# binary Office Open XML

_MAIN = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_RELATIONS = "http://schemas.openxmlformats.org/package/2006/relationships"
_TYPES = "http://schemas.openxmlformats.org/package/2006/content-types"
_EXCEL = "application/vnd.ms-excel"
_REAL, _TEXT = 5, 6  # BrtCellReal, BrtCellSt
_FONT = struct.pack("<HHHHBBBB", 220, 0, 400, 0, 0, 2, 0, 0) + struct.pack("<BBH4B", 3, 1, 0, 0, 0, 0, 255) + b"\0"


def xlsb(sheet: Sheet) -> bytes:
    """A binary workbook of one sheet. Source: MS-XLSB 2.1.4 (records), 2.1.7 (parts), 2.4 (each record)."""
    body = b"".join(_xlsb_row(y, row) for y, row in enumerate(sheet.all_rows))
    width = max(len(r) for r in sheet.all_rows)
    area = struct.pack("<4I", 0, len(sheet.all_rows) - 1, 0, width - 1)
    bundle = struct.pack("<II", 0, 1) + _wide("rId1") + _wide(sheet.name)
    parts = {
        "[Content_Types].xml": _content_types(),
        "_rels/.rels": _related(("officeDocument", "xl/workbook.bin")),
        "xl/workbook.bin": _records((131, b""), (143, b""), (156, bundle), (144, b""), (132, b"")),
        "xl/_rels/workbook.bin.rels": _related(("worksheet", "worksheets/sheet1.bin"), ("styles", "styles.bin")),
        "xl/styles.bin": _styles(),
        "xl/worksheets/sheet1.bin": _records((129, b""), (148, area), (145, b"")) + body + _records((146, b""), (130, b"")),
    }
    return zipped({n: p.encode() if isinstance(p, str) else p for n, p in parts.items()})


def _xlsb_row(y: int, row: Row) -> bytes:
    filled = [x for x, value in enumerate(row) if value is not None]
    if not filled:
        return b""
    span = struct.pack("<III", 1, filled[0], filled[-1])
    head = struct.pack("<IIHBBB", y, 0, 300, 0, 0, 0) + span
    return _records((0, head)) + b"".join(_xlsb_cell(x, row[x]) for x in filled)


def _xlsb_cell(x: int, value: Cell) -> bytes:
    if isinstance(value, str):
        return xlsb_cell(_TEXT, x, _wide(value))
    if isinstance(value, int | float):
        return xlsb_cell(_REAL, x, struct.pack("<d", value))
    raise TypeError("no example has a date or a formula in a binary workbook")


def _styles() -> bytes:
    """One font, two fills, one border, one cell format: the least that a workbook has."""
    one = struct.pack("<I", 1)
    fill = (
        struct.pack("<I", 0) + struct.pack("<BBH4B", 3, 64, 0, 0, 0, 0, 255) + struct.pack("<BBH4B", 3, 65, 0, 255, 255, 255, 255)
    )
    fill += struct.pack("<I5dI", 0, 0, 0, 0, 0, 0, 0)
    border = b"\0" + (b"\0\0" + struct.pack("<BBH4B", 0, 0, 0, 0, 0, 0, 0)) * 5
    format_ = struct.pack("<HHHHHBBHBB", 0xFFFF, 0, 0, 0, 0, 0, 0, 0x1010, 0, 0)[:16]
    used = struct.pack("<HHHHHBBHBB", 0, 0, 0, 0, 0, 0, 0, 0x1010, 0, 0)[:16]
    normal = struct.pack("<IHBB", 0, 1, 0, 0xFF) + _wide("Normal")
    return _records(
        (278, b""), (611, one), (43, _FONT + _wide("Calibri")), (612, b""),
        (603, struct.pack("<I", 2)), (45, fill), (45, fill), (604, b""), (613, one), (46, border), (614, b""),
        (626, one), (47, format_), (627, b""), (617, one), (47, used), (618, b""),
        (619, one), (48, normal), (620, b""), (279, b""),
    )  # fmt: skip


def _records(*records: tuple[int, bytes]) -> bytes:
    out = b""
    for number, content in records:
        out += bytes([number]) if number < 128 else bytes([number & 0x7F | 0x80, number >> 7])
        size = len(content)
        while size > 0x7F:
            out += bytes([size & 0x7F | 0x80])
            size >>= 7
        out += bytes([size]) + content
    return out


def _wide(words: str) -> bytes:
    return struct.pack("<I", len(words)) + words.encode("utf-16-le")


def _related(*targets: tuple[str, str]) -> str:
    each = "".join(f'<Relationship Id="rId{n}" Type="{_MAIN}/{k}" Target="{t}"/>' for n, (k, t) in enumerate(targets, 1))
    return f'<?xml version="1.0" encoding="UTF-8"?><Relationships xmlns="{_RELATIONS}">{each}</Relationships>'


def _content_types() -> str:
    each = "".join(
        f'<Override PartName="/xl/{part}.bin" ContentType="{_EXCEL}.{kind}"/>'
        for part, kind in (("worksheets/sheet1", "worksheet"), ("styles", "styles"))
    )
    defaults = (
        f'<Default Extension="bin" ContentType="{_EXCEL}.sheet.binary.macroEnabled.main"/>'
        '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    )
    return f'<?xml version="1.0" encoding="UTF-8"?><Types xmlns="{_TYPES}">{defaults}{each}</Types>'

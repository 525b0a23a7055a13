"""Crafted files for the readers' tests: parts of workbooks put together by hand."""

# ruff: noqa: E501 - crafted files, one cell or part a line
from __future__ import annotations

import io
import struct
import zipfile
from collections.abc import Mapping, Sequence

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
STRICT = "http://purl.oclc.org/ooxml/spreadsheetml/main"
_RELATIONS = "http://schemas.openxmlformats.org/package/2006/relationships"
_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_STRICT_OFFICE = "http://purl.oclc.org/ooxml/officeDocument/relationships"


def zipped(parts: Mapping[str, str | bytes], method: int = zipfile.ZIP_DEFLATED) -> bytes:
    """A zip of the parts."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", method) as z:
        for name, content in parts.items():
            z.writestr(name, content)
    return out.getvalue()


def sheet(rows: str, after: str = "", before: str = "", namespace: str = MAIN) -> str:
    """A worksheet part around the XML of its rows."""
    return f'<?xml version="1.0"?><worksheet xmlns="{namespace}">{before}<sheetData>{rows}</sheetData>{after}</worksheet>'


def xlsx_parts(
    sheets: Mapping[str, str | bytes],
    strings: str = "",
    styles: str = "",
    states: Mapping[str, str] | None = None,
    strict: bool = False,
    properties: str = "",
) -> dict[str, str | bytes]:
    """Parts of a workbook whose sheets are given by name."""
    main, office = (STRICT, _STRICT_OFFICE) if strict else (MAIN, _OFFICE)
    states = states or {}
    listed = "".join(
        f'<sheet name="{n}" sheetId="{i}" r:id="rId{i}" state="{states.get(n, "visible")}"/>' for i, n in enumerate(sheets, 1)
    )
    related = "".join(
        f'<Relationship Id="rId{i}" Type="{office}/worksheet" Target="worksheets/sheet{i}.xml"/>'
        for i in range(1, len(sheets) + 1)
    )
    parts: dict[str, str | bytes] = {
        "[Content_Types].xml": "<Types/>",
        "_rels/.rels": f'<Relationships xmlns="{_RELATIONS}"><Relationship Id="a" Type="{office}/officeDocument" '
        f'Target="xl/workbook.xml"/></Relationships>',
        "xl/workbook.xml": f'<workbook xmlns="{main}" xmlns:r="{office}">{properties}<sheets>{listed}</sheets></workbook>',
    }
    if strings:
        related += f'<Relationship Id="rs" Type="{office}/sharedStrings" Target="sharedStrings.xml"/>'
        parts["xl/sharedStrings.xml"] = f'<sst xmlns="{main}">{strings}</sst>'
    if styles:
        related += f'<Relationship Id="rt" Type="{office}/styles" Target="styles.xml"/>'
        parts["xl/styles.xml"] = f'<styleSheet xmlns="{main}">{styles}</styleSheet>'
    parts["xl/_rels/workbook.xml.rels"] = f'<Relationships xmlns="{_RELATIONS}">{related}</Relationships>'
    for i, content in enumerate(sheets.values(), 1):
        parts[f"xl/worksheets/sheet{i}.xml"] = content
    return parts


def xlsx(rows: str, **more: str) -> bytes:
    """A workbook with one sheet, by the XML of its rows."""
    return zipped(xlsx_parts({"Survey": sheet(rows)}, **more))  # type: ignore[arg-type]


def styles(*codes: str) -> str:
    """Styles in which cell style 1, 2, ... has the number format given; style 0 has none."""
    quoted = [c.replace("&", "&amp;").replace('"', "&quot;").replace("<", "&lt;") for c in codes]
    formats = "".join(f'<numFmt numFmtId="{170 + i}" formatCode="{c}"/>' for i, c in enumerate(quoted))
    used = "".join(f'<xf numFmtId="{170 + i}"/>' for i in range(len(codes)))
    return f'<numFmts>{formats}</numFmts><cellXfs><xf numFmtId="0"/>{used}</cellXfs>'


def ods_parts(tables: str, automatic: str = "") -> dict[str, str | bytes]:
    """Parts of an OpenDocument spreadsheet around the XML of its tables."""
    return {
        "mimetype": "application/vnd.oasis.opendocument.spreadsheet",
        "content.xml": '<office:document-content xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" '
        'xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" '
        'xmlns:style="urn:oasis:names:tc:opendocument:xmlns:style:1.0" '
        'xmlns:draw="urn:oasis:names:tc:opendocument:xmlns:drawing:1.0" '
        'xmlns:calcext="urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0" '
        'xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0">'
        f"<office:automatic-styles>{automatic}</office:automatic-styles>"
        f"<office:body><office:spreadsheet>{tables}</office:spreadsheet></office:body></office:document-content>",
    }


def _record(number: int, content: bytes = b"") -> bytes:
    """A record of a binary workbook. Source: MS-XLSB 2.1.4."""
    head = bytes([number]) if number < 128 else bytes([number & 0x7F | 0x80, number >> 7])
    size, length = len(content), b""
    while size > 0x7F:
        length += bytes([size & 0x7F | 0x80])
        size >>= 7
    return head + length + bytes([size]) + content


def _wide(text: str) -> bytes:
    return struct.pack("<I", len(text)) + text.encode("utf-16-le")


def xlsb_cell(number: int, column: int, content: bytes = b"", style: int = 0) -> bytes:
    """A cell record."""
    return _record(number, struct.pack("<II", column, style) + content)


def xlsb(
    rows: Sequence[tuple[int, bool, bytes]], strings: Sequence[str] = (), codes: Sequence[str] = (), hidden: bool = False
) -> bytes:
    """A binary workbook with one sheet `Survey`: (row, hidden, cell records) each."""
    body = b"".join(
        _record(0, struct.pack("<IIHBBB", r, 0, 300, 0, 0x10 if h else 0, 0) + b"\0" * 4) + cells for r, h, cells in rows
    )
    sheet_part = _record(129) + _record(148, struct.pack("<4I", 0, 20, 0, 9)) + _record(145) + body + _record(146) + _record(130)
    styles_part = b"".join(_record(44, struct.pack("<H", 170 + i) + _wide(c)) for i, c in enumerate(codes))
    xfs = [0, *(170 + i for i in range(len(codes)))]
    styles_part += _record(617, struct.pack("<I", len(xfs)))
    styles_part += b"".join(_record(47, struct.pack("<HH", 0, f) + b"\0" * 12) for f in xfs) + _record(618)
    related = "".join(
        f'<Relationship Id="{i}" Type="{_OFFICE}/{kind}" Target="{target}"/>'
        for i, kind, target in (
            ("rId1", "worksheet", "worksheets/sheet1.bin"), ("s", "sharedStrings", "sharedStrings.bin"), ("t", "styles", "styles.bin"),
        )
    )  # fmt: skip
    bundle = struct.pack("<II", 1 if hidden else 0, 1) + _wide("rId1") + _wide("Survey")
    return zipped(
        {
            "[Content_Types].xml": "<Types/>",
            "_rels/.rels": f'<Relationships xmlns="{_RELATIONS}"><Relationship Id="a" Type="{_OFFICE}/officeDocument" '
            f'Target="xl/workbook.bin"/></Relationships>',
            "xl/workbook.bin": _record(131) + _record(143) + _record(156, bundle) + _record(144) + _record(132),
            "xl/_rels/workbook.bin.rels": f'<Relationships xmlns="{_RELATIONS}">{related}</Relationships>',
            "xl/sharedStrings.bin": _record(159, struct.pack("<II", len(strings), len(strings)))
            + b"".join(_record(19, b"\0" + _wide(s)) for s in strings)
            + _record(160),
            "xl/styles.bin": styles_part,
            "xl/worksheets/sheet1.bin": sheet_part,
        }
    )

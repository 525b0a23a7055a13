"""The same workbook, the same bytes: a package written anew without clock, and with formulas' results stored."""

from __future__ import annotations

import datetime
import io
import re
import zipfile
from collections.abc import Mapping
from xml.sax.saxutils import escape

from pipeline.reading.book import Book, Cell

EPOCH = (1980, 1, 1, 0, 0, 0)
"""Time stamp of every member; the earliest that a zip can hold."""

_STAMP = re.compile(rb"(<dcterms:(created|modified)[^>]*>)[^<]*(</dcterms:)")
_FORMULA = re.compile(r'<c r="([A-Z]+\d+)"([^>]*)>(<f[ >].*?</f>|<f[^>]*/>)<v\s*(?:/>|></v>)', re.DOTALL)


def parts_of(package: bytes) -> dict[str, bytes]:
    """Every part of a package, in its order."""
    with zipfile.ZipFile(io.BytesIO(package)) as z:
        return {name: z.read(name) for name in z.namelist()}


def repacked(parts: Mapping[str, bytes], results: Mapping[str, Mapping[str, str]], stamp: str) -> bytes:
    """The package of `parts` with fixed time stamps (`stamp` in its properties) and formulas' stored results.

    `results` maps a part's name to cell -> type and value, as `stored` makes them.
    """
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for name, data in parts.items():
            if name == "docProps/core.xml":
                data = _STAMP.sub(rb"\g<1>" + stamp.encode() + rb"\g<3>", data)
            if results.get(name):
                data = _with_results(data.decode("utf-8"), results[name]).encode("utf-8")
            info = zipfile.ZipInfo(name, EPOCH)
            info.compress_type = zipfile.ZIP_DEFLATED
            info.external_attr = 0o600 << 16
            new.writestr(info, data)
    return out.getvalue()


def stored(book: Book) -> dict[str, dict[str, str]]:
    """By sheet and cell: the type and the value that a cell showed when the file was read, as the format writes it."""
    return {s.name: {c.address: text for c in s.cells if (text := _result(c))} for s in book.sheets}


def _result(cell: Cell) -> str:
    """A stored result as `type|value`; '' where there is none."""
    value = cell.value
    if cell.kind == "number" and isinstance(value, int | float):
        return f"n|{value!r}"
    if cell.kind == "bool":
        return f"b|{int(bool(value))}"
    if cell.kind == "date":
        return _serial(str(value))
    return f"{'e' if cell.kind == 'error' else 'str'}|{value}" if cell.kind in ("text", "error") else "none|"


def _serial(iso: str) -> str:
    """A date as the day number that cells hold; '' where it is none."""
    from openpyxl.utils.datetime import to_excel

    try:
        moment = datetime.time.fromisoformat(iso) if re.fullmatch(r"\d\d:.*", iso) else datetime.datetime.fromisoformat(iso)
    except ValueError:
        return ""
    return f"n|{to_excel(moment)!r}"


def _with_results(xml: str, results: Mapping[str, str]) -> str:
    """A sheet's XML with each formula's result in its place; a formula that showed nothing keeps an empty text."""

    def put(match: re.Match[str]) -> str:
        cell, attributes, formula = match[1], re.sub(r'\st="[^"]*"', "", match[2]), match[3]
        kind, _, value = results.get(cell, "str|").partition("|")
        if kind == "none":
            return match[0]
        type_ = "" if kind == "n" else f' t="{kind}"'
        return f'<c r="{cell}"{attributes}{type_}>{formula}<v>{escape(value)}</v>'

    return _FORMULA.sub(put, xml)

"""Office Open XML workbooks, transitional and strict: which sheets there are, their strings and formats."""

from __future__ import annotations

import zipfile
from dataclasses import dataclass, field
from functools import lru_cache

from pipeline.reading.answers import answer, damaged
from pipeline.reading.book import Book, Sheet
from pipeline.reading.limits import Budget, refuse
from pipeline.reading.markup import local, parse
from pipeline.reading.numberformats import BUILT_IN, NumberFormat, number_format
from pipeline.reading.ooxml_parts import Package
from pipeline.reading.text_values import printable, unescape
from pipeline.reading.workbook import Link, links
from pipeline.reading.worksheet import Context, read_worksheet

_TRUE = ("1", "true", "on")
_MOST_STYLES = 500_000
"""Cell styles of one workbook. Source: common practice; spreadsheet programs stop at some 65,000."""
_KEPT_STYLES = 200_000  # styles parts up to this size are parsed once for all files that share them


@dataclass(slots=True)
class _Contents:
    """What the workbook part says: (name, relationship, state) of each sheet, and the date system."""

    sheets: list[tuple[str, str, str]] = field(default_factory=list)
    from_1904: bool = False


def read_xlsx(package: Package, part: str) -> Book:
    """Cells of every worksheet, hidden ones too; chart, macro and dialogue sheets hold none."""
    contents = _contents(package, part)
    related = links(package, part)
    context = Context(
        strings=_strings(package, related),
        formats=_formats(package, related),
        from_1904=contents.from_1904,
        budget=package.budget,
    )
    sheets: list[Sheet] = []
    notes: list[str] = []
    for name, relation, state in contents.sheets:
        if not relation:  # a module that an old program listed among the sheets
            notes.append(f"“{name}” is listed as a sheet and has none; the other sheets were read.")
            continue
        link = related.get(relation)
        member = package.find(link.target) if link else None
        if link is not None and link.kind != "worksheet":
            continue
        if member is None:
            raise damaged(f"its sheet “{name}” is missing")
        sheet, remarks = read_worksheet(package.chunks(member), name, state in ("hidden", "veryHidden"), context)
        sheets.append(sheet)
        notes.extend(remarks)
    if not sheets:
        raise answer("no sheet")
    return Book("xlsm" if package.find("xl/vbaProject.bin") else "xlsx", tuple(sheets), tuple(notes))


def _contents(package: Package, part: str) -> _Contents:
    found = _Contents()
    limits = package.budget.limits

    def start(tag: str, attributes: dict[str, str]) -> None:
        name = local(tag)
        if name == "sheet":
            relation = next((v for k, v in attributes.items() if k.endswith(":id")), "")
            title = printable(unescape(attributes.get("name", "")))
            found.sheets.append((title, relation, attributes.get("state", "")))
            if len(found.sheets) > limits.sheets:
                raise refuse(f"more than {limits.sheets:,} sheets")
        elif name == "workbookPr" and "date1904" in attributes:  # an extension has an element of the same name
            found.from_1904 = attributes["date1904"] in _TRUE

    member = package.find(part)
    if member is None:
        raise answer("damaged")
    parse(package.chunks(member), start, lambda tag: None)
    return found


def _part(package: Package, related: dict[str, Link], kind: str) -> zipfile.ZipInfo | None:
    return next((package.find(link.target) for link in related.values() if link.kind == kind), None)


def _strings(package: Package, related: dict[str, Link]) -> list[str]:
    """Shared strings, rich text joined, phonetic runs left out; empty where the part is missing."""
    member = _part(package, related, "sharedStrings")
    if member is None:
        return []
    scan = _StringScan(package.budget)
    parse(package.chunks(member), scan.start, scan.end, scan.text)
    return scan.strings


class _StringScan:
    """Handlers that collect the texts of `si` elements. Source: ISO/IEC 29500-1 18.4."""

    def __init__(self, budget: Budget) -> None:
        self.strings: list[str] = []
        self._limits = budget.limits
        self._pieces: list[str] = []
        self._length = 0
        self._phonetic = 0
        self._inside = False

    def start(self, tag: str, attributes: dict[str, str]) -> None:
        name = local(tag)
        if name == "t":
            self._inside = not self._phonetic
        elif name == "rPh":
            self._phonetic += 1

    def text(self, data: str) -> None:
        if self._inside:
            self._pieces.append(data)
            self._length += len(data)
            if self._length > self._limits.text:
                raise refuse(f"a text of more than {self._limits.text:,} characters")

    def end(self, tag: str) -> None:
        name = local(tag)
        if name == "t":
            self._inside = False
        elif name == "rPh":
            self._phonetic -= 1
        elif name == "si":
            self.strings.append(unescape("".join(self._pieces)))
            self._pieces, self._length = [], 0
            if len(self.strings) > self._limits.strings:
                raise refuse(f"more than {self._limits.strings:,} different texts")


def _formats(package: Package, related: dict[str, Link]) -> tuple[NumberFormat | None, ...]:
    """Number format of each cell style; None for one that shows a number as it is."""
    member = _part(package, related, "styles")
    if member is None:
        return ()
    data = package.read(member)
    return _formats_of(data) if len(data) <= _KEPT_STYLES else _formats_of.__wrapped__(data)


@lru_cache(maxsize=16)
def _formats_of(data: bytes) -> tuple[NumberFormat | None, ...]:
    """Formats of the `cellXfs` of a styles part. Source: ISO/IEC 29500-1 18.8.10, 18.8.30, 18.8.31."""
    codes: dict[int, str] = {}
    used: list[int] = []
    path: list[str] = []

    def start(tag: str, attributes: dict[str, str]) -> None:
        name = local(tag)
        parent = path[-1] if path else ""
        path.append(name)
        if name == "numFmt" and parent == "numFmts":
            codes[int(attributes["numFmtId"])] = unescape(attributes.get("formatCode", ""))
        elif name == "xf" and parent == "cellXfs":
            used.append(int(attributes.get("numFmtId", "0")))
            if len(used) > _MOST_STYLES:
                raise refuse(f"more than {_MOST_STYLES:,} cell styles")

    def end(tag: str) -> None:
        path.pop()

    parse((data,), start, end)
    return tuple(number_format(codes.get(i, BUILT_IN.get(i, ""))) for i in used)

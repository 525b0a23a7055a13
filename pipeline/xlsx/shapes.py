"""Boxes of a drawing as finished markup: the spreadsheet library draws each kind once, places and words are put in here."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from typing import Any, NamedTuple
from zipfile import ZipFile

import xlsxwriter
from xlsxwriter.drawing import Drawing

EMU = 9525
"""Length units of drawings in a pixel of 1/96 in. Source: ECMA-376 part 1, 20.1.2.1 EMU unit of measurement."""

_SAMPLE = re.compile(
    r"<xdr:twoCellAnchor>(?:<xdr:from>.*?</xdr:to>)(?P<name>.*?) id=\"\d+\" name=\"[^\"]*\"(?P<told>.*?)"
    r"<a:xfrm>.*?</a:xfrm>(?P<rest>.*?</xdr:twoCellAnchor>)"
)


class Box(NamedTuple):
    """A box: the cell that its place counts from, its place and size [pixels], its kind, its words, and what it shows."""

    row: int
    column: int
    x: float
    y: float
    width: float
    height: float
    kind: Kind
    words: str = ""
    told: str = ""  # '' for what only decorates


class Kind:
    """One kind of box, as the spreadsheet library's options describe it."""

    def __init__(self, look: Mapping[str, Any]) -> None:
        self.look = dict(look)

    @cache  # noqa: B019 (kinds are constants of a module)
    def pattern(self, words: bool, told: bool) -> tuple[str, ...]:
        """Markup before the box's number, after it, around what it shows, after its place, around its words."""
        options = {**self.look, **({"description": "@told@"} if told else {"decorative": True})}
        made = io.BytesIO()
        book = xlsxwriter.Workbook(made, {"in_memory": True})
        book.add_worksheet().insert_textbox(0, 0, "@words@" if words else "", options)
        book.close()
        with ZipFile(made) as parts:
            found = _SAMPLE.search(parts.read("xl/drawings/drawing1.xml").decode())
        assert found
        before, after = _cut(found["told"], "@told@")
        left, right = _cut(found["rest"], "@words@")
        return found["name"], before, after, left, right


def _cut(text: str, at: str) -> tuple[str, str]:
    left, _, right = text.partition(at)
    return left, right


class Shapes(Drawing):
    """The part that holds a sheet's boxes."""

    def __init__(self, sheet: Any, boxes: Sequence[Box]) -> None:
        super().__init__()
        self._sheet, self._boxes = sheet, boxes

    def _assemble_xml_file(self) -> None:
        self._xml_declaration()
        self._write_drawing_workspace()
        self.fh.write("".join(self._anchors()))
        self._xml_end_tag("xdr:wsDr")

    def _anchors(self) -> Iterator[str]:
        cells: dict[tuple[int, int], tuple[float, ...]] = {}
        for number, box in enumerate(self._boxes, 1):
            cell = cells.get((box.row, box.column))
            if cell is None:
                cell = cells[box.row, box.column] = self._cell(box)
            yield self._anchor(number, box, cell)

    def _cell(self, box: Box) -> tuple[float, float, float, float]:
        """Width, height and place of a cell [pixels]."""
        s, row, column = self._sheet, box.row, box.column
        return s._size_col(column), s._size_row(row), s._col_offset(column), s._row_offset(row)

    def _anchor(self, number: int, box: Box, cell: tuple[float, ...]) -> str:
        """One box. Source: ECMA-376 part 1, 20.5.2.33 twoCellAnchor."""
        row, column, x, y, width, height, kind, words, told = box
        ends: tuple[int, ...] = column, row, _emu(x), _emu(y), column, row, _emu(x + width), _emu(y + height)
        across, down = _emu(cell[2] + x), _emu(cell[3] + y)
        if not (x >= 0 and y >= 0 and x + width < cell[0] and y + height < cell[1]):
            *found, across, down = self._sheet._position_object_emus(column, row, x, y, width, height, 1)
            ends = tuple(found)
        name, before, after, left, right = kind.pattern(bool(words), bool(told))
        return (
            f"<xdr:twoCellAnchor>{_corner('from', *ends[:4])}{_corner('to', *ends[4:])}"
            f'{name} id="{number + 1}" name="TextBox {number}"{before}{self._escape_attributes(told)}{after}'
            f'<a:xfrm><a:off x="{across}" y="{down}"/><a:ext cx="{_emu(width)}" cy="{_emu(height)}"/></a:xfrm>'
            f"{left}{self._escape_data(words)}{right}"
        )


def _corner(name: str, column: int, row: int, x: int, y: int) -> str:
    return (
        f"<xdr:{name}><xdr:col>{column}</xdr:col><xdr:colOff>{x}</xdr:colOff>"
        f"<xdr:row>{row}</xdr:row><xdr:rowOff>{y}</xdr:rowOff></xdr:{name}>"
    )


def _emu(pixels: float) -> int:
    return int(0.5 + EMU * pixels)

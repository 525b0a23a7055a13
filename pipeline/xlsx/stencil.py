"""A sheet that says the same in every workbook of a run: written once a process, then laid into each workbook."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pipeline.xlsx.page import Page

_OF_SHEET = ("dim_rowmin", "dim_rowmax", "dim_colmin", "dim_colmax")


@dataclass(frozen=True)
class Stencil:
    """A sheet's finished cells, and what its layout goes by; its texts are the first of each workbook that it is laid into."""

    texts: tuple[str, ...]
    cells_with_text: int
    cells: dict[int, dict[int, Any]]
    rows: dict[int, Any]
    sizes: dict[int, Any]
    merged: list[list[int]]
    tables: list[dict[str, Any]]
    bounds: tuple[int, ...]
    widths: dict[int, float]
    kept: list[tuple[int, int]]
    marks: tuple[int, int]

    def lay(self, page: Page) -> tuple[int, int]:
        """Fills an empty page with it; returns the rows that were marked."""
        sheet = page.sheet
        sheet.str_table.count += self.cells_with_text
        sheet.table.update({row: dict(cells) for row, cells in self.cells.items()})
        sheet.row_info.update(self.rows)
        sheet.row_sizes.update(self.sizes)
        sheet.merge.extend(self.merged)
        sheet.tables.extend(dict(t) for t in self.tables)
        vars(sheet).update(zip(_OF_SHEET, self.bounds, strict=True))
        page.widths.update(self.widths)
        for first, last in self.kept:
            page.keep(first, last)
        return self.marks


def cut(page: Page, marks: tuple[int, int]) -> Stencil:
    """The stencil of a page that stands alone in a workbook."""
    page.settle()
    sheet, strings = page.sheet, page.sheet.str_table
    return Stencil(
        tuple(strings.texts),
        strings.count,
        dict(sheet.table),
        dict(sheet.row_info),
        dict(sheet.row_sizes),
        list(sheet.merge),
        list(sheet.tables),
        tuple(getattr(sheet, name) for name in _OF_SHEET),
        dict(page.widths),
        list(page.kept),
        marks,
    )

"""Surveys as the readers hand them over, built in memory for the tests."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from pipeline.reading.book import Book, Cell, Sheet
from schemas.survey import SURVEY

HEADINGS = tuple(c.titled for c in SURVEY.columns)

CLEAN: dict[str, Any] = {
    "site_code": "S-01", "site_name": "Birch Lane School", "customer": "Birch District", "site_kind": "school",
    "post_code": "P1", "quantity": 2, "post_shape": "round", "post_size": 3.5, "size_basis": "outside diameter",
    "measured_with": "calipers", "wall": 0.216, "material": "steel", "post_height": 8.5, "height_measured_with": "tape",
    "court_rise": 0, "clear_length": 80, "post_line": "straight", "post_base": "cast in", "lean": 0.5,
    "old_fittings": "none", "condition": "sound", "ring_heights": "8 ft; 10 ft", "least_board_width": 44,
    "mount_asked": "M-1", "board_asked": "B-1", "ring_asked": "R-1", "post_to_end_line": 2, "footing_diameter": 18,
    "footing_depth": 36, "soil_class": 4, "wind_speed": 115, "exposure": "C", "surveyed_on": "2026-02-20",
    "lean_shimmed": "no", "strength_cleared": "yes", "cleared_by": "A. Example, PE 1234", "cleared_moment": 6000,
    "notes": "north side",
}  # fmt: skip
"""A row without a fault, under headings with our own units."""


class Special:
    """A cell of another kind than its Python value tells: an error, a date, a formula without a result."""

    def __init__(self, kind: Any, value: Any = None, shown: str = "", unit: str = "") -> None:
        self.kind, self.value, self.shown, self.unit = kind, value, shown, unit


def cell(row: int, column: int, value: Any) -> Cell:
    """One cell."""
    if isinstance(value, Special):
        return Cell(row, column, value.kind, value.value, value.unit, value.shown)
    kind: Any = "bool" if isinstance(value, bool) else "text" if isinstance(value, str) else "number"
    return Cell(row, column, kind, value)


def sheet(rows: Sequence[Sequence[Any] | None], name: str = "Survey", **more: Any) -> Sheet:
    """A sheet from its rows, the first one being row 1; None is a blank cell or a blank row."""
    found = [cell(r, c, v) for r, vs in enumerate(rows, 1) for c, v in enumerate(vs or (), 1) if v is not None]
    return Sheet(name, tuple(found), **more)


def book(*sheets: Sheet) -> Book:
    """A workbook."""
    return Book("xlsx", sheets)


def survey(
    rows: Sequence[Mapping[str, Any]], names: Sequence[str] = SURVEY.names, headings: Mapping[str, str] | None = None
) -> Sheet:
    """A sheet with one heading row and `rows` by name, columns in the order of `names`."""
    heads = [(headings or {}).get(n, SURVEY.column(n).titled) for n in names]
    return sheet([heads, *([r.get(n) for n in names] for r in rows)])

"""A small catalogue without a fault, as rows that a test may spoil; codes and prices are invented."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import openpyxl

from schemas.catalogue import CATALOGUE

Sheets = dict[str, list[list[Any]]]

ROWS: Sheets = {
    "Mounts": [
        ["M-10", "Lifting mount", "round", 3.4, 3.6, "u-bolt", "stepped", 8.5, 10, 2.5, 6, 14, 30, 54, 160, 62, 410, "active"],
        ["M-20", "Level mount", "square", 3.9, 4.1, "band", "fixed", 10.5, 10, None, None, 12, 24, 54, 120, 40, 280.5, "active"],
        ["M-30", "Crank", "round", "4 7/16", 4.6, "band", "continuous", 8.5, 10, 2.5, 0, 16, 36, 60, 200, 85, 730, "withdrawn"],
    ],
    "Boards": [
        ["B-54", "Fan board", "fan", 54, 39, 58, "aluminium", "steel", "P5", 265, "active"],
        ["B-48", "Small board", "rectangular", 48, "2 ft 8 in", 44, None, None, "P5", 199.95, "active"],
    ],
    "Rings": [
        ["R-1", "Plain ring", "fixed", "P5", 12, 55, "active"],
        ["R-2", "Yielding ring", "breakaway", "P5", 21, 145, "withdrawn"],
    ],
    "Pairings": [["M-10", "B-54"], ["M-10", "B-48"], ["m-20 ", "b-48"]],
    "Extensions": [
        ["E-24", "Sleeve", "round", 3.4, 3.6, "sleeve", 24, 12, 3.5, 22, None, None, 4500, 30, 150, "active"],
        ["E-12", "Spigot", "round", 3.4, 3.6, "spigot", 12, 10, 3.5, 11, 2.9, 3.1, None, 16, 96, "active"],
    ],
    "Services": [["S-1", "Mounting", "per post", 320], ["S-2", "Stripping", "per stripped post", 75]],
    "Price breaks": [["M-10", 5, 390], ["M-10", 10, 370], ["b-54", 4, 240]],
    "Freight": [[500, 180], [2000, 420], [None, 900]],
    "Customers": [
        ["Northmere Schools", 7.5, "yes", "terms of spring", "Northmere SD; Northmere", "M. Hale", *[None] * 3, "Yes", None],
        ["Lakeside  League", *[None] * 10],
    ],
    "Seller": [["name", "Fallow Court Supply"], ["Phone", "555 0142"], ["closing", None]],
    "Headings": [["Curvy?", "Post line"], ["Reach of stick", "Height above ground"], ["Sponsor", "nothing"]],
    "Words": [["Condition", "fair", "surface rust"], ["Post line", "swoopy", "gooseneck"]],
    "Policy": [["wind_speed", 120, "mph", "county"], ["tax_rate", 0.0725, None, None], ["currency", "USD", None, None]],
}  # fmt: skip


def sheets() -> Sheets:
    """Headings and rows of every sheet, fresh."""
    return {t.name: [[c.titled for c in t.columns], *[list(r) for r in ROWS[t.name]]] for t in CATALOGUE}


def write(made: Sheets, path: Path) -> str:
    """Write the sheets as a workbook."""
    book = openpyxl.Workbook()
    book.remove(book.active)
    for name, rows in made.items():
        ws = book.create_sheet(name)
        for row in rows:
            ws.append(row)
    book.save(path)
    return str(path)

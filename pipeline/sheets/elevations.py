"""Elevations put on a sheet: each a set of native shapes inside one cell."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from pipeline.sheets.drawing import Elevation
from pipeline.xlsx.page import Page
from pipeline.xlsx.styles import FONT
from pipeline.xlsx.wrap import clean

WIDE, HIGH = 306, 340
"""Room for one elevation [pixels]."""
PANEL = 43
"""Width of a column that holds one [digit widths]."""
_MOST_SCALE = 82.0
"""[pixels a metre]"""


def _look(ground: str, line: str = "", width: float = 0.75) -> dict[str, Any]:
    return {"fill": {"color": ground}, "line": {"color": line, "width": width} if line else {"none": True}}


_LOOKS = {
    "ground": _look("#B9A88C"),
    "court": _look("#C98F6B"),
    "post": _look("#7C8B93", "#3B4A52"),
    "extension": _look("#A9C3E6", "#1D4373"),
    "mount": _look("#E7EDEE", "#1F4B57"),
    "carrier": _look("#E7EDEE", "#1F4B57"),
    "clamps": _look("#1F4B57", "#1F4B57"),
    "board": _look("#FFFFFF", "#1E2A32", 1),
    "ring": _look("#C2410C"),
}
_INK = _look("#1E2A32")
_WORDS = {"fill": {"none": True}, "line": {"none": True}, "font": {"name": FONT, "size": 8, "color": "#1E2A32"}}


def scale_of(drawn: Sequence[Elevation]) -> float:
    """One scale for all elevations of a sheet [pixels a metre]."""
    fits = (min((WIDE - 8) / (e.right - e.left), (HIGH - 6) / (e.top - e.bottom)) for e in drawn)
    return min([_MOST_SCALE, *fits])


def draw(page: Page, row: int, column: int, e: Elevation, scale: float, alone: bool = True) -> None:
    """Draws an elevation from a cell on; `alone` in it, it is made tall enough. The post's box tells what is seen."""
    if alone:
        page.tall(row, HIGH * 0.75)
    left, foot = (WIDE - (e.right - e.left) * scale) / 2, HIGH - 4

    def at(x: float, y: float) -> tuple[float, float]:
        return left + (x - e.left) * scale, foot - (y - e.bottom) * scale

    def box(x: float, y: float, width: float, height: float, look: dict[str, Any], words: str = "", seen: str = "") -> None:
        place = {"x_offset": round(x, 2), "y_offset": round(y, 2)}
        size = {"width": max(1.0, round(width, 2)), "height": max(1.0, round(height, 2))}
        described = {"description": seen} if seen else {"decorative": True}
        page.sheet.insert_textbox(row, column, words, {**look, **place, **size, **described})

    for r in e.rects:
        x, y = at(r.x, r.top)
        box(x, y, r.width * scale, r.height * scale, _LOOKS[r.name], "", clean(e.in_words)[:1000] if r.name == "post" else "")
    for d in e.dimensions:
        ends = (*at(d.x, d.y), *at(d.x2, d.y2))
        box(*_stroke(ends), _INK)
        x, y, width, height, align = _label(d.side, ends)
        box(x, y, width, height, {**_WORDS, "align": {"vertical": "middle", "horizontal": align}}, d.words)


def _stroke(ends: tuple[float, ...]) -> tuple[float, float, float, float]:
    """A dimension line as a thin box [pixels]."""
    x, y, x2, y2 = ends
    return min(x, x2), min(y, y2), abs(x2 - x), abs(y2 - y)


def _label(side: str, ends: tuple[float, ...]) -> tuple[float, float, float, float, str]:
    """Where a dimension's words stand [pixels], and how they are set."""
    x, y, x2, y2 = ends
    middle = (y + y2) / 2
    if side == "left":
        return max(0.0, x - 98), middle - 20, min(98.0, x), 40, "right"
    if side == "right":
        return x, middle - 20, min(98.0, WIDE - x), 40, "left"
    return (x + x2) / 2 - 80, y - 26, 160, 22, "center"

"""Where a printed page ends: scale, columns and rows that stay together. Pure functions of widths and heights in pixels."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import floor

LETTER, A4 = 1, 9
"""Paper sizes. Source: ECMA-376 part 1, 18.3.1.63 pageSetup."""
_INCHES = {LETTER: (8.5, 11.0), A4: (210 / 25.4, 297 / 25.4)}
"""Source: ANSI/ASME Y14.1 size A; ISO 216 size A4."""
SIDES, TOP, BOTTOM = 0.5, 0.6, 0.7
"""Margins [in]."""
DOTS = 96
"""Pixels an inch."""
_WIDER, _TALLER = 0.93, 0.97
"""Room left by programs that make columns wider or rows taller than they are asked to."""


LEAST = 71
"""Scale under which columns are made narrower instead [%]; ten points are then 7.1."""


def usable(paper: int, landscape: bool) -> tuple[float, float]:
    """Width and height of what may be printed on [pixels]."""
    across, down = reversed(_INCHES[paper]) if landscape else _INCHES[paper]
    return (across - 2 * SIDES) * DOTS * _WIDER, (down - TOP - BOTTOM) * DOTS * _TALLER


def pixels(room: float) -> int:
    """Width on the screen of a column that is `room` digits wide. Source: ECMA-376 part 1, 18.3.1.13 col (7 pixels a digit)."""
    return int(room * 7 + 5)


def scale(widest: float, room: float) -> int:
    """Scale [%] at which `widest` pixels go into `room`, at most 100."""
    return max(10, min(100, int(100 * room / widest))) if widest else 100


def down(heights: Sequence[float], kept: Sequence[tuple[int, int]], room: float, repeated: int) -> list[int]:
    """Rows before which a page must end, so that no rows `kept` together (first, last) are parted.

    `heights` are those of all rows, `room` the height of a page, `repeated` the row printed again on
    every page after its own (0 none). Rows that no page can hold together flow on.
    """
    ends = dict(sorted(kept))
    breaks: list[int] = []
    used, row, head = 0.0, 0, heights[repeated] if repeated and repeated < len(heights) else 0.0
    while row < len(heights):
        last = ends.get(row, row)
        need = sum(heights[row : last + 1])
        start = head if row > repeated else 0.0
        if used + need > room and used > start:
            if last > row and need + start <= room:
                breaks.append(row)
                used = start
            elif last == row:
                used = start
        used += heights[row]
        row += 1
    return breaks


def narrowed(widths: Mapping[int, float], least: Mapping[int, float], room: float) -> dict[int, float]:
    """Widths of columns [digit widths], those that can be narrower made so, until a page of `room` pixels can be read.

    Each gives up the same part of what it has above its `least`; where all are at that, the print is smaller.
    """
    over = sum(pixels(w) for w in widths.values()) - room * 100 / LEAST
    spare = {c: max(0.0, w - least.get(c, w)) for c, w in widths.items()}
    whole = sum(spare.values()) * 7
    if over <= 0 or not whole:
        return dict(widths)
    part = min(1.0, over / whole)
    return {c: floor(4 * (w - spare[c] * part)) / 4 if spare[c] else w for c, w in widths.items()}

"""Where a printed page ends: scale, columns and rows that stay together. Pure functions of widths and heights in pixels."""

from __future__ import annotations

from collections.abc import Sequence

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
"""Scale under which parts of a table do not share a page [%]; ten points are then 7.1."""


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


def across(widths: Sequence[float], room: float) -> tuple[list[int], float]:
    """Parts of a table set side by side: numbers of the parts that begin a page, and the widest page.

    Neighbours share a page where that keeps the print readable.
    """
    begins: list[int] = []
    widest = here = widths[0]
    for index, width in enumerate(widths[1:], 1):
        if here + width > room * 100 / LEAST:
            begins.append(index)
            here = 0.0
        here += width
        widest = max(widest, here)
    return begins, widest


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

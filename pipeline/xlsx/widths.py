"""How wide columns must be for what stands in them. Pure functions of texts; widths in digits of the usual letter."""

from __future__ import annotations

from functools import lru_cache
from math import ceil

from pipeline.xlsx.values import BOLD, Col, room_of
from pipeline.xlsx.wrap import BOLDER, parts_unit, width

SURE = 0.93
"""Part of a column's width that is surely there for letters: printed ones are wider than those on the screen."""
INDENT = 1.6
"""Room that a cell's indent and edges take."""
_MORE = (0.8, 1.2, 1.6, 2.0, 2.4)
"""What programs leave beyond that in a heading that stands at the right."""
BUTTON = 1.5
"""Room for the button of a filter, beside a heading."""


def inside(column: float) -> float:
    """Room for letters in a column's cell, inside its indent."""
    return max(1.0, column * SURE - INDENT)


def column_for(room: float) -> float:
    """Width of a column whose cells hold letters of `room`."""
    return ceil(4 * (room + INDENT) / SURE) / 4


@lru_cache(maxsize=1024)
def head_room(heading: str) -> float:
    """Least width of a column for its heading: on three lines at most where words allow, no unit broken."""
    words = max(width(word) for word in heading.split(" "))
    return unparted(heading, column_for(max(words, width(heading) / 3) * BOLDER) + BUTTON)


@lru_cache(maxsize=4096)
def unparted(heading: str, column: float) -> float:
    """`column`, or the next width at which the heading's unit stays on one line."""
    while any(parts_unit(heading, (inside(column) + more) / BOLDER) for more in _MORE):
        column += 0.5
    return column


def need(column: Col, values: set[object], digits: int) -> float:
    """Width that the cells of a column ask for, up to its most."""
    room = max((room_of(value, digits) for value in values), default=0)
    return min(column_for(room * (BOLDER if column.style in BOLD else 1)), column.most)

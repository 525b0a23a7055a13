"""What a table is made of: columns, and values that are more than a text or a number."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any, NamedTuple

from pipeline.xlsx.wrap import BOLDER, longest_line, width


@dataclass(frozen=True)
class Col:
    """A column of a table: heading with its unit in brackets, style of its cells, bounds of its width."""

    heading: str
    style: str = "text"
    most: int = 40
    least: int = 6


class As(NamedTuple):
    """A value in a style of its own."""

    value: Any
    style: str


class Link(NamedTuple):
    """A link and the words that stand for it."""

    url: str
    text: str


class Formula(NamedTuple):
    """A live formula and its result as it is now."""

    formula: str
    result: float | str


Row = Sequence[Any]
FIGURES = frozenset(("whole", "mm", "number1", "number2", "metres", "metres4", "percent", "rate", "money", "money_bold", "more"))
"""Styles of numbers, which a column that is too narrow does not show."""
RIGHT = FIGURES | {"right"}
"""Styles that stand at the right of their cell, and so do their headings."""
BOLD = frozenset(("bold", "strong", "caution", "head", "head_right", "money_bold"))
"""Styles in bold letters, which take more room."""


def room_of(value: Any, digits: int) -> float:
    """Room that a value takes on one line [digit widths]."""
    kind = type(value)
    if kind is str:
        return longest_line(value) if len(value) < 400 else 400
    if kind is As:
        return room_of(value.value, digits) * (BOLDER if value.style in BOLD else 1.0)
    if kind is Link:
        return width(value.text)
    if kind is Formula:
        return room_of(value.result, digits)
    if kind is Decimal:
        return len(f"{value:,.{digits}f}") + 1
    return len(f"{value:,.3f}") if kind is float else len(str(value or ""))

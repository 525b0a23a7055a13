"""Rows between the headings and the posts: units, and the numbers of the columns."""

from __future__ import annotations

import re

from pipeline.intake.layout.grid import Row
from pipeline.intake.survey.folding import fold
from pipeline.intake.survey.headings import only_unit
from pipeline.reading.book import Cell
from schemas.post_words import NOTHING_UNITS, UNIT_HEADINGS

UNIT_WORDS = frozenset(fold(w) for w in UNIT_HEADINGS)
_NOTHING_WORDS = UNIT_WORDS | {fold(w) for w in NOTHING_UNITS}
_MOST_ROWS = 2


def under_headings(rows: list[Row], headings: int) -> tuple[int, int, dict[int, str]]:
    """How many of the rows below the headings are no posts, which of them has units, and the units by column.

    `headings` is how many columns are headed.
    """
    taken, at = 0, 0
    units: dict[int, str] = {}
    for i, cells in enumerate(rows[:_MOST_ROWS]):
        found = {} if units else units_below(cells)
        if found:
            at, units = i, found
        elif not numbers_columns(cells, headings):
            break
        taken = i + 1
    return taken, at, units


def units_below(cells: Row) -> dict[int, str]:
    """Units by column, where a row says nothing but units; {} where it says anything else."""
    units = {}
    for n, cell in cells.items():
        if cell.kind != "text":
            return {}
        unit = only_unit(str(cell.value))
        if unit:
            units[n] = unit
        elif fold(str(cell.value)) not in _NOTHING_WORDS:
            return {}
    return units


_LEAST = 4  # columns that are numbered
_NUMBER = re.compile(r"[(\[]?\s*(?:col(?:umn)?\.?\s*)?(?P<number>\d{1,2}|[a-z])\s*[.)\]]?", re.IGNORECASE)


def numbers_columns(cells: Row, headings: int) -> bool:
    """Whether a row does nothing but number the columns: `(1)`, `(2)`, `(3)`, or `a`, `b`, `c`, under nearly all headings."""
    numbers = [_number(c) for c in cells.values()]
    running = None not in numbers and numbers == list(range(1, len(numbers) + 1))
    return running and len(numbers) >= max(_LEAST, headings - 1)


def _number(cell: Cell) -> int | None:
    if cell.kind not in ("text", "number"):
        return None
    m = _NUMBER.fullmatch(str(cell.value).strip().removesuffix(".0"))
    if m is None:
        return None
    return int(m["number"]) if m["number"].isdigit() else ord(m["number"].casefold()) - ord("a") + 1

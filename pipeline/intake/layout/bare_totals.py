"""Rows with nothing but a number under the number of posts, which is the sum of what stands above: totals without a label."""

from __future__ import annotations

from collections.abc import Sequence

from pipeline.intake.layout.grid import Row
from pipeline.intake.layout.tables import Table
from pipeline.intake.measures import read_whole


def bare_totals(table: Table) -> frozenset[int]:
    """The rows of a table that say only how many posts those above are, since the last such row, or all of them."""
    columns = [h.column for h in table.heads.get("quantity", ())]
    if len(columns) != 1:
        return frozenset()
    found: set[int] = set()
    block: list[int] = []
    every: list[int] = []
    for number, cells in table.rows:
        stated = _stated(columns[0], cells)
        if stated and len(cells) == 1 and stated in _sums(block, every):
            found.add(number)
            block = []
        elif len(cells) == 1 and not stated:  # a row of its own
            block = []
        else:
            block.append(stated)
            every.append(stated)
    return frozenset(found)


def _stated(column: int, cells: Row) -> int:
    """The number of posts of a row; 0 where none can be read."""
    cell = cells.get(column)
    number = (
        read_whole(cell.value) if cell and cell.kind in ("text", "number") and isinstance(cell.value, str | int | float) else 0
    )
    return number if isinstance(number, int) else 0


def _sums(*parts: Sequence[int]) -> set[int]:
    """The sums of the parts of which every row states its number."""
    return {sum(part) for part in parts if part and all(part)}

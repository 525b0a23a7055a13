"""Sums under the number of posts: totals without a label, and what a total says of the rows above it."""

from __future__ import annotations

from collections.abc import Sequence

from pipeline.intake.layout.grid import Row
from pipeline.intake.layout.row_kinds import kind_of_total
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


def summed(table: Table) -> bool:
    """Whether a total says the sum of the numbers on all rows above it, which are then each row's own and no site's."""
    columns = [h.column for h in table.heads.get("quantity", ())]
    above: list[int] = []
    for _, cells in table.rows if len(columns) == 1 else ():
        stated = _stated(columns[0], cells)
        if stated and len(above) > 1 and (kind_of_total(cells) == "total" or len(cells) == 1):
            return stated == sum(above)
        if len(cells) > 1 and stated:
            above.append(stated)
    return False


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

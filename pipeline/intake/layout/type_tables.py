"""Types of posts in a table of their own, and where posts of each stand in another one: `Type A`, `B`."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from pipeline.intake.layout.grid import Grid, Row, line
from pipeline.intake.survey.folding import fold
from pipeline.intake.survey.headings import claim
from pipeline.intake.survey.post_cells import is_same_as_above
from pipeline.intake.survey.read_cell import typed
from pipeline.reading.book import Cell
from schemas.several_meanings import TYPES_OF_POSTS

_TYPE = re.compile(TYPES_OF_POSTS, re.IGNORECASE)
_BEFORE = re.compile(r"^(?:(?:post|pole) )?(?:type|typ|tipo)\W+(?=\w)", re.IGNORECASE)
_SEARCHED = 200  # rows with cells
_LEAST = 3  # headings of a table
_FEW = 2  # cells of a title or a remark
_LONGEST = 16  # characters of a type's name
_SITE = {"site_code", "site_name"}
_MEASURED = {"post_size", "post_height"}


@dataclass(frozen=True)
class _Types:
    """A table of types: where it stands in the rows, its column of names, its headings, and the cells of each name."""

    first: int
    last: int
    column: int
    headings: Row
    rows: dict[str, Row]


def with_types(grid: Grid) -> Grid:
    """The grid with the measures of each type of post beside the posts of that type, where every one of them names one.

    The table of types is then no table of posts. The cells keep their own addresses.
    """
    rows = grid.rows
    types = next((t for i in range(min(len(rows), _SEARCHED)) if (t := _types_at(rows, i))), None)
    if types is None:
        return grid
    for i in (n for n in range(min(len(rows), _SEARCHED)) if not types.first <= n <= types.last):
        end = types.first if i < types.first else len(rows)
        dropped = rows[types.last + 1 : i] if i > types.last else rows[types.last + 1 :]
        if any(len(cells) > _FEW for _, cells in dropped):  # more than titles and remarks
            continue
        if made := _placed(rows[i:end], types, max(n for _, cells in rows for n in cells)):
            before = rows[:i] if i < types.first else rows[: types.first]
            return replace(grid, rows=(*before, *made))
    return grid


def _names(cells: Row) -> set[str]:
    return {found.name for c in cells.values() if c.kind == "text" and (found := claim(str(c.value)))}


def _type_column(cells: Row) -> int:
    """The column of types in a row of headings; 0 where none or several stand there."""
    columns = [n for n, c in cells.items() if c.kind == "text" and _TYPE.fullmatch(line(str(c.value)))]
    return columns[0] if len(columns) == 1 and len(cells) >= _LEAST and all(c.kind == "text" for c in cells.values()) else 0


def _types_at(rows: Sequence[tuple[int, Row]], i: int) -> _Types | None:
    """The table of types whose headings stand in row `i`: sizes and heights, and neither grounds nor numbers of posts."""
    headings = rows[i][1]
    column = _type_column(headings)
    if not column or not (names := _names(headings)) >= _MEASURED or names & {*_SITE, "quantity"}:
        return None
    found: dict[str, Row] = {}
    last, twice = i, False
    for n in range(i + 1, len(rows)):
        cells = rows[n][1]
        name = _name(cells[column]) if column in cells else ""
        twice = name in found
        if not name or len(cells) < _LEAST or len(name) > _LONGEST or twice or _type_column(cells):
            break
        found[name], last = cells, n
    marks = any(is_same_as_above(str(c.value)) for cells in found.values() for c in cells.values())  # of another row
    return _Types(i, last, column, headings, found) if found and not marks and not twice else None


def _name(cell: Cell) -> str:
    """The name of a type as it is compared: `A` of `Type A`."""
    return fold(_BEFORE.sub("", typed(cell)))


def _placed(rows: Sequence[tuple[int, Row]], types: _Types, beyond: int) -> list[tuple[int, dict[int, Cell]]]:
    """Rows that begin with headings, each with the measures of its type behind column `beyond`; [] where it is no such table."""
    headings = rows[0][1]
    column, names = _type_column(headings), _names(headings)
    if not column or not names & _SITE or names & _MEASURED:
        return []
    others = [n for n in types.headings if n != types.column and n not in _same(types.headings, headings)]
    made = [(rows[0][0], {**headings, **{beyond + k: types.headings[n] for k, n in enumerate(others, 1)}})]
    used: list[Row] = []
    for number, cells in rows[1:]:
        named = cells.get(column)
        again = named is not None and bool(used) and is_same_as_above(str(named.value))
        kind = used[-1] if again else types.rows.get(_name(named)) if named is not None else None
        if named is not None and kind is None:
            return []
        used += [kind] if kind else []
        made.append((number, {**cells, **{beyond + k: kind[n] for k, n in enumerate(others, 1) if kind and n in kind}}))
    return made if used else []


def _same(types: Row, posts: Row) -> set[int]:
    """Columns of the types whose heading the posts have too, as `Notes`: each row's own counts."""
    own = {fold(str(c.value)) for c in posts.values()}
    return {n for n, c in types.items() if fold(str(c.value)) in own}

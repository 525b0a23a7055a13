"""Whether what stands under a heading are a post's sizes or heights: figures with their unit, as large as those of posts are.

This never says what a column is by itself: it bears out a heading whose words may mean it.
"""

from __future__ import annotations

from collections.abc import Sequence

from pipeline.intake.measures import Measure, PipeSize, heading_unit, read_measure, read_post_size
from pipeline.intake.survey.lay_headings import lay_key
from pipeline.intake.survey.post_cells import is_same_as_above
from pipeline.reading.book import Cell
from schemas.lay_headings import HIGH_BY_CELLS, SIZED_ACROSS, SIZED_BY_CELLS, WALLED_BY_CELLS
from schemas.policy import SETTINGS
from schemas.survey import SURVEY

MEASURED = ("post_size", "post_height")
_METRES = {"mm": 0.001, "m": 1.0}
_LIMITS = {s.name: float(s.default) * _METRES[s.unit] for s in SETTINGS if s.kind == "length" and s.unit in _METRES}
_BETWEEN = {c.name: (_LIMITS[c.least], _LIMITS[c.most]) for c in map(SURVEY.column, (*MEASURED, "wall"))}
"""Metres that a post's size, height and wall lie between, by the documented policy."""
_UNITS = ("in", "ft", "mm", "cm", "m")
_MOST_OF_THEM = 2 / 3
_WITH_UNIT = frozenset(lay_key(w) for w in SIZED_BY_CELLS.split("|"))
_ACROSS = frozenset(lay_key(w) for w in SIZED_ACROSS.split("|"))
_THIN = frozenset(lay_key(w) for w in WALLED_BY_CELLS.split("|"))
_HIGH = frozenset(lay_key(w) for w in HIGH_BY_CELLS.split("|"))


def are_sizes(heading: str, cells: Sequence[Cell]) -> bool:
    """Whether a heading in lay words for a size stands over sizes of posts."""
    bare, unit = heading_unit(heading)
    across = lay_key(bare) in _ACROSS
    return (across or lay_key(bare) in _WITH_UNIT) and are_measures("post_size", unit, cells, across)


def are_walls(heading: str, cells: Sequence[Cell]) -> bool:
    """Whether a heading for a thickness stands over walls of posts."""
    bare, unit = heading_unit(heading)
    return lay_key(bare) in _THIN and are_measures("wall", unit, cells, unit_elsewhere=False)


def are_heights(heading: str, cells: Sequence[Cell]) -> bool:
    """Whether a heading in lay words for a height stands over heights of posts."""
    bare, unit = heading_unit(heading)
    return lay_key(bare) in _HIGH and are_measures("post_height", unit, cells, unit_elsewhere=False)


def are_measures(name: str, unit: str, cells: Sequence[Cell], unit_elsewhere: bool) -> bool:
    """Whether the cells under a heading are `name`'s by unit and size, most of them surely and none against it.

    `unit_elsewhere`: without any unit, one that makes all of them as large as they can be will do, to be found where it stands.
    """
    distinct = {(c.kind, c.value, c.shown_unit): c for c in cells}.values()
    filled = [c for c in distinct if not (c.kind == "text" and is_same_as_above(str(c.value)))]
    tried = (unit, *(_UNITS if unit_elsewhere and not unit else ()))
    return any(_first_fit(name, each, filled) and _fit(name, [_metres(name, each, c) for c in filled]) for each in tried)


def _first_fit(name: str, unit: str, cells: Sequence[Cell]) -> bool:
    """Whether any of the first cells is a measure: names of posts need not all be tried."""
    return any(_metres(name, unit, c) is not None for c in cells[:_FIRST])


_FIRST = 12


def _fit(name: str, lengths: Sequence[float | None]) -> bool:
    known = [length for length in lengths if length is not None]
    least, most = _BETWEEN[name]
    return bool(known) and len(known) >= _MOST_OF_THEM * len(lengths) and all(least <= length <= most for length in known)


def _metres(name: str, unit: str, cell: Cell) -> float | None:
    """The length that a cell says, or None."""
    if cell.kind not in ("text", "number") or isinstance(cell.value, bool) or cell.value is None:
        return None
    unit = unit or cell.shown_unit
    found = read_post_size(cell.value, unit) if name == "post_size" else read_measure(cell.value, "length", unit)
    return float(found.value) if isinstance(found, Measure) else float(found.size) if isinstance(found, PipeSize) else None

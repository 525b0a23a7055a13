"""One row of a survey table: every column read, what follows from it, and all its faults at once."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from pipeline.intake.query import Query
from pipeline.intake.survey.plausible import clear_of, in_range, prefer_plausible, round_size, wall_of
from pipeline.intake.survey.read_cell import Fault, Reading, blank_means, example, read_cell, typed
from pipeline.intake.survey.size import CIRCUMFERENCE, Size, read_size
from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.intake.survey.tables import Head, Row, Table
from pipeline.reading.book import Cell, address
from schemas.column import Column
from schemas.survey import SURVEY

_COLUMNS = {c.name: c for c in SURVEY.columns}
_ORDER = {c.name: n for n, c in enumerate(SURVEY.columns)}
_LENGTHS = ("length", "lengths", "pipe")
_FROM_POLICY = ("ring_heights", "footing_diameter", "soil_class", "wind_speed", "exposure")
_SIZE_PARTS = ("post_size", "size_basis")


@dataclass
class _Draft:
    """A row while it is read."""

    cells: dict[str, str] = field(default_factory=dict)
    typed: dict[str, str] = field(default_factory=dict)
    values: dict[str, Any] = field(default_factory=dict)
    given: dict[str, str] = field(default_factory=dict)  # unit of each measure
    said: list[str] = field(default_factory=list)
    not_stated: list[str] = field(default_factory=list)
    faults: list[tuple[str, str, Fault]] = field(default_factory=list)  # name, address, fault
    faulty: set[str] = field(default_factory=set)

    def fault(self, name: str, fault: Fault, at: str = "") -> None:
        """Note a fault of a column, at its own cell unless said otherwise."""
        self.faults.append((name, at or self.cells.get(name, ""), fault))
        self.faulty.add(name)

    def get(self, name: str) -> Any:
        """The value of a column that was read without fault, or None."""
        return None if name in self.faulty else self.values.get(name)


def read_row(table: Table, number: int, cells: Row, file: str, policy: Mapping[str, Any]) -> tuple[SurveyRow, list[Query]]:
    """Read one data row of `table`; the row is held where any query about it says so."""
    draft = _Draft()
    heads = {name: _head_of(table, name, number, cells, draft) for name in _COLUMNS if name in table.heads}
    for name, head in heads.items():
        if name not in _SIZE_PARTS:
            _take(draft, _COLUMNS[name], head, cells)
    _take_size(draft, table, heads, cells)
    _missing(draft, table, number, cells)
    _defaults(draft)
    _plausible(draft, policy)
    draft.faults = [(name, at, prefer_plausible(_COLUMNS[name], fault, policy)) for name, at, fault in draft.faults]
    return _finish(draft, table, number, cells, file)


def _head_of(table: Table, name: str, number: int, cells: Row, draft: _Draft) -> Head:
    """The heading to read a column under; where two claim it, the one whose cell is filled.

    Where both are filled and differ, that is a CONFLICT at the second cell.
    """
    heads = table.heads[name]
    filled = [h for h in heads if h.column in cells]
    head = filled[0] if filled else heads[0]
    draft.cells[name] = address(number, head.column)
    column = _COLUMNS[name]
    for second in filled[1:]:
        first_says, says = (read_cell(column, cells[h.column], h.unit, h.basis) for h in (head, second))
        if not _same(first_says, says):
            message = (
                f"“{typed(cells[head.column], head.unit)}” under “{_line(head.text)}” and "
                f"“{typed(cells[second.column], second.unit)}” under “{_line(second.text)}” contradict each other."
            )
            put_right = "Leave the right one of the two and empty the other cell."
            draft.fault(name, Fault("CONFLICT", message, put_right), address(number, second.column))
    return head


def _same(a: Reading | Fault, b: Reading | Fault) -> bool:
    """Whether two cells say the same thing."""
    if isinstance(a, Fault) or isinstance(b, Fault):
        return False
    if isinstance(a.value, float) and isinstance(b.value, float):
        return math.isclose(a.value, b.value, rel_tol=0, abs_tol=1e-9)
    return bool(a.value == b.value)


def _line(text: str) -> str:
    return " ".join(text.split())


def _take(draft: _Draft, column: Column, head: Head, cells: Row) -> None:
    """Read one column's cell into the draft."""
    cell = cells.get(head.column)
    if cell is None:
        return
    draft.typed[column.name] = typed(cell, head.unit if column.kind not in ("text", "code", "choice", "whole") else "")
    got = read_cell(column, cell, head.unit)
    if isinstance(got, Fault):
        draft.fault(column.name, got)
    elif got.value is not None:
        draft.values[column.name] = got.value
        draft.said += got.said
        if got.unit:
            draft.given[column.name] = got.unit


def _take_size(draft: _Draft, table: Table, heads: Mapping[str, Head], cells: Row) -> None:
    """Read the size with what it is stated as, and the wall of a stated schedule."""
    if "size_basis" in heads:
        _take(draft, _COLUMNS["size_basis"], heads["size_basis"], cells)
    head = heads.get("post_size")
    cell = cells.get(head.column) if head else None
    stated = None if "size_basis" in draft.faulty else draft.values.get("size_basis", "")
    if head and cell is not None:
        draft.typed["post_size"] = typed(cell, head.unit)
    size = read_size(cell, head.unit if head else "", stated, head.basis if head else "", draft.get("post_shape"))
    for name, fault in size.faults:
        draft.fault(name, fault)
    if cell is not None and size.outside is None:
        draft.faulty.add("post_size")  # what contradicts its basis is no size
    if "size_basis" not in draft.faulty:
        draft.values["size_basis"] = size.basis
    if not stated and size.basis.startswith("outside") and "size_basis" not in draft.faulty:
        draft.not_stated.append("size_basis")
    if size.outside is not None:
        _keep_size(draft, size)


def _keep_size(draft: _Draft, size: Size) -> None:
    draft.values["post_size"] = size.outside
    draft.given["post_size"] = size.unit
    draft.said += size.said
    if size.nominal:
        draft.values["size_nominal"] = True
    if size.wall is not None and "wall" not in draft.values and "wall" not in draft.faulty:
        draft.values["wall"] = size.wall
        if not any("wall" in s for s in size.said):
            draft.said.append(f"The wall of {size.wall * 1000:.4g} mm is that of the stated schedule (ASME B36.10M).")


def _missing(draft: _Draft, table: Table, number: int, cells: Row) -> None:
    """A query for each needed cell that is blank, and one for the needed columns that are not there."""
    absent = []
    for c in SURVEY.columns:
        if not c.needed or c.name in draft.faulty or c.name in draft.values:
            continue
        if c.name in table.heads:
            draft.fault(c.name, Fault("MISSING", "the cell is blank, and it is needed.", example(c)))
        else:
            absent.append(c)
    if absent:
        listed = ", ".join(f"“{c.titled}”" for c in absent)
        message = f"the survey has no column {listed}, which is needed."
        at = address(number, min(cells))
        draft.faults.append((absent[0].name, at, Fault("MISSING", message, f"Add {listed} to the headings and fill it in.")))
        draft.faulty.update(c.name for c in absent)


def _defaults(draft: _Draft) -> None:
    """What a blank cell means, and which columns took that."""
    for c in SURVEY.columns:
        if c.name in draft.values or c.name in draft.faulty or c.needed or c.name == "size_basis":
            continue
        if c.name in _FROM_POLICY:
            draft.not_stated.append(c.name)
        elif c.name == "clear_length":
            if draft.get("post_height") is not None:
                draft.values[c.name] = draft.values["post_height"]
                draft.not_stated.append(c.name)
        elif blank_means(c):
            draft.values[c.name] = int(c.default) if c.kind == "whole" else c.default if c.kind == "choice" else float(c.default)
            draft.not_stated.append(c.name)
    draft.not_stated.sort(key=_ORDER.__getitem__)


def _plausible(draft: _Draft, policy: Mapping[str, Any]) -> None:
    """IMPLAUSIBLE for every value outside its range, all in one go."""
    for c in SURVEY.columns:
        value = draft.get(c.name)
        if value is None or c.name in draft.not_stated:
            continue
        fault = in_range(c, value, draft.typed.get(c.name, ""), draft.given.get(c.name, ""), policy)
        if fault and c.name == "wall" and "wall" not in draft.typed:
            draft.fault("post_size", fault)
        elif fault:
            if c.name == "post_size" and draft.get("post_shape") == "round" and not draft.values.get("size_nominal"):
                fault = round_size(fault, value, draft.values.get("size_basis", ""), policy)
            draft.fault(c.name, fault)
    _plausible_together(draft)


def _plausible_together(draft: _Draft) -> None:
    """Limits that hang on two columns: the wall on the size, the clear length on the height."""
    size, wall = draft.get("post_size"), draft.get("wall")
    if size is not None and wall is not None:
        stated = "wall" in draft.typed
        fault = wall_of(wall, size, draft.typed["wall" if stated else "post_size"])
        if fault:
            draft.fault("wall" if stated else "post_size", fault)
    clear, height = draft.get("clear_length"), draft.get("post_height")
    if clear is not None and "clear_length" not in draft.not_stated:
        fault = clear_of(clear, height if height is not None else math.inf, draft.typed["clear_length"])
        if fault:
            draft.fault("clear_length", fault)


def _finish(draft: _Draft, table: Table, number: int, cells: Row, file: str) -> tuple[SurveyRow, list[Query]]:
    site, post = (str(draft.get(n) or "") for n in ("site_code", "post_code"))
    queries = [_query(file, table.sheet, at, fault, site, post, name, f"row {number}") for name, at, fault in draft.faults]
    names = sorted(draft.values.keys() - draft.faulty, key=lambda n: (n not in _ORDER, _ORDER.get(n, 0)))
    values = {n: draft.values[n] for n in names}
    said_in = {n: draft.typed[n] for n in _COLUMNS if n in draft.typed}
    if "size_basis" in values and "post_size" in values and values["size_basis"] == CIRCUMFERENCE:
        draft.said.append(f"The outside diameter of {values['post_size'] * 1000:.4g} mm is the circumference over pi.")
    units = {n: u for n, u in draft.given.items() if _COLUMNS[n].kind in _LENGTHS and n in values}
    row = SurveyRow(
        file=file, sheet=table.sheet, row=number, label=f"row {number}", held=bool(queries), typed=said_in,
        cells=draft.cells, units=units,
        said=tuple(draft.said), extra=_extra(table, cells), not_stated=tuple(draft.not_stated),
        **values | {"site_code": site, "post_code": post},
    )  # fmt: skip
    return row, queries


def _query(file: str, sheet: str, at: str, fault: Fault, site: str, post: str, name: str, record: str) -> Query:
    message = f"{_COLUMNS[name].heading}: {fault.message}"
    return Query(file, sheet, at, fault.code, message, fault.suggestion, True, site, post, name, record)


def _extra(table: Table, cells: Row) -> dict[str, str]:
    """Cells under headings that are not of the glossary, untouched, by heading."""
    extra: dict[str, str] = {}
    for n, heading in table.extra.items():
        cell: Cell | None = cells.get(n)
        if cell is None:
            continue
        key = _line(heading) or f"column {address(1, n)[:-1]}"
        extra[key if key not in extra else f"{key} ({address(1, n)[:-1]})"] = typed(cell)
    return extra

"""The gate: the rows of all surveys as one frame, held to its model once; each failure becomes the query at its cell."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from pipeline.intake.query import Query
from pipeline.intake.survey.across import Across, resolve
from pipeline.intake.survey.fault import CellFault, Fault, RowRead
from pipeline.intake.survey.identity import identified
from pipeline.intake.survey.plausible import (
    clear_of,
    in_range,
    less_than_nothing,
    prefer_plausible,
    round_only,
    round_size,
    wall_of,
)
from pipeline.intake.survey.read_cell import example
from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.reading.book import place
from schemas.survey import HOLDS_ROW, SURVEY

if TYPE_CHECKING:
    from schemas.frames import Failure

_COLUMNS = {c.name: c for c in SURVEY.columns}
_FROM_POLICY = ("ring_heights", "footing_diameter", "soil_class", "wind_speed", "exposure")


@dataclass(frozen=True)
class Checked:
    """All rows in the order given: `replaced` has those that do not count, and why; the queries in order."""

    rows: tuple[SurveyRow, ...]
    replaced: Mapping[int, str]
    queries: tuple[Query, ...]


def check_rows(read: Sequence[RowRead], policy: Mapping[str, Any]) -> Checked:
    """Every row held to the model of the survey, all faults in one go, whatever the order of the files.

    A row is held where it contradicts itself or another row, or where what nothing can do without cannot be read.
    """
    from schemas.frames import failures
    from schemas.survey_model import survey_frame, survey_model

    read = identified(read)
    found: dict[int, list[Failure]] = defaultdict(list)
    if read:
        for failure in failures(survey_frame([r.row for r in read]), survey_model(policy)):
            found[failure.row].append(failure)
    checked = [_checked(r, found[i], policy) for i, r in enumerate(read)]
    rows = [row for row, _ in checked]
    across: Across = resolve(rows, {i for i, fs in found.items() if any(f.check in _ACROSS for f in fs)})
    rows = [replace(row, held=True) if i in across.held else row for i, row in enumerate(rows)]
    queries = sorted((*(q for _, qs in checked for q in qs), *across.queries), key=lambda q: q.order)
    return Checked(tuple(rows), across.replaced, tuple(queries))


_ACROSS = ("post stands once", "site says one thing")


def _checked(read: RowRead, found: Sequence[Failure], policy: Mapping[str, Any]) -> tuple[SurveyRow, list[Query]]:
    """One row with its defaults, and its queries."""
    row = read.row
    faults = [replace(f, fault=prefer_plausible(_COLUMNS[f.name], f.fault, policy)) for f in read.faults]
    faults += _waiting(read)
    row = replace(row, unread=row.unread | {name for name, _ in read.asked if name not in HOLDS_ROW})
    faulty = {f.name for f in faults} | row.unread
    faults += _alone(row, [f for f in found if f.column and f.column not in faulty], policy)
    faulty |= {f.name for f in faults}
    faults += _together(row, {f.check for f in found if not f.column}, faulty)
    held = [f for f in faults if _holds(row, f)]
    queries = [*(_query(row, f, f in held) for f in faults), *_nobody_cleared(row)]
    return _finished(row, {f.name for f in faults} | row.unread, bool(held)), queries


def _nobody_cleared(row: SurveyRow) -> Iterator[Query]:
    """A clearance of which nobody is named counts as blank. Source: design section 7, load_state."""
    if row.strength_cleared == "yes" and not row.cleared_by:
        at = row.cells.get("cleared_by") or row.cells.get("strength_cleared", "")
        fault = Fault(
            "MISSING", "“yes” counts as blank while nobody is named under “Cleared by”.", "name and licence of the engineer"
        )
        yield _query(row, CellFault("strength_cleared", at, fault), False)


def _waiting(read: RowRead) -> list[CellFault]:
    """What a row cannot do without, and may be stated under a heading that is asked about."""
    return [
        CellFault(name, at, Fault("HEADING", f"the row waits for the answer about the heading in {at}.", example(_COLUMNS[name])))
        for name, at in read.asked
        if name in HOLDS_ROW and name not in read.row.unread and getattr(read.row, name) in (None, "")
    ]


def _alone(row: SurveyRow, found: Sequence[Failure], policy: Mapping[str, Any]) -> list[CellFault]:
    """What a column says by itself: blank where it is needed, or outside its range."""
    faults, absent = [], []
    for f in sorted(found, key=lambda f: SURVEY.names.index(f.column)):
        column = _COLUMNS[f.column]
        if f.check != "not_nullable":
            faults.append(_implausible(row, f, policy))
        elif f.column in row.cells:
            if f.column not in row.typed:
                blank = Fault("MISSING", "the cell is blank, and it is needed.", example(column))
                faults.append(CellFault(f.column, row.cells[f.column], blank))
        else:
            absent.append(f.column)
    return [*faults, *_absent(row, absent)]


def _absent(row: SurveyRow, names: Sequence[str]) -> list[CellFault]:
    """One fault for the needed columns that the survey does not have."""
    if not names or ("post_size" in names and "size_basis" in row.unread):
        return []
    if list(names) == ["post_shape"] and "post_size" in row.unread:  # the size may say it, once it can be read
        return []
    listed = ", ".join(f"“{_COLUMNS[n].titled}”" for n in names)
    message = f"the survey has no column {listed}, which is needed."
    fault = Fault("MISSING", message, f"Add {listed} to the headings and fill it in.")
    return [CellFault(names[0], _first_cell(row), fault)]


def _first_cell(row: SurveyRow) -> str:
    filled = [row.cells[n] for n in row.typed if n in row.cells] or list(row.cells.values())
    return min(filled, key=place, default="")


def _implausible(row: SurveyRow, f: Failure, policy: Mapping[str, Any]) -> CellFault:
    """A value outside its range, at the cell that says it."""
    column, value = _COLUMNS[f.column], getattr(row, f.column)
    at = f.column if f.column in row.typed else "post_size"
    typed = row.typed.get(at, "")
    if f.check != "plausible":
        return CellFault(f.column, row.cells.get(at, ""), less_than_nothing(column, typed))
    fault = in_range(column, value, typed, row.units.get(f.column, ""), policy)
    if f.column == "post_size" and row.post_shape == "round" and not row.size_nominal:
        fault = round_size(fault, value, row.size_basis or "", policy)
    return CellFault(f.column, row.cells.get(at, ""), fault)


def _together(row: SurveyRow, found: set[str], faulty: set[str]) -> list[CellFault]:
    """What several columns say together, where each of them was read."""
    faults = []
    if "names its site" in found and not faulty & {"site_code", "site_name"}:
        name = "site_code" if "site_code" in row.cells else "site_name"
        message = "the row names no site: neither a code nor a name stands on it, above it or on the sheet."
        put_right = "Write the site's name or code on the row, or before the posts: Site name: …"
        faults.append(CellFault(name, row.cells.get(name) or _first_cell(row), Fault("MISSING", message, put_right)))
    if "wall within size" in found and not faulty & {"wall", "post_size"}:
        at = "wall" if "wall" in row.typed else "post_size"
        faults.append(
            CellFault("wall", row.cells.get(at, ""), wall_of(row.wall or 0.0, row.post_size or 0.0, row.typed.get(at, "")))
        )
    if "clear within height" in found and not faulty & {"clear_length", "post_height"}:
        fault = clear_of(row.clear_length or 0.0, row.post_height or 0.0, row.typed.get("clear_length", ""))
        faults.append(CellFault("clear_length", row.cells.get("clear_length", ""), fault))
    if "round where it must be" in found and not faulty & {"size_basis", "post_shape"}:
        at = "size_basis" if "size_basis" in row.typed else "post_size"
        fault = round_only(row.size_basis or "", row.post_shape or "", row.typed.get("post_size", ""), at)
        faults.append(CellFault(at, row.cells.get(at, ""), fault))
    return faults


def _holds(row: SurveyRow, f: CellFault) -> bool:
    """Whether a fault holds its row; a Post cell may say how many posts there are, so it counts where no number is stated."""
    if f.name == "post_code" and f.fault.code != "CONFLICT":
        return row.quantity is None
    return f.name in HOLDS_ROW or f.fault.code == "CONFLICT"


def _finished(row: SurveyRow, unread: set[str], held: bool) -> SurveyRow:
    """The row with what its blank cells mean, and without what could not be read."""
    changed: dict[str, Any] = {n: "" if n in SURVEY.key else None for n in unread if n not in ("post_code",) or held}
    not_stated = []
    for c in SURVEY.columns:
        if c.name in unread or getattr(row, c.name) not in (None, ""):
            continue
        if c.name in _FROM_POLICY:
            not_stated.append(c.name)
        elif (value := _default(row, c.name, unread)) is not None:
            changed[c.name] = value
            not_stated.append(c.name)
    return replace(row, **changed, held=held, unread=frozenset(unread), not_stated=tuple(not_stated))


def _default(row: SurveyRow, name: str, unread: set[str]) -> Any:
    """What a blank cell of a column means; None where it is just not stated."""
    column = _COLUMNS[name]
    if name == "clear_length":
        return None if "post_height" in unread else row.post_height
    if name == "size_basis":
        return "outside diameter" if row.post_shape in (None, "round") else "outside width"
    if not column.default:
        return None
    return int(column.default) if column.kind == "whole" else column.default if column.kind == "choice" else float(column.default)


def _query(row: SurveyRow, f: CellFault, holds: bool) -> Query:
    message = f"{_COLUMNS[f.name].heading}: {f.fault.message}"
    if not row.sheet and (at := place(f.at))[0]:  # a text file, whose reader may have no cell addresses to go by
        message += f" (Row {at[0]}, column {at[1]}.)"
    code, post = row.site_code, row.post_code
    return Query(row.file, row.sheet, f.at, f.fault.code, message, f.fault.suggestion, holds, code, post, f.name, row.label)

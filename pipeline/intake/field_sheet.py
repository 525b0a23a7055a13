"""A field sheet that came back: which revision it answers to, and each answer on `Check` by itself.

Source: design section 12, rule 4; contract section 5.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass, field, replace
from typing import Any

from pipeline.intake.dictionary import column_meant
from pipeline.intake.layout.answers import with_answers
from pipeline.intake.layout.record import Heading, Record, Stated
from pipeline.intake.query import Code, Query
from pipeline.intake.survey.draft import shown
from pipeline.intake.survey.fault import Fault
from pipeline.intake.survey.list_words import Seller
from pipeline.intake.survey.read_cell import read_cell, typed
from pipeline.intake.survey.read_record import read_record
from pipeline.intake.survey.survey_row import stated
from pipeline.reading.book import Book, Cell, Sheet
from schemas.field import BY, COLUMN, LOOKED_AT, NEW_READING, ON, POST, PROPERTY, UP_TO, WAS, WITH
from schemas.survey import SURVEY, TOOL_OF

_TEXT = re.compile(r"([0-9a-f]{16}) r(\d{1,6}) of (.+)", re.DOTALL)
_NEEDED = {POST, COLUMN, NEW_READING}
_WITH_IT = {"post_size": ("size_nominal", "size_basis")}
"""What the cell of a column may say beside it."""
_HEADED = {c.heading: c.name for c in SURVEY.columns}


def identity_text(site_code: str, revision: int, content_hash: str) -> str:
    """What a field sheet answers to, as it stands in its property."""
    return f"{content_hash[:16]} r{revision} of {site_code}"


@dataclass(frozen=True, slots=True)
class FieldAnswer:
    """One answer: `values` in SI by column, the column asked for first; `was` what stood in the survey's cell before.

    `tool` is how it was measured ('' = not said), `by` and `on` who and when, `up_to` the moment of a clearance [N m],
    `looked` what stands under `Looked at`, `blank` whether the row was left unanswered.
    """

    sheet: str
    cell: str
    post_code: str
    name: str
    was: str
    looked: str = ""
    typed: str = ""
    values: dict[str, Any] = field(default_factory=dict)
    unit: str = ""
    remarks: tuple[str, ...] = ()
    tool: str = ""
    by: str = ""
    on: str = ""
    up_to: float | None = None

    @property
    def blank(self) -> bool:
        """Whether the row was left unanswered, or cannot be read."""
        return not self.values


@dataclass(frozen=True, slots=True)
class FieldSheet:
    """The site and revision that it answers to, and its rows in order."""

    site_code: str
    revision: int
    content: str
    answers: tuple[FieldAnswer, ...]

    def as_dict(self) -> dict[str, Any]:
        """Plain values, fit for JSON."""
        return asdict(self)

    @staticmethod
    def from_dict(d: Mapping[str, Any]) -> FieldSheet:
        """The inverse of `as_dict` after a trip through JSON."""
        return FieldSheet(d["site_code"], d["revision"], d["content"], tuple(_restored(a) for a in d["answers"]))


def _restored(a: Mapping[str, Any]) -> FieldAnswer:
    values = {k: tuple(v) if isinstance(v, list) else v for k, v in a["values"].items()}
    return FieldAnswer(**{**a, "values": values, "remarks": tuple(a["remarks"])})


def read_field_sheet(book: Book, file: str, seller: Seller) -> tuple[FieldSheet, list[Query]] | None:
    """The field sheet in `book`, and a query for each cell of it that cannot be read; None where it is none."""
    m = _TEXT.fullmatch(book.properties.get(PROPERTY, ""))
    if m is None:
        return None
    made = FieldSheet(m[3], int(m[2]), m[1], ())
    answers, queries = [], []
    for sheet in with_answers(book)[0].sheets:
        for number, row in _rows(sheet):
            answer, asked = _answer(sheet.name, number, row, seller)
            answers.append(answer)
            queries += [replace(q, file=file, site_code=made.site_code, post_code=answer.post_code) for q in asked]
    return replace(made, answers=tuple(answers)), queries


def _rows(sheet: Sheet) -> Iterator[tuple[int, dict[str, Cell]]]:
    """Rows of the table on `Check` by heading."""
    rows: dict[int, dict[int, Cell]] = {}
    for cell in sheet.cells:
        rows.setdefault(cell.row, {})[cell.column] = cell
    places: dict[int, str] = {}
    for number, cells in sorted(rows.items()):
        texts = {n: str(c.value).strip() for n, c in cells.items() if c.kind == "text"}
        if not places and set(texts.values()) >= _NEEDED:
            places = texts
        elif places:
            row = {places[n]: c for n, c in cells.items() if n in places}
            if COLUMN not in row or POST not in row:
                return
            yield number, row | {heading: Cell(number, n, "text", "") for n, heading in places.items() if heading not in row}


def _answer(sheet: str, number: int, row: Mapping[str, Cell], seller: Seller) -> tuple[FieldAnswer, list[Query]]:
    """One row of the table; queries without the file's name."""
    heading, cell = str(row[COLUMN].value).strip(), row[NEW_READING]
    name = _HEADED.get(heading) or column_meant(heading)
    post = typed(row[POST])
    answer = FieldAnswer(sheet, cell.address, post, name, _words(row, WAS), _words(row, LOOKED_AT))
    if not str(cell.value if cell.value is not None else "x").strip():
        return answer, []
    if not name:
        wrong = Fault("NOT_IN_LIST", f"“{heading}” is no column of the survey.", "Put back the heading that stood there.")
        return answer, [_query(answer, row[COLUMN].address, COLUMN, wrong)]
    record = Record(sheet, number, f"row {number}", {name: Stated(cell, Heading(heading), cell.address)}, {name: cell.address})
    read = read_record(record, "", seller)
    queries = [_query(answer, f.at or cell.address, NEW_READING, f.fault) for f in read.faults if f.name == name]
    known = stated(read.row)
    values = {n: known[n] for n in (name, *_WITH_IT.get(name, ())) if n in known}
    if read.row.size_nominal and name == "post_size":
        values["size_nominal"] = True
    if name not in values:
        return answer, queries
    tool, asked = _tool(answer, name, row.get(WITH))
    day, more = _day(answer, row.get(ON))
    read_as = replace(
        answer,
        typed=read.row.typed.get(name, ""),
        values=values,
        unit=read.row.units.get(name, ""),
        remarks=read.row.remarks,
        tool=tool,
        by=_words(row, BY),
        on=day,
        up_to=_moment(row.get(UP_TO)),
    )
    return read_as, [*queries, *asked, *more]


def _words(row: Mapping[str, Cell], heading: str) -> str:
    return typed(row[heading]) if heading in row else ""


def _moment(cell: Cell | None) -> float | None:
    return float(cell.value) if cell is not None and cell.kind == "number" and cell.value is not None else None


def _tool(answer: FieldAnswer, name: str, cell: Cell | None) -> tuple[str, list[Query]]:
    """How it was measured, where that counts."""
    if name not in TOOL_OF or cell is None or not str(cell.value).strip():
        return "", []
    got = read_cell(SURVEY.column(TOOL_OF[name]), cell)
    if isinstance(got, Fault):  # what cannot be read is the least that it can be
        return "estimate", [_query(answer, cell.address, WITH, got)]
    return str(got.value or ""), []


def _day(answer: FieldAnswer, cell: Cell | None) -> tuple[str, list[Query]]:
    if cell is None or not str(cell.value).strip():
        return "", []
    got = read_cell(SURVEY.column("surveyed_on"), cell)
    return ("", [_query(answer, cell.address, ON, got)]) if isinstance(got, Fault) else (str(got.value or ""), [])


def _query(answer: FieldAnswer, at: str, under: str, fault: Fault) -> Query:
    message = f"{under}: {fault.message}"
    return field_query(answer, at, fault.code, message, fault.suggestion)


def field_query(answer: FieldAnswer, at: str, code: Code, message: str, suggestion: str) -> Query:
    """A query at a cell of the field sheet; it holds no row, and its file and site are added by whoever knows them."""
    return Query("", answer.sheet, at, code, message, suggestion, False, "", answer.post_code, answer.name, f"row {at}")


def answered_as(answer: FieldAnswer) -> str:
    """What the answer was taken as, as data/readings.csv has it."""
    return shown(answer.values[answer.name])

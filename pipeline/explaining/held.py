"""A row that is held: what it waits for, and what could be read."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from pipeline.explaining.case import Left
from pipeline.explaining.input_steps import inputs
from pipeline.explaining.layout import heading, item, paragraph
from pipeline.intake.survey.survey_row import SurveyRow


def held(row: SurveyRow, queries: Sequence[Mapping[str, str]] | None, left: Left) -> Iterator[str]:
    """The queries that hold a row, and the row as far as it was read."""
    yield from heading(f"Held: row {row.row}{f' of sheet {row.sheet}' if row.sheet else ''} of {row.file}")
    yield from paragraph("This row waits for a correction. Nothing of it is quoted, and nothing is worked out.")
    yield from _queries(queries, left)
    yield from inputs(row, left.kept)


def _queries(queries: Sequence[Mapping[str, str]] | None, left: Left) -> Iterator[str]:
    if not queries:
        where = f"{left.folder}/data/queries.csv"
        why = "could not be read" if queries is None else "no longer names them"
        yield from paragraph(f"What is asked cannot be shown: {where} {why}. Run `postquote quote` into that folder once more.")
        return
    for q in queries:
        holds = "" if q["holds_row"] == "true" else " (does not hold the row)"
        instead = f" Instead: {q['suggestion']}" if q["suggestion"] else ""
        yield from item(f"{q['cell']} {q['code']}", f"{q['message']}{instead}{holds}")
    yield from paragraph("Next: correct the cells in the survey and run `postquote quote` again.")

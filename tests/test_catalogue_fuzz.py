"""Whatever stands in a catalogue's cells: an answer with faults, or a catalogue whose every value is of its kind."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
from catalogue_made import sheets
from hypothesis import given, settings
from hypothesis import strategies as st

from pipeline.intake.catalogue import CatalogueFaults, catalogue_of, read_catalogue
from pipeline.reading.book import Book, Cell, Sheet
from schemas import frames
from schemas.catalogue import CATALOGUE

ODD = st.one_of(
    st.text(max_size=20),
    st.floats(),
    st.integers(),
    st.booleans(),
    st.sampled_from(
        [
            "1e999",
            "NaN",
            "-",
            "n/a",
            "1/0 in",
            "٣",
            "½",
            "8'6\"",
            "10 %",
            "1,5",
            "M-10",
            "B-54",
            "blank",
            "=1",
            "3 in",
            "0 lb",
            "-5",
        ]
    ),
    st.tuples(st.sampled_from(["error", "date", "no_result"]), st.just("#N/A")),
)


def _cell(row: int, column: int, value: object) -> Cell:
    if isinstance(value, tuple):
        return Cell(row, column, value[0], None if value[0] == "no_result" else value[1])
    if isinstance(value, bool):
        return Cell(row, column, "bool", value)
    if isinstance(value, int | float):
        return Cell(row, column, "number", value, "100 %" if value == 0.5 else "")
    return Cell(row, column, "text", str(value))


def _book(changes: list[tuple[str, int, int, object]]) -> Book:
    made = sheets()
    for sheet, row, column, value in changes:
        rows = made[sheet]
        rows[row % len(rows)][column % len(rows[0])] = value
    return Book(
        "xlsx",
        tuple(
            Sheet(
                name, tuple(_cell(r, c, v) for r, row in enumerate(rows, 1) for c, v in enumerate(row, 1) if v not in (None, ""))
            )
            for name, rows in made.items()
        ),
    )


CHANGE = st.tuples(st.sampled_from([t.name for t in CATALOGUE]), st.integers(0, 9), st.integers(0, 19), ODD)


@settings(deadline=None, max_examples=30)
@given(st.lists(CHANGE, min_size=1, max_size=4))
def test_any_cells_at_all(changes) -> None:
    faults, read = (), None
    try:
        read = catalogue_of(_book(changes))
    except CatalogueFaults as e:
        faults = e.faults
    assert bool(read) != bool(faults)
    assert all(f.message and f.suggestion for f in faults)
    if read is None:
        return
    for table in CATALOGUE:
        frames.check(frames.frame(read.tables[table.name], table), table)
    assert all(math.isfinite(v) for v in read.policy.values() if isinstance(v, float | Decimal))


@pytest.mark.parametrize("name", ["nowhere.xlsx", "."])
def test_no_file_and_a_folder_are_faults_too(tmp_path, name) -> None:
    with pytest.raises(CatalogueFaults) as caught:
        read_catalogue(str(tmp_path / name))
    assert len(caught.value.faults) == 1

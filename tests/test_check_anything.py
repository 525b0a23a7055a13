"""Whatever stands in the cells: no exception, every row accounted for, no value without its cell."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from survey_books import CLEAN, HEADINGS, Special, book, sheet, survey
from survey_checked import FileResult, check_book

from pipeline.intake.catalogue import documented_policy
from pipeline.intake.survey.survey_row import stated
from schemas.survey import SURVEY

POLICY = documented_policy()
NEEDED = [c.name for c in SURVEY.columns if c.needed]

WORDS = st.sampled_from(
    ["8'6\"", "8-6", "3 1/2", "NPS 3", "DN 65", "3 in sch 40", "about 3 in", "n/a", "-", "?", "unknown", "round", "4x4", "Total",
     "1:100", "12 %", "8 ft; 10 ft", "1e400", "٣", "½", "#N/A", "6-Aug", "13/32/2026", "0000-00-00", "\u202e", "=1+1",
     "circumference", "none"]
)  # fmt: skip
SPECIAL = st.builds(
    Special,
    st.sampled_from(["date", "error", "no_result", "number"]),
    st.sampled_from([1.5, 0, -3, float("nan"), float("inf"), 1e300]),
    unit=st.sampled_from(["", "mm", "%", "ft-in", "nonsense"]),
).map(
    lambda s: Special(
        s.kind, str(s.value) if s.kind in ("date", "error") else None if s.kind == "no_result" else s.value, "", s.unit
    )
)
CELLS = st.one_of(st.none(), WORDS, SPECIAL, st.booleans(), st.integers(), st.floats(), st.text(max_size=12))


def accounted(got: FileResult) -> None:
    """Quoted or held; a held row has a query at one of its own cells, and no other row has a holding one."""
    asked = {(q.sheet, q.record) for q in got.queries if q.holds_row}
    for row in got.rows:
        assert row.held == ((row.sheet, row.label) in asked)
        assert row.held or all(n in stated(row) for n in (*NEEDED, "site_code", "post_code", "quantity", "court_rise"))
        assert row.unread <= {q.name for q in got.queries if q.is_about(row)}
        assert all(v == v for v in stated(row).values())
    assert all(q.message and q.suggestion for q in got.queries)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.dictionaries(st.sampled_from(SURVEY.names), CELLS, max_size=6))
def test_any_cells_in_a_row(changes: dict[str, Any]) -> None:
    kept = CLEAN | {"site_code": "S-02", "site_name": "Elm Park", "post_code": "P2"}
    got = check_book(book(survey([CLEAN | changes, kept])), "a.xlsx", POLICY)
    accounted(got)
    assert not [r for r in got.rows if r.row == 3 and r.held]
    assert len(got.rows) == 2 or not any(r.row == 2 for r in got.rows)


@pytest.mark.slow
@settings(max_examples=1500, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.lists(st.lists(st.one_of(CELLS, st.sampled_from(HEADINGS)), max_size=12), max_size=8), st.permutations(HEADINGS))
def test_any_sheet(rows: list[list[Any]], heads: list[str]) -> None:
    accounted(check_book(book(sheet(rows)), "a.xlsx", POLICY))
    accounted(check_book(book(sheet([*rows[:2], heads, *rows])), "a.xlsx", POLICY))

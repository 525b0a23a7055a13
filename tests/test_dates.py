"""Days as people write them, in six languages; what is two days is none."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pipeline.intake.survey.dates import day_of
from schemas.languages import LANGUAGES, split

DAYS = (
    "2026-03-03", "3 March 2026", "March 3, 2026", "3 marzo 2026", "3 de marzo de 2026", "3 mars 2026", "le 3 mars 2026",
    "3. März 2026", "3 de março de 2026", "3rd March 2026", "Mar 3 2026", "3-Mar-2026", "2026 March 3",
    "martes 3 de marzo de 2026", "Tuesday, March 3, 2026", "Dienstag, 3. März 2026", "3 MARZO 2026", "03 Mar. 2026",
)  # fmt: skip
NO_DAYS = (
    "3/4/26", "03.04.2026", "3/4/2026", "3-4-2026", "3 March", "March 2026", "31 February 2026", "3 Mar 26", "spring 2026", "",
    "yesterday", "3 jui 2026", "2026-13-03", "2026-02-30", "3 March 2026 or 4 March 2026", "20260303", "3 4 2026", "week 12 2026",
)  # fmt: skip


@pytest.mark.parametrize("text", DAYS)
def test_a_day_that_is_one_day(text: str) -> None:
    assert day_of(text) == "2026-03-03"


@pytest.mark.parametrize("text", NO_DAYS)
def test_what_is_two_days_or_none_is_not_read(text: str) -> None:
    assert day_of(text) == ""


@given(
    st.dates(date(1990, 1, 1), date(2060, 12, 31)), st.sampled_from(LANGUAGES), st.sampled_from(("{d} {m} {y}", "{m} {d}, {y}"))
)
def test_every_month_of_every_language(day: date, language: object, form: str) -> None:
    name = split(language.months)[day.month - 1]  # type: ignore[attr-defined]
    assert day_of(form.format(d=day.day, m=name, y=day.year)) == day.isoformat()
    assert day_of(day.isoformat()) == day.isoformat()

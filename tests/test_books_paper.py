"""How the workbooks print: nothing smaller than can be read, no picture and no short table cut in two."""

from __future__ import annotations

import pytest
from books_made import awkward, large, post, report, setting, small
from books_open import opened
from hypothesis import given
from hypothesis import strategies as st

from pipeline.sheets.site_workbook import site_workbook
from pipeline.xlsx import paper

LEAST_POINTS = 6.9
"""Smallest letters on paper [pt]; those of the sheets are ten at full size."""


def in_print(sheet) -> float:
    """Scale at which a sheet prints [%], whether it is stated or made to fit the width of the page."""
    if sheet.page_setup.scale:
        return float(sheet.page_setup.scale)
    inches = {"1": (8.5, 11.0), "9": (8.27, 11.69)}[str(sheet.page_setup.paperSize)]
    wide = inches[1] if sheet.page_setup.orientation == "landscape" else inches[0]
    columns = sum(int(c.width * 7 + 5) * (c.max - c.min + 1) for c in sheet.column_dimensions.values())
    return min(100.0, 100 * (wide - 1) * 96 / max(columns, 1))


@pytest.mark.parametrize("make", [small, awkward, large, lambda: report((post("1"),), feet=False)])
def test_no_page_has_tiny_print(make):
    book = opened(site_workbook(make(), setting()))
    assert [s.title for s in book if in_print(s) / 10 < LEAST_POINTS] == []


@given(
    st.lists(st.integers(10, 60), min_size=1, max_size=80),
    st.lists(st.tuples(st.integers(0, 70), st.integers(1, 5)), max_size=8),
)
def test_kept_rows_are_never_parted(heights, kept):
    """Pages filled by hand, breaks obeyed: no rows that a page can hold lie on two."""
    blocks, free = [], 0
    for first, more in sorted(kept):
        if first >= free and first + more < len(heights):
            blocks.append((first, first + more))
            free = first + more + 1
    room = 300.0
    breaks = set(paper.down(heights, blocks, room, 0))
    page, used, on = 0, 0.0, []
    for row, tall in enumerate(heights):
        if row in breaks or used + tall > room:
            page, used = page + 1, 0.0
        used += tall
        on.append(page)
    assert all(on[first] == on[last] for first, last in blocks)


def test_print_is_never_larger_than_its_cells():
    assert paper.scale(1200, 900) == 75
    assert paper.scale(300, 900) == 100

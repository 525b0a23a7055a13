"""How much paper a site takes: few pages, few cells, the same on both papers."""

from __future__ import annotations

import re
import subprocess
from dataclasses import replace

import pytest
from books_made import setting, small
from books_open import OFFICE, opened

from pipeline.sheets.site_workbook import site_workbook

MOST_PAGES = 10
CELLS_ONCE = 2676
"""Cells with a value that the same seven posts took when each sheet had a row a post and mount."""


def seven():
    """A site of seven posts with all verdicts, none held."""
    made = small()
    return replace(made, posts=made.posts[:7], held=(), queries=made.queries[1:], rows_held=0)


def test_seven_posts_take_at_most_half_of_the_cells():
    book = opened(site_workbook(seven(), setting()))
    assert 2 * sum(cell.value is not None for sheet in book for row in sheet.iter_rows() for cell in row) <= CELLS_ONCE


@pytest.mark.parametrize("on", ["Letter", "A4"])
def test_seven_posts_print_on_few_pages(on, tmp_path):
    if OFFICE is None:
        pytest.skip("LibreOffice is not installed")
    policy = tuple(replace(s, value=on) if s.name == "paper" else s for s in setting().policy)
    (tmp_path / "site.xlsx").write_bytes(site_workbook(seven(), replace(setting(), policy=policy)))
    profile = f"-env:UserInstallation=file://{tmp_path / 'profile'}"
    command = [OFFICE, "--headless", profile, "--convert-to", "pdf", "--outdir", str(tmp_path), str(tmp_path / "site.xlsx")]
    subprocess.run(command, check=True, capture_output=True, timeout=100)
    pages = re.findall(rb"/Type\s*/Page\b(?!s)", (tmp_path / "site.pdf").read_bytes())
    assert 8 <= len(pages) <= MOST_PAGES

"""The portfolio's sheet `Waits`: what each site waits for, of whom, and the field sheet to take there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from pipeline.output.names import field_sheet_path
from pipeline.sheets import show
from pipeline.sheets.report import SiteSummary
from pipeline.sheets.wording import STATE
from pipeline.xlsx.page import Book
from pipeline.xlsx.values import As, Col, Link
from schemas.findings import BY_CODE
from schemas.words import CAUTION, CAUTION_IN_SHORT

COLUMNS = [
    Col("Site", "bold", 24, 16),
    Col("Name", "text", 28),
    Col("State", "text", 16, 13),
    Col("The sender must correct", "text", 34, 20),
    Col("To confirm on site (posts)", "text", 48, 28),
    Col("An engineer must look at (posts)", "text", 34, 22),
    Col("Posts without a kit", "whole"),
    Col("Field sheet", "link", 16, 12),
]


def rows(sites: Sequence[SiteSummary]) -> list[list[Any]]:
    """A row a site that waits for something."""
    return [_row(s) for s in sites if s.site["state"] != "ready"]


def _row(s: SiteSummary) -> list[Any]:
    site, held = s.site, int(s.site["rows_held"])
    workbook, senders = str(site.get("workbook") or ""), show.listed(list(s.senders), 4)
    return [
        site["site_code"],
        site["site_name"],
        As(*STATE[site["state"]]),
        f"{show.counted(held, 'row')} of {senders}" if held else "nothing",
        _codes(s.confirms, engineer=False),
        _codes(s.confirms, engineer=True) if int(site.get("posts_strength_open") or 0) else "nothing",
        s.outcomes.get("no_kit", 0),
        Link(f"external:{field_sheet_path(workbook)}", "field sheet") if workbook else "none written",
    ]


def _codes(confirms: Mapping[str, int], *, engineer: bool) -> str:
    """What is to be confirmed at how many posts; a strength that is only unknown has no finding of its own."""
    found = [f"{BY_CODE[c].about} ({n})" for c, n in confirms.items() if BY_CODE[c].engineer == engineer]
    return ", ".join(found) or ("strength, not known" if engineer else "nothing")


def write_waits(book: Book, sites: Sequence[SiteSummary]) -> None:
    """Writes the sheet."""
    page = book.page("Waits", "#8A3B12")
    page.title("Waits: what each site waits for, and its field sheet")
    found = rows(sites)
    if found:
        page.para(1, CAUTION, "caution")
        page.table(2, "waits_by_site", COLUMNS, found, "What each site waits for")
        page.sheet.freeze_panes(3, 1)
    else:
        page.para(2, "No site waits for anything.", "strong")
    page.print_as(2 if found else 0, "Portfolio", header=CAUTION_IN_SHORT)

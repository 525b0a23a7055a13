"""What all sheets of a site workbook share: columns of lengths, how a sheet is frozen and printed."""

from __future__ import annotations

from typing import Any

from pipeline.sheets import show
from pipeline.sheets.report import SiteReport
from pipeline.sheets.wording import number
from pipeline.xlsx.page import Page
from pipeline.xlsx.paper import A4, LETTER
from pipeline.xlsx.values import As, Col


def length_columns(heading: str, feet: bool, decimals: int = 3) -> list[Col]:
    """Columns of a length: feet and inches as words with metres beside, or millimetres alone."""
    if feet:
        return [Col(f"{heading} [ft-in]", "right", 20), Col(f"{heading} [m]", "metres4" if decimals == 4 else "metres", 16)]
    return [Col(f"{heading} [mm]", "number1" if decimals == 4 else "mm", 16)]


def length_values(metres: float | None, feet: bool, missing: str = show.UNKNOWN) -> list[Any]:
    """Cells that go with `length_columns`."""
    if metres is None or metres != metres:
        return [As(missing, "right")] * (2 if feet else 1)
    return [show.length(metres, True), metres] if feet else [show.millimetres(metres)]


def finish(page: Page, report: SiteReport, top: int, frozen: int = 1) -> None:
    """Freezes what stands above and left of the first data cell, and sets the printed page up.

    `top` 0: no heading row counts for the whole sheet, so only its title and the first columns stay in sight.
    """
    page.sheet.freeze_panes(top + 1 if top else 1, frozen)
    page.print_as(top, f"{number(report)}  {report.site_name}", on=LETTER if report.feet else A4)

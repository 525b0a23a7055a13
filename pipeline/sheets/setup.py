"""What all sheets of a site workbook share: lengths, rows that alike posts share, how a sheet is frozen and printed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from pipeline.sheets import show
from pipeline.sheets.report import PostReport, SiteReport
from pipeline.sheets.wording import number
from pipeline.xlsx.page import Page
from pipeline.xlsx.values import As, Col
from schemas.lengths import NEAREST
from schemas.words import CAUTION_IN_SHORT


def length_column(heading: str, feet: bool, width: int = 16) -> Col:
    """A column of lengths in the site's units: feet and inches as words, or millimetres."""
    return Col(f"{heading} [ft-in]", "right", width) if feet else Col(f"{heading} [mm]", "mm", width)


def length_value(metres: float | None, feet: bool, missing: str = show.UNKNOWN, way: str = NEAREST) -> Any:
    """A cell that goes with `length_column`; `way` as in `show.length`."""
    if metres is None or metres != metres:
        return As(missing, "right")
    return show.length(metres, True, way) if feet else show.millimetres(metres, way)


def shared(posts: Iterable[tuple[PostReport, Sequence[Any]]]) -> list[list[Any]]:
    """Rows of a table of posts: posts that say the same share a row, which begins with their codes and their number."""
    found: dict[tuple[Any, ...], list[PostReport]] = {}
    for post, cells in posts:
        found.setdefault(tuple(cells), []).append(post)
    return [[codes(alike), sum(p.quantity for p in alike), *cells] for cells, alike in found.items()]


def codes(posts: Sequence[PostReport]) -> str:
    """Codes of posts in one cell."""
    return show.listed([p.row.post_code for p in posts])


def finish(page: Page, report: SiteReport, top: int, frozen: int = 1, landscape: bool = True) -> None:
    """Freezes what stands above and left of the first data cell, and sets the printed page up.

    `top` 0: no heading row counts for the whole sheet, so only its title and the first columns stay in sight.
    """
    page.sheet.freeze_panes(top + 1 if top else 1, frozen)
    page.print_as(top, f"{number(report)}  {report.site_name}", landscape, header=CAUTION_IN_SHORT)

"""The site workbook, whole: eight sheets and the drawings."""

from __future__ import annotations

from pipeline.books.model import Setting, SiteReport


def site_workbook(report: SiteReport, setting: Setting) -> bytes:
    """The workbook of one site as .xlsx bytes; the same report gives the same bytes."""
    raise NotImplementedError

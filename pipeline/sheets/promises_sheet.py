"""The portfolio's sheet `Promises`: what is out, until when, what waits behind it, and what of it no longer holds."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import Any

from pipeline.sheets.report import SiteSummary
from pipeline.xlsx.page import Book
from pipeline.xlsx.values import As, Col
from schemas.words import CAUTION, CAUTION_IN_SHORT


def broken(sites: Sequence[SiteSummary]) -> Iterator[str]:
    """What no longer holds of promised quotations, a sentence each."""
    for s in sites:
        for sentence in s.promised.get("broken", ()):
            yield f"{s.site['site_code']}-r{s.site['revision']}, {s.promised['state']}: {sentence}"


def rows(sites: Sequence[SiteSummary]) -> list[list[Any]]:
    """A row a site that was sent, accepted or declined, those of which something no longer holds first."""
    marked = sorted((s for s in sites if s.promised), key=lambda s: not s.promised.get("broken"))
    return [_row(s) for s in marked]


def _row(s: SiteSummary) -> list[Any]:
    p = s.promised
    wrong = "\n".join(p.get("broken", ()))
    return [
        s.site["site_code"],
        s.site["customer"] or "not stated",
        As(p["state"], "bad") if wrong else p["state"],
        int(p["revision"]),
        p["day"],
        p.get("until") or "without end",
        Decimal(p["total"]),
        Decimal(p["would_be"]) if p.get("would_be") else "the same",
        int(p.get("posts_moved", 0)),
        wrong or "nothing",
        p["note"] or None,
    ]


def columns(currency: str) -> list[Col]:
    """Headings of the table."""
    return [
        Col("Site", "bold", 24, 16),
        Col("Customer", "text", 24),
        Col("Promise", "text", 12, 11),
        Col("Revision", "whole"),
        Col("Marked on", "text", 14, 12),
        Col("Stands until", "text", 14, 12),
        Col(f"Total [{currency}]", "money", 18),
        Col(f"Would come to [{currency}]", "money", 18),
        Col("Posts with another kit", "whole"),
        Col("What no longer holds", "text", 60, 30),
        Col("Note", "text", 30),
    ]


def write_promises(book: Book, sites: Sequence[SiteSummary], currency: str) -> None:
    """Writes the sheet."""
    page = book.page("Promises", "#8A3B12")
    page.title("Promises: what was sent, accepted or declined, and what waits behind it")
    found = rows(sites)
    if found:
        page.para(1, CAUTION, "caution")
        page.table(2, "promises_all", columns(currency), found, "Marked quotations")
        page.sheet.freeze_panes(3, 1)
    else:
        page.para(2, "No quotation is marked. Say with `postquote mark` what was sent, accepted or declined.", "strong")
    page.print_as(2 if found else 0, "Portfolio", header=CAUTION_IN_SHORT)

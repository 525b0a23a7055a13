"""Sheets of the portfolio about what waits: queries by sender, changes, expired quotations, files."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from pipeline.intake.query import Query
from pipeline.xlsx.page import Book, Page
from pipeline.xlsx.values import As, Col, Link
from schemas.order import natural


def _finish(page: Page, top: int) -> None:
    if top:
        page.sheet.freeze_panes(top + 1, 1)
    page.print_as(top, "Portfolio")


def effect(query: Query) -> As:
    """What a query does to the quotation, in words."""
    if query.code in ("UNREADABLE_FILE", "NO_HEADINGS"):
        return As("nothing could be read", "bad")
    return As("holds the row", "bad") if query.holds_row else As("quoted all the same", "check")


def query_rows(queries: Sequence[Query]) -> list[list[Any]]:
    """Queries by sender: file, then place in it; what holds a row says so in words."""
    ordered = sorted(queries, key=lambda q: (natural(q.file), q.order))
    return [
        [
            q.file,
            ", ".join(part for part in (q.sheet, q.cell) if part) or "the whole file",
            q.site_code or "not known",
            q.post_code or "not known",
            effect(q),
            q.code,
            q.message,
            q.suggestion or None,
        ]
        for q in ordered
    ]


def write_queries(book: Book, queries: Sequence[Query]) -> None:
    """Queries by sender."""
    page = book.page("Queries", "#86201C")
    page.title("Queries: what each sender must correct or confirm")
    if not queries:
        page.para(2, "There is no query: every row of every file was read and every wish is met.", "strong")
        return _finish(page, 0)
    cols = [
        Col("File", "bold", 26),
        Col("Sheet and cell", "text", 16),
        Col("Site", "text", 16),
        Col("Post", "text", 14),
        Col("Effect", "text", 14),
        Col("Query", "text", 23),
        Col("What is wrong", "text", 42),
        Col("What to type instead", "text", 30),
    ]
    page.table(2, "queries_open", cols, query_rows(queries), "Queries by file")
    return _finish(page, 2)


def _amount(value: Any) -> Any:
    return Decimal(str(value)) if value not in (None, "") else As("none", "right")


def change_rows(changes: Sequence[Mapping[str, Any]]) -> list[list[Any]]:
    """Rows of data/changes.csv for people; numbers stay numbers."""
    return [
        [
            c["site_code"],
            As("new", "right") if c.get("revision_was") in (None, "") else int(c["revision_was"]),
            As("gone", "right") if c.get("revision") in (None, "") else int(c["revision"]),
            str(c.get("kind") or ""),
            str(c.get("item") or "") or None,
            str(c.get("was") or "") or None,
            str(c.get("now") or "") or None,
            _amount(c.get("total_was")),
            _amount(c.get("total")),
        ]
        for c in changes
    ]


def write_changes(
    book: Book,
    changes: Sequence[Mapping[str, Any]],
    vanished: Sequence[Mapping[str, Any]],
    slips: Sequence[str],
    currency: str,
) -> None:
    """What changed since the last run that finished, and sites that nobody asks for any longer."""
    page = book.page("Changes")
    page.title("Changes since the last run that finished")
    row, top = 2, 0
    if slips:
        row = page.section(row, "Prices that may be slips", 9)
        row = page.paras(row, slips, "strong") + 1
    if changes:
        top = row
        cols = [
            Col("Site", "bold", 24),
            Col("Revision before", "whole"),
            Col("Revision now", "whole"),
            Col("What kind", "text", 30),
            Col("What", "text", 34),
            Col("Was", "text", 34),
            Col("Now", "text", 34),
            Col(f"Total before [{currency}]", "money", 18),
            Col(f"Total now [{currency}]", "money", 18),
        ]
        row = page.table(row, "changes_all", cols, change_rows(changes), "Reasons for new revisions")
    else:
        row = page.para(row, "No quotation changed, or this is the folder's first run.", "strong")
    row = page.section(row + 1, "No longer asked for", 9)
    if vanished:
        gone = [
            Col("Site gone", "bold", 24),
            Col("Last revision", "whole"),
            Col("Workbook kept", "link", 30),
            Col("Name", "text", 34),
        ]
        rows = [
            [
                v["site_code"],
                int(v["revision"]),
                Link(f"external:{v['workbook']}", f"{v['site_code']}-r{v['revision']}"),
                str(v["site_name"]),
            ]
            for v in vanished
        ]
        page.table(row, "changes_gone", gone, rows, "Sites that no survey names any longer")
    else:
        page.para(row, "None: every site of the run before is still asked for.")
    _finish(page, top)


def write_expired(book: Book, expired: Sequence[Mapping[str, Any]]) -> None:
    """Quotations whose last day is past."""
    page = book.page("Expired")
    page.title("Expired quotations")
    if not expired:
        page.para(2, "No quotation of this folder is past its last day.", "strong")
        return _finish(page, 0)
    cols = [Col("Site", "bold", 24), Col("Revision", "whole"), Col("Valid until", "text", 14)]
    page.table(
        2,
        "expired_all",
        cols,
        [[e["site_code"], int(e["revision"]), str(e["valid_until"])] for e in expired],
        "Expired quotations",
    )
    page.widths[3] = 60
    return _finish(page, 2)


def write_files(book: Book, files: Sequence[Mapping[str, Any]]) -> None:
    """What came in: files, formats, rows."""
    page = book.page("Files", "#4A5A64")
    page.title("Files: what came in")
    if not files:
        page.para(2, "No survey file was given.", "strong")
        return _finish(page, 0)
    cols = [
        Col("File", "bold", 50),
        Col("Format", "text", 12),
        Col("Rows", "whole"),
        Col("Rows held", "whole"),
        Col("Notes", "text", 70),
    ]
    rows = [
        [str(f["file"]), str(f["format"] or "unreadable"), int(f["rows"]), int(f["held"]), _notes(f.get("notes"))] for f in files
    ]
    page.table(2, "files_read", cols, rows, "Survey files")
    return _finish(page, 2)


def _notes(notes: Any) -> str | None:
    if not notes:
        return None
    return notes if isinstance(notes, str) else " ".join(str(n) for n in notes)

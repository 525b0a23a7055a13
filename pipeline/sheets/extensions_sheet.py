"""The sheet `Extensions`: what to add where, and how many to order."""

from __future__ import annotations

from typing import Any

from pipeline.sheets import show
from pipeline.sheets.report import Setting, SiteReport
from pipeline.sheets.setup import finish, length_columns, length_values
from pipeline.xlsx.page import Book, Page
from pipeline.xlsx.values import Col, Formula
from schemas.words import CAUTION


def columns(feet: bool) -> list[Col]:
    """Headings of the table of places."""
    return [
        Col("Post", "bold", 24),
        Col("Quantity", "whole"),
        Col("Mount", "text", 20),
        *length_columns("Short by", feet),
        Col("Extension", "text", 20),
        Col("Description", "text", 40),
        Col("Joint", "text", 10),
        *length_columns("Added height", feet),
        *length_columns("Upper size", feet, 4),
        *length_columns("Joint length", feet),
    ]


def rows(report: SiteReport, setting: Setting) -> list[list[Any]]:
    """One row a post whose recommended kit needs an extension."""
    made = []
    for post in report.posts:
        kit = post.kit
        if kit is None or not kit.extension:
            continue
        item = setting.items.get("Extensions", {}).get(kit.extension, {})
        short = next((m.shortfall for m in post.mounts if m.mount == kit.mount), None)
        made.append(
            [
                post.row.post_code,
                post.quantity,
                kit.mount,
                *length_values(short, report.feet),
                kit.extension,
                item.get("description") or "no description",
                item.get("joint", show.UNKNOWN),
                *length_values(kit.added, report.feet),
                *length_values(item.get("upper_size_m"), report.feet),
                *length_values(item.get("joint_length_m"), report.feet),
            ]
        )
    return made


def write_extensions(book: Book, report: SiteReport, setting: Setting) -> None:
    """Writes the sheet."""
    page = book.page("Extensions")
    page.title("Extensions: what to add where")
    row = page.para(1, CAUTION, "caution")
    found = rows(report, setting)
    if not found:
        words = (
            "No recommended kit of this site needs an extension." if report.posts else "No row of this site could be quoted yet."
        )
        page.para(row + 1, words, "strong")
        finish(page, report, 0)
        return
    top = row
    row = page.table(top, "extensions_where", columns(report.feet), found, "Posts whose recommended kit needs an extension")
    _order(page, row + 1, top, found, setting, report.feet)
    finish(page, report, top)


def _order(page: Page, row: int, top: int, found: list[list[Any]], setting: Setting, feet: bool) -> None:
    """Order count by extension: a live sum over the table above."""
    code = 5 if feet else 4
    counts: dict[str, int] = {}
    for line in found:
        counts[line[code]] = counts.get(line[code], 0) + line[1]
    row = page.section(row, "To order", 6)
    first, last, letter = top + 2, top + 1 + len(found), chr(ord("A") + code)
    lines = [
        [name, Formula(f"=SUMPRODUCT(({letter}${first}:{letter}${last}=A{row + 2 + i})*B${first}:B${last})", counts[name])]
        for i, name in enumerate(sorted(counts))
    ]
    page.table(row, "extensions_order", [Col("Extension to order", "bold", 24), Col("How many", "whole")], lines, "Order count")

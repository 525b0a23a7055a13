"""The sheet `Extensions`: what to add where, and how many to order."""

from __future__ import annotations

from typing import Any

from pipeline.sheets import show
from pipeline.sheets.report import PostReport, Setting, SiteReport
from pipeline.sheets.setup import finish, length_column, length_value, shared
from pipeline.xlsx.page import Book, Page
from pipeline.xlsx.values import Col, Formula
from schemas.words import CAUTION

_CODE = 4
"""Column of the extension's code."""


def columns(feet: bool) -> list[Col]:
    """Headings of the table of places."""
    return [
        Col("Post", "bold", 24),
        Col("Quantity", "whole"),
        Col("Mount", "text", 20),
        length_column("Short by", feet),
        Col("Extension", "text", 20),
        Col("Description", "text", 40),
        Col("Joint", "text", 10),
        length_column("Added height", feet),
        length_column("Upper size", feet),
        length_column("Joint length", feet),
    ]


def rows(report: SiteReport, setting: Setting) -> list[list[Any]]:
    """Posts whose recommended kit needs an extension; those that say the same share a row."""
    return shared((p, _cells(p, setting, report.feet)) for p in report.posts if p.kit and p.kit.extension)


def _cells(post: PostReport, setting: Setting, feet: bool) -> list[Any]:
    kit = post.kit
    assert kit
    item = setting.items.get("Extensions", {}).get(kit.extension, {})
    short = next((m.shortfall for m in post.mounts if m.mount == kit.mount), None)
    return [
        kit.mount,
        length_value(short, feet),
        kit.extension,
        item.get("description") or "no description",
        item.get("joint", show.UNKNOWN),
        length_value(kit.added, feet),
        length_value(item.get("upper_size_m"), feet),
        length_value(item.get("joint_length_m"), feet),
    ]


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
    _order(page, row + 1, top, found)
    finish(page, report, top)


def _order(page: Page, row: int, top: int, found: list[list[Any]]) -> None:
    """Order count by extension: a live sum over the table above."""
    counts: dict[str, int] = {}
    for line in found:
        counts[line[_CODE]] = counts.get(line[_CODE], 0) + line[1]
    row = page.section(row, "To order", 6)
    first, last, letter = top + 2, top + 1 + len(found), chr(ord("A") + _CODE)
    lines = [
        [name, Formula(f"=SUMPRODUCT(({letter}${first}:{letter}${last}=A{row + 2 + i})*B${first}:B${last})", counts[name])]
        for i, name in enumerate(sorted(counts))
    ]
    page.table(row, "extensions_order", [Col("Extension to order", "bold", 24), Col("How many", "whole")], lines, "Order count")

"""Sheets of the portfolio about goods: extensions, shortfalls, and how far each mount and board reaches."""

from __future__ import annotations

from collections.abc import Sequence

from pipeline.sheets import show
from pipeline.sheets.report import Setting, SiteSummary
from pipeline.sheets.setup import length_column, length_value
from pipeline.xlsx.page import Book, Page
from pipeline.xlsx.values import Col, Formula
from schemas.findings import BY_CODE, RULES
from schemas.order import natural
from schemas.words import CAUTION, CAUTION_IN_SHORT

_SERVED = ("serves", "confirm", "extended")


def _finish(page: Page, top: int) -> None:
    if top:
        page.sheet.freeze_panes(top + 1, 1)
    page.print_as(top, "Portfolio", header=CAUTION_IN_SHORT)


def _say(page: Page, words: str) -> None:
    page.para(2, words, "strong")
    _finish(page, 0)


def write_extensions(book: Book, sites: Sequence[SiteSummary], feet: bool) -> None:
    """What must be added where, and the order count of each extension."""
    page = book.page("Extensions", "#1D4373")
    page.title("Extensions: what must be added where")
    rows = [
        [
            e["site_code"],
            e["post_code"],
            int(e["quantity"]),
            e["mount"],
            length_value(e["shortfall_m"], feet),
            e["extension"],
            length_value(e["extension_added_m"], feet),
            str(e["joint"]),
            length_value(e["upper_size_m"], feet),
        ]
        for s in sites
        for e in s.extensions
    ]
    if not rows:
        return _say(page, "No recommended kit needs an extension.")
    page.para(1, CAUTION, "caution")
    cols = [
        Col("Site", "bold", 24),
        Col("Post", "text", 20),
        Col("Quantity", "whole"),
        Col("Mount", "text", 20),
        length_column("Short by", feet),
        Col("Extension", "text", 20),
        length_column("Added height", feet),
        Col("Joint", "text", 10),
        length_column("Upper size", feet),
    ]
    row = page.table(3, "extensions_all", cols, rows, "Extensions by site and post") + 1
    counts: dict[str, int] = {}
    for line in rows:
        counts[line[5]] = counts.get(line[5], 0) + line[2]
    row = page.section(row, "To order", 9)
    first, last = 5, 4 + len(rows)
    totals = [
        [code, Formula(f"=SUMPRODUCT((F${first}:F${last}=A{row + 2 + i})*C${first}:C${last})", counts[code])]
        for i, code in enumerate(sorted(counts, key=natural))
    ]
    page.table(row, "extensions_count", [Col("Extension to order", "bold", 24), Col("How many", "whole")], totals, "Order count")
    return _finish(page, 3)


def write_shortfalls(book: Book, sites: Sequence[SiteSummary], feet: bool) -> None:
    """Posts with no kit and what would help."""
    page = book.page("Shortfalls", "#86201C")
    page.title("Shortfalls: posts that no kit fits, and what would help")
    rows = [
        [
            s.site["site_code"],
            f["post_code"],
            int(f["quantity"]),
            str(f.get("shape") or show.UNKNOWN),
            *(length_value(f.get(name), feet) for name in ("size_m", "height_m", "target_m")),
            length_value(f.get("shortfall_m"), feet, "none"),
            str(f.get("remedy") or "no remedy found"),
        ]
        for s in sites
        for f in s.shortfalls
    ]
    if not rows:
        return _say(page, "Every post that was read has a kit.")
    cols = [
        Col("Site", "bold", 24),
        Col("Post", "text", 20),
        Col("Posts alike", "whole"),
        Col("Shape", "text", 10),
        *(length_column(name, feet) for name in ("Size", "Height above ground", "Target ring height", "Least short by")),
        Col("What would help", "text", 70),
    ]
    page.para(1, CAUTION, "caution")
    page.table(3, "shortfalls_all", cols, rows, "Posts with no kit")
    return _finish(page, 3)


def reach(sites: Sequence[SiteSummary]) -> tuple[dict[str, dict[str, int]], dict[str, int]]:
    """Sums over all sites: mount -> posts served and stopped by code; board -> posts it can serve."""
    mounts: dict[str, dict[str, int]] = {}
    boards: dict[str, int] = {}
    for s in sites:
        for mount, counts in s.reach_mounts.items():
            into = mounts.setdefault(mount, {})
            for name, count in counts.items():
                into[name] = into.get(name, 0) + count
        for board, count in s.reach_boards.items():
            boards[board] = boards.get(board, 0) + count
    return mounts, boards


def write_reach(book: Book, sites: Sequence[SiteSummary], setting: Setting) -> None:
    """For each mount and board, how many posts it serves and what stops it elsewhere."""
    page = book.page("Reach")
    page.title("Reach: how many posts each mount and board serves, and what stops it elsewhere")
    mounts, boards = reach(sites)
    if not mounts and not boards:
        return _say(page, "No post was read, so nothing can be said about the catalogue.")
    page.para(1, CAUTION, "caution")
    words = "A post may be stopped by several things at once. Boards: posts on which the board stands in a kit that fits."
    page.para(2, words, "note")
    row = 3
    if mounts:
        codes = [r.code for r in RULES if any(r.code in counts for counts in mounts.values())]
        cols = [
            Col("Mount", "bold", 24),
            Col("Description", "text", 32),
            Col("Posts served", "whole"),
            Col("As it stands", "whole"),
            Col("If confirmed", "whole"),
            Col("With an extension", "whole"),
            *(Col(f"Stopped by: {BY_CODE[c].short}", "whole", 16) for c in codes),
        ]
        names = setting.items.get("Mounts", {})
        rows = [
            [
                m,
                names.get(m, {}).get("description") or "no description",
                sum(mounts[m].get(n, 0) for n in _SERVED),
                *(mounts[m].get(n, 0) for n in (*_SERVED, *codes)),
            ]
            for m in sorted(mounts, key=natural)
        ]
        row = page.table(row, "reach_mounts", cols, rows, "Reach of mounts") + 1
    if boards:
        names = setting.items.get("Boards", {})
        rows = [[b, names.get(b, {}).get("description") or "no description", boards[b]] for b in sorted(boards, key=natural)]
        page.table(
            row,
            "reach_boards",
            [Col("Board", "bold", 24), Col("Description", "text", 44), Col("Posts served", "whole")],
            rows,
            "Reach of boards",
        )
    return _finish(page, 3)

"""The sheet `Posts` of a customer's quotation: what goes on each post of each site, with drawings."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from pipeline.sheets import show
from pipeline.sheets.assembly import Assembly
from pipeline.sheets.customer_report import CustomerReport, Fitted
from pipeline.sheets.drawing import elevation
from pipeline.sheets.elevations import PANEL, draw, scale_of
from pipeline.xlsx.page import Book, Page
from pipeline.xlsx.values import Col
from schemas.lengths import DOWN, UP
from schemas.words import CAUTION, CAUTION_IN_SHORT

ACROSS = 3
"""Drawings side by side."""
_SAME = 1e-3
"""Ring heights that differ by less are one [m]."""
COLUMNS = [
    Col("Site", "bold", 20),
    Col("Post", "text", 24, 14),
    Col("Posts alike", "whole"),
    Col("What goes on it", "text", 60, 36),
    Col("Ring above the court", "text", 26, 18),
    Col("Ring heights served", "text", 12),
    Col("Answer", "text", 22, 14),
    Col("Drawing", "text", 10),
]


def letter(index: int) -> str:
    """Letter of a drawing by its number from 0: A, B, ... Z, AA."""
    word = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        word = chr(65 + rest) + word
    return word


def letters(report: CustomerReport) -> dict[Assembly, str]:
    """The letter of each different drawing, over all sites."""
    found = dict.fromkeys(f.assembly for site in report.sites for f in site.fitted)
    return {a: letter(index) for index, a in enumerate(found)}


def rows(report: CustomerReport, named: dict[Assembly, str]) -> list[list[Any]]:
    """A row for posts of a site that look the same, and for each that nothing fits."""
    made = []
    for site in report.sites:
        for f in site.fitted:
            heights = ring(f.assembly, site.feet)
            made.append(
                [site.site_code, show.listed(f.posts), f.quantity, kit(f), heights, f.heights, f.answer, named[f.assembly]]
            )
        for n in site.left_out:
            made.append([site.site_code, n.posts, None, n.sentence, None, None, "Not included", None])
    return made


def kit(f: Fitted) -> str:
    """What goes on a post, in words and codes."""
    a = f.assembly
    parts = ((a.mount_words, a.mount), (a.board_words, a.board), (a.ring_words, a.ring), (a.extension_words, a.extension))
    return "; ".join(f"{words} ({code})" if words else code for words, code in parts if code)


def ring(a: Assembly, feet: bool) -> str:
    """The ring heights that can be set, in words."""
    top = show.length(a.top, feet, DOWN)
    return top if a.top - a.lowest < _SAME else f"{show.length(a.lowest, feet, UP)} to {top}"


def caption(name: str, posts: Sequence[str], count: int, a: Assembly, feet: bool) -> str:
    """What stands above a drawing."""
    codes = show.listed([code[:40] for code in posts], 8)
    return (
        f"{name}: {'post' if len(posts) == 1 else 'posts'} {codes} ({show.counted(count, 'post')})\n"
        f"{a.post_shape} {show.length(a.post_size, feet)}; {show.kit(a.mount, a.board, a.ring, a.extension)}"
    )


def write_posts(book: Book, report: CustomerReport) -> None:
    """Writes the sheet."""
    page = book.page("Posts")
    page.title("Posts: what goes on each")
    row = page.para(1, CAUTION, "caution")
    named = letters(report)
    found = rows(report, named)
    if found:
        page.table(row, "posts_fitted", COLUMNS, found, "What goes on each post")
        page.sheet.freeze_panes(row + 1, 1)
    else:
        page.para(row, "No post could be quoted yet; the sheet Quote says what must be corrected.", "strong")
    page.print_as(row if found else 0, f"{report.number}  {report.buyer.name}", header=CAUTION_IN_SHORT)


def write_drawings(book: Book, report: CustomerReport) -> None:
    """Writes the drawings that the sheet `Posts` names, all to one scale; no sheet where there is nothing to draw."""
    named = letters(report)
    if not named:
        return
    page = book.page("Drawings")
    page.title("Drawings: each different post with its kit, to scale, seen from the side")
    page.widths = dict.fromkeys(range(ACROSS), PANEL)
    page.para(1, CAUTION, "caution", 0, ACROSS - 1)
    fitted: dict[Assembly, list[tuple[str, Fitted]]] = {}
    for site in report.sites:
        for f in site.fitted:
            fitted.setdefault(f.assembly, []).append((site.site_code, f))
    drawn = {a: elevation(a, report.feet) for a in named}
    scale = scale_of(list(drawn.values()))
    several = len(report.sites) > 1
    for index, (a, found) in enumerate(fitted.items()):
        line, column = divmod(index, ACROSS)
        codes = [f"{code} {post}" if several else post for code, f in found for post in f.posts]
        words = caption(named[a], codes, sum(f.quantity for _, f in found), a, report.feet)
        _panel(page, 2 + 2 * line, column, words)
        draw(page, 3 + 2 * line, column, drawn[a], scale)
    page.print_as(0, f"{report.number}  {report.buyer.name}", landscape=False, header=CAUTION_IN_SHORT)


def _panel(page: Page, row: int, column: int, words: str) -> None:
    page.para(row, words, "strong", column, column)
    page.keep(row, row + 1)

"""The sheet `Drawings`: an elevation to scale of each different post and kit of the site, in native shapes."""

from __future__ import annotations

from collections.abc import Sequence

from pipeline.sheets import show
from pipeline.sheets.assembly import Assembly, Items, alike
from pipeline.sheets.drawing import elevation
from pipeline.sheets.elevations import PANEL, draw, scale_of
from pipeline.sheets.report import PostReport, SiteReport
from pipeline.sheets.setup import finish
from pipeline.xlsx.page import Book
from schemas.words import CAUTION

ACROSS = 3
"""Drawings side by side."""


def letter(index: int) -> str:
    """Letter of a drawing by its number from 0: A, B, ... Z, AA."""
    word = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        word = chr(65 + rest) + word
    return word


def letters(report: SiteReport, items: Items) -> dict[str, list[str]]:
    """Post codes by the letter of their drawing: posts that look the same with the same kit share one."""
    groups = alike(report.posts, items).values()
    return {letter(index): [p.row.post_code for p in posts] for index, posts in enumerate(groups)}


def places(report: SiteReport, items: Items) -> dict[str, tuple[str, str]]:
    """Letter and cell of each post's drawing, by post code."""
    made = {}
    for index, (name, codes) in enumerate(letters(report, items).items()):
        row, column = _place(index)
        made.update(dict.fromkeys(codes, (name, f"{letter(column)}{row + 1}")))
    return made


def _place(index: int) -> tuple[int, int]:
    """Row and column of a drawing's caption, 0-based."""
    line, column = divmod(index, ACROSS)
    return 2 + 2 * line, column


def caption(name: str, posts: Sequence[str], count: int, a: Assembly, feet: bool) -> str:
    """What stands above a drawing."""
    codes = show.listed([code[:40] for code in posts], 8)
    return (
        f"{name}: {'post' if len(posts) == 1 else 'posts'} {codes} ({show.counted(count, 'post')})\n"
        f"{a.post_shape} {show.length(a.post_size, feet)}; {show.kit(a.mount, a.board, a.ring, a.extension)}"
    )


def write_drawings(book: Book, report: SiteReport, items: Items) -> None:
    """Writes the sheet: drawings side by side, all to one scale, whole on printed pages."""
    page = book.page("Drawings")
    page.title("Drawings: each different post with its recommended kit")
    page.widths = dict.fromkeys(range(ACROSS), PANEL)
    page.para(1, CAUTION, "caution", 0, ACROSS - 1)
    groups = alike(report.posts, items)
    if not groups:
        page.para(2, "No post of this site has a kit, so there is nothing to draw.", "strong", 0, ACROSS - 1)
    drawn = {a: elevation(a, report.feet) for a in groups}
    scale = scale_of(list(drawn.values()))
    for index, (a, posts) in enumerate(groups.items()):
        row, column = _place(index)
        words = caption(letter(index), _codes(posts), sum(p.quantity for p in posts), a, report.feet)
        page.para(row, words, "strong", column, column)
        draw(page, row + 1, column, drawn[a], scale)
        page.keep(row, row + 1)
    finish(page, report, 0, frozen=0, landscape=False)


def _codes(posts: Sequence[PostReport]) -> list[str]:
    return [p.row.post_code for p in posts]

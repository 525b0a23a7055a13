"""The sheet `Drawings`: an elevation to scale of each different post and kit of the site, in native shapes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from pipeline.sheets import show
from pipeline.sheets.drawing import Dimension, Elevation, elevation
from pipeline.sheets.report import KitReport, PostReport, Setting, SiteReport
from pipeline.sheets.wording import number
from pipeline.xlsx.page import Book, Page
from pipeline.xlsx.paper import A4, LETTER
from pipeline.xlsx.shapes import Box, Kind
from pipeline.xlsx.styles import FONT
from pipeline.xlsx.wrap import clean
from schemas.words import CAUTION

ACROSS, DOWN = 2, 2
"""Drawings on a printed page."""
PANEL_WIDTH, PANEL_HEIGHT = 334, 352  # [pixels]
_PANEL_CHARS = 47
_MOST_SCALE = 82.0  # [pixels a metre]

_LOOKS = {
    "ground": Kind({"fill": {"color": "#B9A88C"}, "line": {"none": True}}),
    "court": Kind({"fill": {"color": "#C98F6B"}, "line": {"none": True}}),
    "post": Kind({"fill": {"color": "#7C8B93"}, "line": {"color": "#3B4A52", "width": 0.75}}),
    "extension": Kind({"fill": {"color": "#A9C3E6"}, "line": {"color": "#1D4373", "width": 0.75}}),
    "mount": Kind({"fill": {"color": "#E7EDEE"}, "line": {"color": "#1F4B57", "width": 0.75}}),
    "carrier": Kind({"fill": {"color": "#E7EDEE"}, "line": {"color": "#1F4B57", "width": 0.75}}),
    "clamps": Kind({"fill": {"color": "#1F4B57"}, "line": {"color": "#1F4B57", "width": 0.75}}),
    "board": Kind({"fill": {"color": "#FFFFFF"}, "line": {"color": "#1E2A32", "width": 1}}),
    "ring": Kind({"fill": {"color": "#C2410C"}, "line": {"none": True}}),
}
_INK = Kind({"fill": {"color": "#1E2A32"}, "line": {"none": True}})
_FONT = {"name": FONT, "size": 8, "color": "#1E2A32"}
_WORDS = {
    align: Kind({
        "fill": {"none": True}, "line": {"none": True}, "font": _FONT, "align": {"vertical": "middle", "horizontal": align},
    })
    for align in ("left", "right", "center")
}  # fmt: skip


def letters(report: SiteReport) -> dict[str, list[str]]:
    """Post codes by the letter of their drawing: posts that look the same with the same kit share one."""
    groups: dict[tuple[Any, ...], list[str]] = {}
    for post in report.posts:
        if post.kit:
            groups.setdefault(_look(post, post.kit), []).append(post.row.post_code)
    return {_letter(index): codes for index, codes in enumerate(groups.values())}


def places(report: SiteReport) -> dict[str, tuple[str, str]]:
    """Letter and cell of each post's drawing, by post code."""
    return {code: (letter, _cell(index)) for index, (letter, codes) in enumerate(letters(report).items()) for code in codes}


def _place(index: int) -> tuple[int, int]:
    """Row and column of a drawing's caption, 0-based."""
    line, column = divmod(index, ACROSS)
    return 3 + 3 * line, 2 * column


def _cell(index: int) -> str:
    row, column = _place(index)
    return f"{_letter(column)}{row + 1}"


def _look(post: PostReport, kit: KitReport) -> tuple[Any, ...]:
    lengths = (post.size, post.height, post.court_rise, kit.top, kit.added, kit.lowered)
    names = (kit.mount, kit.board, kit.ring, kit.extension, post.row.post_shape)
    return (*names, post.row.post_to_end_line, *(round(v, 4) for v in lengths))


def _letter(index: int) -> str:
    word = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        word = chr(65 + rest) + word
    return word


def write_drawings(book: Book, report: SiteReport, setting: Setting) -> None:
    """Writes the sheet: drawings side by side, all to one scale, whole on printed pages."""
    page = book.page("Drawings")
    page.title("Drawings: each different post with its recommended kit")
    page.widths = {0: _PANEL_CHARS, 1: 2, 2: _PANEL_CHARS}
    page.para(1, CAUTION, "caution", 0, 2)
    groups = letters(report)
    if not groups:
        page.para(3, "No post of this site has a kit, so there is nothing to draw.", "strong", 0, 2)
    posts = {p.row.post_code: p for p in report.posts}
    drawn = []
    for letter, codes in groups.items():
        post = posts[codes[0]]
        if post.kit:
            drawn.append((letter, [posts[c] for c in codes], elevation(post, post.kit, setting.items, report.feet)))
    scale = min([_MOST_SCALE, *(_fit(e) for _, _, e in drawn)])
    for index, (letter, alike, found) in enumerate(drawn):
        _panel(page, index, letter, alike, found, scale, report.feet)
    _print(page, report, len(drawn))


def _fit(e: Elevation) -> float:
    return min((PANEL_WIDTH - 8) / (e.right - e.left), (PANEL_HEIGHT - 6) / (e.top - e.bottom))


def _panel(page: Page, index: int, letter: str, alike: Sequence[PostReport], e: Elevation, scale: float, feet: bool) -> None:
    row, column = _place(index)
    first, kit = alike[0], alike[0].kit
    if kit is None:
        return
    count = sum(p.quantity for p in alike)
    codes = show.listed([p.row.post_code[:40] for p in alike], 8)
    words = f"{letter}: {'post' if len(alike) == 1 else 'posts'} {codes} ({show.counted(count, 'post')})\n"
    words += f"{first.row.post_shape or ''} {show.length(first.size, feet)}; "
    words += show.kit(kit.mount, kit.board, kit.ring, kit.extension)
    page.para(row, words, "strong", column, column)
    page.sheet.set_row_pixels(row + 1, PANEL_HEIGHT)
    _draw(page.sheet, row + 1, column, e, scale)


def _draw(sheet: Any, row: int, column: int, e: Elevation, scale: float) -> None:
    """Draws an elevation inside one cell, `scale` pixels a metre."""

    def box(x: float, y: float, width: float, height: float, kind: Kind, words: str = "", told: str = "") -> None:
        size = max(1.0, round(width, 2)), max(1.0, round(height, 2))
        sheet.draw(Box(row, column, round(x, 2), round(y, 2), *size, kind, words, told))

    left = (PANEL_WIDTH - (e.right - e.left) * scale) / 2
    foot = PANEL_HEIGHT - 4

    def at(x: float, y: float) -> tuple[float, float]:
        return left + (x - e.left) * scale, foot - (y - e.bottom) * scale

    for r in e.rects:
        x, y = at(r.x, r.top)
        box(x, y, r.width * scale, r.height * scale, _LOOKS[r.name], "", clean(e.told)[:1000] if r.name == "post" else "")
    for d in e.dimensions:
        for x, y, width, height in _strokes(d, at):
            box(x, y, width, height, _INK)
        x, y, width, height, align = _label(d, at)
        box(x, y, width, height, _WORDS[align], d.words)


def _strokes(d: Dimension, at: Any) -> list[tuple[float, float, float, float]]:
    """A dimension line and the ticks at its ends, as thin boxes [pixels]."""
    (x, y), (x2, y2) = at(d.x, d.y), at(d.x2, d.y2)
    if d.x == d.x2:
        return [(x, y2, 1, y - y2), (x - 3, y - 0.5, 7, 1), (x - 3, y2 - 0.5, 7, 1)]
    return [(x, y, x2 - x, 1), (x - 0.5, y - 3, 1, 7), (x2 - 0.5, y - 3, 1, 7)]


def _label(d: Dimension, at: Any) -> tuple[float, float, float, float, str]:
    """Where a dimension's words stand [pixels], and how they are set."""
    (x, y), (x2, y2) = at(d.x, d.y), at(d.x2, d.y2)
    middle = (y + y2) / 2
    if d.side == "left":
        return max(0.0, x - 98), middle - 20, min(98.0, x), 40, "right"
    if d.side == "right":
        return x, middle - 20, min(98.0, PANEL_WIDTH - x), 40, "left"
    return (x + x2) / 2 - 80, y - 26, 160, 22, "center"


def _print(page: Page, report: SiteReport, count: int) -> None:
    page.print_as(0, f"{number(report)}  {report.site_name}", landscape=False, on=LETTER if report.feet else A4)
    sheet = page.sheet
    sheet.set_print_scale(88)
    rows = -(-count // ACROSS)
    sheet.print_area(0, 0, max(4, 3 * rows + 1), 2)
    breaks = [3 + 3 * line for line in range(DOWN, rows, DOWN)]
    if breaks:
        sheet.set_h_pagebreaks(breaks)

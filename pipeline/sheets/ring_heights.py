"""The picture on `Shortfalls`: heights of the posts against what the mounts need there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from pipeline.sheets import show
from pipeline.sheets.report import PostReport
from pipeline.xlsx.page import Page
from pipeline.xlsx.styles import FONT, INK
from pipeline.xlsx.values import Col
from pipeline.xlsx.wrap import clean

SHOWN = 24
"""Most bars in the picture; the shortest posts are shown."""
FAMILIES = 5
"""Most lines in the picture: families of mounts with one lift."""
LABELLED = 20
"""Most bars and marks that carry their figure."""
WIDE, HIGH = 860, 340
"""Size of the picture with many bars [pixels]."""
ROW = 17
"""Height of an empty row [pixels]."""
_INKS = ("#B4451F", "#2F6DB5", "#6B3FA0", "#8A6A00", "#1B7F79")
_SIGNS = ("diamond", "square", "triangle", "circle", "long_dash")


@dataclass(frozen=True)
class Need:
    """One bar: posts of one height, and the post height that each family of mounts needs there [m]."""

    posts: tuple[str, ...]
    height: float
    needed: dict[str, float]  # family, in words -> post height needed [m]


def _lifts(post: PostReport) -> dict[str, float]:
    """Lift of each mount that the post is too short for, though its shape and size fit [m]."""
    base = post.height - post.court_rise
    short = [m for m in post.mounts if m.shortfall > 0 and not {"SHAPE", "SIZE"} & set(m.failed)]
    return {m.mount: round(m.ring_height_max - base, 4) for m in short}


def needs(posts: Sequence[PostReport]) -> list[Need]:
    """Bars of the picture: alike posts together, the shortest first.

    Height needed is T + c - lift. Source: design section 5, z_max = H - c + a set equal to T.
    """
    lifts = {id(p): _lifts(p) for p in posts}
    families = _families([lift for found in lifts.values() for lift in found.items()])
    bars: dict[tuple[Any, ...], tuple[list[str], float, dict[str, float]]] = {}
    for post in posts:
        found = lifts[id(post)]
        if not found:
            continue
        here = {families[lift]: post.target + post.court_rise - lift for lift in sorted(set(found.values())) if lift in families}
        key = (round(post.height, 4), tuple((k, round(v, 4)) for k, v in here.items()))
        bars.setdefault(key, ([], post.height, here))[0].append(post.row.post_code)
    made = [Need(tuple(codes), height, here) for codes, height, here in bars.values()]
    return sorted(made, key=lambda n: n.height)[:SHOWN]


def _families(pairs: Sequence[tuple[str, float]]) -> dict[float, str]:
    """Names of the families of mounts with one lift; the families that stop most posts come first."""
    members: dict[float, dict[str, int]] = {}
    for mount, lift in pairs:
        members.setdefault(lift, {}).setdefault(mount, 0)
        members[lift][mount] += 1
    order = sorted(members, key=lambda lift: (-sum(members[lift].values()), lift))[:FAMILIES]
    return {lift: clean(f"Needed by {show.listed([m[:60] for m in members[lift]], 2)}") for lift in order}


def write_picture(page: Page, row: int, bars: Sequence[Need], feet: bool) -> None:
    """Writes the picture at `row` and the figures that it draws below it, all on one printed page."""
    begin = row
    row = page.section(row, "Heights of the posts against what the mounts need", 10)
    if not bars:
        page.para(row, "There is no picture: every mount that a post is too short for is for another shape or size of post.")
        return
    words = (
        "A bar that stays below a mark is too short for those mounts at that post's target ring height. "
        "Only mounts for the post's shape and size are drawn; the shortest posts are shown."
    )
    row = page.para(row, words, "note")
    names = list(dict.fromkeys(name for bar in bars for name in bar.needed))
    unit, scale = ("ft", show.INCH * 12) if feet else ("m", 1.0)
    figures = row + -(-(HIGH + 14) // ROW)
    cols = [
        Col("Posts of this height", "text", 24),
        Col(f"Post height [{unit}]", "number2"),
        *(Col(f"{n} [{unit}]", "number2", 20) for n in names),
    ]
    rows = [
        [show.listed(b.posts, 3), b.height / scale, *(b.needed[n] / scale if n in b.needed else None for n in names)]
        for b in bars
    ]
    end = page.table(figures, "heights_drawn", cols, rows, "Figures of the picture above")
    page.keep(begin, end - 1 if len(rows) <= SHOWN // 2 else figures - 1)
    page.keep(figures, end - 1)
    chart = _chart(page, figures, len(bars), len(names), unit)
    chart.set_size({"width": max(460, min(WIDE, 220 + 90 * len(bars))), "height": HIGH})
    page.sheet.insert_chart(row, 0, chart, {"object_position": 2, "description": words, "x_offset": 4, "y_offset": 4})


def _gap(bars: int) -> int:
    """Room between the bars [% of a bar], so that few bars are no wider than many.

    Source: ECMA-376 part 1, 21.2.2.75 gapWidth.
    """
    return 300 if bars < 4 else 150 if bars < 10 else 60


def _chart(page: Page, top: int, bars: int, marks: int, unit: str) -> Any:
    workbook, name = page.book.workbook, page.name
    first, last = top + 1, top + bars
    font = {"name": FONT, "size": 9, "color": INK}
    told = {"data_labels": {"value": True, "num_format": "0.00", "font": font}} if bars * (marks + 1) <= LABELLED else {}
    chart = workbook.add_chart({"type": "column"})
    heights: dict[str, Any] = {
        "name": [name, top, 1],
        "categories": [name, first, 0, last, 0],
        "values": [name, first, 1, last, 1],
    }
    inside = {"data_labels": {**told["data_labels"], "position": "inside_end"}} if told else {}
    chart.add_series({**heights, **inside, "fill": {"color": "#9DB8BC"}, "border": {"color": "#1F4B57"}, "gap": _gap(bars)})
    lines = workbook.add_chart({"type": "line"})
    for index in range(marks):
        ink = _INKS[index]
        sign = {"type": _SIGNS[index], "size": 9, "fill": {"color": ink}, "border": {"color": ink}}
        where = {
            "name": [name, top, 2 + index],
            "categories": heights["categories"],
            "values": [name, first, 2 + index, last, 2 + index],
        }
        right = {"data_labels": {**told["data_labels"], "position": "right"}} if told else {}
        lines.add_series({**where, **right, "line": {"none": True}, "marker": sign})
    if marks:
        chart.combine(lines)
    chart.set_y_axis(
        {
            "name": f"Height above ground [{unit}]",
            "num_font": font,
            "name_font": font,
            "min": 0,
            "num_format": "0.0",
            "major_gridlines": {"visible": True, "line": {"color": "#D9E0E2"}},
        }
    )
    chart.set_x_axis({"num_font": font})
    chart.set_legend({"position": "bottom", "font": font})
    return chart

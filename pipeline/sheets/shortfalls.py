"""The sheet `Shortfalls`: each mount that fails on height, by how much, what would make it up; and a picture of it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pipeline.sheets import show
from pipeline.sheets.report import MountReport, PostReport, Setting, SiteReport
from pipeline.sheets.ring_heights import Need, needs, write_picture
from pipeline.sheets.setup import finish, length_columns, length_values
from pipeline.sheets.wording import stops
from pipeline.xlsx.page import Book
from pipeline.xlsx.values import As, Col
from schemas.words import CAUTION


def columns(feet: bool) -> list[Col]:
    """Headings of the table."""
    return [
        Col("Post", "bold", 18),
        Col("Posts alike", "whole"),
        Col("Mount", "text", 14),
        *length_columns("Short by", feet),
        *length_columns("Ring as it stands", feet),
        *length_columns("Target ring height", feet),
        Col("What makes it up", "text", 34, 24),
        Col("Also ruled out by", "text", 24, 16),
    ]


def makes_up(mount: MountReport, feet: bool, extensions: Mapping[str, Mapping[str, Any]]) -> As:
    """What would make a shortfall up, in words."""
    if mount.extension:
        joint = extensions.get(mount.extension, {}).get("joint", "")
        kind = f", {joint}" if joint else ""
        return As(f"extension {mount.extension}: adds {show.length(mount.added, feet)}{kind}", "added")
    return As(f"no extension; {show.length(mount.shortfall, feet)} of post wanting", "bad")


def rows_of(post: PostReport, setting: Setting, feet: bool) -> list[list[Any]]:
    """The rows of one post: mounts that only height stops stand first."""
    extensions = setting.items.get("Extensions", {})
    short = [m for m in post.mounts if m.shortfall > 0]
    others = {m.mount: tuple(c for c in m.failed if c != "HEIGHT") for m in short}
    short.sort(key=lambda m: bool(others[m.mount]))
    return [
        [
            post.row.post_code,
            post.quantity,
            m.mount,
            *length_values(m.shortfall, feet),
            *length_values(m.ring_height_max, feet),
            *length_values(post.target, feet),
            makes_up(m, feet, extensions),
            stops(others[m.mount]) or "nothing else",
        ]
        for m in short
    ]


def write_shortfalls(book: Book, report: SiteReport, setting: Setting) -> None:
    """Writes the sheet: the table, and below it post heights against what the mounts need."""
    page = book.page("Shortfalls")
    page.title("Shortfalls: mounts for which a post is too short")
    row = page.para(1, CAUTION, "caution")
    rows = [r for post in report.posts for r in rows_of(post, setting, report.feet)]
    if not rows:
        words = (
            "No post is too short for a mount of the catalogue." if report.posts else "No row of this site could be quoted yet."
        )
        page.para(row + 1, words, "strong")
        finish(page, report, 0)
        return
    top = row
    row = page.table(top, "shortfalls", columns(report.feet), rows, "Posts and the mounts they are too short for") + 1
    found: list[Need] = needs(report.posts)
    write_picture(page, row, found, report.feet)
    finish(page, report, top)

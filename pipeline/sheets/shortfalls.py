"""The sheet `Shortfalls`: posts without a kit, and how far mounts of the right shape and size are from serving them."""

from __future__ import annotations

from typing import Any

from pipeline.sheets import show
from pipeline.sheets.assembly import Items
from pipeline.sheets.report import MountReport, PostReport, Setting, SiteReport
from pipeline.sheets.setup import codes, finish, length_column, length_value
from pipeline.sheets.wording import posts_named, stops
from pipeline.xlsx.page import Book
from pipeline.xlsx.values import As, Col
from schemas.lengths import DOWN, NEAREST, UP
from schemas.words import CAUTION


def columns(feet: bool) -> list[Col]:
    """Headings of the table."""
    return [
        Col("Post", "bold", 24),
        Col("Posts alike", "whole"),
        Col("Mount", "text", 20),
        length_column("Short by", feet),
        length_column("Ring as it stands", feet),
        length_column("Target ring height", feet),
        Col("What makes it up", "text", 40, 28),
        Col("Also ruled out by", "text", 34, 24),
    ]


def makes_up(mount: MountReport, feet: bool, items: Items) -> As:
    """What would make a shortfall up, in words."""
    if not mount.shortfall > 0:
        return As("high enough", "text")
    if mount.extension:
        joint = items.get("Extensions", {}).get(mount.extension, {}).get("joint", "")
        kind = f", {joint}" if joint else ""
        return As(f"extension {mount.extension}: adds {show.length(mount.added, feet)}{kind}", "added")
    return As(f"no extension of the catalogue; {show.length(mount.shortfall, feet, UP)} of post wanting", "bad")


def _near(post: PostReport) -> list[MountReport]:
    """Mounts of the post's shape and size: those that least is wrong with first."""
    right = [m for m in post.mounts if not {"SHAPE", "SIZE"} & set(m.failed)]
    return sorted(right, key=lambda m: (len(m.failed), m.shortfall))


def rows(report: SiteReport, items: Items) -> list[list[Any]]:
    """A row for each mount of the right shape and size on posts without a kit; posts that say the same share it."""
    found: dict[tuple[Any, ...], list[PostReport]] = {}
    for post in report.posts:
        for m in () if post.kits else _near(post):
            other = stops(tuple(c for c in m.failed if c != "HEIGHT")) or ("nothing else" if m.failed else "no board for it")
            lengths = ((m.shortfall or None, UP), (m.ring_height_max, DOWN), (post.target, NEAREST))
            cells = [length_value(value, report.feet, "none", way) for value, way in lengths]
            found.setdefault((m.mount, *cells, makes_up(m, report.feet, items), other), []).append(post)
    return [[codes(posts), sum(p.quantity for p in posts), *cells] for cells, posts in found.items()]


def write_shortfalls(book: Book, report: SiteReport, setting: Setting) -> None:
    """Writes the sheet: what would help, and the table."""
    page = book.page("Shortfalls")
    page.title("Shortfalls: posts without a kit")
    row = page.para(1, CAUTION, "caution")
    without = [p for p in report.posts if not p.kits]
    if not without:
        words = "Every post that was read has a kit." if report.posts else "No row of this site could be quoted yet."
        page.para(row + 1, words, "strong")
        return finish(page, report, 0)
    remedies: dict[str, list[PostReport]] = {}
    for post in without:
        remedies.setdefault(post.remedy or "The technical desk has no remedy to offer.", []).append(post)
    for remedy, posts in remedies.items():
        row = page.para(row, f"{posts_named(posts)}: what would help: {remedy}", "strong")
    found, top = rows(report, setting.items), row + 1
    if not found:
        page.para(top, "No mount of the catalogue is for a post of this shape and size, so no height is short.")
        return finish(page, report, 0)
    page.table(top, "shortfalls", columns(report.feet), found, "Posts without a kit, and mounts of their shape and size")
    return finish(page, report, 0)

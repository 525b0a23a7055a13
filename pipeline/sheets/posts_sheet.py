"""The sheet `Posts`: one row a post, the answer first, then what the post was read as."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from pipeline.sheets import show
from pipeline.sheets.report import PostReport, Setting, SiteReport
from pipeline.sheets.setup import finish, length_columns, length_values
from pipeline.sheets.wording import VERDICT, abouts, load
from pipeline.xlsx.page import Book
from pipeline.xlsx.values import As, Band, Col, Link
from schemas.words import CAUTION

DRAWINGS = "Drawings"
Place = tuple[str, str]
"""Letter of a drawing and its cell."""


def answer_columns(feet: bool, currency: str) -> list[Col]:
    """Headings of the answer."""
    return [
        Col("Post", "bold", 24),
        Col("Posts alike", "whole"),
        Col("Answer", "text", 14),
        Col("Recommended kit", "text", 24, 20),
        *length_columns("Ring reaches", feet),
        Col("Ring heights served", "text", 12),
        Col("To confirm, or what would help", "text", 28, 24),
        Col("Load", "text", 24),
        Col("Drawing", "text", 12),
        Col(f"Price each [{currency}]", "money", 16),
    ]


def measured_columns(feet: bool) -> list[Col]:
    """Headings of what was measured; the first names the post again."""
    return [
        Col("Measured: post", "bold", 24),
        Col("Shape", "text", 10),
        *length_columns("Size", feet, 4),
        Col("Size within ± [mm]", "number1"),
        *length_columns("Height above ground", feet),
        Col("Height within ± [mm]", "number1"),
    ]


def court_columns(feet: bool) -> list[Col]:
    """Headings of the court, the ring height that counts, and how the post stands; the first names the post again."""
    return [
        Col("Court: post", "bold", 24),
        *length_columns("Court above ground", feet),
        *length_columns("Target ring height", feet),
        Col("Lean [°]", "number2"),
        Col("Wall [mm]", "number1", 12),
    ]


def seen_columns(feet: bool) -> list[Col]:
    """Headings of what was seen at the post, and of the wind there; the first names the post again."""
    return [
        Col("Seen: post", "bold", 24),
        Col("Material", "text", 14),
        Col("Line", "text", 14),
        Col("Base", "text", 16),
        Col("Old fittings", "text", 14),
        Col("Condition", "text", 16),
        Col("Wind speed [mph]" if feet else "Wind speed [m/s]", "number1"),
        Col("Exposure", "text", 12),
    ]


def answer(post: PostReport, drawing: Place | None) -> list[Any]:
    """The answer's part of a post's row."""
    words, look = VERDICT[post.outcome]
    kit = post.kit
    if kit is None:
        help_ = post.remedy or "no remedy found"
        return [As(words, look), "none", None, f"0 of {len(post.wanted)}", help_, "no kit", "none", None]
    drawn: Any = Link(f"internal:'{DRAWINGS}'!{drawing[1]}", drawing[0]) if drawing else "none"
    return [
        As(words, look),
        show.kit(kit.mount, kit.board, kit.ring, kit.extension),
        kit.top,
        f"{kit.covered} of {len(post.wanted)}",
        abouts(kit.confirm) or "nothing",
        As(*load(kit)),
        drawn,
        kit.unit_price,
    ]


def answer_row(post: PostReport, drawing: Place | None, feet: bool) -> list[Any]:
    """What goes on a post."""
    words, kit, top, *rest, price = answer(post, drawing)
    ring = length_values(top, feet, "none")
    return [post.row.post_code, post.quantity, words, kit, *ring, *rest, As("none", "right") if price is None else price]


def measured_row(post: PostReport, feet: bool) -> list[Any]:
    """What a post was measured as."""
    return [
        post.row.post_code,
        post.row.post_shape or show.UNKNOWN,
        *length_values(post.size, feet),
        post.size_uncertainty * 1000,
        *length_values(post.height, feet),
        post.height_uncertainty * 1000,
    ]


def court_row(post: PostReport, feet: bool) -> list[Any]:
    """The court at a post, the ring height that counts, and how the post stands."""
    return [
        post.row.post_code,
        *length_values(post.court_rise, feet),
        *length_values(post.target, feet),
        math.degrees(post.lean),
        As(show.UNKNOWN, "right") if post.wall is None else post.wall * 1000,
    ]


def seen_row(post: PostReport, feet: bool) -> list[Any]:
    """What was seen at a post, and the wind there."""
    row = post.row
    return [
        row.post_code,
        *(word or show.UNKNOWN for word in (row.material, row.post_line, row.post_base, row.old_fittings, row.condition)),
        post.wind_speed / show.MPH if feet else post.wind_speed,
        post.exposure,
    ]


def advice_rows(report: SiteReport) -> list[list[Any]]:
    """Advice of all posts, the same words once: posts, about, sentence, source."""
    found: dict[tuple[str, str, str], list[str]] = {}
    for post in report.posts:
        for a in post.advice:
            found.setdefault((a.about, a.sentence, a.source), []).append(post.row.post_code)
    return [[("post " if len(posts) == 1 else "posts ") + show.listed(posts, 12), *advice] for advice, posts in found.items()]


def write_posts(book: Book, report: SiteReport, setting: Setting, drawn: Mapping[str, Place]) -> None:
    """Writes the sheet; `drawn` names the drawing of each post by post code."""
    page = book.page("Posts")
    page.title("Posts: what goes on each")
    row = page.para(1, CAUTION, "caution")
    if not report.posts:
        page.para(row + 1, "No row of this site could be quoted yet. The sheet Survey names what must be corrected.", "strong")
        finish(page, report, 0)
        return
    top, feet = row, report.feet
    answers = [answer_row(post, drawn.get(post.row.post_code), feet) for post in report.posts]
    bands = (
        Band("Posts", answer_columns(feet, report.currency), answers),
        Band("What each post was measured as", measured_columns(feet), [measured_row(p, feet) for p in report.posts]),
        Band(
            "The court, the ring height wanted, and how each post stands",
            court_columns(feet),
            [court_row(p, feet) for p in report.posts],
        ),
        Band("What was seen at each post", seen_columns(feet), [seen_row(p, feet) for p in report.posts]),
    )
    row, stacked = page.bands(top, "posts_read", bands, "One row a post: the recommended kit, then what the post was read as")
    first = row + 1
    row = page.section(row + 1, "Worth knowing")
    row = page.para(row, "Advice is never a verdict: it changes no answer above.", "note")
    advice = advice_rows(report)
    for posts, about, sentence, source in advice:
        row = page.para(row, f"{about} ({posts}): {sentence} Source: {source.rstrip('.')}.")
    if not advice:
        row = page.para(row, "There is none for these posts.")
    page.keep(first, min(row - 1, first + 2))
    finish(page, report, 0 if stacked else top)

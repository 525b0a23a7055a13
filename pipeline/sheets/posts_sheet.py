"""The sheet `Posts`: the answer for each post, then what it was read as; posts that say the same share a row."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from pipeline.sheets import load_words, show
from pipeline.sheets.report import PostReport, SiteReport
from pipeline.sheets.setup import finish, shared
from pipeline.sheets.wording import VERDICT, abouts
from pipeline.xlsx.page import Book
from pipeline.xlsx.values import As, Col, Link
from schemas.words import CAUTION

DRAWINGS = "Drawings"
Place = tuple[str, str]
"""Letter of a drawing and its cell."""


def answer_columns(currency: str) -> list[Col]:
    """Headings of the answer."""
    return [
        Col("Post", "bold", 24),
        Col("Posts alike", "whole"),
        Col("Answer", "text", 14),
        Col("Recommended kit", "text", 34, 26),
        Col("Ring reaches", "text", 22, 18),
        Col("Ring heights served", "text", 12),
        Col("To confirm, or what would help", "text", 40, 30),
        Col("Load", "text", 28),
        Col("Drawing", "text", 12),
        Col(f"Price each [{currency}]", "money", 16),
    ]


READ_COLUMNS = [
    Col("Post read as", "bold", 24),
    Col("Number", "whole"),
    Col("Shape", "text", 10),
    Col("Size", "text", 24, 16),
    Col("Height above ground", "text", 24, 16),
    Col("Court above ground", "text", 16),
    Col("Target ring height", "text", 16),
    Col("Lean", "text", 14),
    Col("Wall and material", "text", 20),
    Col("Line, base", "text", 20),
    Col("Old fittings", "text", 14),
    Col("Condition", "text", 14),
    Col("Wind and exposure", "text", 14),
]


def answer(post: PostReport, drawing: Place | None, feet: bool) -> list[Any]:
    """What goes on a post."""
    words, look = VERDICT[post.outcome]
    kit = post.kit
    if kit is None:
        help_ = post.remedy or "no remedy found"
        served = f"0 of {len(post.wanted)}"
        return [As(words, look), "none", As("none", "quiet"), served, help_, "no kit", "none", As("none", "right")]
    drawn: Any = Link(f"internal:'{DRAWINGS}'!{drawing[1]}", drawing[0]) if drawing else "none"
    return [
        As(words, look),
        show.kit(kit.mount, kit.board, kit.ring, kit.extension),
        show.both(kit.top, feet),
        f"{kit.covered} of {len(post.wanted)}",
        abouts(kit.confirm) or "nothing",
        As(*load_words.answer(kit)),
        drawn,
        kit.unit_price,
    ]


def read_as(post: PostReport, feet: bool) -> list[Any]:
    """What a post was read as; measured lengths with their bound."""
    row = post.row
    material, line, base = (word or show.UNKNOWN for word in (row.material, row.post_line, row.post_base))
    return [
        row.post_shape or show.UNKNOWN,
        f"{show.length(post.size, feet)} {show.bound(post.size_uncertainty, feet)}",
        f"{show.length(post.height, feet)} {show.bound(post.height_uncertainty, feet)}",
        show.length(post.court_rise, feet),
        show.length(post.target, feet),
        show.UNKNOWN if math.isnan(post.lean) else f"{math.degrees(post.lean):.1f}°" if post.lean else "plumb",
        f"{show.wall(post.wall, feet)}, {material}",
        f"{line}, {base}",
        row.old_fittings or show.UNKNOWN,
        row.condition or show.UNKNOWN,
        f"{show.speed(post.wind_speed, feet)}, {post.exposure or show.UNKNOWN}",
    ]


def advice_rows(report: SiteReport) -> list[list[str]]:
    """Advice of all posts, the same words once: posts, about, sentence, source."""
    found: dict[tuple[str, str, str], list[str]] = {}
    for post in report.posts:
        for a in post.advice:
            found.setdefault((a.about, a.sentence, a.source), []).append(post.row.post_code)
    return [[("post " if len(posts) == 1 else "posts ") + show.listed(posts, 12), *advice] for advice, posts in found.items()]


def write_posts(book: Book, report: SiteReport, drawn: Mapping[str, Place]) -> None:
    """Writes the sheet; `drawn` names the drawing of each post by post code."""
    page = book.page("Posts")
    page.title("Posts: what goes on each")
    row = page.para(1, CAUTION, "caution")
    if not report.posts:
        page.para(row + 1, "No row of this site could be quoted yet. The sheet Survey names what must be corrected.", "strong")
        finish(page, report, 0)
        return
    feet = report.feet
    answers = shared((p, answer(p, drawn.get(p.row.post_code), feet)) for p in report.posts)
    row = page.table(row, "posts_answer", answer_columns(report.currency), answers, "The recommended kit of each post")
    first = page.section(row + 1, "What each post was read as", len(READ_COLUMNS))
    read = shared((p, read_as(p, feet)) for p in report.posts)
    row = page.table(first, "posts_read", READ_COLUMNS, read, "What each post was read as")
    page.keep(first - 1, min(row - 1, first + 3))
    first = row + 1
    row = page.section(first, "Worth knowing: advice is never a verdict and changes no answer above", len(READ_COLUMNS))
    advice = advice_rows(report)
    for posts, about, sentence, source in advice:
        row = page.para(row, f"{about} ({posts}): {sentence} Source: {source.rstrip('.')}.")
    if not advice:
        row = page.para(row, "There is none for these posts.")
    page.keep(first, min(row - 1, first + 2))
    finish(page, report, 0)

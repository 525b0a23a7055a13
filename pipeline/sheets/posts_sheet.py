"""The sheet `Posts`: the answer for each post, then what it was read as; posts that say the same share a row."""

from __future__ import annotations

import math
from typing import Any

from pipeline.sheets import load_words, show
from pipeline.sheets.report import PostReport, SiteReport
from pipeline.sheets.setup import finish, shared
from pipeline.sheets.wording import VERDICT, abouts, stops
from pipeline.xlsx.page import Book
from pipeline.xlsx.values import As, Col
from schemas.lengths import DOWN
from schemas.words import CAUTION

_SEEN = ("{}", "{}", "fittings {}", "{}")


def answer_columns(currency: str) -> list[Col]:
    """Headings of the answer."""
    return [
        Col("Post", "bold", 24, 14),
        Col("Posts alike", "whole"),
        Col("Answer", "text", 20, 17),
        Col("Recommended kit", "text", 34, 24),
        Col("Ring reaches", "text", 20, 16),
        Col("Heights served", "text", 18, 17),
        Col("To confirm, or what stops it", "text", 48, 40),
        Col("Load", "text", 28, 21),
        Col(f"Price each [{currency}]", "money", 16),
    ]


READ_COLUMNS = [
    Col("Post read as", "bold", 24, 14),
    Col("Number", "whole"),
    Col("Shape", "text", 14),
    Col("Size", "text", 34, 20),
    Col("Height above ground", "text", 20, 16),
    Col("Court above ground", "text", 16, 12),
    Col("Line, base, old fittings, condition", "text", 48, 40),
    Col("Wall and material", "text", 28, 20),
    Col("Lean", "text", 10, 9),
    Col("Wind and exposure", "text", 16, 12),
]


def answer(post: PostReport, feet: bool) -> list[Any]:
    """What goes on a post."""
    words, look = VERDICT[post.outcome]
    kit = post.kit
    if kit is None:
        nearest = min((m.failed for m in post.mounts if m.failed), key=len, default=())
        help_ = f"{stops(nearest) or 'no board goes with it'}; Shortfalls says what would help"
        served = f"0 of {len(post.wanted)}, to {show.length(post.target, feet)}"
        return [As(words, look), "none", As("none", "quiet"), served, help_, "no kit", As("none", "right")]
    return [
        As(words, look),
        show.kit(kit.mount, kit.board, kit.ring, kit.extension),
        show.both(kit.top, feet, DOWN),
        f"{kit.covered} of {len(post.wanted)}, to {show.length(post.target, feet)}",
        abouts(kit.confirm) or "nothing",
        As(*load_words.answer(kit)),
        kit.unit_price,
    ]


def read_as(post: PostReport, feet: bool) -> list[Any]:
    """What a post was read as; measured lengths with their bound."""
    row = post.row
    seen = (row.post_line, row.post_base, row.old_fittings, row.condition)
    return [
        row.post_shape or show.UNKNOWN,
        f"{show.length(post.size, feet)} {show.bound(post.size_uncertainty, feet)}",
        f"{show.length(post.height, feet)} {show.bound(post.height_uncertainty, feet)}",
        show.length(post.court_rise, feet),
        "; ".join(words.format(word or show.UNKNOWN) for words, word in zip(_SEEN, seen, strict=True)),
        f"{show.wall(post.wall, feet)}, {row.material or show.UNKNOWN}",
        show.UNKNOWN if math.isnan(post.lean) else f"{math.degrees(post.lean):.1f}°" if post.lean else "plumb",
        f"{show.speed(post.wind_speed, feet)}, {post.exposure or show.UNKNOWN}",
    ]


def advice_rows(report: SiteReport) -> list[list[str]]:
    """Advice of all posts, the same words once: posts, about, sentence, source."""
    found: dict[tuple[str, str, str], list[str]] = {}
    for post in report.posts:
        for a in post.advice:
            found.setdefault((a.about, a.sentence, a.source), []).append(post.row.post_code)
    return [[("post " if len(posts) == 1 else "posts ") + show.listed(posts, 12), *advice] for advice, posts in found.items()]


def write_posts(book: Book, report: SiteReport) -> None:
    """Writes the sheet. What is drawn of these posts stands where it is used: on the field sheet and in the quotation."""
    page = book.page("Posts")
    page.title("Posts: what goes on each")
    row = page.para(1, CAUTION, "caution")
    if not report.posts:
        page.para(row + 1, "No row of this site could be quoted yet. The sheet Survey names what must be corrected.", "strong")
        finish(page, report, 0)
        return
    feet = report.feet
    answers = shared((p, answer(p, feet)) for p in report.posts)
    row = page.table(row, "posts_answer", answer_columns(report.currency), answers, "The recommended kit of each post")
    first = page.section(row + 1, "What each post was read as", len(READ_COLUMNS))
    read = shared((p, read_as(p, feet)) for p in report.posts)
    row = page.table(first, "posts_read", READ_COLUMNS, read, "What each post was read as")
    page.keep(first - 1, min(row - 1, first + 3))
    first = row + 1
    row = page.section(first, "Worth knowing: advice is never a verdict and changes no answer above", len(READ_COLUMNS))
    advice = advice_rows(report)
    lines = [f"{about} ({posts}): {sentence} Source: {source.rstrip('.')}." for posts, about, sentence, source in advice]
    row = page.para(row, "\n".join(lines) or "There is none for these posts.")
    page.keep(first, row - 1)
    finish(page, report, 0)

"""Which posts of a portfolio to look at first, and why: a ranking in words, never a verdict."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from pipeline.sheets import load_words, show
from pipeline.sheets.report import PostReport, SiteSummary
from pipeline.xlsx.page import Book
from pipeline.xlsx.values import As, Col
from schemas.order import natural
from schemas.words import CAUTION

LOOK_FIRST = "Look first"
ENOUGH = 200
"""Most posts that are listed; the rest is said."""

Looked = Mapping[str, Any]
"""One post with a kit as the summary keeps it: post_code, quantity, band, share, reasons."""


def reasons(post: PostReport) -> tuple[str, ...]:
    """What speaks for looking at a post soon, beside its share of strength, in the order of their weight."""
    row = post.row
    base, condition = row.post_base or "unknown", row.condition or "unknown"
    buried = base not in ("driven", "base plate") and (row.footing_depth is None or row.footing_diameter is None)
    reasons = (
        (base in ("driven", "unknown"), "driven" if base == "driven" else "base not known"),
        (condition == "unknown", "condition not known"),
        (post.wall is None, "wall not known"),
        (buried or (base == "driven" and row.footing_depth is None), "footing not known"),
    )
    return tuple(words for holds, words in reasons if holds)


def looked(post: PostReport) -> dict[str, Any] | None:
    """What the ranking reads of one post; None where it has no kit."""
    kit = post.kit
    if kit is None:
        return None
    words, style = load_words.answer(kit)
    return {
        "post_code": post.row.post_code,
        "quantity": post.quantity,
        "answer": words,
        "style": style,
        "urgency": load_words.rank(post),
        "share": show.share(load_words.worse(kit)),
        "value": load_words.worse(kit) or 0.0,
        "reasons": list(reasons(post)),
    }


def ranking(posts: Sequence[tuple[str, Looked]]) -> list[tuple[str, Looked]]:
    """Posts with the site of each, the first to look at first.

    By band of the share of strength (over, not known, above 80 %, and so on), then by how many reasons there are and
    how much each weighs, then by the share itself, then in natural order of site and post.
    """
    weights = {"driven": 8, "base not known": 8, "condition not known": 4, "wall not known": 2, "footing not known": 1}

    def key(one: tuple[str, Looked]) -> tuple[Any, ...]:
        site, p = one
        return -p["urgency"], -sum(weights[r] for r in p["reasons"]), -p["value"], natural(site), natural(p["post_code"])

    return sorted(posts, key=key)


def write_look_first(book: Book, sites: Sequence[SiteSummary]) -> None:
    """Writes the sheet of the portfolio."""
    page = book.page(LOOK_FIRST, "#8A3B12")
    page.title("Look first: the posts at which somebody should look before the others")
    posts = ranking([(str(s.site["site_code"]), p) for s in sites for p in s.looked])
    row = page.para(1, CAUTION, "caution")
    if not posts:
        page.para(row + 1, "No post has a kit, so there is none to look at.", "strong")
        page.print_as(0, "Portfolio")
        return
    columns = [
        Col("Rank", "whole", 8),
        Col("Site", "bold", 24),
        Col("Post", "bold", 20),
        Col("Posts", "whole"),
        Col("Load answer", "text", 26),
        Col("Share of strength", "right", 14),
        Col("And", "text", 60),
    ]
    rows = [
        [
            n,
            site,
            p["post_code"],
            p["quantity"],
            As(p["answer"], p["style"]),
            p["share"],
            ", ".join(p["reasons"]) or "nothing more",
        ]
        for n, (site, p) in enumerate(posts[:ENOUGH], start=1)
    ]
    if len(posts) > ENOUGH:
        row = page.para(row, f"The first {ENOUGH} of {len(posts):,} rows; the others stand on each site's sheet Loads.", "note")
    page.table(row, "look_first", columns, rows, "Posts by which to look at first")
    page.sheet.freeze_panes(row + 1, 3)
    page.print_as(row, "Portfolio")

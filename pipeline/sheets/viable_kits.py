"""The sheet `Viable kits`: what may be sold for each post, ranked, and what each changes against the recommended one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from pipeline.sheets import show
from pipeline.sheets.report import KitReport, PostReport, Setting, SiteReport
from pipeline.sheets.setup import finish, length_columns, length_values
from pipeline.sheets.wording import VERDICT, abouts, load
from pipeline.xlsx.page import Book
from pipeline.xlsx.values import As, Band, Col
from schemas.words import CAUTION

Items = Mapping[str, Mapping[str, Mapping[str, Any]]]
_SLACK = 1e-6


def columns(currency: str) -> list[Col]:
    """Headings of the kits."""
    return [
        Col("Post", "text", 24),
        Col("Rank", "whole"),
        Col("Answer", "text", 14),
        Col("Stands out", "text", 20, 16),
        Col("Mount", "text", 20),
        Col("Board", "text", 20),
        Col("Ring", "text", 20),
        Col("Extension", "text", 20),
        Col(f"Price each [{currency}]", "money", 16),
        Col(f"More than rank 1 [{currency}]", "more", 16),
        Col("Against the recommended kit", "text", 34, 28),
    ]


def feature_columns(feet: bool) -> list[Col]:
    """Headings of the kits' features; the first two name the kit again."""
    return [
        Col("Features: post", "text", 24),
        Col("Of rank", "whole"),
        Col("Adjustment", "text", 16),
        Col("Face and frame", "text", 20),
        *length_columns("Board width", feet),
        *length_columns("Lowest ring height", feet),
        *length_columns("Highest ring height", feet),
        Col("To confirm", "text", 22),
        Col("Heights served", "text", 10),
        Col("Load", "text", 24),
    ]


def item(items: Items, table: str, code: str) -> Mapping[str, Any]:
    """A catalogue row by table and code; an unknown code has an empty row."""
    return items.get(table, {}).get(code, {})


def marks(kits: Sequence[KitReport], items: Items) -> list[str]:
    """What stands out in words, a text a kit: recommended, least price, widest board, widest range of heights.

    Of equals the better ranked one is named.
    """
    if not kits:
        return []
    price = min(k.unit_price for k in kits)
    widths = [item(items, "Boards", k.board).get("width_m") or 0.0 for k in kits]
    ranges = [k.top - k.lowest for k in kits]
    named: list[list[str]] = [[] for _ in kits]
    named[0].append("recommended")
    named[next(i for i, k in enumerate(kits) if k.unit_price == price)].append("least price")
    named[next(i for i, w in enumerate(widths) if w >= max(widths) - _SLACK)].append("widest board")
    if max(ranges) > _SLACK:
        named[next(i for i, r in enumerate(ranges) if r >= max(ranges) - _SLACK)].append("widest range of heights")
    return [", ".join(words) for words in named]


def against(kit: KitReport, best: KitReport, items: Items, feet: bool) -> str:
    """What a kit changes against the recommended one, in words; the price has a column of its own."""
    if kit is best:
        return "this is the recommended kit"
    board, other = item(items, "Boards", kit.board), item(items, "Boards", best.board)
    mount, usual = item(items, "Mounts", kit.mount), item(items, "Mounts", best.mount)
    parts = []
    wider = (board.get("width_m") or 0.0) - (other.get("width_m") or 0.0)
    if abs(wider) > _SLACK:
        parts.append(f"board {show.length(abs(wider), feet)} {'wider' if wider > 0 else 'narrower'}")
    for name in ("face", "frame"):
        if board.get(name) != other.get(name):
            parts.append(f"{name} {board.get(name) or 'not stated'} for {other.get(name) or 'not stated'}")
    if mount.get("adjustment") != usual.get("adjustment"):
        parts.append(f"{mount.get('adjustment')} for {usual.get('adjustment')}")
    if kit.covered != best.covered:
        gain = abs(kit.covered - best.covered)
        parts.append(f"serves {show.counted(gain, 'ring height')} {'more' if kit.covered > best.covered else 'fewer'}")
    parts += _other_codes(kit, best)
    return "; ".join(parts) or "no difference but the codes"


def _other_codes(kit: KitReport, best: KitReport) -> list[str]:
    parts = [f"other {name}" for name in ("mount", "ring") if getattr(kit, name) != getattr(best, name)]
    if kit.extension != best.extension:
        parts.append(f"extension {kit.extension}" if kit.extension else "no extension")
    if kit.load_state != best.load_state:
        parts.append("load: " + load(kit)[0].lower())
    return parts


def rows_of(post: PostReport, items: Items, feet: bool) -> list[list[Any]]:
    """The kits of one post."""
    best = post.kit
    if best is None:
        return []
    return [
        [
            As(post.row.post_code, "bold") if kit is best else post.row.post_code,
            kit.rank,
            As(*VERDICT[kit.verdict]),
            As(mark, "bold") if mark else None,
            *_codes(kit),
            kit.unit_price,
            kit.unit_price - best.unit_price if kit is not best else Decimal(0),
            against(kit, best, items, feet),
        ]
        for kit, mark in zip(post.kits, marks(post.kits, items), strict=True)
    ]


def feature_rows(post: PostReport, items: Items, feet: bool) -> list[list[Any]]:
    """The features of one post's kits."""
    return [[post.row.post_code, k.rank, *_features(k, post, items, feet), As(*load(k))] for k in post.kits]


def _codes(kit: KitReport) -> list[Any]:
    return [kit.mount, kit.board, kit.ring, kit.extension or "none"]


def _features(kit: KitReport, post: PostReport, items: Items, feet: bool) -> list[Any]:
    board = item(items, "Boards", kit.board)
    made_of = ", ".join(str(board[name]) for name in ("face", "frame") if board.get(name))
    return [
        item(items, "Mounts", kit.mount).get("adjustment", show.UNKNOWN),
        made_of or "not stated",
        *length_values(board.get("width_m"), feet),
        *length_values(kit.lowest, feet),
        *length_values(kit.top, feet),
        abouts(kit.confirm) or "nothing",
        f"{kit.covered} of {len(post.wanted)}",
    ]


def write_kits(book: Book, report: SiteReport, setting: Setting) -> None:
    """Writes the sheet."""
    page = book.page("Viable kits")
    page.title("Viable kits: what may be sold for each post, best first")
    row = page.para(1, CAUTION, "caution")
    rows = [r for post in report.posts for r in rows_of(post, setting.items, report.feet)]
    if not rows:
        page.para(row + 1, "No kit of the catalogue fits a post of this site. Posts and Shortfalls say why.", "strong")
        finish(page, report, 0)
        return
    top = row
    features = [r for post in report.posts for r in feature_rows(post, setting.items, report.feet)]
    bands = Band("Kits", columns(report.currency), rows), Band("Features of the kits", feature_columns(report.feet), features)
    row, stacked = page.bands(top, "kits_ranked", bands, "Kits by post and rank")
    shown, every = len(rows), sum(post.kits_in_all for post in report.posts)
    words = (
        "All kits that fit are shown."
        if shown >= every
        else f"{shown:,} of {every:,} kits that fit are shown, the best ranked of each post; data/kits.csv has all."
    )
    words += " What stands out is named among the kits shown."
    words += " Prices are list prices of one kit with its services, before discount."
    page.para(row + 1, words, "note")
    finish(page, report, 0 if stacked else top, frozen=2)

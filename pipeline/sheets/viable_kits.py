"""The sheet `Viable kits`: different things that may be sold for each post, and what each changes against the recommended."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from pipeline.sheets import load_words, show
from pipeline.sheets.assembly import Items
from pipeline.sheets.report import KitReport, PostReport, Setting, SiteReport
from pipeline.sheets.setup import codes, finish
from pipeline.sheets.wording import VERDICT
from pipeline.xlsx.page import Book
from pipeline.xlsx.values import As, Col
from schemas.lengths import DOWN, SLACK, UP
from schemas.words import CAUTION


def columns(currency: str) -> list[Col]:
    """Headings of the kits."""
    return [
        Col("Post", "text", 20, 12),
        Col("Rank", "whole"),
        Col("Kit", "text", 44, 32),
        Col("What it is; then what the others change", "text", 84, 64),
        Col("Answer", "text", 20, 19),
        Col("Load", "text", 28, 22),
        Col(f"Price each [{currency}]", "money", 16),
        Col(f"More than rank 1 [{currency}]", "more", 16),
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
    named[next(i for i, w in enumerate(widths) if w >= max(widths) - SLACK)].append("widest board")
    if max(ranges) > SLACK:
        named[next(i for i, r in enumerate(ranges) if r >= max(ranges) - SLACK)].append("widest range of heights")
    return [", ".join(words) for words in named]


def against(kit: KitReport, best: KitReport, items: Items, feet: bool) -> str:
    """What a kit changes against the recommended one, in words; price and load have columns of their own."""
    board, other = item(items, "Boards", kit.board), item(items, "Boards", best.board)
    mount, usual = item(items, "Mounts", kit.mount), item(items, "Mounts", best.mount)
    parts = []
    wider = (board.get("width_m") or 0.0) - (other.get("width_m") or 0.0)
    if abs(wider) > SLACK:
        parts.append(f"board {show.length(abs(wider), feet)} {'wider' if wider > 0 else 'narrower'}")
    for name in ("face", "frame"):
        if board.get(name) != other.get(name):
            made_of = board.get(name) or f"no {name} stated", other.get(name) or f"no {name} stated"
            parts.append(f"{made_of[0]} {name} for {made_of[1]}")
    if mount.get("adjustment") != usual.get("adjustment"):
        parts.append(f"{mount.get('adjustment')} for {usual.get('adjustment')}")
    if kit.covered != best.covered:
        gain = abs(kit.covered - best.covered)
        parts.append(f"serves {show.counted(gain, 'ring height')} {'more' if kit.covered > best.covered else 'fewer'}")
    if kit.extension != best.extension:
        parts.append(f"extension {kit.extension}" if kit.extension else "no extension")
    others = (f"other {name}" for name in ("mount", "ring") if getattr(kit, name) != getattr(best, name))
    return "; ".join(parts or others) or "no difference but the codes"


def heights(kit: KitReport, items: Items, feet: bool) -> str:
    """The ring heights that a kit can be set to, in words."""
    top = show.length(kit.top, feet, DOWN)
    if kit.top - kit.lowest <= SLACK:
        return f"{top}, fixed"
    step = item(items, "Mounts", kit.mount).get("step_m") or 0.0
    stepped = item(items, "Mounts", kit.mount).get("adjustment") == "stepped"
    return f"{show.length(kit.lowest, feet, UP)} to {top}, {f'steps of {show.length(step, feet)}' if stepped else 'continuous'}"


def what_it_is(kit: KitReport, items: Items, feet: bool) -> str:
    """Board and ring heights of a kit in words."""
    board = item(items, "Boards", kit.board)
    made_of = [show.length(board.get("width_m"), feet), *(str(board[n]) for n in ("face", "frame") if board.get(n))]
    return f"board {', '.join(made_of)}; ring {heights(kit, items, feet)}"


def rows_of(posts: Sequence[PostReport], items: Items, feet: bool) -> list[list[Any]]:
    """The kits of posts to which the same may be sold."""
    first = posts[0]
    best, made = first.kit, []
    if best is None:
        return []
    for kit, mark in zip(first.kits, marks(first.kits, items), strict=True):
        says = what_it_is(kit, items, feet) if kit is best else against(kit, best, items, feet)
        made.append(
            [
                As(codes(posts), "bold") if kit is best else codes(posts),
                kit.rank,
                " + ".join(filter(None, (kit.mount, kit.board, kit.ring, kit.extension))),
                As(f"{mark}: {says}", "bold") if mark else says,
                As(*VERDICT[kit.verdict]),
                As(*load_words.answer(kit)),
                kit.unit_price,
                kit.unit_price - best.unit_price,
            ]
        )
    return made


def _same_offers(report: SiteReport) -> list[list[PostReport]]:
    """Posts with kits, those to which the same kits may be sold together."""
    found: dict[tuple[Any, ...], list[PostReport]] = {}
    for post in report.posts:
        if post.kits:
            key = tuple(
                (k.rank, k.verdict, k.mount, k.board, k.ring, k.extension, k.confirm, load_words.answer(k), k.top)
                for k in post.kits
            )
            found.setdefault(key, []).append(post)
    return list(found.values())


def write_kits(book: Book, report: SiteReport, setting: Setting) -> None:
    """Writes the sheet."""
    page = book.page("Viable kits")
    page.title("Viable kits: what may be sold for each post")
    row = page.para(1, CAUTION, "caution")
    groups = _same_offers(report)
    if not groups:
        page.para(row + 1, "No kit of the catalogue fits a post of this site. Posts and Shortfalls say why.", "strong")
        finish(page, report, 0)
        return
    every = show.listed([f"{codes(g)}: {g[0].kits_in_all:,}" for g in groups])
    words = (
        "Different things come first (a step in board width, in face, in range of heights); variants of the same only where "
        f"few are left. Ranks are those among all kits that fit ({every}), which data/kits.csv lists. "
        "Prices are list prices of one kit with its services, before discount."
    )
    top = page.para(row, words, "note")
    rows = [r for posts in groups for r in rows_of(posts, setting.items, report.feet)]
    page.table(top, "kits_ranked", columns(report.currency), rows, "Kits by post and rank")
    finish(page, report, top, frozen=2)

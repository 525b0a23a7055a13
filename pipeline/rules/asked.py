"""Items asked for that cannot be had at a post, and why."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from difflib import get_close_matches

import numpy as np

from pipeline.rules.arrays import FAIL, NOT_VIABLE, REFUSED, SLACK, Bools, Catalogue, Fit, Ints, Kits, Note, Posts, Refusal
from pipeline.rules.kits import Sets, sets
from pipeline.rules.post_arrays import NO_WISH
from pipeline.rules.verdict import bits, codes
from schemas.lists import joined
from schemas.order import folded
from schemas.surveyed_post import SurveyedPost

ITEMS = (("mount", "Mounts"), ("board", "Boards"), ("ring", "Rings"))
"""Kinds of item that may be asked for, and their tables."""


@dataclass(frozen=True)
class Wish:
    """One kind of item asked for at n posts."""

    kind: str
    table: str
    asked: Ints  # (n,), index among the active items, -1 no wish, -2 none of them
    had: Bools  # (n,), a kit of the post contains it


def wishes(posts: Posts, kits: Kits) -> tuple[Wish, ...]:
    """What was asked for at every post, and whether any kit there contains it."""
    out = []
    for kind, table in ITEMS:
        asked, item = getattr(posts, f"{kind}_asked"), getattr(kits, kind)
        had = np.zeros(len(posts), dtype=bool)
        had[kits.post[item == asked[kits.post]]] = True
        out.append(Wish(kind, table, asked, had))
    return tuple(out)


def refusals(
    rows: Sequence[SurveyedPost],
    posts: Posts,
    catalogue: Catalogue,
    fit: Fit,
    kits: Kits,
    group: Ints | None = None,
) -> list[tuple[Refusal, ...]]:
    """For each row, the items asked for that are unknown, withdrawn, or in none of its post's kits.

    `rows` are the posts as surveyed, for the codes as typed; `group` is the number in
    `posts` of each row's post, where alike posts stand there once: alike posts may still have asked
    for different unknown codes.
    """
    at = np.arange(len(rows)) if group is None else group
    case = _Case(posts, catalogue, fit, bits(fit.findings, FAIL, fit.verdict.shape), sets(catalogue))
    out: list[list[Refusal]] = [[] for _ in rows]
    for wish in wishes(posts, kits):
        cannot = (wish.asked != NO_WISH) & ~wish.had
        for row in np.flatnonzero(cannot[at]).tolist():
            out[row].append(_refusal(wish, str(getattr(rows[row], f"{wish.kind}_asked")), int(at[row]), case))
    return [tuple(r) for r in out]


@dataclass(frozen=True)
class _Case:
    posts: Posts
    catalogue: Catalogue
    fit: Fit
    failed: Ints  # (n, m), bits of failed findings
    flat: Sets


def _refusal(wish: Wish, typed: str, i: int, case: _Case) -> Refusal:
    item = int(wish.asked[i])
    if item < 0:
        return _absent(wish, typed, case.catalogue)
    mount, why = _why(wish.kind, item, i, case)
    code = getattr(case.catalogue, wish.table.lower()).code[item]
    if why == ("STRENGTH",):
        reason = "a licensed engineer has refused the loads on it (STRENGTH)."
    elif why == ("BOARD",):
        reason = f"{_BOARD[wish.kind]} (BOARD)."
    elif wish.kind == "mount":
        reason = f"it fails {joined(why)}."
    else:
        reason = f"no mount that carries it fits; the nearest, {mount}, fails {joined(why)}."
    sentence = f"The {wish.kind} asked for, {code}, cannot be had at this post: {reason}"
    return Refusal(f"{wish.kind}_asked", typed, "not_viable", why, sentence, _SUGGESTION)


_BOARD = {
    "mount": "it fits the post, but no board and ring for it are as wide as asked for",
    "board": "no mount that fits the post carries it, or it is narrower than asked for",
    "ring": "no board that may be sold there has its ring pattern, within the mount's mass",
}
_SUGGESTION = "Leave the cell blank, or ask for an item of the quotation; the best other kit is quoted."


def _absent(wish: Wish, typed: str, catalogue: Catalogue) -> Refusal:
    """The item is unknown, or was withdrawn."""
    name, known = f"{wish.kind}_asked", {folded(r[wish.kind]) for r in catalogue.tables[wish.table]}
    if folded(typed) in known:
        sentence = f"The {wish.kind} asked for, {typed}, has been withdrawn."
        return Refusal(name, typed, "withdrawn", (), sentence, _SUGGESTION)
    active = {folded(c): c for c in getattr(catalogue, wish.table.lower()).code}
    near = get_close_matches(folded(typed), sorted(active))
    hint = f"Type {joined([active[n] for n in near], 'or')}, if that was meant." if near else _SUGGESTION
    sentence = f"The catalogue has no {wish.kind} {typed}."
    return Refusal(name, typed, "unknown", (), sentence, hint)


def _why(kind: str, item: int, i: int, case: _Case) -> tuple[str, tuple[str, ...]]:
    """The mount that comes nearest to carrying the item at post i, and the codes that rule it out.

    BOARD where a mount that fits is no help, or where no mount could ever carry the item as asked.
    """
    if case.posts.cleared[i] == REFUSED:
        return "", ("STRENGTH",)
    mounts = np.array([item]) if kind == "mount" else _carriers(kind, item, i, case)
    if not len(mounts) or (case.fit.verdict[i, mounts] != NOT_VIABLE).any():
        return "", ("BOARD",)
    masks = case.failed[i, mounts].tolist()
    nearest = min(range(len(masks)), key=lambda k: (masks[k].bit_count(), k))
    return case.catalogue.mounts.code[mounts[nearest]], codes(masks[nearest])


def _carriers(kind: str, item: int, i: int, case: _Case) -> Ints:
    """Mounts that may be sold with the board or ring at post i, whatever fits there."""
    flat, least = case.flat, case.posts.least_board_width[i]
    wide = ~(case.catalogue.boards.width[flat.board] < least - SLACK)
    return np.unique(flat.mount[wide & (getattr(flat, kind) == item)])


def apart(posts: Posts, kits: Kits) -> list[tuple[Note, ...]]:
    """For each post, a note where every item asked for can be had there, but not all in one kit."""
    out: list[tuple[Note, ...]] = [()] * len(posts)
    for i in _not_together(posts, kits):
        text = "Each item asked for can be had at this post, but not all in one kit; the kit with most of them is quoted."
        out[i] = (Note("Items asked for", text, "the catalogue's pairings and ring patterns"),)
    return out


def _not_together(posts: Posts, kits: Kits) -> Iterator[int]:
    all_wishes = wishes(posts, kits)
    each = np.all([(w.asked == NO_WISH) | w.had for w in all_wishes], axis=0)
    met = np.ones(len(kits.post), dtype=bool)
    for w in all_wishes:
        asked = w.asked[kits.post]
        met &= (asked == NO_WISH) | (asked == getattr(kits, w.kind))
    together = np.zeros(len(posts), dtype=bool)
    together[kits.post[met]] = True
    some = np.any([w.asked != NO_WISH for w in all_wishes], axis=0)
    yield from (int(i) for i in np.flatnonzero(each & some & ~together))

"""What moves between two states of quotations, in numbers: totals, posts that gain or lose a kit, kits that change.

A state is what a quotation says (`content.content`, the part `says`), so that nothing counts that it never held.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from schemas.order import natural

Says = Mapping[str, Any]
Kit = tuple[str, str, str, str]
"""Mount, board, ring and extension ('' = none)."""


@dataclass(frozen=True)
class KitMove:
    """One row of posts whose recommended kit changes; None = no kit, or no such post on that side."""

    site_code: str
    post_code: str
    quantity: int
    was: Kit | None
    now: Kit | None


@dataclass(frozen=True)
class Movement:
    """How much moves over many sites; posts count with their quantity."""

    sites: int
    sites_changed: int
    total_was: Decimal
    total: Decimal
    gained: int
    lost: int
    kits_moved: int

    def sentences(self, currency: str) -> tuple[str, ...]:
        """The movement in words, the same wherever it is said."""
        change = self.total - self.total_was
        moved = f"{self.total_was:,} becomes {self.total:,} ({change:+,})" if change else f"{self.total:,}, as before"
        return (
            f"Quotations that change: {self.sites_changed:,} of {self.sites:,}.",
            f"Total of all quotations: {currency} {moved}.",
            f"Posts that gain a kit: {self.gained:,}; that lose theirs: {self.lost:,}; with another kit: {self.kits_moved:,}.",
        )


def kit_moves(was: Says | None, now: Says | None) -> Iterator[KitMove]:
    """Rows of posts whose kit differs between two states of one site's quotation, in natural order."""
    old, new = ((side or {}).get("posts", {}) for side in (was, now))
    site = str(((now or was or {}).get("site") or [""])[0])
    for post in sorted(old.keys() | new.keys(), key=natural):
        a, b = _kit(old.get(post)), _kit(new.get(post))
        if a != b:
            yield KitMove(site, post, int((new.get(post) or old[post])["quantity"]), a, b)


def movement(pairs: Iterable[tuple[Says | None, Says | None]]) -> Movement:
    """What moves from the first to the second state of each site; None = no quotation there."""
    counts = dict.fromkeys(("sites", "sites_changed", "gained", "lost", "kits_moved"), 0)
    totals = [Decimal(0), Decimal(0)]
    for was, now in pairs:
        counts["sites"] += 1
        counts["sites_changed"] += was != now
        for i, side in enumerate((was, now)):
            totals[i] += total(side)
        for move in kit_moves(was, now):
            kind = "gained" if move.was is None else "lost" if move.now is None else "kits_moved"
            counts[kind] += move.quantity
    return Movement(**counts, total_was=totals[0], total=totals[1])


def total(says: Says | None) -> Decimal:
    """The total that a quotation says."""
    return Decimal(says["money"][4]) if says else Decimal(0)


def posts_with_kit(says: Says | None) -> int:
    """Posts of a quotation that have a kit."""
    posts = says["posts"].values() if says else ()
    return sum(int(p["quantity"]) for p in posts if _kit(p))


def _kit(post: Mapping[str, Any] | None) -> Kit | None:
    kit = post.get("kit") if post else None
    return (kit[0], kit[1], kit[2], kit[3]) if kit else None

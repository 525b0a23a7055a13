"""What the catalogue lacks: the new extension or mount that would serve most of the posts that have no kit for want of one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

import numpy as np

from pipeline.rules.arrays import FAIL, REFUSED, SLACK, Bools, Catalogue, Fit, Floats, Policy, Posts
from pipeline.rules.verdict import bits
from schemas.order import natural
from schemas.survey import SHAPES
from schemas.words import FINDING_CODES


@dataclass(frozen=True)
class Need:
    """Posts of one site that one new item would give a kit: `added` [m] of an extension, NaN where a mount is wanted."""

    site_code: str
    shape: str
    size: float
    added: float
    quantity: int


@dataclass(frozen=True)
class Wanted:
    """One new item: what it must take and add [m] (NaN of a mount), how many posts it would serve, and where."""

    kind: str  # mount, extension
    shape: str
    least: float
    most: float
    added: float
    posts: int
    site_codes: tuple[str, ...]


def _bit(*codes: str) -> int:
    return sum(1 << FINDING_CODES.index(code) for code in codes)


UNTAKEN, SHORT, MENDED = _bit("SHAPE", "SIZE"), _bit("HEIGHT"), _bit("HEIGHT", "CLEAR")
"""Failed findings that call for another mount, for an extension, and that an extension puts right."""
OF_A_PAIR = _bit("SHAPE", "SIZE", "CLEAR", "HEIGHT", "JOINT")


def needs(posts: Posts, catalogue: Catalogue, fit: Fit, policy: Policy, has_kit: Bools, widest: Floats) -> tuple[Bools, Floats]:
    """Which posts have no kit for want of a mount or of an extension, and for nothing else (n,); least added height (n,) [m].

    An extension is wanted where a mount that may be sold with a board wide enough fails HEIGHT alone, or CLEAR with it,
    which an extension brings along: the least shortfall of those mounts, less the tolerance. A mount is wanted, and the
    height NaN, where no mount that is sold takes the post's shape and size. `widest` is each mount's widest board (m,)
    [m], NaN where none goes with it. Source: design section 14, Wanted.
    """
    failed = bits(fit.findings, FAIL, fit.verdict.shape)
    sold = ~np.isnan(widest) & ~(widest < posts.least_board_width[:, None] - SLACK)
    short = sold & ((failed & SHORT) != 0) & ((failed & ~MENDED) == 0)
    shortfall = np.min(fit.shortfall - policy["ring_height_tolerance"], axis=1, where=short, initial=np.inf)
    sound = ((failed & ~OF_A_PAIR) == 0).all(axis=1) & (posts.shape != SHAPES.index("other"))
    untaken = sound & (((failed & UNTAKEN) != 0) | np.isnan(widest)).all(axis=1)
    open_ = ~has_kit & (posts.cleared != REFUSED)
    return open_ & (short.any(axis=1) | untaken), np.where(short.any(axis=1), shortfall, np.nan)


def wanted(all_needs: Iterable[Need], window: float) -> list[Wanted]:
    """The most useful new items first: posts served, then sites, then the smaller item.

    Sizes of one shape within `window` [m], from least to greatest, are one need; of the extensions for them, each added
    height that serves more posts than a lower one. Source: design section 14, Wanted.
    """
    found = {item: None for kind in (_extensions, _mounts) for item in kind(list(all_needs), window)}
    return sorted(found, key=_rank)


def _rank(w: Wanted) -> tuple[object, ...]:
    added = 0.0 if w.kind == "mount" else w.added
    return -w.posts, -len(w.site_codes), w.most, w.least, added, w.kind, SHAPES.index(w.shape)


def _extensions(all_needs: Sequence[Need], window: float) -> Iterator[Wanted]:
    """Extensions for each window of sizes: the least added height that serves each count of its posts."""
    for here in _windows([n for n in all_needs if not np.isnan(n.added)], window):
        here = sorted(here, key=lambda n: n.added)
        for at, need in enumerate(here):
            if at + 1 == len(here) or here[at + 1].added > need.added + SLACK:
                yield _item("extension", here[: at + 1], need.added)


def _mounts(all_needs: Sequence[Need], window: float) -> Iterator[Wanted]:
    """One mount for each window of sizes."""
    for here in _windows([n for n in all_needs if np.isnan(n.added)], window):
        yield _item("mount", here, float("nan"))


def _windows(some: Sequence[Need], window: float) -> Iterator[list[Need]]:
    """Needs of one shape whose sizes lie within the window, as many together as may be."""
    by_size = sorted(some, key=lambda n: (n.shape, n.size))
    for _, group in groupby(by_size, key=lambda n: n.shape):
        alike, reached = list(group), 0
        for at, need in enumerate(alike):
            end = next((e for e in range(at, len(alike)) if alike[e].size > need.size + window + SLACK), len(alike))
            if end > reached:  # else a window before holds all of it
                yield alike[at:end]
            reached = end


def _item(kind: str, served: Sequence[Need], added: float) -> Wanted:
    sizes, sites = [n.size for n in served], {n.site_code for n in served}
    many = sum(n.quantity for n in served)
    return Wanted(kind, served[0].shape, min(sizes), max(sizes), added, many, tuple(sorted(sites, key=natural)))

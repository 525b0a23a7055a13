"""The least change that would give a kit to a post that has none: which change."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pipeline.rules.arrays import FAIL, REFUSED, SLACK, Bools, Catalogue, Fit, Floats, Ints, Policy, Posts, Remedy
from pipeline.rules.kits import sets
from pipeline.rules.remedy_words import Plan, put, unplanned
from pipeline.rules.ring_height import lift
from schemas.survey import BASES, CONDITIONS, LINES, SHAPES

COST = {"clear": 1.5, "extension": 2.0, "board": 3.5, "mend": 8.0, "mount": 10.0}
"""How great a change each is: only the order counts, and that two small ones are less than a great one.

What is done to the post itself (strip, straighten, reset) is the same whatever the mount, and a new post is the last resort.
Source: the order of design section 5, remedy; common practice for those that it does not list.
"""


@dataclass(frozen=True)
class WhatIf:
    """Costs of the ways out, inf where one is none: by pair (n, m), by another mount (n,)."""

    pair: Floats
    another: Floats
    reach: Floats  # (n, m), greatest ring height that a person may accept instead, NaN where none
    price: Floats  # (m,), least list price of a kit with each mount


def remedies(posts: Posts, catalogue: Catalogue, fit: Fit, policy: Policy, has_kit: Bools) -> list[Remedy]:
    """For each post the least change that would give it a kit, in plain words; empty where it has one."""
    out = [Remedy()] * len(posts)
    at = np.flatnonzero(~has_kit)
    if not len(at):
        return out
    widest = widest_board(catalogue)
    ifs = what_if(posts, catalogue, fit, policy, widest)
    for i in at:
        out[i] = put(_plan(int(i), posts, catalogue, fit, ifs, widest))
    return out


def widest_board(catalogue: Catalogue) -> Floats:
    """Widest board that may be sold with each mount [m], (m,); NaN where there is none."""
    flat = sets(catalogue)
    widest = np.full(len(catalogue.mounts.code), -np.inf)
    np.maximum.at(widest, flat.mount, catalogue.boards.width[flat.board])
    return np.where(np.isinf(widest), np.nan, widest)


def cheapest(catalogue: Catalogue) -> Floats:
    """Least list price of each mount with a board and a ring, in Catalogue.price_unit, (m,); inf where none goes with it."""
    flat, c = sets(catalogue), catalogue
    price = np.full(len(c.mounts.code), np.inf)
    np.minimum.at(price, flat.mount, c.mounts.price[flat.mount] + c.boards.price[flat.board] + c.rings.price[flat.ring])
    return price


def what_if(posts: Posts, catalogue: Catalogue, fit: Fit, policy: Policy, widest: Floats) -> WhatIf:
    """What each way out of a post's trouble costs."""
    failed = {f.code: np.broadcast_to(f.state == FAIL, fit.verdict.shape) for f in fit.findings}
    lost = _lost(posts, failed)
    narrow = widest < posts.least_board_width[:, None] - SLACK
    reach = np.where(fit.ring_height_max >= policy["ring_height_least"] - SLACK, fit.ring_height_max, np.nan)
    low_clear = catalogue.mounts.clamp_length <= posts.clear_length[:, None] + SLACK
    reach = np.where(low_clear, reach, np.nan)
    short = failed["HEIGHT"]
    clear = np.where(failed["CLEAR"] & ~short, _clear_cost(posts, catalogue, fit), 0.0)
    mend = sum(failed[code] for code in unplanned(fit))
    pair = clear + COST["extension"] * short + COST["board"] * narrow + COST["mend"] * mend
    pair = np.where(failed["SHAPE"] | failed["SIZE"] | np.isnan(widest) | lost[:, None], np.inf, pair)
    hopeless = (posts.shape == SHAPES.index("other")) | np.isnan(widest).all()  # nothing could hang on another mount
    another = np.where(hopeless | lost, np.inf, COST["mount"])
    return WhatIf(pair, another, reach, cheapest(catalogue))


def _lost(posts: Posts, failed: dict[str, Bools]) -> Bools:
    """Where only a new post will do, (n,)."""
    loose = posts.condition == CONDITIONS.index("loose")
    lost = posts.line == LINES.index("gooseneck")
    lost |= failed["CONDITION"].any(axis=1) & ~loose
    return lost | (posts.base == BASES.index("portable")) | (posts.cleared == REFUSED)


def _clear_cost(posts: Posts, catalogue: Catalogue, fit: Fit) -> Floats:
    """Cost of clearing the post as far as the clamps go; inf where they would go into the ground, (n, m)."""
    need = fit.lowered + catalogue.mounts.clamp_length
    return np.where(need <= posts.height[:, None] + SLACK, COST["clear"], np.inf)


def _plan(i: int, posts: Posts, catalogue: Catalogue, fit: Fit, ifs: WhatIf, widest: Floats) -> Plan:
    """What to do for post i: the cheapest way out."""
    m = _nearest(ifs.pair[i], fit.shortfall[i], ifs.price)
    pair, another = ifs.pair[i, m] if m >= 0 else np.inf, ifs.another[i]
    way = "replace" if np.isinf(min(pair, another)) else "pair" if pair <= another else "mount"
    if way == "replace":
        m = _for_new_post(i, posts, catalogue, widest, ifs.price)
    return Plan(way, i, m, posts, catalogue, fit, widest, float(ifs.reach[i, m]) if m >= 0 else np.nan)


def _nearest(cost: Floats, shortfall: Floats, price: Floats) -> int:
    """The mount with the least to be done, the least short of them, the cheapest to buy, the first; -1 where none will do."""
    if np.isinf(cost).all():
        return -1
    return int(np.lexsort((np.arange(len(cost)), price, np.round(shortfall, 6), cost))[0])


def _for_new_post(i: int, posts: Posts, catalogue: Catalogue, widest: Floats, price: Floats) -> int:
    """The mount that a new post would best be made for, -1 none.

    Wide enough boards first, then one that takes a post like the old one, then the cheapest, then the lowest post.
    """
    sold: Sequence[int] | Ints = np.flatnonzero(~np.isnan(widest))
    if not len(sold):
        return -1
    narrow = widest[sold] < posts.least_board_width[i] - SLACK
    unlike = ~_takes(i, posts, catalogue)[sold]
    needed = -lift(catalogue.mounts)[sold]
    return int(sold[np.lexsort((np.arange(len(sold)), needed, price[sold], unlike, narrow))[0]])


def _takes(i: int, posts: Posts, catalogue: Catalogue) -> Bools:
    """Whether each mount takes the shape and size of post i, (m,)."""
    m, D = catalogue.mounts, posts.size[i]
    return (m.shape == posts.shape[i]) & (m.size_least - SLACK <= D) & (m.size_most + SLACK >= D)

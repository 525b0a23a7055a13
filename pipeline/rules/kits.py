"""Kits: what may be sold together, on which post, at what load and price, in which order."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, fields, replace

import numpy as np

from pipeline.loads.load_arrays import OVER, LoadInputs, Loads
from pipeline.rules import rank
from pipeline.rules.arrays import (
    CLEARED,
    CONFIRM,
    NOT_VIABLE,
    REFUSED,
    SLACK,
    VIABLE,
    VIABLE_CONFIRM,
    Bools,
    Catalogue,
    Fit,
    Floats,
    Ints,
    Kits,
    Policy,
    Posts,
)
from pipeline.rules.verdict import bits
from schemas.survey import BASES, FITTINGS, MATERIALS, SHAPES
from schemas.words import FINDING_CODES

Screen = Callable[[LoadInputs], Loads]

BASE, BOARD, STRENGTH, FOOTING = (1 << FINDING_CODES.index(code) for code in ("BASE", "BOARD", "STRENGTH", "FOOTING"))
CLEARED_SLACK = 1.01
"""A kit may ask for this much more than the moment up to which an engineer has cleared the post. Source: design section 7."""


@dataclass(frozen=True)
class Sets:
    """Boards with rings that each mount may carry: flat lists, mount i's from `start[i]` on, `count[i]` of them."""

    mount: Ints
    board: Ints
    ring: Ints
    start: Ints
    count: Ints


@dataclass(frozen=True)
class Items:
    """Which items each of k kits is made of, and where it hangs; each (k,)."""

    post: Ints
    mount: Ints
    board: Ints
    ring: Ints


def sets(catalogue: Catalogue) -> Sets:
    """Boards with rings that may be sold with each mount, BOARD's limits of the mount applied.

    Paired, of one ring pattern, board no wider and board with ring no heavier than the mount allows.
    Source: design section 6.
    """
    m, b, r = catalogue.mounts, catalogue.boards, catalogue.rings
    same = b.pattern[:, None] == r.pattern
    mass = b.mass[:, None] + r.mass
    carried = catalogue.pairs & (b.width <= m.board_width_most[:, None] + SLACK)
    allowed = carried[:, :, None] & same & (mass <= m.board_mass_most[:, None, None] + SLACK)
    mount, board, ring = np.nonzero(allowed)
    count = np.bincount(mount, minlength=len(m.code))
    return Sets(mount, board, ring, np.cumsum(count) - count, count)


def expand(posts: Posts, catalogue: Catalogue, fit: Fit) -> Items:
    """Every kit of every pair that is not `not_viable`, boards at least as wide as asked for; none where an engineer refused."""
    flat = sets(catalogue)
    post, mount = np.nonzero((fit.verdict != NOT_VIABLE) & (posts.cleared != REFUSED)[:, None])
    many = flat.count[mount]
    first = np.cumsum(many) - many
    at = np.arange(many.sum()) - np.repeat(first - flat.start[mount], many)
    post = np.repeat(post, many)
    narrow = catalogue.boards.width[flat.board[at]] < posts.least_board_width[post] - SLACK
    post, at = post[~narrow], at[~narrow]
    return Items(post, flat.mount[at], flat.board[at], flat.ring[at])


def kits(posts: Posts, catalogue: Catalogue, fit: Fit, policy: Policy, screen: Screen) -> Kits:
    """Every kit that is not `not_viable`, by post and rank.

    `screen` gives the rough load of the kits that it is handed. The caller hands over posts in
    blocks, so that the arrays of one call stay small.
    """
    items = expand(posts, catalogue, fit)
    pair = (items.post, items.mount)
    loads = screen(load_inputs(posts, catalogue, fit, items))
    no_base = posts.unread("post_base")[items.post]  # it decides what the footing is
    loads = replace(loads, footing_depth_needed=np.where(no_base, np.nan, loads.footing_depth_needed))
    over = loads.load_state == OVER
    clear = cleared(posts, items.post, loads)
    confirm = bits(fit.findings, CONFIRM, fit.verdict.shape)[pair] | _raised(posts, items.post, loads, clear)
    verdict = fit.verdict[pair]
    verdict = np.where((verdict == VIABLE) & (confirm != 0), VIABLE_CONFIRM, verdict).astype(np.int8)
    price = unit_price(posts, catalogue, fit, items)
    covered = fit.covered[pair]
    o = rank.order(posts, catalogue, items.post, items.mount, items.board, items.ring, over, covered, verdict, price)
    return Kits(
        post=items.post[o],
        mount=items.mount[o],
        board=items.board[o],
        ring=items.ring[o],
        extension=fit.extension[pair][o],
        rank=rank.ranks(items.post[o]),
        verdict=verdict[o],
        confirm=confirm[o],
        covered=covered[o],
        price=price[o],
        cleared=clear[o],
        load={f.name: getattr(loads, f.name)[o] for f in fields(loads)},
    )


def cleared(posts: Posts, post: Ints, loads: Loads) -> Bools:
    """Where a licensed engineer has cleared what a kit asks of post, base and footing, (k,).

    Source: design section 7, load_state.
    """
    most = posts.cleared_moment[post]
    within = np.maximum(loads.moment_play, loads.moment_storm) <= CLEARED_SLACK * most + SLACK
    return (posts.cleared[post] == CLEARED) & (np.isnan(most) | within)


def _raised(posts: Posts, post: Ints, loads: Loads, clear: Bools) -> Ints:
    """Bits of what a kit adds to its pair's confirms: BASE again beyond what was cleared, BOARD, STRENGTH, FOOTING, (k,)."""
    plate = posts.base[post] == BASES.index("base plate")
    unsure = loads.footing_confirm | (np.isnan(loads.footing_depth_needed) & ~plate)  # what is not known never passes
    raised = (
        (BASE, plate & ~clear),
        (BOARD, posts.unread("least_board_width")[post]),
        (STRENGTH, ((loads.load_state == OVER) & ~clear) | posts.unread("strength_cleared")[post]),
        (FOOTING, unsure & ~clear),
    )
    out = np.zeros(len(post), dtype=np.int64)
    for bit, where in raised:
        out |= np.where(where, bit, 0)
    return out


def unit_price(posts: Posts, catalogue: Catalogue, fit: Fit, items: Items) -> Ints:
    """List prices of the items with the services that apply to the post, in price units, (k,).

    Source: design section 8, unit_price.
    """
    c = catalogue
    extension = fit.extension[items.post, items.mount]
    stripped = posts.fittings[items.post] == FITTINGS.index("removable")
    goods = c.mounts.price[items.mount] + c.boards.price[items.board] + c.rings.price[items.ring]
    with_service = np.append(c.extensions.price + c.service_per_extension, 0)  # the last one is index -1: none
    extra = with_service[extension]
    return goods + extra + c.service_per_post + np.where(stripped, c.service_per_stripped_post, 0)


def _of(values: Floats, index: Ints, blank: float) -> Floats:
    """`values` at `index`, `blank` where the index is -1."""
    return np.where(index >= 0, values[index], blank) if len(values) else np.full(len(index), blank)


def load_inputs(posts: Posts, catalogue: Catalogue, fit: Fit, items: Items | Kits) -> LoadInputs:
    """What the load screen reads of each kit, (k,)."""
    c, i, pair = catalogue, items, (items.post, items.mount)
    e, extension = c.extensions, fit.extension[pair]
    p = posts.take(i.post)
    steel = p.material == MATERIALS.index("steel")
    return LoadInputs(
        square=p.shape == SHAPES.index("square"),
        size=p.size,
        height=p.height,
        court_rise=p.court_rise,
        lean=p.lean,
        wall=p.wall,
        steel=steel,
        steel_or_unknown=steel | (p.material == MATERIALS.index("unknown")),
        base_plate=p.base == BASES.index("base plate"),
        driven=p.base == BASES.index("driven"),
        footing_diameter=p.footing_diameter,
        footing_stated=p.footing_stated,
        footing_depth=p.footing_depth,
        soil_class=p.soil_class,
        wind_speed=p.wind_speed,
        exposure=p.exposure,
        ring_top=fit.top[pair],
        extended=extension >= 0,
        added=fit.added[pair],
        upper_size=_of(e.upper_size, extension, np.nan),
        rated_moment=_of(e.rated_moment, extension, np.nan),
        extension_mass=_of(e.mass, extension, 0.0),
        mount_mass=c.mounts.mass[i.mount],
        overhang=c.mounts.overhang[i.mount],
        board_width=c.boards.width[i.board],
        board_height=c.boards.height[i.board],
        board_mass=c.boards.mass[i.board],
        ring_mass=c.rings.mass[i.ring],
    )


def recommended(kits: Kits, posts: int) -> Ints:
    """Index of the kit of rank 1 of each of `posts` posts, -1 where it has none, (posts,)."""
    first = np.full(posts, -1, dtype=np.int64)
    top = np.flatnonzero(kits.rank == 1)
    first[kits.post[top]] = top
    return first

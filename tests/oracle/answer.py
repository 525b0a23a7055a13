"""The whole answer for a world, as rows with the names of the files in data/."""

from __future__ import annotations

import datetime
import math
from typing import Any

from .customers import chosen, customer_row, groups, one_board, option_rows, quotes
from .defaults import DEFAULTS
from .fit import fit, height_uncertainty, size_uncertainty, wanted_heights
from .kits import Choice, best_first, choices
from .model import Catalogue, Post, floats
from .money import Quote, fit_open, strength_open

Row = dict[str, Any]


def whole_policy(catalogue: Catalogue) -> dict[str, Any]:
    return DEFAULTS | floats(catalogue.policy)


def fit_row(post: Post, mount: Any, catalogue: Catalogue, policy: dict[str, Any]) -> Row:
    f = fit(post, mount, catalogue, policy)
    return {
        "site_code": post.site,
        "post_code": post.code,
        "mount": mount.code,
        "verdict": f.verdict,
        "failed": ";".join(f.failed),
        "confirm": ";".join(f.confirm),
        "ring_height_max_m": f.z_max,
        "shortfall_m": f.shortfall,
        "extension": f.extension.code if f.extension else "",
        "extension_added_m": f.extension.added if f.extension else None,
        "ring_heights_covered": f.covered,
        "ring_heights_wanted": f.wanted,
    }


def kit_row(post: Post, rank: int, c: Choice) -> Row:
    return {
        "site_code": post.site,
        "post_code": post.code,
        "rank": rank,
        "verdict": c.verdict,
        "confirm": ";".join(c.confirm),
        "mount": c.fit.mount.code,
        "board": c.board.code,
        "ring": c.ring.code,
        "extension": c.fit.extension.code if c.fit.extension else "",
        "ring_heights_covered": c.fit.covered,
        "load_state": c.load.state,
        "utilisation_play": c.load.play,
        "utilisation_storm": c.load.storm,
        "moment_play_N_m": c.load.moment_play,
        "moment_storm_N_m": c.load.moment_storm,
        "wall_needed_m": c.load.wall_needed,
        "footing_depth_needed_m": c.load.footing_depth,
        "ring_sag_m": c.load.sag,
        "hung_mass_kg": c.load.hung_mass,
        "unit_price": c.unit_price,
    }


def post_row(post: Post, best: Choice | None, policy: dict[str, Any]) -> Row:
    extension = best.fit.extension if best else None
    return {
        "site_code": post.site,
        "post_code": post.code,
        "quantity": post.quantity,
        "post_shape": post.shape,
        "post_size_m": post.size,
        "post_size_uncertainty_m": None if "measured" in post.unread else size_uncertainty(post, policy),
        "post_height_m": post.height,
        "post_height_uncertainty_m": None if "height_measured" in post.unread else height_uncertainty(post, policy),
        "court_rise_m": post.rise or 0.0,
        "lean_deg": None if "lean" in post.unread else math.degrees(post.lean or 0.0),
        "wall_m": post.wall,
        "wind_speed_m_s": None if "wind" in post.unread else post.wind or policy["wind_speed"],
        "exposure": "" if "exposure" in post.unread else post.exposure or policy["exposure"],
        "target_ring_height_m": max(wanted_heights(post, policy)),
        "outcome": best.verdict if best else "no_kit",
        "mount": best.fit.mount.code if best else "",
        "board": best.board.code if best else "",
        "ring": best.ring.code if best else "",
        "extension": extension.code if extension else "",
        "ring_height_max_m": best.fit.z_max if best else None,
        "shortfall_m": best.fit.shortfall if best else None,
    }


def extension_row(post: Post, best: Choice) -> Row:
    e = best.fit.extension
    assert e is not None
    return {
        "site_code": post.site,
        "post_code": post.code,
        "quantity": post.quantity,
        "mount": best.fit.mount.code,
        "shortfall_m": best.fit.shortfall,
        "extension": e.code,
        "extension_added_m": e.added,
        "joint": e.joint,
        "upper_size_m": e.upper,
    }


def line_rows(site: str, q: Quote) -> list[Row]:
    names = ("kind", "item", "quantity", "list_price", "unit_price")
    return [
        {"site_code": site, "discount_percent": line.discount, "line_total": line.total}
        | {name: getattr(line, name) for name in names}
        for line in q.lines
    ]


def site_row(chosen: list[tuple[Post, Choice | None]], q: Quote, policy: dict[str, Any], until: str) -> Row:
    first = chosen[0][0]
    count = sum(post.quantity for post, _ in chosen)
    served = [(post.quantity, choice) for post, choice in chosen if choice]
    return {
        "site_code": first.site,
        "site_name": first.site_name,
        "customer": first.customer or "",
        "site_kind": first.site_kind or "",
        "revision": 1,
        "state": q.state,
        "posts": count,
        "posts_quoted": count,
        "rows_held": 0,
        "net": q.net,
        "freight": q.freight,
        "tax": q.tax,
        "total": q.total,
        "valid_until": until,
        "posts_with_kit": sum(q for q, _ in served),
        "posts_to_confirm": sum(q for q, choice in served if fit_open(choice)),
        "posts_strength_open": sum(q for q, choice in served if strength_open(choice)),
        "promise": "",
    }


def answer(catalogue: Catalogue, posts: tuple[Post, ...], date: datetime.date) -> dict[str, list[Row]]:
    """Rows of each file in data/, by the file's name."""
    catalogue, posts = floats(catalogue), floats(posts)
    policy = whole_policy(catalogue)
    active = [mount for mount in catalogue.mounts if mount.active]
    ranked = {(post.site, post.code): choices(post, catalogue, policy) for post in posts}
    sites = [[post for post in posts if post.site == site] for site in dict.fromkeys(post.site for post in posts)]
    customers = groups(sites, catalogue)
    for group in customers:
        pair = one_board(group, ranked)
        for key in ((post.site, post.code) for site in group.sites for post in site):
            ranked[key] = best_first(ranked[key], group.terms.choice, pair)
    best = {key: kits[0] if kits else None for key, kits in ranked.items()}
    until = (date + datetime.timedelta(days=policy["quote_valid_days"])).isoformat()
    quoted = {
        site[0].site: q
        for group in customers
        for site, q in zip(group.sites, quotes(group, chosen(group, ranked, group.terms.choice), catalogue, policy), strict=True)
    }
    return {
        "mount_fit": [fit_row(post, mount, catalogue, policy) for post in posts for mount in active],
        "kits": [kit_row(p, n, c) for p in posts for n, c in enumerate(ranked[p.site, p.code], start=1)],
        "posts": [post_row(p, best[p.site, p.code], policy) for p in posts],
        "extensions": [extension_row(p, kit) for p in posts if (kit := best[p.site, p.code]) and kit.fit.extension],
        "quote_lines": [row for site in sites for row in line_rows(site[0].site, quoted[site[0].site])],
        "sites": [site_row([(p, best[p.site, p.code]) for p in site], quoted[site[0].site], policy, until) for site in sites],
        "customers": [customer_row(group, ranked, catalogue, policy, until) for group in customers],
        "options": [row for group in customers for row in option_rows(group, ranked, catalogue, policy)],
    }

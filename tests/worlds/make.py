"""A world by its seed: catalogue, posts, and the folder that holds them."""

from __future__ import annotations

import dataclasses
import random
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

from oracle.answer import whole_policy
from oracle.customers import chosen, groups
from oracle.kits import choices
from oracle.model import Post, floats
from oracle.money import goods

from .catalogues import Made, make_catalogue
from .surveys import make_posts
from .write import write_catalogue, write_survey


@dataclass(frozen=True)
class World:
    """A catalogue with its policy rows, and posts."""

    made: Made
    posts: tuple[Post, ...]


def ordered(made: Made, posts: tuple[Post, ...]) -> list[dict[str, int]]:
    """Quantities by item of every order: a site's, or all sites' of a customer that orders together."""
    plain, policy = floats(made.catalogue), whole_policy(made.catalogue)
    sites = [[floats(p) for p in posts if p.site == site] for site in dict.fromkeys(p.site for p in posts)]
    ranked = {(p.site, p.code): choices(p, plain, policy) for site in sites for p in site}
    out = []
    for group in groups(sites, plain):
        some = chosen(group, ranked, group.terms.choice)
        for site in [[pair for pairs in some for pair in pairs]] if group.terms.together else some:
            out.append({code: quantity for code, (quantity, _) in goods(site).items()})
    return out


def sharpen_money(made: Made, posts: tuple[Post, ...]) -> Made:
    """Puts price breaks and freight bounds exactly on what some orders come to; neither enters the ranking."""
    catalogue = made.catalogue
    by_code = {i.code: i for kind in (catalogue.mounts, catalogue.boards, catalogue.rings, catalogue.extensions) for i in kind}
    breaks: dict[tuple[str, int], Decimal] = {}
    masses: list[Fraction] = []
    for order in ordered(made, posts):
        masses.append(sum((q * Fraction(by_code[code].mass) for code, q in order.items()), Fraction(0)))
        for n, (code, quantity) in enumerate(order.items()):
            if quantity > 1 and n % 2:
                breaks[code, quantity] = by_code[code].price * Decimal("0.9")
                breaks[code, quantity + 1] = by_code[code].price * Decimal("0.8")
    whole = whole_policy(catalogue)["currency"] == "JPY"
    cents = Decimal(1) if whole else Decimal("0.01")
    rows = tuple((code, q, p.quantize(cents)) for (code, q), p in sorted(breaks.items()))
    bounds = sorted({m for m in masses if m} | {m - Fraction(1, 1000) for m in masses[:1] if m})
    freight = (*((m, Decimal(90 + 37 * n)) for n, m in enumerate(bounds)), (None, Decimal(990)))
    return dataclasses.replace(made, catalogue=dataclasses.replace(catalogue, breaks=rows, freight=freight))


def fit_world(seed: int, posts: int = 120, sites: int = 12) -> World:
    """A world for fit and ring height: hard edges everywhere."""
    rng = random.Random(seed)
    made = make_catalogue(rng, seed, mounts=20, boards=5, extensions=20)
    return World(made, make_posts(rng, made.catalogue, sites, posts, calm=False))


def money_world(seed: int, posts: int = 60, sites: int = 24) -> World:
    """A world for kits, ranking and money: mostly sound posts, wishes, least widths, quantities."""
    rng = random.Random(1000 + seed)
    made = make_catalogue(rng, seed, mounts=18, boards=9, extensions=16)
    standing = make_posts(rng, made.catalogue, sites, posts, calm=True)
    return World(sharpen_money(made, standing), standing)


def write_world(world: World, folder: Path, seed: int) -> tuple[Path, Path]:
    """Writes `surveys/` and `catalogue.xlsx`; three sites share a survey file."""
    rng = random.Random(9000 + seed)
    surveys = folder / "surveys"
    surveys.mkdir(parents=True)
    write_catalogue(world.made, folder / "catalogue.xlsx", rng)
    sites = list(dict.fromkeys(p.site for p in world.posts))
    for n in range(0, len(sites), 3):
        here = set(sites[n : n + 3])
        write_survey(tuple(p for p in world.posts if p.site in here), surveys / f"grounds-{n // 3 + 1}.xlsx", rng)
    return surveys, folder / "catalogue.xlsx"

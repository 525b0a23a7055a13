"""A world by its seed: catalogue, posts, and the folder that holds them."""

from __future__ import annotations

import dataclasses
import random
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

from oracle.answer import whole_policy
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


def sharpen_money(made: Made, posts: tuple[Post, ...]) -> Made:
    """Puts price breaks and freight bounds exactly on what some sites order; neither enters the ranking."""
    catalogue, plain = made.catalogue, floats(made.catalogue)
    policy = whole_policy(catalogue)
    by_code = {i.code: i for kind in (catalogue.mounts, catalogue.boards, catalogue.rings, catalogue.extensions) for i in kind}
    breaks: dict[tuple[str, int], Decimal] = {}
    masses: list[Fraction] = []
    for site in dict.fromkeys(p.site for p in posts):
        chosen = []
        for post in posts:
            if post.site == site:
                kits = choices(floats(post), plain, policy)
                chosen.append((post, kits[0] if kits else None))
        ordered = {code: quantity for code, (quantity, _) in goods(chosen).items()}
        masses.append(sum((q * Fraction(by_code[code].mass) for code, q in ordered.items()), Fraction(0)))
        for n, (code, quantity) in enumerate(ordered.items()):
            if quantity > 1 and n % 2:
                breaks[code, quantity] = by_code[code].price * Decimal("0.9")
                breaks[code, quantity + 1] = by_code[code].price * Decimal("0.8")
    whole = policy["currency"] == "JPY"
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

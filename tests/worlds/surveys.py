"""Made-up posts: each aims at one mount and then sits on, or a hair beside, an edge of one rule or two."""

from __future__ import annotations

import math
import random
from fractions import Fraction
from typing import Any

from oracle.answer import whole_policy
from oracle.fit import height_uncertainty, size_uncertainty
from oracle.model import Catalogue, Mount, Post

from .catalogues import NAMES
from .units import MPH, feet, inches, mm

METHODS = ("calipers", "tape round the post", "rule across", "pipe mark", "drawing", "estimate")
SLOPES = (math.atan(0.01), math.atan(1 / 48), math.radians(1))
HAIR = Fraction(1, 10000)  # a tenth of a millimetre: well beyond the slack, well under any measure
RISES = (None, None, None, None, None, inches(2), -inches(3), mm(25), inches("1.5"), Fraction(0))
NOMINAL = (
    ("NPS 3", inches("3.5"), None),
    ("NPS 4", inches("4.5"), None),
    ("NPS 3 1/2", inches(4), None),
    ("DN 80", mm("88.9"), None),
    ("DN 100", mm("114.3"), None),
    ("NPS 3 sch 40", inches("3.5"), inches("0.216")),
    ("3 in sch 80", inches("3.5"), inches("0.300")),
    ("4 in sch 40", inches("4.5"), inches("0.237")),
)
"""As typed, outside size, wall that the schedule gives. Source: ASME B36.10M table 1 (memory)."""


def near(rng: random.Random, edges: list[Fraction]) -> Fraction:
    """One of the edges, exactly or a hair to either side."""
    return rng.choice(edges) + rng.choice((0, 0, HAIR, -HAIR))


def exact(value: float | Fraction) -> Fraction:
    return value if isinstance(value, Fraction) else Fraction(repr(value))


def size_for(rng: random.Random, mount: Mount, bare: Post, policy: dict[str, Any]) -> Fraction:
    middle = exact((mount.least + mount.most) / 2)
    if bare.measured in ("pipe mark", "drawing"):
        share = exact(size_uncertainty(Post("", "", size=1, measured=bare.measured), policy))
        return near(rng, [middle, middle, mount.least, mount.most, mount.least / (1 + share), mount.most / (1 - share)])
    u = exact(size_uncertainty(bare, policy))
    inside = [mount.least + u, mount.most - u] if bare.measured == "estimate" else []
    return near(rng, [middle, middle, mount.least, mount.most, mount.least - u, mount.most + u, *inside])


def height_edges(rng: random.Random, mount: Mount, bare: Post, catalogue: Catalogue, policy: dict[str, Any]) -> list[Fraction]:
    """Heights at which a rule about this mount turns."""
    tol, u = exact(policy["ring_height_tolerance"]), exact(height_uncertainty(bare, policy))
    wanted = bare.wanted or policy["ring_height_wanted"]
    even = max(exact(w) for w in wanted) + (bare.rise or 0) + mount.needed - mount.for_ring
    edges = [even, even + inches(6), even - tol, even - tol - u, even - tol + u, even + inches(12) - mount.clamp]
    usable = [e for e in catalogue.extensions if e.shape == mount.shape and mount.least <= e.upper <= mount.most]
    for e in rng.sample(usable, min(3, len(usable))):
        edges += [
            even - e.added,
            even - e.added - tol,
            even - e.added + (e.upper_clear - mount.clamp),
            even - e.added + inches(1),
        ]
    return [edge for edge in edges if feet(5) + HAIR < edge < feet(19)] or [feet(9)]


def wanted_for(rng: random.Random, mount: Mount, policy: dict[str, Any]) -> tuple[Fraction, ...] | None:
    if rng.random() < 0.45:
        return None
    top = rng.choice((feet(10), mm(3050), feet(9), feet("9.5")))
    tol = exact(policy["ring_height_tolerance"])
    below = [exact(mount.travel), inches(6), inches(12), inches(24), exact(mount.step), 2 * exact(mount.step)]
    lower = {near(rng, [top - b, top - b - tol, top - b + tol]) for b in rng.sample(below, rng.randrange(4))}
    return (top, *sorted((w for w in lower if mm(1850) < w < top - HAIR), reverse=True))


def lean_for(rng: random.Random, policy: dict[str, Any], calm: bool) -> float | None:
    level = math.asin(float(policy["ring_level_tolerance"]) / 0.450)
    limit = float(policy["lean_limit"])
    if rng.random() < (0.85 if calm else 0.6):
        return None
    return rng.choice(
        (0.0, level, level - 0.001, level + 0.001, limit, limit + 0.001, math.atan(0.01), math.atan(1 / 48), math.radians(1))
    )


def clear_for(rng: random.Random, mount: Mount, post: Post, policy: dict[str, Any], catalogue: Catalogue) -> Fraction | None:
    """On the edge of CLEAR, or of an extension's joint."""
    if rng.random() < 0.6:
        return None
    wanted = post.wanted or policy["ring_height_wanted"]
    margin = post.height - (post.rise or 0) + mount.for_ring - mount.needed - max(exact(w) for w in wanted)
    joints = [e.joint_length for e in catalogue.extensions]
    clear = near(rng, [max(margin, Fraction(0)) + mount.clamp, *rng.sample(joints, min(1, len(joints)))])
    return clear if mm(60) < clear < post.height else None


def some(rng: random.Random, share: float, *values: Any) -> Any:
    """Mostly None, else one of the values."""
    return rng.choice(values) if rng.random() < share else None


def wall_for(rng: random.Random, size: Fraction, catalogue: Catalogue, calm: bool) -> Fraction | None:
    """Unknown, plain, or one that puts the bore on the edge of a spigot's window."""
    bores = [b for e in catalogue.extensions if e.bore_least is not None for b in (e.bore_least, e.bore_most)]
    edges = [w for b in bores if mm("1.5") < (w := (size - b) / 2) < min(mm(20), size / 6)]
    if edges and rng.random() < 0.3:
        return near(rng, edges)
    thick = (inches("0.4"), mm(9)) if calm else (inches("1/8"), mm(3), mm(2))
    return some(rng, 0.9 if calm else 0.6, inches("0.216"), inches("1/4"), mm(5), *thick)


def bare_post(rng: random.Random, site: str, code: str, mount: Mount, policy: dict[str, Any]) -> Post:
    return Post(
        site, code,
        shape=mount.shape if rng.random() < 0.93 else rng.choice(("round", "square", "other")),
        measured=rng.choice((None, *METHODS, "estimate")),
        height_measured=rng.choice((None, None, "tape", "level or laser", "drawing", "estimate")),
        rise=rng.choice(RISES),
        wanted=wanted_for(rng, mount, policy),
    )  # fmt: skip


def odd_words(rng: random.Random, calm: bool) -> dict[str, Any]:
    """Words of the survey; a calm post mostly has the good ones, so that kits are sold."""
    odd = 0.02 if calm else 0.08

    def word(good: tuple[Any, ...], bad: tuple[Any, ...]) -> Any:
        return rng.choice(bad) if rng.random() < odd else rng.choice(good)

    return {
        "material": rng.choice((*("steel",) * (9 if calm else 3), None, "unknown", "aluminium", "wood")),
        "line": word(("straight",), ("gooseneck", "bent", "unknown", "tapered")),
        "base": word((None, "cast in", "ground sleeve", "driven", "unknown"), ("base plate", "portable")),
        "fittings": word(("none", "removable"), ("fixed", "unknown")),
        "condition": word((*("sound", "surface rust") * 4, None, "unknown"), ("corroded", "cracked", "loose")),
    }


def engineer(rng: random.Random, calm: bool) -> dict[str, Any]:
    """What an engineer has said, with a name or without, up to a moment or for any kit; whether a lean is shimmed.

    Most calm posts are cleared, so that whole sites get ready.
    """
    return {
        "cleared": some(rng, 0.8 if calm else 0.5, *("yes",) * (20 if calm else 4), "no"),
        "shimmed": some(rng, 0.4, "yes", "no"),
        "cleared_by": some(rng, 0.95 if calm else 0.8, "An engineer, licence 20117"),
        "cleared_moment": some(rng, 0.5, 1500, 4000, 9000, 30000),
    }


def plain_post(rng: random.Random, post: Post, mount: Mount, policy: dict[str, Any]) -> Post:
    """The same post well inside the mount's window and tall enough, so that whole sites get ready."""
    wanted = post.wanted or policy["ring_height_wanted"]
    even = max(exact(w) for w in wanted) + (post.rise or 0) + mount.needed - mount.for_ring
    size = post.size if post.typed_size else (mount.least + mount.most) / 2
    return Post(**vars(post) | {"size": size, "shape": mount.shape, "height": even + inches(rng.choice((0, 2, 6)))})


def make_post(rng: random.Random, site: str, code: str, catalogue: Catalogue, calm: bool) -> Post:
    policy = whole_policy(catalogue)
    mount = rng.choice(catalogue.mounts)
    bare = bare_post(rng, site, code, mount, policy)
    size = size_for(rng, mount, bare, policy)
    basis = some(rng, 0.3, "outside diameter" if bare.shape == "round" else "outside width")
    pipe: tuple[str | None, Any, Any] = (None, None, None)
    if bare.shape == "round" and bare.measured == "pipe mark" and rng.random() < 0.7:
        pipe = rng.choice(NOMINAL)
        basis, size = "nominal pipe size", pipe[1]
    elif bare.shape == "round" and bare.measured == "tape round the post" and rng.random() < 0.7:
        basis = "circumference"
    raw = {name: value for name, value in vars(bare).items() if name not in ("size", "basis")}
    post = Post(**raw | {"size": size, "basis": basis, "typed_size": pipe[0]})
    tall = Post(**vars(post) | {"height": near(rng, height_edges(rng, mount, post, catalogue, policy))})
    if calm and rng.random() < 0.6:
        tall = plain_post(rng, tall, mount, policy)
    more = odd_words(rng, calm) | {
        "clear": clear_for(rng, mount, tall, policy, catalogue),
        "lean": lean_for(rng, policy, calm),
        "wall": pipe[2] or wall_for(rng, size, catalogue, calm),
        "footing_depth": some(rng, 0.3, feet(3), feet(4), mm(1200)),
        "soil": some(rng, 0.4, 1, 2, 3, 4, 5),
        "wind": some(rng, 0.4, 115 * MPH, 140 * MPH, Fraction("45"), Fraction(60)),
        "exposure": some(rng, 0.4, "B", "C", "D"),
    }  # fmt: skip
    more |= engineer(rng, calm)
    if more["base"] not in ("driven", "base plate"):
        more["footing_diameter"] = some(rng, 0.4, inches(12), inches(18), mm(600))
    return Post(**vars(tall) | more)


def wishes(rng: random.Random, catalogue: Catalogue) -> dict[str, Any]:
    """Items asked for (some unknown, withdrawn or not viable there), a least width, a quantity."""

    def ask(items: tuple[Any, ...], alien: str) -> str | None:
        return some(rng, 0.35, *(i.code for i in items), alien)

    return {
        "mount_asked": ask(catalogue.mounts, "M-99"),
        "board_asked": ask(catalogue.boards, "B-99"),
        "ring_asked": ask(catalogue.rings, "R-99"),
        "least_width": some(rng, 0.4, inches(44), inches(48), inches(48) + HAIR, inches(54), mm(1372)),
        "quantity": rng.choice((1, 1, 1, 2, 3, 4, 7, 12)),
    }


def make_posts(rng: random.Random, catalogue: Catalogue, sites: int, count: int, calm: bool) -> tuple[Post, ...]:
    """Posts in natural order of site and post."""
    out: list[Post] = []
    for s in range(sites):
        ground = {
            "site_name": f"Ground {s + 1} at {('Larch', 'Mill', 'Stone', 'Ferry')[s % 4]} Road",
            "site_kind": (None, "school", "park", "league", "other")[s % 5],
            "customer": (None, *NAMES, NAMES[0].upper().replace(" ", "  "))[s % 6],
        }
        for p in range(count // sites + (s < count % sites)):
            post = make_post(rng, f"G{s + 1}", f"P{p + 1}", catalogue, calm)
            out.append(Post(**vars(post) | ground | (wishes(rng, catalogue) if calm else {})))
    return tuple(out)

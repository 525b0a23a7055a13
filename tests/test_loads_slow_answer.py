"""The screen against a slow answer: one kit at a time, plain arithmetic, roots by scipy.

Written from the design's text and not from the code; the two share nothing but the kits.
"""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest
from loads_kits import POLICY, made_up
from scipy.optimize import brentq

from pipeline.loads.load_arrays import LoadInputs
from pipeline.loads.screen import screen

G = 9.80665


def one(k: LoadInputs, i: int) -> SimpleNamespace:
    """Kit i as plain numbers."""
    return SimpleNamespace(**{name: values[i].item() for name, values in vars(k).items()})


def tube(p, t):
    """A, I, S, Z. Square: a square with rounded corners less a smaller one, each corner by its own integral."""
    d = p.size - 2 * t
    if not p.square:
        inertia = math.pi / 64 * (p.size**4 - d**4)
        return math.pi / 4 * (p.size**2 - d**2), inertia, inertia / (p.size / 2), (p.size**3 - d**3) / 6

    def solid(b, r):
        # cut at the corners: middle strip of full height, and two side strips of flat height with quarter discs
        flat, quarter = b / 2 - r, math.pi * r**2 / 4
        middle = (b - 2 * r) * b**3 / 12
        sides = 2 * r * (2 * flat) ** 3 / 12
        q = 4 * r / (3 * math.pi)  # centroid of a quarter disc from its flat sides
        disc = math.pi * r**4 / 16 - quarter * q**2  # about its own centroid
        inertia = middle + sides + 4 * (disc + quarter * (flat + q) ** 2)
        plastic = (b - 2 * r) * b**2 / 4 + 2 * r * flat**2 + 4 * quarter * (flat + q)
        return b**2 - (4 - math.pi) * r**2, inertia, plastic

    outer, inner = solid(p.size, 2 * t), solid(d, t)
    area, inertia, plastic = (o - i for o, i in zip(outer, inner, strict=True))
    return area, inertia, inertia / (p.size / 2), plastic


def bending(p, t, fy, e):
    """Mn of F8 or F7, and whether the wall is within the limits."""
    _, inertia, s, z = tube(p, t)
    if p.square:
        lam, root = (p.size - 3 * t) / t, math.sqrt(e / fy)
        ok = lam <= 5.70 * root
        if lam <= 1.12 * root:
            return fy * z, ok
        if lam <= 1.40 * root:
            return min(fy * z, fy * z - (fy * z - fy * s) * (3.57 * lam * math.sqrt(fy / e) - 4)), ok
        width = p.size - 3 * t
        be = min(width, 1.92 * t * root * (1 - 0.38 / lam * root))
        lost = width - be
        inertia -= 2 * (lost * t * ((p.size - t) / 2) ** 2 + lost * t**3 / 12)
        return fy * inertia / (p.size / 2), ok
    lam = p.size / t
    ok = lam <= 0.45 * e / fy
    if lam <= 0.07 * e / fy:
        return fy * z, ok
    if lam <= 0.31 * e / fy:
        return min(fy * z, (0.021 * e / lam + fy) * s), ok
    return min(fy * z, 0.33 * e / lam * s), ok


def share(p, t, carried, moment):
    """H1 utilisation of the post alone."""
    fy, e, length = POLICY["steel_yield"], POLICY["steel_modulus"], p.height + p.added
    area, inertia, _, _ = tube(p, t)
    axial = carried + G * 7850 * area * p.height
    pe = math.pi**2 * e * inertia / (2.1 * length) ** 2
    if 1.6 * axial >= pe or 1 / (1 - 1.6 * axial / pe) > 1.5:
        return math.inf
    b = 1 / (1 - 1.6 * axial / pe)
    slender = 2.1 * length / math.sqrt(inertia / area)
    fe = math.pi**2 * e / slender**2
    fcr = 0.658 ** (fy / fe) * fy if fy / fe <= 2.25 else 0.877 * fe
    pr, mr = axial / (fcr * area / 1.67), b * moment / (bending(p, t, fy, e)[0] / 1.67)
    return pr + 8 / 9 * mr if pr >= 0.2 else pr / 2 + mr


def drag(p):
    ratio = (p.height + p.added) / p.size
    a, b, c = (1.3, 1.4, 2.0) if p.square else (0.7, 0.8, 1.2)
    if ratio <= 1:
        return a
    if ratio <= 7:
        return a + (b - a) * (ratio - 1) / 6
    return b + (c - b) * (ratio - 7) / 18 if ratio <= 25 else c


def blow(p, speed, least):
    """Forces of board, post, extension and their heights."""
    alpha, zg = ((7, 365.76), (9.5, 274.32), (11.5, 213.36))[p.exposure]

    def pressure(z, kd, cf):
        kz = 2.01 * (max(z, 4.572) / zg) ** (2 / alpha)
        return max(least, 0.613 * kz * kd * speed**2 * POLICY["gust_factor"] * cf)

    bottom = p.ring_top + p.court_rise - 0.150
    board = pressure(bottom + p.board_height, 0.85, POLICY["board_drag"]) * p.board_width * p.board_height
    post = pressure(p.height + p.added, 0.90 if p.square else 1.0, drag(p))
    upper = post * p.upper_size * p.added if p.extended else 0.0
    return board, bottom + p.board_height / 2, post * p.size * p.height, p.height / 2, upper, p.height + p.added / 2


def cases(p):
    """(moment, V, axial without own weight, joint moment) of hang, push, storm."""
    clamped = p.upper_size if p.extended else p.size
    e_b = clamped / 2 + p.overhang
    m_d = G * (p.mount_mass * (clamped / 2 + p.overhang / 2) + p.board_mass * e_b + p.ring_mass * (e_b + 0.151 + 0.225))
    w = G * (p.mount_mass + p.board_mass + p.ring_mass + p.extension_mass)
    length, z_r = p.height + p.added, p.ring_top + p.court_rise
    out = []
    for case, speed, least, factor in (("hang", 15.0, 0.0, 1.0), ("push", 15.0, 0.0, 1.0), ("storm", p.wind_speed, 766.0, 0.6)):
        board, z_b, post, z_p, upper, z_u = blow(p, speed, least)
        hung = w + (3200.0 if case == "hang" else 0.0)
        live = {"hang": 3200.0 * e_b, "push": 1000.0 * z_r, "storm": 0.0}[case]
        joint_live = {"hang": 3200.0 * e_b, "push": 1000.0 * abs(z_r - p.height), "storm": 0.0}[case]
        moment = m_d + live + math.sin(p.lean) * length * hung + factor * (board * z_b + post * z_p + upper * z_u)
        joint = m_d + joint_live + math.sin(p.lean) * p.added * hung
        joint += factor * (board * abs(z_b - p.height) + upper * p.added / 2)
        out.append((moment, factor * (board + post + upper) + (1000.0 if case == "push" else 0.0), hung, joint))
    return out


def embedment(p, v, m):
    """d = A/2 (1 + sqrt(1 + 4.36 h/A)) with S1 = k d/3, d/3 at most 4 ft, by a root finder on the printed formula."""
    b = (p.size * math.sqrt(2) if p.square else p.size) if p.driven else p.footing_diameter
    k = (1200, 400, 200, 150, 100)[p.soil_class - 1] * 47.88025898 / 0.3048

    def off(d):
        a = 2.34 * v / (k * min(d / 3, 1.2192) * b)
        return d - a / 2 * (1 + math.sqrt(1 + 4.36 * (m / v) / a))

    return brentq(off, 1e-3, 200.0, xtol=1e-12)


def answer(p) -> dict[str, float]:
    """Every figure of one kit."""
    (hang, push, storm), t = cases(p), 0.93 * p.wall
    out = {"moment_play": max(hang[0], push[0]), "moment_storm": storm[0]}
    out["hung_mass"] = p.mount_mass + p.board_mass + p.ring_mass + p.extension_mass
    out["footing_depth_needed"] = math.nan if p.base_plate else max(embedment(p, c[1], c[0]) for c in (hang, push, storm))
    out["footing_confirm"] = p.footing_depth < out["footing_depth_needed"] - 1e-6
    known = not math.isnan(p.wall)
    unknown = not known or not p.steel or (p.extended and math.isnan(p.rated_moment))
    unknown = unknown or not bending(p, t, 207e6, 200e9)[1]
    shares = [math.nan] * 3
    if not unknown:
        joints = [c[3] / p.rated_moment if p.extended else 0.0 for c in (hang, push, storm)]
        shares = [max(share(p, t, c[2], c[0]), j) for c, j in zip((hang, push, storm), joints, strict=True)]
    out["utilisation_play"], out["utilisation_storm"] = (math.nan if unknown else max(shares[:2])), shares[2]
    out["load_state"] = 2 if unknown else 0 if max(shares) <= 1 else 1

    def over(wall):
        if not bending(p, 0.93 * wall, 207e6, 200e9)[1]:
            return 1e3
        return min(max(share(p, 0.93 * wall, c[2], c[0]) for c in (hang, push, storm)), 1e3) - 1

    enough = p.steel_or_unknown and over(p.size / 5) <= 0
    out["wall_needed"] = brentq(over, 1e-5, p.size / 5, xtol=1e-10) if enough else math.nan
    e_b, bends = p.size / 2 + p.overhang, known and p.steel_or_unknown and not p.extended
    sag = 3200.0 * e_b * (e_b + 0.376) * p.height / (200e9 * tube(p, t)[1]) if bends else math.nan
    out["ring_sag"] = sag
    return out


@pytest.fixture(scope="module")
def both():
    kits = made_up(600, seed=7)
    fast = screen(kits, POLICY)
    return fast, [answer(one(kits, i)) for i in range(600)]


@pytest.mark.parametrize(
    "name",
    ["moment_play", "moment_storm", "utilisation_play", "utilisation_storm", "footing_depth_needed", "ring_sag", "hung_mass"],
)
def test_figures_equal_the_slow_answer(both, name):
    fast, slow = both
    expected = np.array([a[name] for a in slow])
    np.testing.assert_allclose(getattr(fast, name), expected, rtol=1e-6, atol=0)
    assert np.isfinite(expected).sum() > 150


def test_wall_needed_equals_the_slow_answer(both):
    fast, slow = both
    expected = np.array([a["wall_needed"] for a in slow])
    np.testing.assert_allclose(fast.wall_needed, expected, rtol=1e-6, atol=1e-8)
    assert np.isfinite(expected).sum() > 150
    assert np.isnan(expected).sum() > 30


@pytest.mark.parametrize("name", ["load_state", "footing_confirm"])
def test_verdicts_equal_the_slow_answer(both, name):
    fast, slow = both
    expected = [int(a[name]) for a in slow]
    assert getattr(fast, name).astype(int).tolist() == expected
    assert min(np.bincount(expected)) > 30


def test_the_made_up_kits_reach_every_corner(both):
    fast, _ = both
    assert np.isinf(fast.utilisation_play).sum() > 10
    assert (fast.footing_depth_needed > 3.6576).sum() > 10
    assert np.isnan(fast.footing_depth_needed).sum() > 10

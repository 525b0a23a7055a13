"""Strength against design examples, as a public verification page restates them, and against buckling analysis."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import brentq

from pipeline.loads import flexure, strength
from pipeline.loads.section import Section, round_tube, square_tube

E = 29000.0  # ksi; the AISC rows are in inches and kips, in which the formulas hold as well


def moment(shape: str, size: float, wall: float, fy: float) -> float:
    """Allowable moment [kip ft]."""
    d, t, square = np.array([size]), np.array([wall]), np.array([shape == "square"])
    tube = square_tube(d, t) if shape == "square" else round_tube(d, t)
    return flexure.bending_strength(square, d, t, tube, flexure.slenderness(square, d, t), fy, E).item() / 12


# what, got, expected, relative tolerance. Sources stand on each row.
BENDING = [
    # Source: AISC Design Examples, version 15.0, example F.9B, eq. F8-1 (restated: a public verification page)
    ("Pipe 8 XS, Fy 35, Mn/1.67 [kip ft]", lambda: moment("round", 8.625, 0.465, 35), 54.14, 0.003),
    ("Pipe 8 XS, Fy 35, Mn [kip ft]", lambda: 1.67 * moment("round", 8.625, 0.465, 35), 90.4, 0.003),
    # Source: AISC Design Examples, version 15.0, example F.8B, eq. F7-3, slender flange (restated: the same page)
    ("HSS8x8x3/16, Fy 50, Mn/1.67", lambda: moment("square", 8, 0.174, 50), 30.2, 0.005),
    ("HSS8x8x3/16, Fy 50, Mn", lambda: 1.67 * moment("square", 8, 0.174, 50), 50.4, 0.005),
    # Source: AISC Design Examples, version 14.0, example F.8B (restated: the same page)
    ("HSS8x8x3/16, Fy 46, Mn", lambda: 1.67 * moment("square", 8, 0.174, 46), 47.2, 0.005),
    # Source: AISC Design Examples, version 15.0, example F.6, eq. F7-2, just noncompact (restated: the same page)
    ("HSS3-1/2x3-1/2x1/8, Fy 50, Mn/1.67", lambda: moment("square", 3.5, 0.116, 50), 4.80, 0.005),
    # Source: AISC Design Examples, version 14.0, example F.6, eq. F7-1, compact (restated: the same page)
    ("HSS3-1/2x3-1/2x1/8, Fy 46, Mn/1.67", lambda: moment("square", 3.5, 0.116, 46), 4.44, 0.005),
    # Source: AISC Design Examples, version 15.0, example F.8B, eq. F7-4 (restated: the same page)
    ("be of HSS8x8x3/16, Fy 50 [in]", lambda: flexure.effective_width(43.0, 0.174, 50, E), 6.33, 0.001),
    # Source: AISC Design Examples, version 14.0, example F.7B, eq. F7-2 with its tabled Z, S and b/t (restated: the same page)
    ("F7-2 at b/t 31.5, Fy 46, Mn/1.67", lambda: noncompact(18.0, 14.9, 31.5, 46) / 12 / 1.67, 37.9, 0.002),
    # Source: AISC Manual, 15th edition, flexural tables, as restated in example F.6 (restated: the same page)
    ("HSS3-1/2x3-1/2x1/8, Manual", lambda: moment("square", 3.5, 0.116, 50), 4.79, 0.005),
]


def noncompact(z: float, s: float, lam: float, fy: float) -> float:
    tube = Section(*(np.array([x]) for x in (1.0, 1.0, s, z)))
    return flexure.square_moment(tube, np.array([8.0]), np.array([0.2]), np.array([lam]), fy, E).item()


@pytest.mark.parametrize("row", BENDING, ids=lambda r: r[0])
def test_bending(row):
    assert row[1]() == pytest.approx(row[2], rel=row[3])


def test_effective_second_moment():
    """Source: AISC Design Examples, version 15.0, example F.8B: I effective 48.3 in4 (restated: the same page)."""
    d, t = np.array([8.0]), np.array([0.174])
    lost = np.array([43.0 * 0.174 - 6.33])
    assert flexure.effective_modulus(square_tube(d, t), d, t, lost).item() * 4 == pytest.approx(48.3, rel=0.005)


# Source: AISC Manual, 15th edition, table 4-14, Fcr/1.67 at Fy 36 (memory): KL/r, ksi
@pytest.mark.parametrize(("slender", "stress"), [(40, 19.8), (80, 15.4), (120, 10.1), (200, 3.76)])
def test_buckling_stress_of_table_4_14(slender, stress):
    assert strength.compression_stress(np.array([slender]), 36, E).item() / 1.67 == pytest.approx(stress, rel=0.005)


def compressed(tube: Section, height: float, fy: float) -> np.ndarray:
    """Allowable axial load of a cantilever [kip]."""
    slender = strength.column_slenderness(np.array([height]), tube.inertia, tube.area)
    return strength.compression_strength(strength.compression_stress(slender, fy, E), tube.area)


def test_round_column():
    """Source: AISC 360-16, E3: round 10 x 0.25 in, Fy 50, KL 60 in: Fcr 48.91, Pn 374.5 (restated: that page)."""
    tube = round_tube(np.array([10.0]), np.array([0.25]))
    assert np.sqrt(tube.inertia / tube.area).item() == pytest.approx(3.448, rel=0.001)
    assert strength.compression_stress(np.array([60 / 3.448]), 50, E).item() == pytest.approx(48.91, rel=0.001)
    assert 1.67 * compressed(tube, 60 / 2.1, 50).item() == pytest.approx(374.5, rel=0.001)


def test_long_pipe_column():
    """Source: AISC 360-16, E3 at KL/r 97.8, Fy 35: Fcr 21.45 ksi (by hand)."""
    assert strength.compression_stress(np.array([97.8]), 35, E).item() == pytest.approx(21.45, rel=0.003)


def test_beams_h1():
    """Source: AISC 360-16, H1.1, eq. H1-1a and H1-1b (memory): both meet at P/Pc 0.2 where the sum is 1."""
    assert strength.combined(np.array([0.2]), np.array([0.9])).item() == pytest.approx(1.0)
    assert strength.combined(np.array([0.2 - 1e-12]), np.array([0.9])).item() == pytest.approx(1.0)
    assert strength.combined(np.array([0.5]), np.array([0.45])).item() == pytest.approx(0.9)
    assert strength.combined(np.array([0.1]), np.array([0.45])).item() == pytest.approx(0.5)


# ---- a post of NPS 3 schedule 40, design wall 0.93 of it, 3 m, 3200 N hung at 0.9 m: SI
TUBE = round_tube(np.array([0.0889]), np.array([0.93 * 0.00549]))
LENGTH = np.array([3.0])


@pytest.mark.parametrize("share", [0.02, 0.1, 0.2, 1 / 3])
def test_second_order_covers_the_exact_cantilever(share):
    """Source: Timoshenko and Gere, Theory of Elastic Stability: moment at the foot times 1/cos(L sqrt(P/EI)) (memory)."""
    pe = strength.euler_load(TUBE.inertia, LENGTH, 200e9)
    axial = share * pe / 1.6
    exact = 1 / math.cos(3.0 * math.sqrt(axial.item() / (200e9 * TUBE.inertia.item())))
    assert strength.second_order(axial, pe).item() >= exact


def test_euler_load_of_a_cantilever():
    """Source: cos(L sqrt(P/EI)) = 0, its least root (computed with scipy brentq), times (2.0/2.1)^2."""
    ei = 200e9 * TUBE.inertia.item()
    root = brentq(lambda p: math.cos(3.0 * math.sqrt(p / ei)), 1e3, 2e5, xtol=1e-6)
    assert strength.euler_load(TUBE.inertia, LENGTH, 200e9).item() == pytest.approx(root * (2.0 / 2.1) ** 2, rel=1e-9)

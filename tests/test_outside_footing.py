"""Footing depth against the code's table, worked figures of others and scipy."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import brentq

from pipeline.loads import footing

LB, FT, PSF = 4.4482216152605, 0.3048, 47.88025898
PSF_FT = PSF / FT

# Source: IBC 2018, table 1806.2, lateral bearing below natural grade (restated: a public copy of IBC 2012): class, psf/ft
SOILS = [(1, 1200), (2, 400), (3, 200), (4, 150), (5, 100)]

# load [lb], its height [ft], diameter [ft], bearing [psf/ft], depth [ft], relative tolerance
DEPTHS = [
    # Source: ASCE, Engineering with the Spreadsheet (2006), figure 16-1 (restated: a public excerpt)
    (510, 4, 1.0, 266, 5.02, 2e-3),
    # Source: IBC 2006, 1805.7.2.1, a worked page that says "almost 6.5" (restated: that page); computed with scipy brentq
    (480, 5, 1.5, 100, 6.440, 1e-3),
    # Source: IBC 2018, eq. 18-1 as printed (computed with scipy brentq; numpy.roots agrees)
    (1000, 10, 2.0, 150, 7.5592, 1e-4),
    (2000, 8, 2.0, 100, 11.1786, 1e-4),
    (300, 10, 1.0, 200, 5.5775, 1e-4),
]


def feet(load: float, height: float, diameter: float, bearing: float) -> float:
    v, m = np.array([load * LB]), np.array([load * LB * height * FT])
    return footing.depth(v, m, np.array([diameter * FT]), np.array([bearing * PSF_FT])).item() / FT


@pytest.mark.parametrize(("soil", "psf_ft"), SOILS)
def test_soil_table(soil, psf_ft):
    assert footing.soil_bearing(np.array([soil])).item() == pytest.approx(psf_ft * PSF_FT, rel=1e-12)


def test_bearing_unit():
    """Source: IBC 2018, table 1806.2, 1 psf/ft = 0.157 kPa/m (restated: a copy of IBC 2012); NIST SP 811: 157.087 Pa/m."""
    assert footing.soil_bearing(np.array([5])).item() / 100 == pytest.approx(157.087, abs=0.001)


@pytest.mark.parametrize("row", DEPTHS, ids=lambda r: f"{r[0]} lb at {r[1]} ft")
def test_depths(row):
    assert feet(*row[:4]) == pytest.approx(row[4], rel=row[5])


def test_one_trial_of_a_worked_page():
    """Source: IBC 2009, 18-1, worked page: 1.33 kN at 8 m, b 0.849, 31.4 kPa/m, trial 1.55 m gives 1.52 m (restated: that page).

    The formula falls as the trial grows, so the depth lies between trial and result.
    """
    d = footing.depth(np.array([1330.0]), np.array([1330.0 * 8]), np.array([0.849]), np.array([31400.0])).item()
    assert 1.52 < d < 1.55


def test_without_lateral_force():
    """Source: IBC 2018, eq. 18-1 in the limit V = 0 (algebra): 4000 N m, 0.45 m, class 4: 1.42383 m."""
    d = footing.depth(np.array([0.0]), np.array([4000.0]), np.array([0.45]), footing.soil_bearing(np.array([4])))
    assert d.item() == pytest.approx(1.42383, abs=1e-5)


# Source: IBC 2018, eq. 18-1 as printed, S1 = k d/3 capped at 12 ft (computed here with scipy brentq)
GRID = [
    (v, m, b, k)
    for v in (1.0, 900.0, 6000.0, 40000.0)
    for m in (50.0, 4000.0, 30000.0, 200000.0)
    for b in (0.06, 0.45, 1.5)
    for k in (15708.75, 188504.9)
]


def test_the_printed_formula_holds_at_the_depth():
    v, m, b, k = np.array(GRID).T
    got = footing.depth(v, m, b, k)
    expected = [printed(*row) for row in GRID]
    np.testing.assert_allclose(got, expected, rtol=1e-8)
    assert (got > 3.6576).sum() > 10
    assert (got < 3.6576).sum() > 10


def printed(v: float, m: float, b: float, k: float) -> float:
    def off(d: float) -> float:
        a = 2.34 * v / (k * min(d / 3, 4 * FT) * b)
        return d - 0.5 * a * (1 + math.sqrt(1 + 4.36 * (m / v) / a))

    return brentq(off, 1e-4, 1e4, xtol=1e-13, rtol=1e-14)


def test_continuous_at_12_feet():
    """Both sides of the clause's edge, approached in load: no step, and it keeps growing."""
    m = np.linspace(50000.0, 80000.0, 20001)
    d = footing.depth(np.full(m.shape, 1500.0), m, np.full(m.shape, 0.45), np.full(m.shape, 150 * PSF_FT))
    steps = np.diff(d)
    assert d[0] < 3.6576 < d[-1]
    assert steps.min() > 0
    assert steps.max() < 1e-3


def test_a_driven_post_bears_with_its_own_size():
    """Source: IBC 2018, 1807.3.2.1, b: diameter of a round post, diagonal of a square one (memory)."""
    square, size = np.array([False, True, False]), np.array([0.1, 0.1, 0.1])
    b = footing.bearing_width(square, size, np.array([True, True, False]), np.array([0.45, 0.45, 0.45]))
    assert b.tolist() == pytest.approx([0.1, 0.1 * math.sqrt(2), 0.45])


def test_nothing_to_hold_wants_no_depth():
    """Source: IBC 2018, eq. 18-1 with V = M = 0."""
    nothing = np.zeros(2)
    np.testing.assert_array_equal(footing.depth(nothing, nothing, np.full(2, 0.45), np.full(2, 20e3)), nothing)

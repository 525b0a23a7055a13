"""Wind against tables and a sign sheet as public copies restate them, and the standard atmosphere."""

from __future__ import annotations

import numpy as np
import pytest
from fluids import ATMOSPHERE_1976
from loads_kits import POLICY, kit

from pipeline.loads import constants, wind
from pipeline.loads.screen import figures

FT, PSF, LB, MPH = 0.3048, 47.88025898, 4.4482216152605, 0.44704

# Source: ASCE 7-16, table 26.10-1 (15 and 20 ft: restated, the 7-10 table; 25 and 30 ft: memory)
KZ = [
    (15, (0.57, 0.85, 1.03)),
    (20, (0.62, 0.90, 1.08)),
    (25, (0.66, 0.94, 1.12)),
    (30, (0.70, 0.98, 1.16)),
]


@pytest.mark.parametrize("exposure", [0, 1, 2])
@pytest.mark.parametrize(("feet", "expected"), KZ)
def test_kz_table(feet, expected, exposure):
    got = wind.height_factor(np.array([feet * FT]), np.array([exposure])).item()
    assert got == pytest.approx(expected[exposure], abs=0.006)


@pytest.mark.parametrize("exposure", [0, 1, 2])
def test_kz_is_level_below_15_feet(exposure):
    """Source: ASCE 7-16, table 26.10-1, note 1: z not less than 15 ft (restated: the 7-10 table)."""
    low, edge, above = wind.height_factor(np.array([1.0, 4.572, 4.6]), np.array([exposure] * 3))
    assert low == edge < above


def test_half_the_density_of_air():
    """Source: US Standard Atmosphere 1976 / ISO 2533 (computed with fluids 1.3.1); ASCE 7 rounds up to 0.613."""
    assert ATMOSPHERE_1976(0).rho / 2 == pytest.approx(0.61250, abs=1e-5)
    assert abs(constants.WIND / (ATMOSPHERE_1976(0).rho / 2) - 1) < 1e-3


def test_sign_sheet():
    """Source: a public ASCE 7-10 29.4 sign sheet, the same as 7-16 29.3 (restated: that sheet): 155 mph, D, 20 ft, 7.48 ft2."""
    kz = wind.height_factor(np.array([20 * FT]), np.array([2]))
    q = wind.velocity_pressure(kz, 0.85, 155 * MPH)
    force = wind.wind_pressure(q, 0.85, 1.80) * 7.48 * FT**2
    assert kz.item() == pytest.approx(1.083, rel=0.001)
    assert q.item() / PSF == pytest.approx(56.62, rel=0.001)
    assert force.item() / LB == pytest.approx(648, rel=0.001)
    assert 0.6 * force.item() / LB == pytest.approx(389, abs=0.5)  # printed to the pound


# Source: ASCE 7-16, table 26.6-1 (restated: the 7-10 table)
@pytest.mark.parametrize(("square", "kd"), [(False, 1.0), (True, 0.90)])
def test_directionality_of_the_post(square, kd):
    assert wind.post_directionality(np.array([square])).item() == kd


def test_directionality_of_the_board():
    """Source: ASCE 7-16, table 26.6-1, solid freestanding signs (restated: the 7-10 table)."""
    v = figures(kit(wind_speed=51.4), POLICY)
    assert v["q_B.storm"].item() == pytest.approx(0.613 * 0.85 * v["Kz.board"].item() * 51.4**2)


# Source: ASCE 7-16, figure 29.4-1 (memory), linear between the columns 1, 7, 25
ROUND = [(0.5, 0.700), (1, 0.700), (2, 0.7167), (4, 0.750), (7, 0.800), (13, 0.933), (16, 1.000), (25, 1.200), (40, 1.200)]
SQUARE = [(0.5, 1.300), (1, 1.300), (2, 1.3167), (4, 1.350), (7, 1.400), (16, 1.700), (25, 2.000), (40, 2.000)]
# Kd Cf as the check list has them: (L/D, Kd Cf of a square post)
SQUARE_KD = [(1, 1.170), (4, 1.215), (7, 1.260), (16, 1.530), (25, 1.800), (40, 1.800)]


@pytest.mark.parametrize(("ratio", "cf"), ROUND)
def test_drag_of_round_posts(ratio, cf):
    assert wind.post_drag(np.array([False]), np.array([ratio])).item() == pytest.approx(cf, abs=0.001)


@pytest.mark.parametrize(("ratio", "cf"), SQUARE)
def test_drag_of_square_posts(ratio, cf):
    assert wind.post_drag(np.array([True]), np.array([ratio])).item() == pytest.approx(cf, abs=0.001)


@pytest.mark.parametrize(("ratio", "kd_cf"), SQUARE_KD)
def test_drag_with_directionality_of_square_posts(ratio, kd_cf):
    square = np.array([True])
    got = wind.post_drag(square, np.array([ratio])) * wind.post_directionality(square)
    assert got.item() == pytest.approx(kd_cf, abs=0.001)


def test_least_pressure():
    """Source: ASCE 7-16, 29.7: 16 psf (memory); NIST SP 811 for the unit (computed with pint)."""
    assert abs(16 * PSF - 766.1) < 0.1
    assert wind.storm_pressure(np.array([700.0, 800.0]), 1.0, 1.0, 766.0).tolist() == [766.0, 800.0]


def test_board_force_of_the_check_list():
    """72 x 42 in board, C, 51.4 m/s: 0.6 F = 2094 N (by hand with eq. 29.3-1, Kz 0.849: a regression)."""
    kz = wind.height_factor(np.array([3.9]), np.array([1]))
    force = 0.6 * wind.wind_pressure(wind.velocity_pressure(kz, 0.85, 51.4), 0.85, 1.8) * (72 * 42 * 0.0254**2)
    assert force.item() == pytest.approx(2094, rel=0.002)

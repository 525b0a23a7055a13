"""Depth of an embedded post: IBC 1807.3.2.1, not constrained, by plain bisection."""

from __future__ import annotations

import math

FOOT = 0.3048
PSF_PER_FOOT = 4.4482216152605 / FOOT**3  # Pa per metre of depth; Source: pound-force and foot by definition (SP 811)
LATERAL_BEARING = {1: 1200, 2: 400, 3: 200, 4: 150, 5: 100}
"""psf per foot of depth. Source: IBC table 1806.2."""


def printed(force: float, moment: float, stress: float, width: float) -> float:
    """d = A/2 (1 + sqrt(1 + 4.36 h/A)) at a fixed bearing S1 [Pa]; its limit where the force is nil."""
    if force == 0:
        return math.sqrt(1.09 * 2.34 * moment / (stress * width))
    a = 2.34 * force / (stress * width)
    return a / 2 * (1 + math.sqrt(1 + 4.36 * (moment / force) / a))


def depth(force: float, moment: float, width: float, k: float) -> float:
    """Depth [m] at which the printed formula, with S1 = k d/3 (k [Pa/m]), gives itself."""
    if moment <= 0 and force <= 0:
        return 0.0
    low, high = 1e-6, 100.0
    for _ in range(70):
        middle = (low + high) / 2
        bearing = k * min(middle, 12 * FOOT) / 3
        if printed(force, moment, bearing, width) > middle:
            low = middle
        else:
            high = middle
    return (low + high) / 2

"""Depth of a round footing that is not held at the ground."""

from __future__ import annotations

from math import sqrt

import numpy as np

from pipeline.loads.constants import BEARING_FACTOR, FOOTING_DEEP, HEIGHT_FACTOR, SOIL_BEARING
from pipeline.loads.load_arrays import Bools, Floats, Ints
from schemas.lengths import SLACK

_LEVER = BEARING_FACTOR * HEIGHT_FACTOR / 4  # 2.5506: the factor of M in d^2 = A d + 2.5506 M/(S1 b)


def soil_bearing(soil_class: Ints) -> Floats:
    """Lateral bearing per metre of depth k (k,) [Pa/m].

    soil_class: row 1 to 5 of the table, 0 = not read (k,). Range: 1 crystalline bedrock to 5 clay; no doubling (1806.3.4).
    Source: IBC 2018, table 1806.2 (restated: IBC 2012).
    """
    return SOIL_BEARING[soil_class]


def bearing_width(square: Bools, size: Floats, driven: Bools, footing: Floats) -> Floats:
    """Width b that bears on the soil (k,) [m]: the footing's diameter; of a driven post its own, or its diagonal.

    square: the post is square, else round (k,); size: D (k,) [m]; driven: no footing (k,);
    footing: diameter of the footing (k,) [m]. Range: round footings; a square one's diagonal.
    Source: IBC 2018, 1807.3.2.1, b: diameter of a round post or footing, diagonal of a square one (memory).
    """
    return np.where(driven, np.where(square, sqrt(2) * size, size), footing)


def _cubic(c: Floats, r: Floats) -> Floats:
    """The real root > 0 of d^3 - c d - r = 0 for c, r >= 0, in closed form, without cancellation."""
    half, third = r / 2, c / 3
    rest = half**2 - third**3
    u = np.cbrt(half + np.sqrt(np.maximum(rest, 0.0)))
    d = u + third / np.where(u > 0, u, 1.0)
    three = rest < 0  # three real roots: the greatest, by angles
    if np.any(three):
        h, s = half[three], np.sqrt(third[three])
        d[three] = 2 * s * np.cos(np.arccos(np.minimum(h / s**3, 1.0)) / 3)
    return d


def depth(lateral: Floats, moment: Floats, width: Floats, bearing: Floats) -> Floats:
    """Depth of embedment d, not constrained at the ground (k,) [m].

    lateral: force V (k,) [N]; moment: at the ground M (k,) [N m]; width: b (k,) [m]; bearing: k (k,) [Pa/m].
    S1 = k d/3 gives d^3 - C d - 7.6518 M/(k b) = 0, C = 7.02 V/(k b), up to 12 ft; beyond, S1 stays at
    k x 4 ft and the formula d = A/2 (1 + sqrt(1 + 4.36 h/A)), A = 2.34 V/(S1 b), h = M/V, holds as printed.
    Both hold at V = 0 (h M/V multiplied out). Range: V, M >= 0.
    Source: IBC 2018, 1807.3.2.1, eq. 18-1 (restated: worked pages of IBC 2006 and 2009); S1 beyond 12 ft: its safe reading.
    """
    lateral, moment = np.maximum(lateral, 0.0), np.maximum(moment, 0.0)
    kb = bearing * width
    shallow = _cubic(3 * BEARING_FACTOR * lateral / kb, 3 * _LEVER * moment / kb)
    deepest = kb * (FOOTING_DEEP / 3)  # S1 b
    half = BEARING_FACTOR * lateral / deepest / 2
    deep = half + np.sqrt(half**2 + _LEVER * moment / deepest)
    return np.where(shallow <= FOOTING_DEEP, shallow, deep)


def short_term(bearing: Floats, factor: float) -> Floats:
    """Lateral bearing under loads that do not last (k,) [Pa/m].

    bearing: k (k,) [Pa/m]; factor: policy `soil_short_term_factor`, 1 to 2 [-]. Range: where half an inch of
    movement at the ground does no harm.
    Source: IBC 2018, 1806.3.4 and 1807.3.2.1, short-term load (memory).
    """
    return bearing * factor


def lasting_depth(moment: Floats, width: Floats, bearing: Floats) -> Floats:
    """Depth of embedment under the permanent loads alone, which push nothing sideways (k,) [m].

    moment: of the permanent loads (k,) [N m]; width: b (k,) [m]; bearing: k without the short-term factor (k,) [Pa/m].
    Range: as `depth`.
    Source: IBC 2018, 1807.3.2.1, eq. 18-1 in the limit V = 0; 1806.3.4 for the single value (memory).
    """
    return depth(np.zeros_like(moment), moment, width, bearing)


def depth_needed(base_plate: Bools, *depths: Floats) -> Floats:
    """The deepest of some depths (k,) [m]; NaN on a base plate, whose anchors are for an engineer.

    base_plate: (k,); depths: of each case (k,) [m]. Range: never less than the local frost depth.
    Source: IBC 2018, 1807.3.2.1 (restated: worked pages of IBC 2006 and 2009).
    """
    return np.where(base_plate, np.nan, np.max(depths, axis=0))


def to_confirm(stated: Floats, needed: Floats, diameter_stated: Bools, driven: Bools, slack: float = SLACK) -> Bools:
    """A footing is to be confirmed (k,): too shallow, or nobody knows what holds the post.

    stated: depth of the footing (k,) [m], NaN = unknown; needed: (k,) [m], NaN = none is given; diameter_stated: its
    diameter is (k,); driven: there is none (k,); slack: how much less is no matter [m]. Range: any.
    Source: house rule, limits are inclusive with a slack of 1e-6 m; what is not known never passes.
    """
    unknown = np.isnan(stated) | ~(diameter_stated | driven)
    return unknown | (stated + slack < needed)

"""Section properties of round and square tubes."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

import numpy as np

from pipeline.loads.load_arrays import Bools, Floats

_CORNER_AREA = 1 - pi / 4
_CORNER_ARM = (10 - 3 * pi) / (12 - 3 * pi)
_CORNER_INERTIA = 1 / 3 - pi / 16 - 1 / (3 * (12 - 3 * pi))


@dataclass(frozen=True)
class Section:
    """Properties about an axis through the middle, each (k,)."""

    area: Floats  # A [m2]
    inertia: Floats  # I [m4]
    elastic: Floats  # S [m3]
    plastic: Floats  # Z [m3]


def design_wall(wall: Floats, factor: float) -> Floats:
    """Wall to compute with, t (k,) [m].

    wall: stated wall (k,) [m], NaN = unknown; factor: share of it that counts, 0.93 [-]. Range: any.
    Source: AISC 360-16, B4.2, 0.93 of the nominal wall (memory).
    """
    return factor * wall


def round_tube(size: Floats, wall: Floats) -> Section:
    """Exact properties of a round tube.

    size: outside diameter D (k,) [m]; wall: t (k,) [m]. Range: t <= D/2.
    Source: geometry of the ring; the same as EN 10219-2, annex B.3 (memory).
    """
    inner = size - 2 * wall
    size2, inner2 = size * size, inner * inner
    # D^2 - d^2 as 4 t (D - t): no cancellation in thin walls
    area = pi * wall * (size - wall)
    inertia = area * (size2 + inner2) / 16
    plastic = wall * (size2 + size * inner + inner2) / 3  # (D^3 - d^3)/6
    return Section(area, inertia, 2 * inertia / size, plastic)


def square_tube(size: Floats, wall: Floats) -> Section:
    """Properties of a square tube with outer corner radius 2t and inner t.

    size: outside width (k,) [m]; wall: t (k,) [m]. Range: t <= D/4.
    EN 10219-2's own radii are 2.5t above 6 mm and 3t above 10 mm: there these are 2 to 17 % on the unsafe side.
    From t = 0.177 D on the rounder corners take more of I than the wall adds (0.2 % at t = 0.186 D).
    Source: EN 10219-2, annex B.2 formulas (memory), with the AISC Manual part 1's radius 2t (memory).
    """
    inner = size - 2 * wall
    outer_r, inner_r = 2 * wall, wall
    outer_a, inner_a = _CORNER_AREA * outer_r**2, _CORNER_AREA * inner_r**2
    outer_h, inner_h = size / 2 - _CORNER_ARM * outer_r, inner / 2 - _CORNER_ARM * inner_r
    outer_i = _CORNER_INERTIA * outer_r**4 + outer_a * outer_h**2
    inner_i = _CORNER_INERTIA * inner_r**4 + inner_a * inner_h**2
    area = 4 * wall * (size - wall) - 4 * (outer_a - inner_a)
    inertia = (size**4 - inner**4) / 12 - 4 * (outer_i - inner_i)
    plastic = (size**3 - inner**3) / 4 - 4 * (outer_a * outer_h - inner_a * inner_h)
    return Section(area, inertia, 2 * inertia / size, plastic)


def section(square: Bools, size: Floats, wall: Floats) -> Section:
    """Properties of each post's tube at the wall t.

    square: the post is square, else round (k,); size: outside size D (k,) [m]; wall: t (k,) [m], NaN = unknown.
    Range: t <= D/4.
    Source: `round_tube` and `square_tube`.
    """
    if not np.any(square):
        return round_tube(size, wall)
    r, s = round_tube(size, wall), square_tube(size, wall)
    return Section(
        np.where(square, s.area, r.area),
        np.where(square, s.inertia, r.inertia),
        np.where(square, s.elastic, r.elastic),
        np.where(square, s.plastic, r.plastic),
    )

"""Bending strength of round and square steel tubes, ASD."""

from __future__ import annotations

import numpy as np

from pipeline.loads.constants import SAFETY_FLEXURE
from pipeline.loads.load_arrays import Bools, Floats
from pipeline.loads.section import Section


def slenderness(square: Bools, size: Floats, wall: Floats) -> Floats:
    """Wall slenderness lambda (k,) [-]: D/t of a round, (D - 3t)/t of a square tube.

    square: the post is square, else round (k,); size: outside size D (k,) [m]; wall: t (k,) [m].
    Range: t <= D/4.
    Source: AISC 360-16, B4.1b: flat width = width less 3t where the radius is not known (restated: AISC Design Examples).
    """
    return np.where(square, size - 3 * wall, size) / wall


def slenderness_most(square: Bools, fy: float, modulus: float) -> Floats:
    """Slenderness beyond which this screen says `unknown` (k,) [-].

    square: the post is square, else round (k,); fy: yield stress [Pa]; modulus: E [Pa].
    Range: steel. Round: F8 holds to 0.45 E/Fy. Square: 5.70 sqrt(E/Fy), a house limit for this screen.
    Source: AISC 360-16, F8 (restated: AISC Design Examples); AISC 360-16, table B4.1b, case 19 web limit lambda_r (memory).
    """
    return np.where(square, 5.70 * np.sqrt(modulus / fy), 0.45 * modulus / fy)


def least_design_wall(square: Bools, size: Floats, fy: float, modulus: float) -> Floats:
    """Design wall t whose slenderness is just `slenderness_most` (k,) [m].

    square: the post is square, else round (k,); size: D (k,) [m]; fy: yield stress [Pa]; modulus: E [Pa].
    Range: steel.
    Source: `slenderness` solved for t.
    """
    return size / (slenderness_most(square, fy, modulus) + np.where(square, 3.0, 0.0))


def round_moment(tube: Section, lam: Floats, fy: float, modulus: float) -> Floats:
    """Nominal bending strength Mn of a round tube (k,) [N m].

    tube: properties at the design wall; lam: D/t (k,) [-]; fy: yield stress [Pa]; modulus: E [Pa].
    Fy Z up to 0.07 E/Fy; (0.021 E/lambda + Fy) S up to 0.31 E/Fy; 0.33 E/lambda S beyond; never above Fy Z.
    Range: lam <= 0.45 E/Fy.
    Source: AISC 360-16, F8, eq. F8-1 to F8-4, limits of table B4.1b, case 20 (restated: AISC Design Examples).
    """
    plastic = fy * tube.plastic
    noncompact = (0.021 * modulus / lam + fy) * tube.elastic
    slender = 0.33 * modulus / lam * tube.elastic
    local = np.where(lam <= 0.31 * modulus / fy, noncompact, slender)
    return np.where(lam <= 0.07 * modulus / fy, plastic, np.minimum(plastic, local))


def effective_width(lam: Floats, wall: Floats, fy: float, modulus: float) -> Floats:
    """Width of a slender flange that still works, be (k,) [m]; in its range less than the whole flat width.

    lam: (D - 3t)/t (k,) [-]; wall: t (k,) [m]; fy: yield stress [Pa]; modulus: E [Pa].
    Range: lam > 1.40 sqrt(E/Fy).
    Source: AISC 360-16, F7, eq. F7-4 (restated: AISC Design Examples).
    """
    root = np.sqrt(modulus / fy)
    return 1.92 * wall * root * (1 - 0.38 / lam * root)


def effective_modulus(tube: Section, size: Floats, wall: Floats, lost: Floats) -> Floats:
    """Elastic modulus Se (k,) [m3] with a strip of both flanges lost, the axis kept.

    tube: whole section; size: D (k,) [m]; wall: t (k,) [m]; lost: width of the strip (k,) [m].
    Range: square tubes. Taking the strip off both flanges is the safe side of F7, which takes one.
    Source: AISC 360-16, F7, eq. F7-3, both flanges as in ex. F.8B of version 15.0 (restated: AISC Design Examples).
    """
    strip = lost * wall * (((size - wall) / 2) ** 2 + wall**2 / 12)
    return (tube.inertia - 2 * strip) / (size / 2)


def square_moment(tube: Section, size: Floats, wall: Floats, lam: Floats, fy: float, modulus: float) -> Floats:
    """Nominal bending strength Mn of a square tube (k,) [N m].

    tube: properties at the design wall; size: D (k,) [m]; wall: t (k,) [m]; lam: (D - 3t)/t (k,) [-];
    fy: yield stress [Pa]; modulus: E [Pa]. Mp = Fy Z up to 1.12 sqrt(E/Fy); Mp - (Mp - Fy S)
    (3.57 lambda sqrt(Fy/E) - 4.0), at most Mp, up to 1.40 sqrt(E/Fy); Fy Se beyond.
    Range: lam <= 5.70 sqrt(E/Fy).
    Source: AISC 360-16, F7, eq. F7-1 to F7-4, limits of table B4.1b, case 17 (restated: AISC Design Examples).
    """
    root = np.sqrt(modulus / fy)
    plastic = fy * tube.plastic
    noncompact = np.minimum(plastic, plastic - (plastic - fy * tube.elastic) * (3.57 * lam / root - 4.0))
    lost = lam * wall - effective_width(lam, wall, fy, modulus)
    slender = fy * effective_modulus(tube, size, wall, lost)
    return np.where(lam <= 1.12 * root, plastic, np.where(lam <= 1.40 * root, noncompact, slender))


def bending_strength(square: Bools, size: Floats, wall: Floats, tube: Section, lam: Floats, fy: float, modulus: float) -> Floats:
    """Allowable bending moment Mc = Mn/1.67 (k,) [N m].

    square: the post is square, else round (k,); size: D (k,) [m]; wall: design wall t (k,) [m]; tube: its
    properties; lam: `slenderness` (k,) [-]; fy: yield stress [Pa]; modulus: E [Pa].
    Range: slenderness up to `slenderness_most`.
    Source: AISC 360-16, F1 (Omega 1.67), F7 and F8 (restated: AISC Design Examples).
    """
    nominal = round_moment(tube, lam, fy, modulus)
    if np.any(square):
        nominal = np.where(square, square_moment(tube, size, wall, lam, fy, modulus), nominal)
    return nominal / SAFETY_FLEXURE

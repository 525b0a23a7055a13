"""Strength of the standing post at the ground line: compression, second order, both together."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

import numpy as np

from pipeline.loads.constants import ASD_FACTOR, EFFECTIVE_LENGTH, SAFETY_COMPRESSION, SECOND_ORDER_MOST
from pipeline.loads.dead import own_weight
from pipeline.loads.flexure import bending_strength
from pipeline.loads.load_arrays import Bools, Floats
from pipeline.loads.section import Section, section


@dataclass(frozen=True)
class Capacity:
    """What a post of one design wall can take, each (k,)."""

    tube: Section
    own: Floats  # its own weight [N]
    bending: Floats  # Mc [N m]
    compression: Floats  # Pc [N]
    euler: Floats  # Pe [N]


def euler_load(tube: Section, length: Floats, modulus: float) -> Floats:
    """Elastic buckling load Pe = pi^2 E I/(2.1 L)^2 (k,) [N].

    tube: properties; length: L (k,) [m]; modulus: E [Pa]. Range: a cantilever, fixed at the ground, free to sway.
    Source: AISC 360-16, appendix 8.2, Pe, and table C-A-7.1, K = 2.1 (published).
    """
    return pi**2 * modulus * tube.inertia / np.square(EFFECTIVE_LENGTH * length)


def compression_stress(slender: Floats, fy: float, modulus: float) -> Floats:
    """Critical stress Fcr of flexural buckling (k,) [Pa].

    slender: K L/r (k,) [-]; fy: yield stress [Pa]; modulus: E [Pa].
    0.658^(Fy/Fe) Fy up to Fy/Fe = 2.25, 0.877 Fe beyond, Fe = pi^2 E/(KL/r)^2.
    Range: walls that are not slender (E7 is not looked at).
    Source: AISC 360-16, E3, eq. E3-2 to E3-4 (published).
    """
    ratio = fy * np.square(slender) / (pi**2 * modulus)  # Fy/Fe
    return np.where(ratio <= 2.25, fy * 0.658**ratio, 0.877 * fy / ratio)


def compression_strength(tube: Section, length: Floats, fy: float, modulus: float) -> Floats:
    """Allowable axial load Pc = Fcr A/1.67 with K = 2.1 over L (k,) [N].

    tube: properties; length: L (k,) [m]; fy: yield stress [Pa]; modulus: E [Pa].
    Range: walls that are not slender (E7 is not looked at).
    Source: AISC 360-16, E1 (Omega 1.67) and E3, eq. E3-1 (published).
    """
    slender = EFFECTIVE_LENGTH * length / np.sqrt(tube.inertia / tube.area)
    return compression_stress(slender, fy, modulus) * tube.area / SAFETY_COMPRESSION


def second_order(axial: Floats, euler: Floats) -> Floats:
    """Multiplier B = 1/(1 - 1.6 P/Pe) of the first-order moment (k,) [-]; inf where P reaches Pe/1.6.

    axial: P (k,) [N]; euler: Pe (k,) [N]. Range: up to 1.5; beyond, this screen gives no figure.
    Source: AISC 360-16, appendix 8.2, multiplier of moments, alpha = 1.6 for ASD (published).
    """
    share = ASD_FACTOR * axial / euler
    return np.where(share >= 1, np.inf, 1 / np.where(share >= 1, 1.0, 1 - share))


def combined(axial_share: Floats, moment_share: Floats) -> Floats:
    """Utilisation under compression and bending (k,) [-].

    axial_share: P/Pc (k,) [-]; moment_share: B M/Mc (k,) [-]. P/Pc + 8/9 B M/Mc where P/Pc >= 0.2,
    else P/(2 Pc) + B M/Mc. Range: bending about one axis.
    Source: AISC 360-16, H1.1, eq. H1-1a and H1-1b (published).
    """
    return np.where(axial_share >= 0.2, axial_share + 8 / 9 * moment_share, axial_share / 2 + moment_share)


def capacity(square: Bools, size: Floats, height: Floats, length: Floats, wall: Floats, fy: float, modulus: float) -> Capacity:
    """What each post can take at the design wall.

    square: the post is square, else round (k,); size: D (k,) [m]; height: H (k,) [m]; length: L (k,) [m];
    wall: design wall t (k,) [m], NaN = unknown; fy: yield stress [Pa]; modulus: E [Pa].
    Range: steel, slenderness up to `slenderness_most`.
    Source: AISC 360-16, E3, F7, F8, appendix 8 (published).
    """
    tube = section(square, size, wall)
    return Capacity(
        tube,
        own_weight(tube.area, height),
        bending_strength(square, size, wall, tube, fy, modulus),
        compression_strength(tube, length, fy, modulus),
        euler_load(tube, length, modulus),
    )


def post_utilisation(post: Capacity, carried: Floats, moment: Floats) -> Floats:
    """Share of the post's strength that one case takes (k,) [-]; inf where B > 1.5, NaN where the wall is unknown.

    post: its capacity; carried: axial load without the post's own weight (k,) [N]; moment: first-order moment
    at the ground (k,) [N m]. Range: slenderness up to `slenderness_most`.
    Source: AISC 360-16, H1.1, appendix 8; appendix 7.2.1 for the limit of 1.5 (published).
    """
    axial = carried + post.own
    b = second_order(axial, post.euler)
    usable = np.where(b > SECOND_ORDER_MOST, 1.0, b)
    share = combined(axial / post.compression, usable * moment / post.bending)
    return np.where(b > SECOND_ORDER_MOST, np.inf, share)

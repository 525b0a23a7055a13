"""Strength of the standing post: compression, second order, what a driven post adds, all together."""

from __future__ import annotations

from math import pi

import numpy as np

from pipeline.loads.constants import ASD_FACTOR, EFFECTIVE_LENGTH, SAFETY_COMPRESSION, SECOND_ORDER_MOST
from pipeline.loads.load_arrays import Bools, Floats


def euler_load(inertia: Floats, height: Floats, modulus: float) -> Floats:
    """Elastic buckling load Pe = pi^2 E I/(2.1 h_c)^2 (k,) [N].

    inertia: I (k,) [m4]; height: h_c, the load's own height, not the post's (k,) [m]; modulus: E [Pa].
    Range: a cantilever, fixed at the ground, free to sway.
    Source: AISC 360-16, appendix 8.2, Pe, and table C-A-7.1, K = 2.1 (memory).
    """
    return pi**2 * modulus * inertia / np.square(EFFECTIVE_LENGTH * height)


def column_slenderness(height: Floats, inertia: Floats, area: Floats) -> Floats:
    """Slenderness of the post as a column K h_c/r, K = 2.1, r = sqrt(I/A) (k,) [-].

    height: h_c (k,) [m]; inertia: I (k,) [m4]; area: A (k,) [m2]. Range: a cantilever.
    Source: AISC 360-16, E2 and table C-A-7.1, K = 2.1 (memory).
    """
    return EFFECTIVE_LENGTH * height / np.sqrt(inertia / area)


def compression_stress(slender: Floats, fy: float, modulus: float) -> Floats:
    """Critical stress Fcr of flexural buckling (k,) [Pa].

    slender: K h_c/r (k,) [-]; fy: yield stress [Pa]; modulus: E [Pa].
    0.658^(Fy/Fe) Fy up to Fy/Fe = 2.25, 0.877 Fe beyond, Fe = pi^2 E/slender^2.
    Range: walls that are not slender (E7 is not looked at).
    Source: AISC 360-16, E3, eq. E3-2 to E3-4 (restated: a public verification page).
    """
    ratio = fy * np.square(slender) / (pi**2 * modulus)  # Fy/Fe
    return np.where(ratio <= 2.25, fy * 0.658**ratio, 0.877 * fy / ratio)


def compression_strength(stress: Floats, area: Floats) -> Floats:
    """Allowable axial load Pc = Fcr A/1.67 (k,) [N].

    stress: Fcr (k,) [Pa]; area: A (k,) [m2]. Range: walls that are not slender (E7 is not looked at).
    Source: AISC 360-16, E1 (Omega 1.67) and E3, eq. E3-1 (memory).
    """
    return stress * area / SAFETY_COMPRESSION


def axial_load(carried: Floats, own: Floats) -> Floats:
    """Axial load P at the ground (k,) [N].

    carried: what hangs on the post (k,) [N]; own: the post's own weight (k,) [N]. Range: any.
    Source: statics.
    """
    return carried + own


def depth_of_no_shear(driven: Bools, lateral: Floats, width: Floats, bearing: Floats) -> Floats:
    """Depth z_0 = sqrt(2 V/(k b)) at which soil at its allowable bearing has used up the shear (k,) [m]; 0 if not driven.

    driven: no concrete round the post (k,); lateral: V (k,) [N]; width: b (k,) [m]; bearing: k, without the
    short-term factor (k,) [Pa/m]. Range: soil that bears k z b at depth z from the ground down.
    Source: statics, V = k b z_0^2/2; IBC 2018, 1806.3 for k (memory).
    """
    return np.where(driven, np.sqrt(2 * np.maximum(lateral, 0.0) / (bearing * width)), 0.0)


def greatest_moment(moment: Floats, lateral: Floats, depth: Floats) -> Floats:
    """Greatest moment M + 2/3 V z_0 (k,) [N m]: below the ground of a driven post, else that at the ground.

    moment: at the ground M (k,) [N m]; lateral: V (k,) [N]; depth: z_0 (k,) [m]. The column's length stays h_c, which
    is on the unsafe side in soft ground. Range: as `depth_of_no_shear`.
    Source: statics: V z_0 less the soil's k b z_0^3/6 = V z_0/3.
    """
    return moment + 2 / 3 * lateral * depth


def second_order(axial: Floats, euler: Floats) -> Floats:
    """Multiplier B = 1/(1 - 1.6 P/Pe) of the first-order moment (k,) [-]; inf where P reaches Pe/1.6.

    axial: P (k,) [N]; euler: Pe (k,) [N]. Range: up to 1.5; beyond, this screen gives no figure.
    Source: AISC 360-16, appendix 8.2, multiplier of moments, alpha = 1.6 for ASD (memory).
    """
    share = ASD_FACTOR * axial / euler
    return np.where(share >= 1, np.inf, 1 / np.where(share >= 1, 1.0, 1 - share))


def combined(axial_share: Floats, moment_share: Floats) -> Floats:
    """Utilisation under compression and bending (k,) [-].

    axial_share: P/Pc (k,) [-]; moment_share: B M/Mc (k,) [-]. P/Pc + 8/9 B M/Mc where P/Pc >= 0.2,
    else P/(2 Pc) + B M/Mc. Range: bending about one axis.
    Source: AISC 360-16, H1.1, eq. H1-1a and H1-1b (memory).
    """
    return np.where(axial_share >= 0.2, axial_share + 8 / 9 * moment_share, axial_share / 2 + moment_share)


def post_utilisation(axial: Floats, compression: Floats, factor: Floats, moment: Floats, bending: Floats) -> Floats:
    """Share of the post's strength that one case takes (k,) [-]; inf where B > 1.5, NaN where the wall is unknown.

    axial: P (k,) [N]; compression: Pc (k,) [N]; factor: B (k,) [-]; moment: first-order, greatest (k,) [N m];
    bending: Mc (k,) [N m]. Range: slenderness up to `slenderness_most`.
    Source: AISC 360-16, H1.1 (memory); appendix 7.2.1 for the limit of 1.5 (memory).
    """
    usable = np.where(factor > SECOND_ORDER_MOST, 1.0, factor)
    share = combined(axial / compression, usable * moment / bending)
    return np.where(factor > SECOND_ORDER_MOST, np.inf, share)


def joint_utilisation(moment: Floats, extended: Bools, rated: Floats) -> Floats:
    """Share of the rated moment that a case takes at the joint (k,) [-]; 0 without an extension, NaN if unrated.

    moment: at the joint (k,) [N m]; extended: there is an extension (k,); rated: rated moment (k,) [N m], NaN =
    unknown. Range: any.
    Source: the seller's rated moment; ratio.
    """
    return np.where(extended, moment / np.where(extended, rated, 1.0), 0.0)

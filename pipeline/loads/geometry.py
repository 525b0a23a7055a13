"""Heights above the ground and eccentricities from the post's axis."""

from __future__ import annotations

import numpy as np

from pipeline.loads.constants import RING_ABOVE_EDGE, RING_OUT
from pipeline.loads.load_arrays import Bools, Floats


def post_length(height: Floats, added: Floats) -> Floats:
    """Length L of the post with its extension, from the ground up (k,) [m].

    height: post above ground H (k,) [m]; added: height that the extension adds, 0 without one (k,) [m].
    Range: any.
    Source: geometry, L = H + added.
    """
    return height + added


def ring_height(ring_top: Floats, court_rise: Floats) -> Floats:
    """Height of the ring above the GROUND at the post, z_r (k,) [m].

    ring_top: ring above the playing surface z_top (k,) [m]; court_rise: playing surface above the ground c,
    may be negative (k,) [m]. Range: any.
    Source: geometry, z_r = z_top + c.
    """
    return ring_top + court_rise


def load_height(length: Floats, ring: Floats) -> Floats:
    """Height at which the load is taken to hang, h_c = max(L, z_r) (k,) [m].

    length: L (k,) [m]; ring: ring above the ground z_r (k,) [m]. Range: any.
    Source: house rule: a mount that lifts carries its load above the post's top; safe side where it hangs below.
    """
    return np.maximum(length, ring)


def board_centre(ring: Floats, board_height: Floats) -> Floats:
    """Height of the board's centre above the ground, z_b (k,) [m].

    ring: ring above the ground z_r (k,) [m]; board_height: height of the board (k,) [m]. Range: any.
    Source: FIBA Basketball Equipment, ring plane 150 mm above the board's lower edge (memory).
    """
    return ring - RING_ABOVE_EDGE + board_height / 2


def board_top(ring: Floats, board_height: Floats) -> Floats:
    """Height of the board's top edge above the ground (k,) [m].

    ring: ring above the ground z_r (k,) [m]; board_height: height of the board (k,) [m]. Range: any.
    Source: FIBA Basketball Equipment, ring plane 150 mm above the board's lower edge (memory).
    """
    return ring - RING_ABOVE_EDGE + board_height


def clamp_size(size: Floats, upper_size: Floats, extended: Bools) -> Floats:
    """Outside size that the mount clamps, D_m (k,) [m]: the extension's upper tube, else the post.

    size: post's outside size D (k,) [m]; upper_size: extension's upper tube (k,) [m], NaN without one;
    extended: there is an extension (k,). Range: any.
    Source: geometry.
    """
    return np.where(extended, upper_size, size)


def board_eccentricity(clamped: Floats, overhang: Floats) -> Floats:
    """Board's face from the post's axis, e_b (k,) [m].

    clamped: size that the mount clamps D_m (k,) [m]; overhang: post's front face to board's face (k,) [m].
    Range: any.
    Source: geometry, e_b = D_m/2 + overhang.
    """
    return clamped / 2 + overhang


def mount_eccentricity(clamped: Floats, overhang: Floats) -> Floats:
    """Mount's centre of mass from the post's axis (k,) [m]: taken half way along the overhang.

    clamped: size that the mount clamps D_m (k,) [m]; overhang: post's front face to board's face (k,) [m].
    Range: mounts whose mass is spread about evenly over the overhang.
    Source: common practice, e = D_m/2 + overhang/2.
    """
    return clamped / 2 + overhang / 2


def ring_eccentricity(board: Floats) -> Floats:
    """Ring's centre from the post's axis (k,) [m].

    board: eccentricity of the board's face e_b (k,) [m]. Range: rings of 450 mm at 151 mm from the board.
    Source: FIBA Basketball Equipment, gap 151 mm (memory) and radius 225 mm (memory).
    """
    return board + RING_OUT

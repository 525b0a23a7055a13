"""Loads of play: a load hung from the ring, a push at the ring; and what a leaning post adds."""

from __future__ import annotations

import numpy as np

from pipeline.loads.load_arrays import Floats


def hang_moment(play_load: float, board_out: Floats) -> Floats:
    """Moment of the hanging load, M_L (k,) [N m]: the same all the way down the post.

    play_load: vertical load where the ring joins the board [N]; board_out: board's face from the post's
    axis e_b (k,) [m]. Range: one hanging load.
    Source: EN 1270, vertical test load 3200 N (memory); M_L = play_load e_b, statics.
    """
    return play_load * board_out


def push_moment(push_load: float, ring: Floats) -> Floats:
    """Moment at the ground of a horizontal push at the ring (k,) [N m].

    push_load: horizontal load at the ring [N]; ring: height of the ring above the ground z_r (k,) [m].
    Range: ring above the ground.
    Source: GOST R 56434-2015, appendix G, outdoor equipment 1000 N (memory); M = push_load z_r, statics.
    """
    return push_load * ring


def lean_moment(lean: Floats, height: Floats, carried: Floats) -> Floats:
    """Moment that a lean towards the court adds (k,) [N m].

    lean: angle from plumb (k,) [rad], NaN = not read; height: h_c, or that above a joint (k,) [m]; carried: weight of
    mount, board, ring and extension, and of what hangs (k,) [N]; the post's own weight is left out.
    Range: 0 to 20 degrees.
    Source: statics, sin(lean) h_c W.
    """
    return np.sin(lean) * height * carried


def clamp_torque(push_load: float, ring_out: Floats) -> Floats:
    """Torque at the clamps of a pull sideways on the ring (k,) [N m]: for the mount's maker to judge.

    push_load: the pull [N]; ring_out: ring's centre from the post's axis e_r (k,) [m]. Range: any.
    Source: statics, push_load e_r.
    """
    return push_load * ring_out

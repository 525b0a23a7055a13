"""How far the ring sinks while something hangs on it."""

from __future__ import annotations

from pipeline.loads.load_arrays import Floats


def ring_sag(play_load: float, board_out: Floats, ring_out: Floats, length: Floats, inertia: Floats, modulus: float) -> Floats:
    """Sag at the ring's centre, post alone, rigid mount: F e_b e_r L/(E I) (k,) [m].

    play_load: hanging load F at the board's face [N]; board_out: e_b (k,) [m]; ring_out: e_b + 0.376 m (k,) [m];
    length: L (k,) [m]; inertia: I at the design wall (k,) [m4], NaN = unknown; modulus: E [Pa].
    Range: small rotation; no extension.
    Source: Timoshenko, Strength of Materials, end moment on a cantilever: rotation M L/(E I) (published).
    """
    return play_load * board_out * ring_out * length / (modulus * inertia)

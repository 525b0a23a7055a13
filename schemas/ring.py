"""The ring's place on a board, which the computation and every drawing share."""

from __future__ import annotations

RING_DIAMETER = 0.450
"""Inside diameter of the ring [m]."""
RING_GAP = 0.151
"""Board face to the inside of the ring [m]."""
RING_ABOVE_EDGE = 0.150
"""Ring's plane above the board's lower edge [m].

Source of all three: FIBA Basketball Equipment, ring and backboard (memory).
"""

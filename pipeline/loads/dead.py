"""Dead load: what hangs on the post for good."""

from __future__ import annotations

from pipeline.loads.constants import GRAVITY
from pipeline.loads.load_arrays import Floats


def hung_mass(mount: Floats, board: Floats, ring: Floats, extension: Floats) -> Floats:
    """Mass added to the standing post (k,) [kg].

    mount, board, ring, extension: masses, 0 where there is none (k,) [kg]. Range: any.
    Source: sum of the catalogue's masses.
    """
    return mount + board + ring + extension


def weight(mass: Floats) -> Floats:
    """Weight (k,) [N] of mass (k,) [kg]. Range: any.

    Source: ISO 80000-3, standard acceleration of free fall 9.80665 m/s2 (computed with pint).
    """
    return GRAVITY * mass


def with_hanging(weight: Floats, play_load: float) -> Floats:
    """Weight with the hanging load (k,) [N].

    weight: of mount, board, ring and extension (k,) [N]; play_load: hanging load [N]. Range: any.
    Source: statics.
    """
    return weight + play_load


def dead_moment(mount: Floats, board: Floats, ring: Floats, mount_out: Floats, board_out: Floats, ring_out: Floats) -> Floats:
    """Moment of the masses about the post's axis, M_D = sum of g m e (k,) [N m], positive towards the court.

    mount, board, ring: masses (k,) [kg]; mount_out, board_out, ring_out: their eccentricities (k,) [m].
    The extension stands on the axis. Range: any.
    Source: statics.
    """
    return GRAVITY * (mount * mount_out + board * board_out + ring * ring_out)

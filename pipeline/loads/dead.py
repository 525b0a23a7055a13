"""Dead load: what hangs on the post for good."""

from __future__ import annotations

from pipeline.loads.constants import GRAVITY, STEEL_DENSITY
from pipeline.loads.load_arrays import Floats


def hung_mass(mount: Floats, board: Floats, ring: Floats, extension: Floats) -> Floats:
    """Mass added to the standing post (k,) [kg].

    mount, board, ring, extension: masses, 0 where there is none (k,) [kg]. Range: any.
    Source: sum of the catalogue's masses.
    """
    return mount + board + ring + extension


def weight(mass: Floats) -> Floats:
    """Weight (k,) [N] of mass (k,) [kg]. Range: any.

    Source: ISO 80000-3, standard acceleration of free fall 9.80665 m/s2 (published).
    """
    return GRAVITY * mass


def dead_moment(mount: Floats, board: Floats, ring: Floats, mount_out: Floats, board_out: Floats, ring_out: Floats) -> Floats:
    """Moment of the masses about the post's axis, M_D = sum of g m e (k,) [N m], positive towards the court.

    mount, board, ring: masses (k,) [kg]; mount_out, board_out, ring_out: their eccentricities (k,) [m].
    The extension stands on the axis. Range: any.
    Source: statics.
    """
    return GRAVITY * (mount * mount_out + board * board_out + ring * ring_out)


def own_weight(area: Floats, height: Floats) -> Floats:
    """Weight of the post's own steel above the ground (k,) [N].

    area: steel section at the design wall (k,) [m2]; height: post without extension H (k,) [m].
    Range: steel posts.
    Source: EN 1991-1-1, table A.4, steel 7850 kg/m3 (memory).
    """
    return GRAVITY * STEEL_DENSITY * area * height

"""Wind on board and post: velocity pressure, directionality, force coefficients."""

from __future__ import annotations

import numpy as np

from pipeline.loads.constants import (
    DRAG_ROUND,
    DRAG_SLENDERNESS,
    DRAG_SQUARE,
    KD_BOARD,
    KD_ROUND,
    KD_SQUARE,
    KZ_ALPHA,
    KZ_FACTOR,
    KZ_GRADIENT,
    KZ_LEAST_HEIGHT,
    STORM_FACTOR,
    WIND,
)
from pipeline.loads.load_arrays import Bools, Floats, Ints


def height_factor(height: Floats, exposure: Ints) -> Floats:
    """Velocity pressure exposure coefficient Kz = 2.01 (max(z, 4.572 m)/zg)^(2/alpha) (k,) [-].

    height: above the ground z (k,) [m]; exposure: 0 B, 1 C, 2 D (k,).
    Range: up to the gradient height zg (213 to 366 m); level ground (Kzt = 1), any altitude (Ke = 1).
    Source: ASCE 7-16, table 26.10-1, note 1 and table 26.11-1 (restated: the ASCE 7-10 table).
    """
    return KZ_FACTOR * (np.maximum(height, KZ_LEAST_HEIGHT) / KZ_GRADIENT[exposure]) ** (2 / KZ_ALPHA[exposure])


def velocity_pressure(kz: Floats, kd: Floats | float, speed: Floats | float) -> Floats:
    """Velocity pressure q = 0.613 Kz Kzt Kd Ke V^2, Kzt = Ke = 1 (k,) [Pa].

    kz: exposure coefficient (k,) [-]; kd: directionality (k,) or scalar [-]; speed: 3-second gust (k,) or
    scalar [m/s]. Range: level ground; sea level is the safe side.
    Source: ASCE 7-16, 26.10.2, eq. 26.10-1.SI (restated: an ASCE 7-10 sign sheet).
    """
    return WIND * kz * kd * np.square(speed)


def post_directionality(square: Bools) -> Floats:
    """Directionality Kd of the post (k,) [-]: round 1.0, square 0.90.

    square: the post is square, else round (k,). Range: round and square.
    Source: ASCE 7-16, table 26.6-1, chimneys, tanks and similar structures (restated: the ASCE 7-10 table).
    """
    return np.where(square, KD_SQUARE, KD_ROUND)


def board_directionality(square: Bools) -> Floats:
    """Directionality Kd of the board (k,) [-]: 0.85.

    square: of any post (k,), read for its shape alone. Range: solid signs.
    Source: ASCE 7-16, table 26.6-1, solid freestanding signs (restated: the ASCE 7-10 table).
    """
    return np.full(square.shape, KD_BOARD)


def height_over_width(length: Floats, size: Floats) -> Floats:
    """Slenderness L/D of the post in the wind (k,) [-].

    length: L (k,) [m]; size: D (k,) [m]. Range: any.
    Source: ASCE 7-16, figure 29.4-1, h/D (memory).
    """
    return length / size


def post_drag(square: Bools, slenderness: Floats) -> Floats:
    """Force coefficient Cf of the post (k,) [-], linear between height over width 1, 7, 25, held at the ends.

    square: the post is square, else round (k,); slenderness: L/D (k,) [-].
    Range: round posts of small D sqrt(q), the safer row for usual posts; square ones with the wind on a face.
    Source: ASCE 7-16, figure 29.4-1 (memory).
    """
    round_ = np.interp(slenderness, DRAG_SLENDERNESS, DRAG_ROUND)
    return np.where(square, np.interp(slenderness, DRAG_SLENDERNESS, DRAG_SQUARE), round_)


def wind_pressure(q: Floats, gust: float, drag: Floats | float) -> Floats:
    """Wind force per area q G Cf (k,) [Pa].

    q: velocity pressure (k,) [Pa]; gust: gust-effect factor G [-]; drag: force coefficient Cf (k,) or scalar [-].
    Range: rigid structures, natural frequency 1 Hz or more.
    Source: ASCE 7-16, 29.3, eq. 29.3-1 and 29.4, eq. 29.4-1 (restated: an ASCE 7-10 sign sheet).
    """
    return q * gust * drag


def storm_pressure(q: Floats, gust: float, drag: Floats | float, least: float) -> Floats:
    """Wind force per area in the storm case, not less than the code's least (k,) [Pa].

    q: velocity pressure (k,) [Pa]; gust: G [-]; drag: Cf (k,) or scalar [-]; least: 766 Pa, 16 psf [Pa].
    Range: the storm case only.
    Source: ASCE 7-16, 29.3, eq. 29.3-1 and 29.4, eq. 29.4-1 (restated: an ASCE 7-10 sign sheet); 29.7 for the least (memory).
    """
    return np.maximum(wind_pressure(q, gust, drag), least)


def wind_force(pressure: Floats, wide: Floats, tall: Floats, there: Bools | bool = True) -> Floats:
    """Force of the wind, square on the board (k,) [N]; 0 where the part is not there.

    pressure: q G Cf (k,) [Pa]; wide, tall: of the part (k,) [m]; there: it exists (k,). Range: any.
    Source: ASCE 7-16, 29.3, eq. 29.3-1 (restated: an ASCE 7-10 sign sheet).
    """
    return np.where(there, pressure * wide * tall, 0.0)


def storm_force(pressure: Floats, wide: Floats, tall: Floats, there: Bools | bool = True) -> Floats:
    """Six tenths of the force of a strength-level wind, as allowable stress design has it (k,) [N].

    pressure: q G Cf (k,) [Pa]; wide, tall: of the part (k,) [m]; there: it exists (k,). Range: any.
    Source: ASCE 7-16, 2.4.1, combination D + 0.6W (restated: an ASCE 7-10 sign sheet).
    """
    return STORM_FACTOR * wind_force(pressure, wide, tall, there)

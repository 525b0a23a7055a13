"""What the load screen reads and returns: one entry a kit, arrays of shape (k,), SI, NaN = not known."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]
Bools = npt.NDArray[np.bool_]

WITHIN, OVER, UNKNOWN = 0, 1, 2

UNREAD_EXPOSURE, UNREAD_SOIL = 3, 0
"""What stands for an exposure or a soil class that was stated and could not be read."""


@dataclass(frozen=True, eq=False, repr=False)
class LoadInputs:
    """k kits, each on its post. What was stated and could not be read is NaN (`UNREAD_...` of the two classes)."""

    square: Bools
    size: Floats  # D [m]
    height: Floats  # H, without extension [m]
    court_rise: Floats  # c [m]
    lean: Floats  # [rad]
    wall: Floats  # stated wall [m], NaN = unknown
    steel: Bools  # material is steel
    steel_or_unknown: Bools
    base_plate: Bools
    driven: Bools
    footing_diameter: Floats  # [m]; not read where driven
    footing_stated: Bools  # its diameter was stated
    footing_depth: Floats  # stated [m], NaN = unknown
    soil_class: Ints  # 1 to 5
    wind_speed: Floats  # [m/s]
    exposure: Ints  # 0 B, 1 C, 2 D
    ring_top: Floats  # z_top above the playing surface [m]
    extended: Bools
    added: Floats  # [m], 0 without extension
    upper_size: Floats  # [m], NaN without extension
    rated_moment: Floats  # [N m], NaN = unknown or no extension
    extension_mass: Floats  # [kg], 0 without extension
    mount_mass: Floats
    overhang: Floats
    board_width: Floats
    board_height: Floats
    board_mass: Floats
    ring_mass: Floats


@dataclass(frozen=True, eq=False, repr=False)
class Loads:
    """The screen's figures, each (k,)."""

    moment_play: Floats  # first-order at the ground [N m]
    moment_storm: Floats
    utilisation_play: Floats  # NaN = unknown, inf = too slender for this screen
    utilisation_storm: Floats
    load_state: Ints  # WITHIN, OVER, UNKNOWN
    wall_needed: Floats  # [m], NaN = none found or not asked
    footing_depth_needed: Floats  # [m], NaN on a base plate
    footing_confirm: Bools
    ring_sag: Floats  # [m]; readers see it as ring deflection
    hung_mass: Floats  # [kg]


@dataclass(frozen=True)
class MomentPart:
    """One part of the first-order moment at the ground: what it is, and how much in each case, each (k,) [N m]."""

    what: str
    play: Floats  # in the worse of hang and push
    storm: Floats


@dataclass(frozen=True)
class Step:
    """One line of working: what, the formula, the numbers put in (name, value, unit), the result, its unit, the source."""

    what: str
    formula: str
    numbers: tuple[tuple[str, float | str, str], ...]
    result: float
    unit: str
    source: str

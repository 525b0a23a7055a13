"""Numbers as people read them, in one system of units or in both; rules only make sentences with them."""

from __future__ import annotations

import math
from abc import ABC, abstractmethod

from schemas.lengths import DOWN, INCH, MPH, NEAREST, UP, feet_and_inches, in_steps

BOTH, FEET, METRIC = range(3)
"""Units in which lengths are said: feet and inches with SI beside, feet and inches, millimetres."""


def height(metres: float, units: int = BOTH) -> str:
    """A height or length [m], to the nearest 1/16 in or mm: `8 ft 6 1/2 in (2604 mm)`."""
    return _height(metres, units, NEAREST)


def at_least(metres: float, units: int = BOTH) -> str:
    """A height or length that must be reached [m], rounded up: never said shorter than it is."""
    return _height(metres, units, UP)


def at_most(metres: float, units: int = BOTH) -> str:
    """A height or length that there is, and no more [m], rounded down: never said longer than it is."""
    return _height(metres, units, DOWN)


def size(metres: float, units: int = BOTH) -> str:
    """A cross-section's size [m]: `3.5 in (88.9 mm)`."""
    if math.isnan(metres):
        return "not known"
    return _in_units(f"{_short(metres / INCH, 3)} in", f"{_short(metres * 1000, 1)} mm", units)


def window(least: float, most: float, units: int = BOTH) -> str:
    """Two sizes [m]: `3.4 to 3.6 in (86.4 to 91.4 mm)`; one where they are the same."""
    if least == most:
        return size(least, units)
    inches = f"{_short(least / INCH, 3)} to {_short(most / INCH, 3)} in"
    return _in_units(inches, f"{_short(least * 1000, 1)} to {_short(most * 1000, 1)} mm", units)


def speed(metres_per_second: float, units: int = BOTH) -> str:
    """A wind speed [m/s]: `85 mph (38 m/s)`."""
    return _in_units(f"{metres_per_second / MPH:.0f} mph", f"{metres_per_second:.1f} m/s", units)


class InUnits(ABC):
    """Says lengths [m] in its own units; see the functions of the same names."""

    @property
    @abstractmethod
    def units(self) -> int:
        """BOTH, FEET or METRIC."""

    def height(self, metres: float) -> str:
        """A height or length."""
        return height(metres, self.units)

    def at_least(self, metres: float) -> str:
        """A height or length that must be reached."""
        return at_least(metres, self.units)

    def at_most(self, metres: float) -> str:
        """A height or length that there is, and no more."""
        return at_most(metres, self.units)

    def size(self, metres: float) -> str:
        """A cross-section's size."""
        return size(metres, self.units)

    def window(self, least: float, most: float) -> str:
        """Two sizes."""
        return window(least, most, self.units)


def _in_units(feet: str, metric: str, units: int) -> str:
    return (f"{feet} ({metric})", feet, metric)[units]


def _height(metres: float, units: int, way: str) -> str:
    if math.isnan(metres):
        return "not known"
    return _in_units(feet_and_inches(in_steps(metres, INCH / 16, way)), f"{in_steps(metres, 1e-3, way)} mm", units)


def _short(number: float, places: int) -> str:
    text = f"{number:.{places}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text

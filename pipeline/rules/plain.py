"""Numbers as people read them, in one system of units or in both; rules only make sentences with them."""

from __future__ import annotations

import math
from abc import ABC, abstractmethod

from schemas.lengths import INCH, MPH

DRIFT = 1e-6
"""Part of a sixteenth or a millimetre that counts as binary drift when rounding up."""


BOTH, FEET, METRIC = range(3)
"""Units in which lengths are said: feet and inches with SI beside, feet and inches, millimetres."""


def height(metres: float, units: int = BOTH, up: bool = False) -> str:
    """A height or length [m]: `8 ft 6 1/2 in (2604 mm)`; `up` rounds up, for what must at least be reached."""
    if math.isnan(metres):
        return "not known"
    return _said(_feet(metres, up), f"{_whole(metres * 1000, up)} mm", units)


def size(metres: float, units: int = BOTH) -> str:
    """A cross-section's size [m]: `3.5 in (88.9 mm)`."""
    if math.isnan(metres):
        return "not known"
    return _said(f"{_short(metres / INCH, 3)} in", f"{_short(metres * 1000, 1)} mm", units)


def window(least: float, most: float, units: int = BOTH) -> str:
    """Two sizes [m]: `3.4 to 3.6 in (86.4 to 91.4 mm)`; one where they are the same."""
    if least == most:
        return size(least, units)
    inches = f"{_short(least / INCH, 3)} to {_short(most / INCH, 3)} in"
    return _said(inches, f"{_short(least * 1000, 1)} to {_short(most * 1000, 1)} mm", units)


def speed(metres_per_second: float, units: int = BOTH) -> str:
    """A wind speed [m/s]: `85 mph (38 m/s)`."""
    return _said(f"{metres_per_second / MPH:.0f} mph", f"{metres_per_second:.1f} m/s", units)


class InUnits(ABC):
    """Says lengths [m] in its own units; see the functions of the same names."""

    @property
    @abstractmethod
    def units(self) -> int:
        """BOTH, FEET or METRIC."""

    def height(self, metres: float, up: bool = False) -> str:
        """A height or length."""
        return height(metres, self.units, up)

    def size(self, metres: float) -> str:
        """A cross-section's size."""
        return size(metres, self.units)

    def window(self, least: float, most: float) -> str:
        """Two sizes."""
        return window(least, most, self.units)


def _said(feet: str, metric: str, units: int) -> str:
    return (f"{feet} ({metric})", feet, metric)[units]


def _whole(number: float, up: bool) -> int:
    return math.ceil(number - DRIFT) if up else math.floor(number + 0.5)


def _short(number: float, places: int) -> str:
    text = f"{number:.{places}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _feet(metres: float, up: bool) -> str:
    sixteenths = _whole(abs(metres) / INCH * 16, up)
    inches, part = divmod(sixteenths, 16)
    feet, inches = divmod(inches, 12)
    shrink = math.gcd(part, 16)
    fraction = f"{part // shrink}/{16 // shrink}" if part else ""
    rest = " ".join(t for t in (str(inches) if inches or not part else "", fraction) if t)
    words = [f"{feet} ft"] if feet else []
    words += [f"{rest} in"] if not feet or inches or part else []
    return ("-" if metres < 0 and sixteenths else "") + " ".join(words)

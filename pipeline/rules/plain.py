"""Numbers as people read them, in both systems of units; rules only make sentences with them."""

from __future__ import annotations

import math

from schemas.lengths import INCH

DRIFT = 1e-6
"""Part of a sixteenth or a millimetre that counts as binary drift when rounding up."""


def height(metres: float, up: bool = False) -> str:
    """A height or length [m]: `8 ft 6 1/2 in (2604 mm)`; `up` rounds up, for what must at least be reached."""
    if math.isnan(metres):
        return "not known"
    return f"{_feet(metres, up)} ({_whole(metres * 1000, up)} mm)"


def size(metres: float) -> str:
    """A cross-section's size [m]: `3.5 in (88.9 mm)`."""
    return "not known" if math.isnan(metres) else f"{_short(metres / INCH, 3)} in ({_short(metres * 1000, 1)} mm)"


def window(least: float, most: float) -> str:
    """Two sizes [m]: `3.4 to 3.6 in (86.4 to 91.4 mm)`; one where they are the same."""
    if least == most:
        return size(least)
    inches = f"{_short(least / INCH, 3)} to {_short(most / INCH, 3)} in"
    return f"{inches} ({_short(least * 1000, 1)} to {_short(most * 1000, 1)} mm)"


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

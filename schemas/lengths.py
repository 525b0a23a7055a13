"""The inch, the mile per hour, the slack of every comparison and what rounding may take, said once."""

from __future__ import annotations

import math
from fractions import Fraction

INCH_EXACT = Fraction(254, 10000)
"""One inch [m]. Source: international inch, exactly 25.4 mm (NIST SP 811 (2008), B.8)."""

INCH = float(INCH_EXACT)
"""The same as a float [m]."""

MPH = 0.44704
"""One mile per hour [m/s], exact. Source: NIST SP 811 (2008), B.8."""

SLACK = 1e-6
"""Absolute slack of every comparison with a limit [m or kg]: the conversion of units never flips an answer."""

ROUNDED = 5e-7
"""Most by which a length that left the computation differs from what was computed [m]: it is rounded to the micrometre."""

NEAREST, UP, DOWN = "nearest", "up", "down"
"""Which way a length is rounded where it is shown: what must at least be there goes up, what there is at most goes down."""


def in_steps(metres: float, step: float, way: str) -> int:
    """A length in whole steps [m]. What the rounding of results may have taken from a whole number of them is made good."""
    number, slack = metres / step, ROUNDED / step + 1e-9
    if way == UP:
        return math.ceil(number - slack)
    if way == DOWN:
        return math.floor(number + slack)
    half = math.floor(abs(number) + 0.5 + 1e-9)  # half a step goes up; the tiny slack undoes binary drift of exact halves
    return half if metres >= 0 else -half


def feet_and_inches(sixteenths: int) -> str:
    """A number of sixteenths of an inch as people write it: `8 ft 6 1/2 in`; less than a foot has no feet."""
    inches, part = divmod(abs(sixteenths), 16)
    feet, inches = divmod(inches, 12)
    shrink = math.gcd(part, 16)
    rest = [str(inches)] if inches or not (feet or part) else []
    rest += [f"{part // shrink}/{16 // shrink}"] if part else []
    words = ([f"{feet} ft"] if feet else []) + ([f"{' '.join(rest)} in"] if rest else [])
    return ("-" if sixteenths < 0 else "") + " ".join(words)

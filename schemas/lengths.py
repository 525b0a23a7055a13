"""The inch, the mile per hour, and the slack of every comparison, said once."""

from __future__ import annotations

from fractions import Fraction

INCH_EXACT = Fraction(254, 10000)
"""One inch [m]. Source: international inch, exactly 25.4 mm (NIST SP 811 (2008), B.8)."""

INCH = float(INCH_EXACT)
"""The same as a float [m]."""

MPH = 0.44704
"""One mile per hour [m/s], exact. Source: NIST SP 811 (2008), B.8."""

SLACK = 1e-6
"""Absolute slack of every comparison with a limit [m or kg]: the conversion of units never flips an answer."""

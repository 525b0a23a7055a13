"""Units: each factor against the published one, and which of them are metric."""

from __future__ import annotations

from fractions import Fraction
from math import pi

import pytest

from pipeline.units import UNITS, factors, si, take_factors, unit_of

_INCH, _POUND, _G = Fraction("0.0254"), Fraction("0.45359237"), Fraction("9.80665")
_LBF = _POUND * _G
FACTORS = {
    "in": _INCH, "ft": 12 * _INCH, "yd": 36 * _INCH, "mi": 63360 * _INCH, "thou": _INCH / 1000,
    "µm": Fraction(1, 10**6), "mm": Fraction(1, 1000), "cm": Fraction(1, 100), "dm": Fraction(1, 10), "m": 1, "km": 1000,
    "deg": Fraction(pi / 180), "rad": 1, "mrad": Fraction(1, 1000),
    "mm/m": Fraction(1, 1000), "cm/m": Fraction(1, 100), "m/m": 1, "in/ft": Fraction(1, 12), "in/in": 1, "ft/ft": 1,
    "mph": Fraction("0.44704"), "km/h": Fraction(5, 18), "m/s": 1, "kn": Fraction(1852, 3600), "ft/s": 12 * _INCH,
    "lb": _POUND, "oz": _POUND / 16, "kg": 1, "g": Fraction(1, 1000),
    "N": 1, "kN": 1000, "lbf": _LBF, "kgf": _G, "kip": 1000 * _LBF,
    "Pa": 1, "kPa": 1000, "MPa": 10**6, "mPa": Fraction(1, 1000), "GPa": 10**9,
    "psi": _LBF / _INCH**2, "ksi": 1000 * _LBF / _INCH**2, "psf": _LBF / (144 * _INCH**2),
    "N m": 1, "kN m": 1000, "lb ft": 12 * _LBF * _INCH, "lb in": _LBF * _INCH,
    "kip ft": 12000 * _LBF * _INCH, "kip in": 1000 * _LBF * _INCH,
}  # fmt: skip
"""SI factors by a unit's short name.

Source: NIST SP 811 (2008), appendix B: the exact ones (inch, pound, standard gravity, knot), and those that follow from them.
"""
PERCENT = {"slope": {"%": Fraction(1, 100), "100 %": 1}, "percent": {"%": 1, "100 %": 100}}
METRIC = {
    "µm",
    "mm",
    "cm",
    "dm",
    "m",
    "km",
    "m/s",
    "km/h",
    "g",
    "kg",
    "N",
    "kN",
    "kgf",
    "mPa",
    "Pa",
    "kPa",
    "MPa",
    "GPa",
    "N m",
    "kN m",
}
"""Source: the SI brochure, ninth edition, units and prefixes; the kilogram-force is metric and no unit of the SI (memory)."""


@pytest.mark.parametrize("unit", UNITS, ids=lambda u: f"{u.short} {u.kind}")
def test_every_factor_is_the_published_one(unit):
    published = PERCENT[unit.kind][unit.short] if unit.short in ("%", "100 %") else FACTORS[unit.short]
    assert si(unit) == published if unit.short != "deg" else float(si(unit)) == pytest.approx(pi / 180, rel=1e-15)


@pytest.mark.parametrize("unit", UNITS, ids=lambda u: f"{u.short} {u.kind}")
def test_metric_units_are_those_of_the_metric_system(unit):
    assert unit.metric == (unit.short in METRIC and unit.kind not in ("slope", "angle", "percent"))


def test_factors_that_another_process_gives_are_used():
    unit = unit_of("kip ft", "moment")
    known = dict(factors())
    assert known == {(u.short, u.kind): si(u) for u in UNITS}
    try:
        take_factors({(unit.short, unit.kind): Fraction(7)})
        si.cache_clear()
        assert si(unit) == 7
    finally:
        take_factors(known)
        si.cache_clear()
    assert si(unit) == known[unit.short, unit.kind]

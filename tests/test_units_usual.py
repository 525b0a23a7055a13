"""Factors that are written out are pint's; and a run of usual units loads no pint."""

from __future__ import annotations

import subprocess
import sys

import pytest

from pipeline.units import UNITS, by_pint, si


@pytest.mark.parametrize("unit", UNITS, ids=lambda u: f"{u.short} {u.kind}")
def test_every_factor_is_that_of_pint(unit):
    # Source: pint's own definitions; NIST SP 811 (2008), appendix B
    assert si(unit) == by_pint(unit)


def test_usual_units_load_no_pint():
    words = [("ft", "length"), ("mm", "length"), ("lb", "mass"), ("deg", "angle"), ("%", "percent"), ("N m", "moment")]
    script = f"""
import sys
from pipeline.units import si, unit_of
[si(unit_of(*w)) for w in {words!r}]
assert "pint" not in sys.modules
si(unit_of("kip ft", "moment"))
assert "pint" in sys.modules
"""
    subprocess.run([sys.executable, "-c", script], check=True)


@pytest.mark.parametrize("unit", UNITS, ids=lambda u: f"{u.short} {u.kind}")
def test_metric_units_are_those_of_the_metric_system(unit):
    """Source: the SI brochure, ninth edition, units and prefixes; the kilogram-force is metric and no unit of the SI (memory)."""
    known = ("length", "mass", "speed", "force", "moment", "pressure")
    own = (
        "µm",
        "mm",
        "cm",
        "dm",
        "m",
        "km",
        "g",
        "kg",
        "m/s",
        "km/h",
        "N",
        "kN",
        "kgf",
        "N m",
        "kN m",
        "mPa",
        "Pa",
        "kPa",
        "MPa",
        "GPa",
    )
    assert unit.metric == (unit.kind in known and unit.short in own)

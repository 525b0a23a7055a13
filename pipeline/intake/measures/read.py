"""One cell of a kind to a measure."""

from __future__ import annotations

from fractions import Fraction

from pipeline.intake.measures.model import Doubt, Measure
from pipeline.units import factor


def read_measure(value: str | int | float, kind: str, heading_unit: str = "") -> Measure | Doubt:
    """One measure of a kind, its unit from the cell, else from the heading."""
    f = factor(heading_unit, kind)
    if f is None:
        return Doubt("NO_UNIT", f"'{value}' has no unit.", "Add the unit.")
    return Measure(Fraction(str(value)) * f, heading_unit)


def read_lengths(value: str | int | float, heading_unit: str = "") -> tuple[Measure, ...] | Doubt:
    """Several lengths, `;` between."""
    found = read_measure(value, "length", heading_unit)
    return found if isinstance(found, Doubt) else (found,)

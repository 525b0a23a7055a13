"""Measures as people type them: a table of notations, and the laws that hold for any text."""

from __future__ import annotations

import math
from fractions import Fraction
from pathlib import Path

import pytest

from pipeline.intake.measures import Doubt, Measure, read_measure

NIST = {
    "m": "1", "mm": "1/1000", "cm": "1/100", "in": "254/10000", "ft": "3048/10000", "lb": "45359237/100000000", "kg": "1",
    "mph": "44704/100000", "m/s": "1", "kn": "1852/3600", "N": "1",
    "lbf": "44482216152605/10000000000000",
    "kgf": "980665/100000",
    "Pa": "1", "psf": "4788026/100000", "ksi": "6894757", "N m": "1",
    "lb ft": "1355818/1000000", "%": "1", "1": "1", "rad": "1",
}  # fmt: skip
"""SI factors as NIST prints them. Source: NIST SP 811 (2008), appendix B.8 (psf, ksi, lb ft: seven digits)."""

CASES = [line.split("\t") for line in (Path(__file__).parent / "data" / "notations.tsv").read_text("utf-8").splitlines()[1:]]


def typed(text: str) -> str:
    """The text of the table, with its escapes (`\\u00a0`) undone."""
    return text.replace("\\n", "\n") if "\\u" not in text else text.encode("ascii", "backslashreplace").decode("unicode_escape")


def expected_value(expected: str) -> float:
    """The value that a case expects, in SI, worked out from NIST's factors."""
    number, _, unit = expected.partition(" ")
    if number == "slope":
        return math.atan(float(Fraction(unit)))
    if unit == "deg":
        return math.radians(float(Fraction(number)))
    return float(Fraction(number) * Fraction(NIST[unit]))


@pytest.mark.parametrize(("kind", "heading", "text", "expected"), CASES, ids=range(len(CASES)))
def test_notation(kind: str, heading: str, text: str, expected: str) -> None:
    found = read_measure(typed(text), kind, heading)
    if expected in ("UNREADABLE", "NO_UNIT"):
        assert isinstance(found, Doubt), f"{text!r} was read as {found}"
        assert found.code == expected
    else:
        assert isinstance(found, Measure), f"{text!r}: {found}"
        seven_digits = expected.endswith((" psf", " ksi", " lb ft"))
        assert float(found.value) == pytest.approx(expected_value(expected), rel=1e-6 if seven_digits else 1e-12)

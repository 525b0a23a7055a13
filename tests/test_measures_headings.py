"""Units of headings and number formats, their factors, whole numbers and money."""

from __future__ import annotations

import subprocess
import sys
from decimal import Decimal
from fractions import Fraction

import pytest

from pipeline.intake.measures import Doubt, format_unit, heading_unit, read_decimal, read_whole
from pipeline.units import UNITS, factor, unit_of


@pytest.mark.parametrize(
    ("unit", "kind", "exact"),
    [
        ("in", "length", "254/10000"), ("ft", "length", "3048/10000"), ("yd", "length", "9144/10000"), ("mm", "length", "1/1000"),
        ("mi", "length", "1609344/1000"), ("mph", "speed", "44704/100000"), ("km/h", "speed", "1000/3600"),
        ("kn", "speed", "1852/3600"),
        ("ft/s", "speed", "3048/10000"), ("lb", "mass", "45359237/100000000"), ("oz", "mass", "45359237/1600000000"),
        ("lbf", "force", "44482216152605/10000000000000"), ("kgf", "force", "980665/100000"), ("kn", "force", "1000"),
        ("KN", "force", "1000"),
        ("MPa", "pressure", "1000000"), ("mpa", "pressure", "1000000"), ("mPa", "pressure", "1/1000"), ("N·m", "moment", "1"),
        ("feet", "lengths", "3048/10000"), ("″", "pipe", "254/10000"), ("5 %", "percent", ""), ("kg", "length", ""),
        ("mm/m", "angle", ""),
    ],
)  # fmt: skip
def test_factors(unit: str, kind: str, exact: str) -> None:
    """Source: NIST SP 811 (2008), appendix B.8, exact values in bold there."""
    assert factor(unit, kind) == (Fraction(exact) if exact else None)


@pytest.mark.parametrize(
    ("unit", "kind", "si"),
    [("psi", "pressure", 6894.757), ("psf", "pressure", 47.88026), ("ksi", "pressure", 6894757.0), ("lb ft", "moment", 1.355818),
     ("lb in", "moment", 0.1129848), ("deg", "angle", 0.01745329), ("kip", "force", 4448.222)],
)  # fmt: skip
def test_rounded_factors(unit: str, kind: str, si: float) -> None:
    """Source: NIST SP 811 (2008), appendix B.8, seven digits."""
    found = factor(unit, kind)
    assert found is not None
    assert float(found) == pytest.approx(si, rel=5e-7)


def test_every_spelling_means_one_unit_of_its_kind() -> None:
    for unit in UNITS:
        for spelling in unit.spellings:
            assert unit_of(spelling, "angle" if unit.kind == "slope" else unit.kind) == unit, spelling


def test_units_are_named_without_loading_pint() -> None:
    heavy = "('pint', 'pandas', 'numpy')"
    code = f"import sys, pipeline.units, pipeline.intake.measures; sys.exit(any(m in sys.modules for m in {heavy}))"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


@pytest.mark.parametrize(
    ("heading", "bare", "unit"),
    [
        ("Height above ground [ft]", "Height above ground", "ft"), ("Post size (in)", "Post size", "in"),
        ("Lean, deg", "Lean", "deg"),
        ("Height - mm", "Height", "mm"), ("Post height in feet", "Post height", "ft"), ("height_mm", "height", "mm"),
        ("OD mm", "OD", "mm"),
        ("Height\n(ft.)", "Height", "ft"), ("Height (in inches)", "Height", "in"), ("Size, in", "Size", "in"),
        ("Height/mm", "Height", "mm"),
        ("H [ft-in]", "H", "ft-in"), ("Height (ft/in)", "Height", "ft-in"), ("Height (feet and inches)", "Height", "ft-in"),
        ("Height (ft' in\")", "Height", "ft-in"),
        ("Height (near the top)", "Height (near the top)", ""), ("Height (near the top) [m]", "Height (near the top)", "m"),
        ("Height (m) [ft]", "Height", ""),
        ("Height (in, mm)", "Height (in, mm)", ""), ("Height ( mm )", "Height", "mm"),
        ("Height (m or ft)", "Height (m or ft)", ""), ("Post size (in, OD)", "Post size (OD)", "in"), ("OD (″)", "OD", "in"),
        ("Size (NPS)", "Size", "NPS"),
        ("Wind speed [m/s]", "Wind speed", "m/s"), ("Wind (KN)", "Wind", "KN"), ("Lean [in/ft]", "Lean", "in/ft"),
        ("Discount [%]", "Discount", "%"),
        ("Rated moment [N m]", "Rated moment", "N m"), ("Height［mm］", "Height", "mm"), ("Post size in", "Post size", "in"),
        ("Height m", "Height", "m"),
        ("Set in", "Set in", ""), ("Depth in ground", "Depth in ground", ""), ("Post to end line", "Post to end line", ""),
        ("Foot", "Foot", ""),
        ("Price [USD]", "Price [USD]", ""), ("", "", ""), ("[ft]", "", "ft"),
    ],
)  # fmt: skip
def test_headings(heading: str, bare: str, unit: str) -> None:
    assert heading_unit(heading) == (bare, unit)


@pytest.mark.parametrize(
    ("shown", "unit"),
    [
        ('0.0" mm"', "mm"), ("0\\'", "ft"), ('0"\'"', "ft"), ('# ??/??\\"', "in"), ('# ?/16" in"', "in"),
        ('0.00" m";-0.00" m"', "m"), ("0.0°", "deg"),
        ('#,##0.00 "ft"', "ft"), ("0.0\\ \\m\\m", "mm"), ("[Red]0.0\" in\"", "in"), ('0.00\\ "kg"', "kg"), ("0%", "100 %"),
        ('0.0" %"', "%"), ('"H = "0.0" ft"', "ft"),
        ('0.0,"m"', ""), ("General", ""), ("", ""), ("@", ""), ("#,##0.00", ""), ("_-* #,##0.00_-", ""), ("0.00E+00", ""),
        ("yyyy-mm-dd", ""), ("h:mm", ""),
        ("$#,##0.00", ""), ('0" m";-0" ft"', ""), ('0" pcs"', ""), ('0"\' "0', ""),
    ],
)  # fmt: skip
def test_number_formats(shown: str, unit: str) -> None:
    assert format_unit(shown) == unit


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("4", 4),
        ("4.0", 4),
        (4.0, 4),
        (4, 4),
        ("4 posts", 4),
        ("4 postes", 4),
        ("4 Stück", 4),
        ("4 pali", 4),
        ("12x", 12),
        ("x 12", 12),
        ("4 pcs.", 4),
        ("qty 4", 4),
        ("４", 4),
        ("-2", -2),
        (" 4 ", 4),
        ("4,0", 4),
    ],
)
def test_whole_numbers(typed: object, value: int) -> None:
    assert read_whole(typed) == value  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "typed",
    [
        4.5,
        "4.5",
        "1,000",
        "4-5",
        "4?",
        "~4",
        "4 or 5",
        "four",
        "",
        "2x2",
        True,
        float("nan"),
        float("inf"),
        1e300,
        "1e3",
        "٤",
        "²",
        "4/2",
    ],
)
def test_no_whole_numbers(typed: object) -> None:
    found = read_whole(typed)  # type: ignore[arg-type]
    assert isinstance(found, Doubt)
    assert found.code == "UNREADABLE"


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("1,234.50", "1234.50"), ("$1,234.50", "1234.50"), ("1 234,50", "1234.50"), (1234.5, "1234.5"),
        ("1.234,50", "1234.50"), ("1234,5", "1234.5"),
        ("$1,234", "1234"), ("1,234,567", "1234567"), ("EUR 12", "12"), ("12.50 USD", "12.50"), ("-5", "-5"),
        ("1'234.50", "1234.50"), (0.1, "0.1"), (12, "12"),
        ("£ 99", "99"), ("1\u00a0234,50 €", "1234.50"), ("0.0725", "0.0725"), ("1.234", "1.234"),
    ],
)  # fmt: skip
def test_decimals(typed: object, value: str) -> None:
    assert read_decimal(typed) == Decimal(value)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "typed",
    [
        "1,234",
        "",
        "abc",
        "(12.50)",
        "12.-",
        "~12",
        "12-13",
        "12?",
        True,
        float("nan"),
        float("inf"),
        "1,23,456",
        "$",
        "1.2.3",
        "٤",
    ],
)
def test_no_decimals(typed: object) -> None:
    assert isinstance(read_decimal(typed), Doubt)  # type: ignore[arg-type]

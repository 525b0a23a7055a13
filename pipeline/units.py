"""Units at the border: the spellings that people type, and the exact SI factor of each unit.

The spellings are a table; the factors come from pint, computed in fractions, on first use only
(importing this module does not import pint). Only degrees and radians are inexact.
Source: NIST SP 811 (2008), appendix B; the factors are pint's own definitions.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Any

from schemas.column import SI_UNIT


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: its short name, its kind, pint's name for it, and the spellings that are taken for it.

    A `slope` is a ratio whose angle is its arc tangent; it counts as an angle. A spelling is found
    without regard to case unless another unit of the same kind has it in another case.
    """

    short: str
    kind: str
    pint: str
    spellings: tuple[str, ...]
    metric: bool = False


def _unit(short: str, kind: str, pint: str, spellings: str, metric: bool = False) -> Unit:
    return Unit(short, kind, pint, (short, *(s.strip() for s in spellings.split("|") if s.strip())), metric)


_HOUR, _SECOND = "h|hr|hour", "s|sec|second"


def _over(lengths: str, times: str) -> str:
    """Spellings of a speed: each length over each time, with a stroke, `per` or an article."""
    pairs = [(a, b) for a in lengths.split("|") for b in times.split("|")]
    return "|".join(f"{a}{between}{b}" for a, b in pairs for between in ("/", " per ", " an " if b == "hour" else " a "))


UNITS: tuple[Unit, ...] = (
    _unit(
        "in",
        "length",
        "inch",
        'inch|inches|ins|inchs|pulgada|pulgadas|pulg|pulgs|plg|plgs|pouce|pouces|po|Zoll|pollice|pollici|poll|polegada|polegadas|pol|"',
    ),
    _unit(
        "ft",
        "length",
        "foot",
        "foot|feet|fts|pie|pies|pied|pieds|pi|Fuß|Fuss|pé|pés|piede|piedi|'|lf|lin ft|lin. ft|lin feet|linear ft|linear foot|"
        "linear feet|lineal feet",
    ),
    _unit("yd", "length", "yard", "yds|yard|yards"),
    _unit(
        "mm",
        "length",
        "millimeter",
        "mms|m/m|milímetros|milimetros|milímetro|millimètres|millimètre|millimetri|millimetro|millimeter|millimeters|millimetre|millimetres|мм",
        metric=True,
    ),
    _unit(
        "cm",
        "length",
        "centimeter",
        "cms|centímetros|centimetros|centímetro|centimètres|centimètre|centimetri|centimetro|Zentimeter|centimeter|centimeters|centimetre|centimetres|см",
        metric=True,
    ),
    _unit("dm", "length", "decimeter", "decimeter|decimeters|decimetre|decimetres", metric=True),
    _unit("m", "length", "meter", "meter|meters|metre|metres|mtr|mtrs|mt|mts|metro|metros|metri|mètre|mètres|м", metric=True),
    _unit("km", "length", "kilometer", "kilometer|kilometers|kilometre|kilometres", metric=True),
    _unit("mi", "length", "mile", "mile|miles"),
    _unit("µm", "length", "micrometer", "um|micron|microns|micrometre|micrometres", metric=True),
    _unit("thou", "length", "thou", "thous"),
    _unit("deg", "angle", "degree", "°|degs|degree|degrees|grado|grados|gradi|degré|degrés|grau|graus"),
    _unit("rad", "angle", "radian", "radian|radians"),
    _unit("mrad", "angle", "milliradian", "milliradian|milliradians"),
    _unit("mm/m", "slope", "millimeter/meter", "mm per m|‰|per mille|permille"),
    _unit("cm/m", "slope", "centimeter/meter", "cm per m"),
    _unit("m/m", "slope", "meter/meter", "m per m"),
    _unit("in/ft", "slope", "inch/foot", "\"/'|\"/ft|in/'|inch/foot|inches/foot|in per ft|inches per foot|inch per foot"),
    _unit("in/in", "slope", "inch/inch", '"/"|in per in'),
    _unit("ft/ft", "slope", "foot/foot", "'/'|ft per ft"),
    _unit("%", "slope", "percent", "percent|pct|per cent"),
    _unit("100 %", "slope", "dimensionless", "100%"),
    _unit("%", "percent", "percent", "percent|pct|per cent"),
    _unit("100 %", "percent", "dimensionless", "100%"),
    _unit("mph", "speed", "mile/hour", "m.p.h|" + _over("mi|mile|miles", _HOUR)),
    _unit(
        "km/h",
        "speed",
        "kilometer/hour",
        "kph|kmh|kmph|kms/h|km h-1|" + _over("km|kilometre|kilometres|kilometer|kilometers", _HOUR),
        metric=True,
    ),
    _unit(
        "m/s",
        "speed",
        "meter/second",
        "mps|ms-1|m s-1|m·s-1|m.s-1|m s⁻¹|m·s⁻¹|" + _over("m|metre|metres|meter|meters", _SECOND),
        metric=True,
    ),
    _unit("kn", "speed", "knot", "kt|kts|knot|knots"),
    _unit("ft/s", "speed", "foot/second", "fps|" + _over("ft|foot|feet", _SECOND)),
    _unit("lb", "mass", "pound", "lbs|lbm|pound|pounds|#"),
    _unit("oz", "mass", "ounce", "ozs|ounce|ounces"),
    _unit("kg", "mass", "kilogram", "kgs|kilo|kilos|kilogram|kilograms|kilogramme|kilogrammes", metric=True),
    _unit("g", "mass", "gram", "gr|gram|grams|gramme|grammes", metric=True),
    _unit("N", "force", "newton", "newton|newtons", metric=True),
    _unit("kN", "force", "kilonewton", "kilonewton|kilonewtons", metric=True),
    _unit("lbf", "force", "force_pound", "lbsf|pound-force|pounds-force|pounds force"),
    _unit("kgf", "force", "kilogram_force", "kilogram-force|kp", metric=True),
    _unit("kip", "force", "kip", "kips"),
    _unit("Pa", "pressure", "pascal", "pascal|pascals|N/m2|N/m²", metric=True),
    _unit("kPa", "pressure", "kilopascal", "kilopascal|kilopascals|kN/m2|kN/m²", metric=True),
    _unit("MPa", "pressure", "megapascal", "megapascal|megapascals|N/mm2|N/mm²", metric=True),
    _unit("mPa", "pressure", "millipascal", "millipascal", metric=True),
    _unit("GPa", "pressure", "gigapascal", "gigapascal|gigapascals|kN/mm2|kN/mm²", metric=True),
    _unit("psi", "pressure", "force_pound/inch**2", "lb/in2|lb/in²|lbf/in2|lbf/in²"),
    _unit("ksi", "pressure", "kip/inch**2", "kip/in2|kip/in²"),
    _unit("psf", "pressure", "force_pound/foot**2", "lb/ft2|lb/ft²|lbf/ft2|lbf/ft²|pounds per square foot"),
    _unit(
        "N m",
        "moment",
        "newton*meter",
        "Nm|N·m|N-m|N.m|N*m|newton metre|newton metres|newton meter|newton meters",
        metric=True,
    ),
    _unit("kN m", "moment", "kilonewton*meter", "kNm|kN·m|kN-m|kN.m|kN*m", metric=True),
    _unit(
        "lb ft",
        "moment",
        "force_pound*foot",
        "lb-ft|lb·ft|lbf ft|lbf·ft|lbf-ft|ft lb|ft-lb|ft·lb|ft lbf|ft-lbf|ft·lbf|ft-lbs|"
        "ft lbs|foot-pound|foot-pounds|foot pounds|lbs-ft",
    ),
    _unit(
        "lb in",
        "moment",
        "force_pound*inch",
        "lb-in|lb·in|lbf in|lbf·in|lbf-in|in lb|in-lb|in·lb|in lbf|in-lbf|in·lbf|in-lbs|in lbs|inch-pounds",
    ),
    _unit("kip ft", "moment", "kip*foot", "kip-ft|k-ft|ft-kip|ft kip|kip·ft"),
    _unit("kip in", "moment", "kip*inch", "kip-in|k-in|in-kip|kip·in"),
)

FEET_INCHES = "ft-in"
"""The unit of a heading under which `8-6` is eight feet six."""

BY_KIND: dict[str, tuple[str, ...]] = {
    "length": ("length",),
    "lengths": ("length",),
    "pipe": ("length",),
    "angle": ("angle", "slope"),
    "number": ("percent",),
}
"""Kinds of unit that a kind of column takes, where that is not its own name."""

_COMMON = (("”", '"'), ("″", '"'), ("''", '"'), ("’", "'"), ("′", "'"), ("º", "°"), ("˚", "°"), ("μ", "µ"))


def _tidy(text: str) -> str:
    for old, new in _COMMON:
        text = text.replace(old, new)
    return " ".join(text.split()).rstrip(".")


def _close(text: str) -> str:
    """A spelling without its spaces: `mi / hr` and `milesperhour` are the units that they look like."""
    return text.casefold().replace(" ", "")


@cache
def find(text: str) -> tuple[Unit, ...]:
    """Units of any kind that are spelled `text`: those in the same case, else those in any case."""
    tidy = _tidy(text)
    exact = tuple(u for u in UNITS if tidy in u.spellings)
    folded = tidy.casefold()
    return exact or tuple(u for u in UNITS if folded in {s.casefold() for s in u.spellings})


@cache
def unit_of(text: str, kind: str) -> Unit | None:
    """The one unit of a column's kind that is spelled `text`; None where none or several are.

    The kind decides between units of one spelling (`kn` is a knot in a column of speeds, and a
    kilonewton in a column of forces); `mpa` is not told from `mPa` by guessing but by its kind's
    usual unit, and `mPa` itself stays a millipascal.
    """
    tidy, kinds = _tidy(text), BY_KIND.get(kind, (kind,))
    mine = [u for u in UNITS if u.kind in kinds]
    exact = [u for u in mine if tidy in u.spellings]
    folded = [u for u in mine if tidy.casefold() in {s.casefold() for s in u.spellings} and u.short != "mPa"]
    close = [u for u in mine if _close(tidy) in {_close(s) for s in u.spellings} and u.short != "mPa"]
    found = exact or folded or close
    return found[0] if len(found) == 1 else None


@cache
def _registry() -> Any:
    import pint

    return pint.UnitRegistry(non_int_type=Fraction)


_given: dict[tuple[str, str], Fraction] = {}


@cache
def factors() -> dict[tuple[str, str], Fraction]:
    """Every unit's factor by its short name and kind, for another process, which then need not load pint."""
    return {(unit.short, unit.kind): si(unit) for unit in UNITS}


def take_factors(given: Mapping[tuple[str, str], Fraction]) -> None:
    """Use the factors that another process has from pint."""
    _given.update(given)


@cache
def si(unit: Unit) -> Fraction:
    """Factor from `unit` to the coherent SI unit of its kind (a plain number for slopes; per cent for percent)."""
    if given := _given.get((unit.short, unit.kind)):
        return given
    if unit.pint == "percent":
        return Fraction(1) if unit.kind == "percent" else Fraction(1, 100)
    target = {"slope": "dimensionless", "percent": "percent"}.get(unit.kind) or SI_UNIT[unit.kind].replace(" ", "*")
    return Fraction(_registry().Quantity(Fraction(1), unit.pint).to(target).magnitude)


def factor(unit: str, kind: str) -> Fraction | None:
    """The exact factor that turns a value in `unit` into SI for a column of `kind`; None where there is none.

    `kind` is a kind of schemas.column; percent stays per cent. A slope has no factor (its angle is
    an arc tangent), nor has a unit of another kind. Source: NIST SP 811 (2008), appendix B, by pint.
    """
    found = unit_of(unit, kind)
    return None if found is None or found.kind == "slope" else si(found)

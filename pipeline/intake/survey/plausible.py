"""Whether what was read can be true of a post at a court; else which unit would make it so."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from pipeline.intake.measures import Measure, PipeSize, read_measure, read_post_size
from pipeline.intake.measures.doubts import could, instead
from pipeline.intake.survey.fault import Fault
from pipeline.intake.survey.read_cell import example, plain_number
from pipeline.units import factor
from schemas.column import SI_UNIT, Column
from schemas.lengths import SLACK

_OTHER_UNITS = {
    "length": ("ft", "in", "mm", "cm", "m"),
    "speed": ("mph", "m/s", "km/h", "kn"),
    "angle": ("deg",),
}


def in_range(column: Column, value: Any, typed: str, unit: str, policy: Mapping[str, Any]) -> Fault:
    """What to say of a value outside the policy's range of its column; `typed` is what stands there."""
    least, most = float(policy[column.least]), float(policy[column.most])
    values = value if isinstance(value, tuple) else (value,)
    one = next(v for v in values if not least - SLACK <= v <= most + SLACK)
    return _outside(column, one, least, most, typed, unit)


def less_than_nothing(column: Column, typed: str) -> Fault:
    """What to say of a negative value where there can be none."""
    return Fault("IMPLAUSIBLE", f"“{typed}” is less than nothing.", _NEVER_NEGATIVE.get(column.name, example(column)))


_NEVER_NEGATIVE = {"clear_length": "the clear straight length from the top down"}


def prefer_plausible(column: Column, fault: Fault, policy: Mapping[str, Any]) -> Fault:
    """Where a doubtful cell could mean several things and one of them alone would be plausible, suggest it."""
    if len(fault.readings) < 2 or not (column.least or column.name == "clear_length"):
        return fault
    least, most = (policy[column.least], policy[column.most]) if column.least else (0.0, policy["post_height_most"])
    kind = "length" if column.kind in ("lengths", "pipe") else column.kind
    number = fault.readings[0].rpartition(" ")[0]
    others = tuple(f"{number} {u}" for u in _OTHER_UNITS.get(kind, ())) if fault.code == "NO_UNIT" else ()
    fit = []
    for reading in dict.fromkeys((*fault.readings, *others)):
        got = read_post_size(reading) if column.kind == "pipe" else read_measure(reading, kind)
        value = got.size if isinstance(got, PipeSize) else got.value if isinstance(got, Measure) else math.nan
        if least - SLACK <= float(value) <= most + SLACK:
            fit.append(reading)
    if not fit:
        return fault
    if fault.code == "NO_UNIT":  # the units that the number can hardly be in are not worth a clerk's time
        return Fault(fault.code, fault.message.removesuffix(could(fault.readings)) + could(tuple(fit)), instead(tuple(fit), kind))
    return Fault(fault.code, fault.message, fit[0]) if len(fit) == 1 else fault


def round_size(size: Fault, value: float, basis: str, policy: Mapping[str, Any]) -> Fault:
    """Say so where an implausible size of a round post would be plausible as a circumference."""
    across = value / math.pi
    if basis == "circumference" or not policy["post_size_least"] <= across <= policy["post_size_most"]:
        return size
    hint = f" It would be plausible as a circumference (outside diameter {_mm(across)}): then say so under “Size is”."
    return Fault("IMPLAUSIBLE", size.message + hint, size.suggestion)


def wall_of(wall: float, size: float, typed: str) -> Fault:
    """What to say of a wall that is thicker than a fifth of the post's size."""
    message = f"“{typed}” ({_mm(wall)}) is more than a fifth of the post's size of {_mm(size)}."
    return Fault("IMPLAUSIBLE", message, "the wall's thickness alone, or leave the cell blank where it is not known")


def clear_of(clear: float, height: float, typed: str) -> Fault:
    """What to say of a clear straight length beyond the post's height."""
    message = f"“{typed}” ({_m(clear)}) is more than the post's height above ground of {_m(height)}."
    return Fault("IMPLAUSIBLE", message, "at most the height above ground; leave the cell blank for the whole height")


def round_only(basis: str, shape: str, typed: str, at: str) -> Fault:
    """What to say of a size that only a round post can have; `at` is the column whose cell says it."""
    shown = f" (“{typed}”)" if typed else ""
    message = f"a {basis}{shown} is for round posts, but the post shape says {shape}."
    if at == "post_size":
        return Fault("CONFLICT", message, "the outside width as measured, such as 4 in")
    return Fault("CONFLICT", message, "outside width" if shape == "square" else "outside diameter")


def _outside(column: Column, value: float, least: float, most: float, typed: str, unit: str) -> Fault:
    kind = "length" if column.kind in ("lengths", "pipe") else column.kind
    show = {"length": _mm if most < 0.5 else _m, "angle": _deg, "speed": _speed}.get(kind, plain_number)
    read_as = f" ({show(value)})" if kind in SI_UNIT and not show(value).endswith(f" {unit}") else ""
    bounds = _bounds(least, most, unit, kind) or f"{show(least)} to {show(most)}"
    message = f"“{typed}”{read_as} lies outside what is plausible, {bounds}."
    other = _other_units(kind, value, unit, least, most)
    if other:
        return Fault("IMPLAUSIBLE", f"{message} It would be plausible as {' or '.join(other)}.", other[0])
    return Fault("IMPLAUSIBLE", message, f"a value from {bounds}")


_AS_TYPED = {("length", "in"): ("in", "ft"), ("length", "ft"): ("in", "ft"), ("speed", "mph"): ("mph", "mph")}
"""Units of the range of small and of great values, where the sender's own are not SI."""


def _bounds(least: float, most: float, unit: str, kind: str) -> str:
    """The range in the sender's kind of units, each end rounded inwards; '' where that is SI."""
    if (kind, unit) not in _AS_TYPED:
        return ""
    own = _AS_TYPED[kind, unit][most >= 0.5]
    parts = 100 if own == "in" else 10
    step = float(factor(own, kind) or 1) / parts
    low, high = math.ceil(least / step - SLACK), math.floor(most / step + SLACK)
    return f"{low / parts:g} {own} to {high / parts:g} {own}"


def _other_units(kind: str, value: float, unit: str, least: float, most: float) -> list[str]:
    """The same number with the units that would make it plausible, each with what it comes to."""
    own = factor(unit, kind) if unit and kind in _OTHER_UNITS else None
    if own is None:
        return []
    number = value / float(own)
    text = f"{number:.10g}"
    found = []
    for other in _OTHER_UNITS[kind]:
        f = factor(other, kind)
        if other != unit and f is not None and least - SLACK <= float(text) * float(f) <= most + SLACK:
            found.append(f"{text} {other}")
    return found


def _mm(value: float) -> str:
    return f"{value * 1000:.4g} mm"


def _m(value: float) -> str:
    return f"{value:.4g} m"


def _deg(value: float) -> str:
    return f"{math.degrees(value):.3g} deg"


def _speed(value: float) -> str:
    return f"{value:.4g} m/s"

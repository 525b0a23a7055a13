"""The one rounding: results as they leave the computation, the same on every machine.

Vector instructions and library versions change the last digits of a result. None of them reaches a file, a
fingerprint or a page: what is written, hashed or shown went through here. Inside, verdicts compare what was computed.
"""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any, TypeVar

import numpy as np

from pipeline.loads.load_arrays import MomentPart
from pipeline.rules.arrays import Finding, Fit, Floats, Kits, Posts

LENGTH_DECIMALS = 6
"""Lengths are rounded to 1e-6 m."""
SIGNIFICANT = 6
"""All other figures are rounded to so many significant digits."""

_POWERS = 10.0 ** np.arange(-300, 301)
_NO_LENGTHS = frozenset({"lean", "wind_speed", "cleared_moment"})
_LENGTHS_OF_LOADS = frozenset({"wall_needed", "footing_depth_needed", "ring_sag"})
Record = TypeVar("Record", Posts, Fit)


def length(values: Floats) -> Floats:
    """Lengths [m] to 1e-6 m, any shape; NaN and infinities stay, and no zero is negative."""
    return np.round(values, LENGTH_DECIMALS) + 0.0


def figure(values: Floats) -> Floats:
    """Values of any unit and shape to six significant digits; NaN and infinities stay, and no zero is negative.

    Exact from 1e-15 to 1e15: powers of ten beyond are no exact binary numbers. The power of ten is found by
    comparing, not by a logarithm, whose last digit differs from machine to machine.
    """
    values = np.asarray(values, dtype=np.float64)
    size = np.abs(values)
    tens = np.clip(np.searchsorted(_POWERS, size, side="right") - 301, -290, 290)  # 10^tens <= size
    places = SIGNIFICANT - 1 - tens
    up, down = _POWERS[300 + np.maximum(places, 0)], _POWERS[300 + np.maximum(-places, 0)]
    usual = np.isfinite(values) & (size > _POWERS[10])
    with np.errstate(invalid="ignore", over="ignore"):
        return np.where(usual, np.rint(values * up / down) / up * down, values) + 0.0


def fit(found: Fit) -> Fit:
    """Heights, shortfalls and the numbers behind each finding."""
    return replace(_lengths(found), findings=tuple(_finding(f) for f in found.findings))


def posts(given: Posts) -> Posts:
    """Sizes and heights as lengths, lean and wind speed as figures."""
    return _lengths(given)


def kits(kept: Kits) -> Kits:
    """The load screen's figures; prices are exact."""
    return replace(kept, load={n: _load(n, v) for n, v in kept.load.items()})


def moment_parts(parts: tuple[MomentPart, ...]) -> tuple[MomentPart, ...]:
    """Moments as figures."""
    return tuple(MomentPart(p.what, figure(p.play), figure(p.storm)) for p in parts)


def _lengths(record: Record) -> Record:
    arrays = {f.name: getattr(record, f.name) for f in fields(record)}
    floats = {n: a for n, a in arrays.items() if isinstance(a, np.ndarray) and a.dtype.kind == "f"}
    rounded: dict[str, Any] = {n: figure(a) if n in _NO_LENGTHS else length(a) for n, a in floats.items()}
    return replace(record, **rounded)


def _finding(f: Finding) -> Finding:
    rounded = length if f.unit == "m" else figure
    numbers: dict[str, Any] = {n: rounded(getattr(f, n)) for n in ("value", "least", "most", "margin")}
    return replace(f, **numbers)


def _load(name: str, values: Floats) -> Floats:
    if values.dtype.kind != "f":
        return values
    return length(values) if name in _LENGTHS_OF_LOADS else figure(values)

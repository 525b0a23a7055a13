"""Roots of many functions at once, each in its own bracket."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from pipeline.loads.load_arrays import Floats, Ints

_STEPS = 100


def least_root(reserve: Callable[[Floats, Ints], Floats], low: Floats, high: Floats, close: float) -> Floats:
    """Least place in [low, high] from which on `reserve` is not negative (n,); NaN where it is negative at `high`.

    reserve: of places (m,) and the numbers (m,) of the rows that they belong to, rising; NaN counts as negative;
    low, high: ends (n,); close: width of the bracket at which the search ends. Only rows that are still open are
    worked on. Range: one change of sign in each bracket.
    Source: Chandrupatla, Advances in Engineering Software 28 (1997) 145-149 (memory); bracket kept.
    """
    everyone = np.arange(low.size)
    at_low, at_high = reserve(low, everyone), reserve(high, everyone)
    enough = (low <= high) & (at_high >= 0)
    found = np.where(enough & (at_low >= 0), low, np.nan)
    rows = np.flatnonzero(enough & ~(at_low >= 0))
    ends = _Bracket(low[rows], at_low[rows], high[rows], at_high[rows], np.full(rows.size, 0.5))
    for _ in range(_STEPS):
        if not rows.size:
            break
        x = ends.x + ends.share * (ends.other - ends.x)
        ends = _narrow(ends, x, reserve(x, rows), close)
        done = np.abs(ends.other - ends.x) <= close
        found[rows[done]] = np.where(ends.f >= 0, ends.x, ends.other)[done]
        rows, ends = rows[~done], ends.take(~done)
    return found


@dataclass(frozen=True, eq=False, repr=False)
class _Bracket:
    """The last place `x`, the place `other` on the far side of the root, and where between them to look next."""

    x: Floats
    f: Floats
    other: Floats
    f_other: Floats
    share: Floats

    def take(self, index: np.ndarray) -> _Bracket:
        return _Bracket(self.x[index], self.f[index], self.other[index], self.f_other[index], self.share[index])


def _narrow(b: _Bracket, x: Floats, f: Floats, close: float) -> _Bracket:
    """The bracket with `x` in it: inverse quadratic where it is safe, else halving, which no jump can stall."""
    same = (f >= 0) == (b.f >= 0)
    x3, f3 = np.where(same, b.x, b.other), np.where(same, b.f, b.f_other)
    x2, f2 = np.where(same, b.other, b.x), np.where(same, b.f_other, b.f)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        xi, phi = (x - x2) / (x3 - x2), (f - f2) / (f3 - f2)
        safe = (phi**2 < xi) & ((1 - phi) ** 2 < 1 - xi)
        quadratic = f / (f2 - f) * f3 / (f2 - f3) + (x3 - x) / (x2 - x) * f / (f3 - f) * f2 / (f3 - f2)
    # stay off the ends by a little under half of `close`, so that the far end closes in as well
    edge = np.minimum(0.4 * close / np.abs(x2 - x), 0.5)
    share = np.clip(np.where(safe & np.isfinite(quadratic), quadratic, 0.5), edge, 1 - edge)
    return _Bracket(x, f, x2, f2, share)

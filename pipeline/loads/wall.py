"""The least wall that would carry the load: what to look for where the wall is not known."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from pipeline.loads.cases import Case
from pipeline.loads.flexure import least_design_wall
from pipeline.loads.load_arrays import Floats, LoadInputs
from pipeline.loads.strength import capacity, post_utilisation

CLOSE = 1e-9
"""Width of the bracket at which the search ends [m]; the contract asks for 1e-5."""

_STEPS = 100


def _reserve(rows: tuple[Any, ...], wall: Floats, policy: Mapping[str, Any]) -> Floats:
    """1/utilisation - 1 of the worse case: rises with the wall, about in proportion; -1 where too slender."""
    square, size, height, length, hang_load, hang_moment, load, moment = rows
    t = float(policy["design_wall_factor"]) * wall
    post = capacity(square, size, height, length, t, float(policy["steel_yield"]), float(policy["steel_modulus"]))
    worse = np.maximum(post_utilisation(post, hang_load, hang_moment), post_utilisation(post, load, moment))
    return 1 / worse - 1


def least_wall(k: LoadInputs, length: Floats, hang: Case, push: Case, storm: Case, policy: Mapping[str, Any]) -> Floats:
    """Least stated wall at which the worse case takes just all of the post's strength (k,) [m].

    k: the kits (k,); length: L (k,) [m]; hang, push, storm: the cases; policy: `design_wall_factor`, `steel_yield`,
    `steel_modulus`. The post alone is looked at, no joint; its own weight and the second order change with the wall.
    NaN where a fifth of the size is not enough, or the material is neither steel nor unknown. A wall so thin that
    the screen would say `unknown` counts as not enough. Range: 0 to D/5, to 1e-9 m.
    Source: root of AISC 360-16, H1.1 (published); bracket kept.
    """
    # push and storm carry the same axial load: the greater moment is the worse
    columns = (k.square, k.size, k.height, length, hang.carried, hang.moment, push.carried,
               np.maximum(push.moment, storm.moment))  # fmt: skip
    found = np.full(k.size.shape, np.nan)
    index = np.flatnonzero(k.steel_or_unknown)
    rows = tuple(c[index] for c in columns)
    found[index] = _search(rows, policy)
    return found


def _search(rows: tuple[Any, ...], policy: Mapping[str, Any]) -> Floats:
    """Least wall of each row, NaN where none: only rows that are still open are worked on."""
    square, size = rows[0], rows[1]
    thin = least_design_wall(square, size, float(policy["steel_yield"]), float(policy["steel_modulus"]))
    low, high = thin / float(policy["design_wall_factor"]), size / 5
    at_low, at_high = _reserve(rows, low, policy), _reserve(rows, high, policy)
    enough = (low <= high) & (at_high >= 0)
    found = np.where(enough & (at_low >= 0), low, np.nan)
    open_ = np.flatnonzero(enough & (at_low < 0))
    rows = tuple(r[open_] for r in rows)
    ends = _Bracket(low[open_], at_low[open_], high[open_], at_high[open_], np.full(open_.size, 0.5))
    for _ in range(_STEPS):
        if not open_.size:
            break
        x = ends.x + ends.share * (ends.other - ends.x)
        ends = _narrow(ends, x, _reserve(rows, x, policy))
        done = np.abs(ends.other - ends.x) <= CLOSE
        found[open_[done]] = np.where(ends.f >= 0, ends.x, ends.other)[done]
        keep = ~done
        open_, rows = open_[keep], tuple(r[keep] for r in rows)
        ends = _Bracket(ends.x[keep], ends.f[keep], ends.other[keep], ends.f_other[keep], ends.share[keep])
    return found


@dataclass(frozen=True)
class _Bracket:
    """The last place `x`, the place `other` on the far side of the root, and where between them to look next."""

    x: Floats
    f: Floats
    other: Floats
    f_other: Floats
    share: Floats


def _narrow(b: _Bracket, x: Floats, f: Floats) -> _Bracket:
    """The bracket with `x` in it: inverse quadratic where it is safe, else halving, which no jump can stall.

    Source: Chandrupatla, Advances in Engineering Software 28 (1997) 145-149 (published).
    """
    same = (f >= 0) == (b.f >= 0)
    x3, f3 = np.where(same, b.x, b.other), np.where(same, b.f, b.f_other)
    x2, f2 = np.where(same, b.other, b.x), np.where(same, b.f_other, b.f)
    xi, phi = (x - x2) / (x3 - x2), (f - f2) / (f3 - f2)
    safe = (phi**2 < xi) & ((1 - phi) ** 2 < 1 - xi)
    quadratic = f / (f2 - f) * f3 / (f2 - f3) + (x3 - x) / (x2 - x) * f / (f3 - f) * f2 / (f3 - f2)
    # stay off the ends by a little under half of CLOSE, so that the far end closes in as well
    edge = np.minimum(0.4 * CLOSE / np.abs(x2 - x), 0.5)
    share = np.clip(np.where(safe, quadratic, 0.5), edge, 1 - edge)
    return _Bracket(x, f, x2, f2, share)

"""The least wall that would carry the load: what to look for where the wall is not known."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np

from pipeline.loads.cases import Case
from pipeline.loads.flexure import least_design_wall
from pipeline.loads.model import Bools, Floats, LoadInputs
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
    Source: root of AISC 360-16, H1.1 (published); bracket kept, Illinois' false position with halving.
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
    found = np.where((low <= high) & (at_high >= 0) & (at_low >= 0), low, np.nan)
    open_ = np.flatnonzero((low < high) & (at_high >= 0) & (at_low < 0))
    state = [a[open_] for a in (low, high, at_low, at_high)]
    rows = tuple(r[open_] for r in rows)
    for step in range(_STEPS):
        if not open_.size:
            break
        done = _narrow(rows, state, step, policy)
        found[open_[done]] = state[1][done]
        keep = ~done
        open_, rows, state = open_[keep], tuple(r[keep] for r in rows), [a[keep] for a in state]
    return found


def _narrow(rows: tuple[Any, ...], state: list[Floats], step: int, policy: Mapping[str, Any]) -> Bools:
    """One step: `state` (low, high, and the weighted reserves there) is narrowed; True where the end is reached."""
    low, high, at_low, at_high = state
    false_position = (low * at_high - high * at_low) / (at_high - at_low)
    # every third step halves the bracket, so that a jump (too slender) cannot stall the search
    middle = (low + high) / 2 if step % 3 == 2 else false_position
    reserve = _reserve(rows, middle, policy)
    enough = reserve >= 0
    state[0], state[1] = np.where(enough, low, middle), np.where(enough, middle, high)
    # Illinois: the end that stays counts half
    state[2], state[3] = np.where(enough, at_low / 2, reserve), np.where(enough, reserve, at_high / 2)
    exact = np.abs(reserve) <= 1e-13
    state[1] = np.where(exact, middle, state[1])
    return exact | (state[1] - state[0] <= CLOSE)

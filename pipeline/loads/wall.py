"""The least wall that would carry the load: what to look for where the wall is not known."""

from __future__ import annotations

import numpy as np

from pipeline.loads.flexure import least_design_wall
from pipeline.loads.formulas import Values, evaluate
from pipeline.loads.load_arrays import Floats, Ints
from pipeline.loads.resistance import SHARES, TUBE
from pipeline.loads.root import least_root

CLOSE = 1e-9
"""Width of the bracket at which the search ends [m]; the contract asks for 1e-5."""

_READ = ("square", "D", "H", "h_c", "W_L", "W", "M_max.hang", "M_max.push")
_ROWS = (*TUBE, *(r for r in SHARES if not r.symbol.endswith(".storm")))


def least_wall(v: Values) -> Floats:
    """Least stated wall at which the worse case takes just all of the post's strength (k,) [m].

    v: figures of the load side and of the soil, by symbol. The post alone is looked at, no joint; its own weight and
    the second order change with the wall. NaN where a fifth of the size is not enough, the material is neither steel
    nor unknown, or a load is not known. A wall so thin that the screen would say `unknown` counts as not enough.
    Range: 0 to D/5, to 1e-9 m.
    Source: root of AISC 360-16, H1.1 (memory).
    """
    found = np.full(v["D"].shape, np.nan)
    asked = np.flatnonzero(v["steel_or_unknown"])
    some = {name: v[name][asked] for name in _READ}
    # push and storm carry the same axial load: the greater moment is the worse
    some["M_max.push"] = np.maximum(some["M_max.push"], v["M_max.storm"][asked])
    policy = {name: v[name] for name in ("Fy", "E", "factor")}

    def reserve(wall: Floats, rows: Ints) -> Floats:
        """1/utilisation - 1 of the worse case: rises with the wall, about in proportion; -1 where too slender."""
        at = evaluate(_ROWS, {n: values[rows] for n, values in some.items()} | policy | {"wall": wall})
        return np.asarray(1 / np.maximum(at["U.hang"], at["U.push"]) - 1)

    thin = least_design_wall(some["square"], some["D"], v["Fy"], v["E"]) / v["factor"]
    found[asked] = least_root(reserve, thin, some["D"] / 5, CLOSE)
    return found

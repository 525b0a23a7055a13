"""What would change the answer: rust, softer steel, more wind, a wider board, and what is worth measuring."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from pipeline.loads.formulas import Policy
from pipeline.loads.load_arrays import Floats, Ints, LoadInputs
from pipeline.loads.loading import worse
from pipeline.loads.root import least_root
from pipeline.loads.screen import shares

WALL_LEFT = 0.75
"""A quarter of the wall gone. Source: design 16, house rule."""

KSI = 6.894757e6
"""Source: NIST SP 811, appendix B [Pa] (memory)."""

SOFT_STEEL, FIRM_STEEL = 25 * KSI, 36 * KSI
"""Yield of 25 ksi, and of 36 ksi [Pa]. Source: ASTM A53 grade A 30, ASTM A36 36 ksi (memory); 25 ksi is the house's floor."""

WIND_STEP = 1.13
"""The next wind step up. Source: ASCE 7-16, figure 26.5-1, 115 to 130 mph (memory)."""

STRONGEST_WIND = 150.0
"""Wind speed at which the search ends [m/s]. Source: house rule, above every mapped speed."""

COMFORTABLE = 0.8
"""Share of strength up to which no engineer is asked first. Source: design 16, house rule."""

INPUTS = ("wall", "steel", "wind_speed", "exposure", "size", "lean")
"""What a measurement could settle, in the order in which ties are taken."""


@dataclass(frozen=True, eq=False, repr=False)
class Sensitivities:
    """What the worse share of strength would become, each (k,) [-] but `wind_limit`; NaN where it is not known."""

    rusted: Floats  # with a quarter of the wall gone
    soft: Floats  # of steel of 25 ksi
    windier: Floats  # at the next wind step
    wind_limit: Floats  # wind speed at which the share reaches 1 [m/s]; 0 at any, inf at none
    swings: Floats  # (k, len(INPUTS)): how far the share moves over what each input may be


def worst_share(k: LoadInputs, policy: Policy) -> Floats:
    """The worse share of strength in play and storm (k,) [-]; NaN where it is not known.

    k: the kits (k,); policy: SI settings. Range: as `screen`.
    Source: the functions called.
    """
    v = shares(k, policy)
    return worse(v["play"], v["storm"])


def sensitivities(k: LoadInputs, policy: Policy, size_uncertainty: Floats, lean_limit: float) -> Sensitivities:
    """How the worse share of strength of k kits would move.

    k: the kits (k,); policy: SI settings; size_uncertainty: bound on each size (k,) [m]; lean_limit: most lean that a
    mount may be shimmed for [rad]. Range: as `screen`.
    Source: design 16; `screen` once a change.
    """
    soft, firm = ({**policy, "steel_yield": fy} for fy in (SOFT_STEEL, FIRM_STEEL))
    now = worst_share(k, policy)
    rusted = worst_share(replace(k, wall=WALL_LEFT * k.wall), policy)
    windier = worst_share(replace(k, wind_speed=WIND_STEP * k.wind_speed), policy)
    calmer = worst_share(replace(k, wind_speed=k.wind_speed / WIND_STEP), policy)
    softer = worst_share(k, soft)
    ends = {
        "wall": (now, rusted),
        "steel": (worst_share(k, firm), softer),
        "wind_speed": (calmer, windier),
        "exposure": tuple(worst_share(replace(k, exposure=np.full_like(k.exposure, e)), policy) for e in (0, 2)),
        "size": tuple(worst_share(replace(k, size=k.size + s * size_uncertainty), policy) for s in (1, -1)),
        "lean": (now, worst_share(replace(k, lean=np.maximum(k.lean, lean_limit)), policy)),
    }
    with np.errstate(invalid="ignore"):
        swings = np.stack([np.abs(ends[name][1] - ends[name][0]) for name in INPUTS], axis=1)
    return Sensitivities(rusted, softer, windier, wind_limit(k, policy), swings)


def wind_limit(k: LoadInputs, policy: Policy) -> Floats:
    """Wind speed at which the worse share of strength reaches 1 (k,) [m/s]; 0 at any, inf at none, NaN unknown.

    k: the kits (k,); policy: SI settings. Range: 0 to 150 m/s.
    Source: root of `screen` in the wind speed.
    """

    def reserve(speed: Floats, rows: Ints) -> Floats:
        with np.errstate(over="ignore"):
            return np.minimum(worst_share(take(replace(k, wind_speed=spread(speed, rows, k)), rows), policy), 1e3) - 1

    ends = np.zeros(k.size.shape), np.full(k.size.shape, STRONGEST_WIND)
    found = least_root(reserve, *ends, 1e-6)
    known = ~np.isnan(worst_share(k, policy))
    return np.where(known & np.isnan(found), np.inf, np.where(known, found, np.nan))


def spread(values: Floats, rows: Ints, k: LoadInputs) -> Floats:
    """Values of some rows among all kits (k,).

    values: (m,); rows: their numbers (m,); k: the kits (k,). Range: any.
    Source: house style.
    """
    out = k.wind_speed.copy()
    out[rows] = values
    return out


def take(k: LoadInputs, rows: Any) -> LoadInputs:
    """Some of the kits.

    k: the kits (k,); rows: their numbers (m,). Range: any.
    Source: house style.
    """
    return LoadInputs(**{name: values[rows] for name, values in vars(k).items()})


def widest_within(post: Ints, width: Floats, share: Floats, posts: int) -> Floats:
    """The widest board that leaves each post within `COMFORTABLE` (posts,) [m]; NaN where none does.

    post: the post of each kit (k,); width: of its board (k,) [m]; share: its worse share of strength (k,) [-], NaN
    unknown; posts: how many there are. Range: any.
    Source: design 16, house rule.
    """
    widest = np.full(posts, -np.inf)
    good = share <= COMFORTABLE
    np.maximum.at(widest, post[good], width[good])
    return np.where(np.isinf(widest), np.nan, widest)


def measure_next(swings: Floats, stated: Mapping[str, bool]) -> str:
    """The one input of `INPUTS` whose measurement would settle most, `` where none would.

    swings: of one kit (len(INPUTS),); stated: whether wind speed, exposure and lean were. What was stated is taken as
    measured, but the wall, which rust eats, the steel and the size. Range: one kit.
    Source: design 16, house rule.
    """
    open_ = np.array([not stated.get(name) for name in INPUTS]) & (swings > 0)
    return INPUTS[int(np.argmax(np.where(open_, swings, -1.0)))] if open_.any() else ""

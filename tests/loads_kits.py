"""Made-up kits on made-up posts for the tests of the load screen. Numbers of our own, no product."""

from __future__ import annotations

from dataclasses import fields
from typing import Any

import numpy as np

from pipeline.loads.load_arrays import LoadInputs

POLICY: dict[str, Any] = {
    "play_load": 3200.0,
    "push_load": 1000.0,
    "least_wind_pressure": 766.0,
    "play_wind_speed": 15.0,
    "board_drag": 1.8,
    "gust_factor": 0.85,
    "steel_yield": 207e6,
    "steel_modulus": 200e9,
    "design_wall_factor": 0.93,
    "soil_short_term_factor": 1.0,
}
"""The documented defaults of design section 9, in SI."""

PLAIN: dict[str, Any] = {
    "square": False,
    "size": 0.1143,
    "height": 3.2,
    "court_rise": 0.0,
    "lean": 0.0,
    "wall": 0.006,
    "steel": True,
    "steel_or_unknown": True,
    "base_plate": False,
    "driven": False,
    "footing_diameter": 0.45,
    "footing_stated": True,
    "footing_depth": np.nan,
    "soil_class": 4,
    "wind_speed": 51.4,
    "exposure": 1,
    "ring_top": 3.048,
    "extended": False,
    "added": 0.0,
    "upper_size": np.nan,
    "rated_moment": np.nan,
    "extension_mass": 0.0,
    "mount_mass": 38.0,
    "overhang": 1.2,
    "board_width": 1.83,
    "board_height": 1.07,
    "board_mass": 55.0,
    "ring_mass": 9.0,
}
"""A plain 4.5 in post with a large board."""


def kit(**changes: Any) -> LoadInputs:
    """One plain kit with `changes`; a change may be a list, then there is one kit for each entry."""
    row = {**PLAIN, **changes}
    k = max(np.size(v) for v in row.values())
    return LoadInputs(**{name: np.resize(np.asarray(v), k) for name, v in row.items()})


def take(k: LoadInputs, index: Any) -> LoadInputs:
    """The kits at `index`."""
    return LoadInputs(**{f.name: getattr(k, f.name)[index] for f in fields(k)})


def made_up(n: int, seed: int) -> LoadInputs:
    """n kits of every kind, edges included: thin and thick walls, short and tall posts, every soil and base."""
    r = np.random.default_rng(seed)
    u = r.uniform
    ext = r.random(n) < 0.25
    square = r.random(n) < 0.4
    size = u(0.045, 0.3, n)
    known = r.random(n) < 0.75
    steel = r.random(n) < 0.8
    wall = np.exp(u(np.log(0.001), np.log(size / 5)))
    return kit(
        square=square, size=size, height=u(1.8, 5.5, n), court_rise=u(-1.0, 1.0, n), lean=u(0, 0.05, n) * (r.random(n) < 0.7),
        wall=np.where(known, wall, np.nan), steel=steel, steel_or_unknown=steel | (r.random(n) < 0.6),
        base_plate=r.random(n) < 0.1, driven=r.random(n) < 0.15, footing_diameter=u(0.15, 1.2, n),
        footing_stated=r.random(n) < 0.6,
        footing_depth=np.where(r.random(n) < 0.5, u(0.3, 3, n), np.nan), soil_class=r.integers(1, 6, n),
        wind_speed=u(15, 90, n), exposure=r.integers(0, 3, n), ring_top=u(1.8, 3.1, n), extended=ext,
        added=np.where(ext, u(0.1, 1.2, n), 0.0), upper_size=np.where(ext, u(0.045, 0.2, n), np.nan),
        rated_moment=np.where(ext & (r.random(n) < 0.7), u(2e3, 3e4, n), np.nan), extension_mass=np.where(ext, u(3, 30, n), 0.0),
        mount_mass=u(5, 80, n), overhang=u(0.1, 1.8, n), board_width=u(0.8, 1.9, n), board_height=u(0.6, 1.25, n),
        board_mass=u(8, 110, n), ring_mass=u(3, 18, n),
    )  # fmt: skip

"""A small catalogue and posts of our own for the tests of the rules; inches and feet exact, as the readers give them."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Any

import numpy as np

from pipeline.loads.load_arrays import LoadInputs, Loads
from pipeline.rules.arrays import Catalogue, Fit, Posts
from pipeline.rules.catalogue_arrays import catalogue
from pipeline.rules.fit import fit
from pipeline.rules.post_arrays import posts
from schemas.policy import BY_NAME
from schemas.surveyed_post import SurveyedPost
from schemas.words import STATES, VERDICTS

INCH = Fraction(254, 10000)  # NIST SP 811: exactly 25.4 mm
FOOT = 12 * INCH
POUND = Fraction(45359237, 100000000)

MM = Fraction(1, 1000)
_SI = {"mm": MM, "m": Fraction(1), "ft": FOOT, "in": INCH, "%": Fraction(1, 100), "deg": Fraction(1), "": Fraction(1)}


def inches(number: Any) -> float:
    return float(Fraction(str(number)) * INCH)


def feet(number: Any) -> float:
    return float(Fraction(str(number)) * FOOT)


def pounds(number: Any) -> float:
    return float(Fraction(str(number)) * POUND)


def policy(**changes: Any) -> dict[str, Any]:
    """The documented defaults that the rules read, in SI."""
    kept = {s.name: s for s in BY_NAME.values() if s.kind in ("length", "percent")}
    out: dict[str, Any] = {n: float(Fraction(s.default) * _SI[s.unit]) for n, s in kept.items()}
    out |= {"lean_limit": float(np.radians(2.0)), "ring_height_wanted": (feet(10),), "exposure": "C", "soil_class": 5}
    return {**out, "wind_speed": 51.4, "currency": "USD", "tax_rate": Decimal("0"), **changes}


POLICY = policy()


def mount(code: str, **changes: Any) -> dict[str, Any]:
    """A lifting mount for round posts of 3 1/2 in: 8 1/2 ft of post for a 10 ft ring, down to 7 1/2 ft by 6 in."""
    return {
        "mount": code, "description": f"Mount {code}", "post_shape": "round",
        "size_least_m": inches("3.4"), "size_most_m": inches("3.6"), "fastening": "u-bolt", "adjustment": "stepped",
        "post_height_needed_m": feet("8.5"), "for_ring_height_m": feet(10), "travel_m": feet("2.5"), "step_m": inches(6),
        "clamp_length_m": inches(30), "overhang_m": inches(36), "board_width_most_m": inches(54),
        "board_mass_most_kg": pounds(120), "mass_kg": pounds(70), "price": Decimal("400.00"), "status": "active", **changes,
    }  # fmt: skip


def board(code: str, **changes: Any) -> dict[str, Any]:
    return {
        "board": code, "description": f"Board {code}", "outline": "rectangular", "width_m": inches(54), "height_m": inches(36),
        "mass_kg": pounds(80), "face": "steel", "frame": "", "ring_pattern": "5x4", "price": Decimal("250.00"),
        "status": "active", **changes,
    }  # fmt: skip


def ring(code: str, **changes: Any) -> dict[str, Any]:
    return {
        "ring": code, "description": f"Ring {code}", "kind": "fixed", "ring_pattern": "5x4", "mass_kg": pounds(20),
        "price": Decimal("80.00"), "status": "active", **changes,
    }  # fmt: skip


def extension(code: str, **changes: Any) -> dict[str, Any]:
    return {
        "extension": code, "description": f"Extension {code}", "post_shape": "round", "size_least_m": inches("3.4"),
        "size_most_m": inches("3.6"), "joint": "sleeve", "added_m": inches(24), "joint_length_m": inches(12),
        "upper_size_m": inches("3.5"), "upper_clear_m": inches(60), "bore_least_m": None, "bore_most_m": None,
        "rated_moment_N_m": 5000.0, "mass_kg": pounds(30), "price": Decimal("150.00"), "status": "active", **changes,
    }  # fmt: skip


def tables(**changes: Any) -> dict[str, Any]:
    """One mount, board and ring that go together; tables given by name replace those here (`Price_breaks` as well)."""
    out: dict[str, Any] = {
        "Mounts": (mount("M-1"),), "Boards": (board("B-1"),), "Rings": (ring("R-1"),), "Extensions": (), "Services": (),
        "Price breaks": (), "Freight": ({"mass_most_kg": None, "price": Decimal("95.00")},), "Customers": (),
    }  # fmt: skip
    out |= {name.replace("_", " "): rows for name, rows in changes.items()}
    every = ({"mount": m["mount"], "board": b["board"]} for m in out["Mounts"] for b in out["Boards"])
    return {"Pairings": tuple(every), **out}


def post(**changes: Any) -> SurveyedPost:
    """A straight bare round post of 3 1/2 in, 8 1/2 ft tall, taken with a rule and a tape."""
    usual: dict[str, Any] = {
        "post_shape": "round", "post_size": inches("3.5"), "post_height": feet("8.5"), "post_line": "straight",
        "old_fittings": "none", "condition": "sound",
    }  # fmt: skip
    return SurveyedPost(**usual | changes)


def fitted(
    rows: list[SurveyedPost], catalogue_tables: dict[str, Any] | None = None, **settings: Any
) -> tuple[Posts, Catalogue, Fit]:
    c = catalogue(catalogue_tables or tables())
    p = posts(rows, c, policy(**settings))
    return p, c, fit(p, c, policy(**settings))


def state(f: Fit, code: str, i: int = 0, m: int = 0) -> str:
    found = next(x for x in f.findings if x.code == code)
    return STATES[int(np.broadcast_to(found.state, f.verdict.shape)[i, m])]


def verdict(f: Fit, i: int = 0, m: int = 0) -> str:
    return VERDICTS[int(f.verdict[i, m])]


def no_load(k: LoadInputs, over: Any = None) -> Loads:
    """Knows nothing but a footing that will do: every state unknown unless `over` says where it is over (2 = unknown)."""
    n = len(k.size)
    nothing = np.full(n, np.nan)
    load_state = np.full(n, 2) if over is None else np.where(over(k), 1, 0)
    return Loads(
        moment_play=nothing, moment_storm=nothing, utilisation_play=nothing, utilisation_storm=nothing, load_state=load_state,
        wall_needed=nothing, footing_depth_needed=np.full(n, 0.5), footing_confirm=np.zeros(n, dtype=bool), ring_sag=nothing,
        hung_mass=k.mount_mass + k.board_mass + k.ring_mass + k.extension_mass,
    )  # fmt: skip

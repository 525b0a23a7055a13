"""The working of one kit on one post: the rows of the screen with the numbers that it computed."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np

from pipeline.loads.formulas import Formula, Policy, Values, row, source_of
from pipeline.loads.load_arrays import Floats, LoadInputs, MomentPart, Step
from pipeline.loads.loading import GIVEN, LOADING, MOMENTS, SETTINGS, worse
from pipeline.loads.resistance import GROUND, JOINTS, MOVING, SHARES, SOIL, TUBE
from pipeline.loads.screen import figures, load_state
from pipeline.loads.wall import least_wall
from schemas.words import LOAD_STATES

OUTCOME: tuple[Formula, ...] = (
    row("play", "Utilisation in play", "of strength", "the greatest share in hang and push", worse, "share.hang share.push", ""),
    row("storm", "Utilisation in storm", "of strength", "the greatest share in storm", worse, "share.storm", ""),
    row("state", "Load state", "", "within where both utilisations are at most 1", load_state, "play storm"),
    row("wall_needed", "Least stated wall that would carry the worse case", "m",
        "share of the post's strength = 1, up to D/5", least_wall, "M_max.hang M_max.push M_max.storm D"),
)  # fmt: skip

SHOWN: tuple[Formula, ...] = (*LOADING, *SOIL, *TUBE, *SHARES, *JOINTS, *OUTCOME, *GROUND, *MOVING)

UNITS: dict[str, str] = {g.symbol: g.unit for g in (*GIVEN, *SETTINGS)} | {f.symbol: f.unit for f in SHOWN}
"""SI unit of each figure, by its symbol; '' is a plain number."""


def working(k: LoadInputs, policy: Policy) -> tuple[Step, ...]:
    """Every figure of the screen for ONE kit (k = 1), in the order in which it is worked out.

    k: one kit, arrays (1,); policy: SI settings. A result that is not known is NaN. Range: as `screen`.
    Source: each step names its own.
    """
    if k.size.shape != (1,):
        raise ValueError(f"working() takes one kit, not {k.size.size}")
    v = figures(k, policy)
    return tuple(_step(f, v) for f in SHOWN if f.what and _worth(f.when, v))


def _one(x: Any) -> float:
    return float(x.item() if hasattr(x, "item") else x)


def _worth(when: str, v: Values) -> bool:
    """Whether a step says anything of this kit."""
    known, extended = LOAD_STATES[int(_one(v["state"]))] != "unknown", bool(_one(v["extended"]))
    return {
        "": True,
        "extended": extended,
        "driven": bool(_one(v["driven"])),
        "embedded": not _one(v["base_plate"]),
        "walled": bool(np.isfinite(_one(v["wall"])) and _one(v["steel_or_unknown"])),
        "known": known,
        "jointed": known and extended,
    }[when]


def _step(f: Formula, v: Values) -> Step:
    formula = f.formula if isinstance(f.formula, str) else f.formula[int(_one(v["square"]))]
    name = f.what
    numbers = tuple(_put_in(f.inputs if f.shown is None else f.shown, v))
    result = _one(v[f.symbol])
    if f.symbol == "state":
        name = f"Load state: {LOAD_STATES[int(result)]}"
        result = _one(np.maximum(v["play"], v["storm"]))
        why = _why_unknown(v)
        return Step(name, formula, (*numbers, ("why", why, "")) if np.isnan(result) else numbers, result, "of strength",
                    source_of((f.function,)))  # fmt: skip
    return Step(name, formula, numbers, result, f.unit, source_of((*f.sources, f.function)))


def _put_in(symbols: tuple[str, ...], v: Values) -> Iterator[tuple[str, float | str, str]]:
    """Name, value and unit of what goes into a step; the case is named only where two would read alike."""
    bare = [s.partition(".")[0] for s in symbols]
    for symbol, short in zip(symbols, bare, strict=True):
        name = short if bare.count(short) == 1 else symbol.replace(".", ", ")
        if symbol == "exposure":
            yield name, ("B", "C", "D", "not read")[int(_one(v[symbol]))], ""
        elif symbol in ("driven", "extended", "base_plate", "square"):
            yield name, "yes" if _one(v[symbol]) else "no", ""
        else:
            yield name, _one(v[symbol]), UNITS[symbol]


def _why_unknown(v: Values) -> str:
    """Why no utilisation is given, in plain words; the first reason that holds."""
    reasons = (
        (np.isnan(_one(v["wall"])), "the wall is not stated"),
        (not _one(v["steel"]), "the material is not known to be steel"),
        (bool(_one(v["extended"])) and np.isnan(_one(v["rated"])), "the extension's joint has no rated moment"),
        (np.isnan(_one(v["lean"])), "the lean could not be read"),
        (np.isnan(_one(v["Kz.post"])), "the exposure could not be read"),
        (np.isnan(_one(v["speed.storm"])), "the wind speed could not be read"),
        (bool(_one(v["driven"])) and np.isnan(_one(v["k"])), "the soil class round a driven post could not be read"),
    )
    return next((words for holds, words in reasons if holds), "the wall is too slender for this screen")


def _bare(what: str) -> str:
    """The words of a term without its case."""
    for case in (", play", ", storm", ", with the hanging load"):
        what = what.removesuffix(case)
    return what


def parts(v: Values) -> tuple[MomentPart, ...]:
    """Parts of the first-order moments at the ground, by the words of their rows.

    v: figures of the kits, by symbol. The play parts are those of the worse of hang and push and add up to
    moment_play, the storm parts to moment_storm. Range: as `screen`.
    Source: the functions called.
    """
    hangs = v["M.hang"] >= v["M.push"]
    words = {f.symbol: _bare(f.what) for f in LOADING}
    nothing = np.zeros(hangs.shape)
    found: dict[str, tuple[Floats, Floats]] = {}
    for case, symbols in MOMENTS.items():
        for symbol in symbols:
            play, storm = found.get(words[symbol], (nothing, nothing))
            counts = {"hang": np.where(hangs, v[symbol], 0.0), "push": np.where(hangs, 0.0, v[symbol])}
            found[words[symbol]] = (play + counts[case], storm) if case != "storm" else (play, storm + v[symbol])
    return tuple(MomentPart(what, play, storm) for what, (play, storm) in found.items())

"""The screen: from k kits on their posts to the figures."""

from __future__ import annotations

from dataclasses import fields

import numpy as np

from pipeline.loads import footing
from pipeline.loads.formulas import Policy, Values, evaluate
from pipeline.loads.load_arrays import OVER, UNKNOWN, WITHIN, Bools, Floats, Ints, LoadInputs, Loads
from pipeline.loads.loading import GIVEN, LOADING, SETTINGS, worse
from pipeline.loads.resistance import GROUND, JOINTS, MOVING, SHARES, SOIL, TUBE
from pipeline.loads.wall import least_wall

ROWS = (*LOADING, *SOIL, *TUBE, *SHARES, *JOINTS)
"""What the shares of strength need."""


def given(k: LoadInputs, policy: Policy) -> Values:
    """What the screen is handed, by symbol.

    k: the kits (k,); policy: settings in SI by the names of schemas.policy. Range: any.
    Source: the survey, the catalogue, the policy.
    """
    kits = {f.name: getattr(k, f.name) for f in fields(k)}
    return {g.symbol: kits[g.name] for g in GIVEN} | {s.symbol: float(policy[s.name]) for s in SETTINGS}


def shares(k: LoadInputs, policy: Policy) -> Values:
    """Every figure up to the utilisations, by symbol; `play`, `storm` and `state` at the end.

    k: the kits (k,); policy: SI settings. Range: as each clause's function says.
    Source: the functions called.
    """
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        v = evaluate(ROWS, given(k, policy))
        play, storm = worse(v["share.hang"], v["share.push"]), v["share.storm"]
        unknown = is_unknown(v["lambda"], v["lambda_most"], v["steel"], play, storm)
        v["state"] = load_state(unknown, play, storm)
        v["play"], v["storm"] = (np.where(unknown, np.nan, share) for share in (play, storm))
    return v


def figures(k: LoadInputs, policy: Policy) -> Values:
    """Every figure of the screen, by symbol.

    k: the kits (k,); policy: SI settings. Range: as each clause's function says.
    Source: the functions called.
    """
    v = shares(k, policy)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        evaluate((*GROUND, *MOVING), v)
        v["wall_needed"] = least_wall(v)
    return v


def screen(k: LoadInputs, policy: Policy) -> Loads:
    """The rough installed load of k kits, each on its post: a screen and not a design.

    k: the kits, SI, arrays (k,), NaN = not known; policy: settings in SI by the names of schemas.policy.
    Returns each figure (k,), NaN = not known. Range: as each clause's function says.
    Source: the functions called.
    """
    v = figures(k, policy)
    return Loads(
        moment_play=v["M.play"],
        moment_storm=v["M.storm"],
        utilisation_play=v["play"],
        utilisation_storm=v["storm"],
        load_state=v["state"],
        wall_needed=v["wall_needed"],
        footing_depth_needed=v["depth"],
        footing_confirm=footing.to_confirm(v["stated"], v["depth"], v["diameter_stated"], v["driven"]),
        ring_sag=v["deflection"],
        hung_mass=v["m"],
    )


def is_unknown(lam: Floats, most: Floats, steel: Bools, play: Floats, storm: Floats) -> Bools:
    """No utilisation can be given (k,): wall, load or rating not known, not steel, or walls too slender.

    lam, most: slenderness of the wall and its limit (k,) [-]; steel: the material is steel (k,); play, storm: shares
    (k,) [-], NaN where an extension has no rating, or wind, exposure, lean or a driven post's soil was not read.
    Range: any.
    Source: house rule; AISC 360-16, F8 and table B4.1b for the slenderness (restated: AISC Design Examples).
    """
    # `not within` and not `beyond`: a NaN must come out unknown
    return ~(lam <= most) | ~steel | np.isnan(play) | np.isnan(storm)


def load_state(unknown: Bools, play: Floats, storm: Floats) -> Ints:
    """WITHIN where both cases take at most all of the strength, OVER, or UNKNOWN (k,).

    unknown: (k,); play, storm: utilisations (k,) [-]. Range: any; what is not known never passes; slack of 1e-9.
    Source: house rule; AISC 360-16, B3.2, strength needed at most strength allowed (memory).
    """
    within = (play <= 1 + 1e-9) & (storm <= 1 + 1e-9)
    return np.where(unknown, UNKNOWN, np.where(within, WITHIN, OVER))

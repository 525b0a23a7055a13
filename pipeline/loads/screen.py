"""The screen: from k kits on their posts to the figures, one call a clause."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from pipeline.loads import dead, footing, sag, wall
from pipeline.loads.cases import Case, Terms, hang_case, joint_utilisation, push_case, storm_case, terms, worse_of_play
from pipeline.loads.flexure import slenderness, slenderness_most
from pipeline.loads.load_arrays import OVER, UNKNOWN, WITHIN, Bools, Floats, Ints, LoadInputs, Loads
from pipeline.loads.section import design_wall
from pipeline.loads.strength import Capacity, capacity, post_utilisation

Policy = Mapping[str, Any]


@dataclass(frozen=True)
class Screened:
    """The figures and what they were made from."""

    terms: Terms
    hang: Case
    push: Case
    storm: Case
    design_wall: Floats  # [m], NaN = unknown
    post: Capacity
    loads: Loads


def screen(k: LoadInputs, policy: Policy) -> Loads:
    """The rough installed load of k kits, each on its post: a screen and not a design.

    k: the kits, SI, arrays (k,), NaN = not known; policy: settings in SI by the names of schemas.policy.
    Returns each figure (k,), NaN = not known. Range: as each clause's function says.
    Source: the functions called.
    """
    return screened(k, policy).loads


def screened(k: LoadInputs, policy: Policy) -> Screened:
    """`screen` with every term kept, for `working`.

    k: the kits (k,); policy: SI settings. Range: as `screen`.
    Source: the functions called.
    """
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        t = terms(k, policy)
        hang, push, storm = hang_case(k, t, policy), push_case(k, t, policy), storm_case(k, t)
        thick = design_wall(k.wall, float(policy["design_wall_factor"]))
        fy, modulus = float(policy["steel_yield"]), float(policy["steel_modulus"])
        post = capacity(k.square, k.size, k.height, t.at.length, thick, fy, modulus)

        unknown = is_unknown(k, thick, policy)
        play_share = worse_of_play(utilisation(k, post, hang), utilisation(k, post, push))
        storm_share = utilisation(k, post, storm)
        needed = footing_depth(k, hang, push, storm)
        sinks = sag.ring_sag(float(policy["play_load"]), t.at.board_out, t.at.ring_out, t.at.length, post.tube.inertia, modulus)
        loads = Loads(
            moment_play=worse_of_play(hang.moment, push.moment),
            moment_storm=storm.moment,
            utilisation_play=np.where(unknown, np.nan, play_share),
            utilisation_storm=np.where(unknown, np.nan, storm_share),
            load_state=load_state(unknown, play_share, storm_share),
            wall_needed=wall.least_wall(k, t.at.length, hang, push, storm, policy),
            footing_depth_needed=needed,
            footing_confirm=footing.too_shallow(k.footing_depth, needed),
            ring_sag=np.where(k.steel_or_unknown & ~k.extended, sinks, np.nan),
            hung_mass=dead.hung_mass(k.mount_mass, k.board_mass, k.ring_mass, k.extension_mass),
        )
    return Screened(t, hang, push, storm, thick, post, loads)


def is_unknown(k: LoadInputs, thick: Floats, policy: Policy) -> Bools:
    """No utilisation can be given (k,): wall or rating not known, not steel, or walls too slender.

    k: the kits (k,); thick: design wall (k,) [m], NaN = unknown; policy: `steel_yield`, `steel_modulus` [Pa].
    Range: any.
    Source: house rule; AISC 360-16, F8 and table B4.1b for the slenderness (published).
    """
    most = slenderness_most(k.square, float(policy["steel_yield"]), float(policy["steel_modulus"]))
    # `not within` and not `beyond`: a NaN must come out unknown
    within = slenderness(k.square, k.size, thick) <= most
    return ~within | ~k.steel | (k.extended & np.isnan(k.rated_moment))


def utilisation(k: LoadInputs, post: Capacity, case: Case) -> Floats:
    """Share of strength that one case takes, the greater of post and joint (k,) [-].

    k: the kits (k,); post: the posts' capacity; case: the load case. Range: where the screen is not `unknown`.
    Source: AISC 360-16, H1.1 (published); the seller's rated moment at the joint.
    """
    at_post = post_utilisation(post, case.carried, case.moment)
    return np.maximum(at_post, joint_utilisation(case, k.extended, k.rated_moment))


def load_state(unknown: Bools, play: Floats, storm: Floats) -> Ints:
    """WITHIN where both cases take at most all of the strength, OVER, or UNKNOWN (k,).

    unknown: (k,); play, storm: utilisations (k,) [-]. Range: any; what is not known never passes.
    Source: house rule; AISC 360-16, B3.2, strength needed at most strength allowed (published).
    """
    return np.where(unknown, UNKNOWN, np.where((play <= 1) & (storm <= 1), WITHIN, OVER))


def footing_depth(k: LoadInputs, hang: Case, push: Case, storm: Case) -> Floats:
    """Depth of footing that the worst of the three cases asks for (k,) [m]; NaN on a base plate.

    k: the kits (k,); hang, push, storm: the cases. Range: as `footing.depth`; never less than the local frost depth.
    Source: IBC 2018, 1807.3.2.1 (published).
    """
    width = footing.bearing_width(k.square, k.size, k.driven, k.footing_diameter)
    bearing = footing.soil_bearing(k.soil_class)
    depths = [footing.depth(c.lateral, c.moment, width, bearing) for c in (hang, push, storm)]
    return np.where(k.base_plate, np.nan, np.maximum(np.maximum(depths[0], depths[1]), depths[2]))

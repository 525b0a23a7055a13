"""The working of one post's strength: section, bending, compression, second order, utilisations, least wall."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np

from pipeline.loads import constants as c
from pipeline.loads import dead, flexure, section, strength, wall
from pipeline.loads.cases import Case, joint_utilisation
from pipeline.loads.load_arrays import LoadInputs, Step
from pipeline.loads.screen import Screened, is_unknown, load_state
from pipeline.loads.steps import source_of, step
from schemas.words import LOAD_STATES

Policy = Mapping[str, Any]


def strength_steps(k: LoadInputs, s: Screened, policy: Policy) -> tuple[Step, ...]:
    """Steps about the strength of ONE post at the ground line; where no utilisation can be given, why not.

    k: one kit, arrays (1,); s: its screen; policy: SI settings. Range: as `screen`.
    Source: each step names its own.
    """
    known = np.isfinite(k.wall.item()) and k.steel_or_unknown.item()
    shares = () if is_unknown(k, s.design_wall, policy).item() else _shares(k, s)
    return (*(_section(k, s, policy) if known else ()), *shares, *_outcome(k, s, policy))


def _section(k: LoadInputs, s: Screened, policy: Policy) -> tuple[Step, ...]:
    t, tube, square, length = s.design_wall, s.post.tube, bool(k.square.item()), s.terms.at.length
    fy, modulus = float(policy["steel_yield"]), float(policy["steel_modulus"])
    shape = section.square_tube if square else section.round_tube
    lam = flexure.slenderness(k.square, k.size, t)
    slender = c.EFFECTIVE_LENGTH * length / np.sqrt(tube.inertia / tube.area)
    bent = flexure.square_moment if square else flexure.round_moment
    rule = (
        "Fy Z; Mp - (Mp - Fy S)(3.57 lambda sqrt(Fy/E) - 4.0); Fy Se"
        if square
        else "Fy Z; (0.021 E/lambda + Fy) S; 0.33 E/lambda S"
    )
    of, source = {"D": k.size, "t": t}, source_of(shape)
    lines = [
        step("Design wall", "t = factor x stated wall", t, "m", source_of(section.design_wall),
             factor=policy["design_wall_factor"], wall=k.wall),
        step("Area of the section", "A" if square else "A = pi t (D - t)", tube.area, "m2", source, **of),
        step("Second moment of area", "I" if square else "I = pi (D^4 - (D - 2t)^4)/64", tube.inertia, "m4", source, **of),
        step("Elastic section modulus", "S = 2 I/D", tube.elastic, "m3", source, I=tube.inertia, D=k.size),
        step("Plastic section modulus", "Z" if square else "Z = (D^3 - (D - 2t)^3)/6", tube.plastic, "m3", source, **of),
        step("Slenderness of the wall", "(D - 3t)/t" if square else "D/t", lam, "", source_of(flexure.slenderness), **of),
        step("Most slenderness that is looked at", "5.70 sqrt(E/Fy)" if square else "0.45 E/Fy",
             flexure.slenderness_most(k.square, fy, modulus), "", source_of(flexure.slenderness_most), E=modulus, Fy=fy),
        step("Bending strength", f"Mc = Mn/1.67, Mn by lambda: {rule}", s.post.bending, "N m",
             source_of(bent, flexure.bending_strength), Fy=fy, E=modulus, S=tube.elastic, Z=tube.plastic, lambda_=lam),
        step("Slenderness of the post", "K L/r, K = 2.1, r = sqrt(I/A)", slender, "", source_of(strength.compression_strength),
             L=length, I=tube.inertia, A=tube.area),
        step("Buckling stress", "Fcr = 0.658^(Fy/Fe) Fy up to Fy/Fe = 2.25, else 0.877 Fe; Fe = pi^2 E/(K L/r)^2",
             strength.compression_stress(slender, fy, modulus), "Pa", source_of(strength.compression_stress),
             Fy=fy, E=modulus, K_L_over_r=slender),
        step("Compression strength", "Pc = Fcr A/1.67", s.post.compression, "N", source_of(strength.compression_strength),
             A=tube.area),
        step("Elastic buckling load", "Pe = pi^2 E I/(2.1 L)^2", s.post.euler, "N", source_of(strength.euler_load),
             E=modulus, I=tube.inertia, L=length),
        step("Weight of the post's own steel", "g 7850 A H", s.post.own, "N", source_of(dead.own_weight),
             A=tube.area, H=k.height),
    ]  # fmt: skip
    return tuple(lines)


def _shares(k: LoadInputs, s: Screened) -> tuple[Step, ...]:
    lines: list[Step] = []
    for name, case in (("hang", s.hang), ("push", s.push), ("storm", s.storm)):
        lines += _share(k, s, name, case)
    return tuple(lines)


def _share(k: LoadInputs, s: Screened, name: str, case: Case) -> list[Step]:
    axial = case.carried + s.post.own
    b = strength.second_order(axial, s.post.euler)
    lines = [
        step(f"Axial load, {name}", "P = what the post carries + its own weight", axial, "N", "statics",
             carried=case.carried, own=s.post.own),
        step(f"Second-order multiplier, {name}", "B = 1/(1 - 1.6 P/Pe)", b, "", source_of(strength.second_order),
             P=axial, Pe=s.post.euler),
        step(f"Share of the post's strength, {name}",
             "P/(2 Pc) + B M/Mc, or P/Pc + 8/9 B M/Mc where P/Pc >= 0.2; infinite where B > 1.5: too slender for this screen",
             strength.post_utilisation(s.post, case.carried, case.moment), "of strength",
             source_of(strength.combined, strength.post_utilisation),
             P=axial, Pc=s.post.compression, B=b, M=case.moment, Mc=s.post.bending),
    ]  # fmt: skip
    if k.extended.item():
        lines.append(
            step(f"Share of the joint's rated moment, {name}", "M_J/rated", joint_utilisation(case, k.extended, k.rated_moment),
                 "of strength", source_of(joint_utilisation), M_J=case.joint, rated=k.rated_moment)
        )  # fmt: skip
    return lines


def _outcome(k: LoadInputs, s: Screened, policy: Policy) -> tuple[Step, ...]:
    loads = s.loads
    state = LOAD_STATES[int(loads.load_state.item())]
    why = {"why": _why_unknown(k, s, policy)} if state == "unknown" else {}
    return (
        step("Utilisation in play", "the greatest share in hang and push", loads.utilisation_play, "of strength",
             source_of(strength.combined)),
        step("Utilisation in storm", "the greatest share in storm", loads.utilisation_storm, "of strength",
             source_of(strength.combined)),
        step(f"Load state: {state}", "within where both utilisations are at most 1",
             np.maximum(loads.utilisation_play, loads.utilisation_storm), "of strength", source_of(load_state),
             play=loads.utilisation_play, storm=loads.utilisation_storm, **why),
        step("Least stated wall that would carry the worse case", "utilisation of the post alone = 1, up to D/5",
             loads.wall_needed, "m", source_of(wall.least_wall),
             hang=s.hang.moment, push=s.push.moment, storm=s.storm.moment, D=k.size),
    )  # fmt: skip


def _why_unknown(k: LoadInputs, s: Screened, policy: Policy) -> str:
    """Why no utilisation is given, in plain words; the first reason that holds."""
    unrated = k.extended.item() and np.isnan(k.rated_moment.item())
    reasons = (
        (np.isnan(k.wall.item()), "the wall is not stated"),
        (not k.steel.item(), "the material is not known to be steel"),
        (unrated, "the extension's joint has no rated moment"),
        (True, "the wall is too slender for this screen"),
    )
    return next(words for holds, words in reasons if holds)

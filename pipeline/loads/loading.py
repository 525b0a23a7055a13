"""The load side of the screen: what is given, and a row for each height, term and case."""

from __future__ import annotations

from typing import Any

import numpy as np

from pipeline.loads import constants as c
from pipeline.loads import dead, geometry, play, wind
from pipeline.loads.formulas import Formula, Given, row
from pipeline.loads.load_arrays import Floats

GIVEN: tuple[Given, ...] = (
    Given("D", "size", "m"), Given("H", "height", "m"), Given("c", "court_rise", "m"), Given("lean", "lean", "rad"),
    Given("wall", "wall", "m"), Given("footing", "footing_diameter", "m"), Given("stated", "footing_depth", "m"),
    Given("soil_class", "soil_class", ""), Given("speed.storm", "wind_speed", "m/s"), Given("exposure", "exposure", ""),
    Given("z_top", "ring_top", "m"), Given("added", "added", "m"), Given("upper_size", "upper_size", "m"),
    Given("rated", "rated_moment", "N m"), Given("extension", "extension_mass", "kg"), Given("mount", "mount_mass", "kg"),
    Given("overhang", "overhang", "m"), Given("width", "board_width", "m"), Given("height", "board_height", "m"),
    Given("board", "board_mass", "kg"), Given("ring", "ring_mass", "kg"), Given("square", "square", ""),
    Given("extended", "extended", ""), Given("steel", "steel", ""), Given("steel_or_unknown", "steel_or_unknown", ""),
    Given("driven", "driven", ""), Given("base_plate", "base_plate", ""), Given("diameter_stated", "footing_stated", ""),
)  # fmt: skip
"""What each kit brings, by field of LoadInputs."""

SETTINGS: tuple[Given, ...] = (
    Given("F_L", "play_load", "N"), Given("F_P", "push_load", "N"), Given("speed.play", "play_wind_speed", "m/s"),
    Given("least", "least_wind_pressure", "Pa"), Given("G", "gust_factor", ""), Given("Cf.board", "board_drag", ""),
    Given("Fy", "steel_yield", "Pa"), Given("E", "steel_modulus", "Pa"), Given("factor", "design_wall_factor", ""),
    Given("short_term", "soil_short_term_factor", ""),
)  # fmt: skip
"""What the policy brings, by setting."""

CASES = ("hang", "push", "storm")


def total(*terms: Floats) -> Floats:
    """Sum of the terms of a load case (k,) [N m or N].

    terms: moments at one place, or forces (k,). Range: the same kits.
    Source: ASCE 7-16, 2.4.1, D + L and D + 0.6W (restated: check list); the wind of play taken whole: house rule.
    """
    out: Any = terms[0]
    for term in terms[1:]:
        out = out + term
    return out


def worse(*figures: Floats) -> Floats:
    """The greatest of some figures (k,); what is not known stays so.

    figures: moments, depths or shares (k,). Range: any.
    Source: house rule: the worst case counts, and play is the worse of hang and push.
    """
    out: Any = figures[0]
    for figure in figures[1:]:
        out = np.maximum(out, figure)
    return out


def above(height: Floats, joint: Floats) -> Floats:
    """Lever about an extension's joint |z - H| (k,) [m].

    height: where a load acts z (k,) [m]; joint: the post's top H (k,) [m]. Range: extensions.
    Source: statics; the absolute lever is the safe side of a load below the joint.
    """
    return np.abs(height - joint)


def moment_of(force: Floats, lever: Floats) -> Floats:
    """Moment of a force (k,) [N m].

    force: (k,) [N]; lever: distance at which it acts (k,) [m]. Range: any.
    Source: statics.
    """
    return force * lever


def post_wind(post: Floats, height: Floats, extension: Floats, added: Floats) -> Floats:
    """Moment at the ground of the wind on post and extension (k,) [N m], each at its middle.

    post, extension: forces (k,) [N]; height: H (k,) [m]; added: of the extension (k,) [m]. Range: any.
    Source: statics, F_S H/2 + F_E (H + added/2).
    """
    return post * height / 2 + extension * (height + added / 2)


def joint_wind(board: Floats, lever: Floats, extension: Floats, added: Floats) -> Floats:
    """Moment at an extension's joint of the wind on board and extension (k,) [N m].

    board, extension: forces (k,) [N]; lever: |z_b - H| (k,) [m]; added: (k,) [m]. Range: extensions.
    Source: statics, F_B |z_b - H| + F_E added/2.
    """
    return board * lever + extension * added / 2


GEOMETRY: tuple[Formula, ...] = (
    row("L", "Length of the post with its extension", "m", "L = H + added", geometry.post_length, "H added"),
    row("z_r", "Ring above the ground", "m", "z_r = z_top + c", geometry.ring_height, "z_top c"),
    row("h_c", "Height of the load", "m", "h_c = max(L, z_r)", geometry.load_height, "L z_r"),
    row("z_b", "Board's centre above the ground", "m", "z_b = z_r - 0.150 + height/2", geometry.board_centre, "z_r height"),
    row("z_t", "Board's top edge above the ground", "m", "z_t = z_r - 0.150 + height", geometry.board_top, "z_r height"),
    row("D_m", "Size that the mount clamps", "m", "upper size with an extension, else D", geometry.clamp_size,
        "D upper_size extended"),
    row("e_b", "Board's face from the post's axis", "m", "e_b = D_m/2 + overhang", geometry.board_eccentricity, "D_m overhang"),
    row("e_m", "Mount's centre from the post's axis", "m", "e_m = D_m/2 + overhang/2", geometry.mount_eccentricity,
        "D_m overhang"),
    row("e_r", "Ring's centre from the post's axis", "m", "e_r = e_b + 0.376", geometry.ring_eccentricity, "e_b"),
    row("h_j", "Height of the load above the joint", "m", "h_j = |h_c - H|", above, "h_c H", when="extended"),
)  # fmt: skip

STANDING: tuple[Formula, ...] = (
    row("m", "Mass that is hung on the post", "kg", "m = mount + board + ring + extension", dead.hung_mass,
        "mount board ring extension"),
    row("W", "Its weight", "N", "W = g m", dead.weight, "m"),
    row("W_L", "Its weight, with the hanging load", "N", "W_L = W + F_L", dead.with_hanging, "W F_L"),
    row("M_D", "Weight of mount, board and ring", "N m", "M_D = g (mount e_m + board e_b + ring e_r)", dead.dead_moment,
        "mount board ring e_m e_b e_r"),
    row("M_L", "A player hanging on the ring", "N m", "M_L = F_L e_b", play.hang_moment, "F_L e_b"),
    row("M_P", "A push at the ring", "N m", "M_P = F_P z_r", play.push_moment, "F_P z_r"),
    row("M_N", "The post's lean", "N m", "M_N = sin(lean) h_c W", play.lean_moment, "lean h_c W"),
    row("M_NL", "The post's lean, with the hanging load", "N m", "M_NL = sin(lean) h_c W_L", play.lean_moment, "lean h_c W_L"),
    row("M_T", "Torque at the clamps of a pull sideways on the ring, for the mount's maker to judge", "N m", "M_T = F_P e_r",
        play.clamp_torque, "F_P e_r"),
    row("M_NJ", "Lean at the joint", "N m", "M_NJ = sin(lean) h_j W", play.lean_moment, "lean h_j W", when="extended"),
    row("M_NLJ", "Lean at the joint, with the hanging load", "N m", "M_NLJ = sin(lean) h_j W_L", play.lean_moment, "lean h_j W_L",
        when="extended"),
    row("z_rj", "Ring from the joint", "m", "z_rj = |z_r - H|", above, "z_r H", when="extended"),
    row("M_PJ", "Push at the joint", "N m", "M_PJ = F_P |z_r - H|", play.push_moment, "F_P z_rj", when="extended"),
    row("z_bj", "Board's centre from the joint", "m", "z_bj = |z_b - H|", above, "z_b H", when="extended"),
)  # fmt: skip

_KZ = f"Kz = {c.KZ_FACTOR:g} (max(z, {c.KZ_LEAST_HEIGHT:g})/zg)^(2/alpha); zg, alpha B 365.76, 7; C 274.32, 9.5; D 213.36, 11.5"

AIR: tuple[Formula, ...] = (
    row("Kz.board", "Height factor at the board's top edge", "", _KZ, wind.height_factor, "z_t exposure"),
    row("Kz.post", "Height factor at the post's top", "", _KZ, wind.height_factor, "L exposure"),
    row("Kd.board", "Directionality factor of the board", "", "0.85", wind.board_directionality, "square", ""),
    row("Kd.post", "Directionality factor of the post", "", ("1.0", "0.90"), wind.post_directionality, "square", ""),
    row("L/D", "Height over width of the post", "", "L/D", wind.height_over_width, "L D"),
    row("Cf.post", "Force coefficient of the post", "", "by L/D, linear between 1, 7, 25", wind.post_drag, "square L/D", "L/D"),
)  # fmt: skip


def blowing(name: str) -> tuple[Formula, ...]:
    """Rows of one wind: pressures, forces and moments.

    name: `play` or `storm`; in a storm the pressure has a floor and forces count six tenths. Range: level ground.
    Source: ASCE 7-16, 29.3 and 29.4 (restated: check list).
    """
    storm = name == "storm"
    press, floor = (wind.storm_pressure, ", at least the code's least pressure") if storm else (wind.wind_pressure, "")
    force, share = (wind.storm_force, "0.6 ") if storm else (wind.wind_force, "")
    least = " least" if storm else ""

    def on(part: str, where: str, wide: str, tall: str, symbol: str) -> tuple[Formula, ...]:
        return (
            row(f"q_{symbol}.{name}", f"Velocity pressure on the {where}, {name}", "Pa", f"q_{symbol} = 0.613 Kz Kd speed^2",
                wind.velocity_pressure, f"Kz.{part} Kd.{part} speed.{name}"),
            row(f"p_{symbol}.{name}", f"Wind pressure on the {where}, {name}", "Pa", f"p_{symbol} = q G Cf{floor}", press,
                f"q_{symbol}.{name} G Cf.{part}{least}"),
            row(f"F_{symbol}.{name}", f"Wind force on the {where}, {name}", "N", f"F_{symbol} = {share}p {wide} {tall}", force,
                f"p_{symbol}.{name} {wide} {tall}"),
        )  # fmt: skip

    return (
        *on("board", "board", "width", "height", "B"),
        *on("post", "post", "D", "H", "S"),
        row(f"F_E.{name}", f"Wind force on the extension, {name}", "N", f"F_E = {share}p upper_size added", force,
            f"p_S.{name} upper_size added extended", f"p_S.{name} upper_size added", when="extended"),
        row(f"M_B.{name}", f"Wind on the board, {name}", "N m", "M_B = F_B z_b", moment_of, f"F_B.{name} z_b"),
        row(f"M_S.{name}", f"Wind on the post, {name}", "N m", "M_S = F_S H/2 + F_E (H + added/2)", post_wind,
            f"F_S.{name} H F_E.{name} added"),
        row(f"M_WJ.{name}", f"Wind at the joint, {name}", "N m", "M_WJ = F_B |z_b - H| + F_E added/2", joint_wind,
            f"F_B.{name} z_bj F_E.{name} added", when="extended"),
    )  # fmt: skip


def _sum(symbol: str, what: str, unit: str, inputs: str, when: str = "") -> Formula:
    formula = f"{symbol.partition('.')[0]} = " + " + ".join(name.partition(".")[0] for name in inputs.split())
    return row(symbol, what, unit, formula, total, inputs, when=when)


def _forces(name: str) -> str:
    return f"F_B.{name} F_S.{name} F_E.{name}"


MOMENTS: dict[str, tuple[str, ...]] = {
    "hang": ("M_D", "M_L", "M_NL", "M_B.play", "M_S.play"),
    "push": ("M_D", "M_P", "M_N", "M_B.play", "M_S.play"),
    "storm": ("M_D", "M_N", "M_B.storm", "M_S.storm"),
}
"""Terms of the moment at the ground in each case."""

ADDED: tuple[Formula, ...] = (
    *(_sum(f"M.{case}", f"Moment at the ground, {case}", "N m", " ".join(terms)) for case, terms in MOMENTS.items()),
    row("M.play", "Moment at the ground, play", "N m", "the worse of hang and push", worse, "M.hang M.push"),
    _sum("M_perm", "Moment at the ground, permanent loads alone", "N m", "M_D M_N"),
    _sum("V.hang", "Lateral force, hang", "N", _forces("play")),
    _sum("V.push", "Lateral force, push", "N", f"F_P {_forces('play')}"),
    _sum("V.storm", "Lateral force, storm", "N", _forces("storm")),
    _sum("M_J.hang", "Moment at the joint, hang", "N m", "M_D M_L M_NLJ M_WJ.play", when="extended"),
    _sum("M_J.push", "Moment at the joint, push", "N m", "M_D M_PJ M_NJ M_WJ.play", when="extended"),
    _sum("M_J.storm", "Moment at the joint, storm", "N m", "M_D M_NJ M_WJ.storm", when="extended"),
)

LOADING: tuple[Formula, ...] = (*GEOMETRY, *STANDING, *AIR, *blowing("play"), *blowing("storm"), *ADDED)
"""Every row of the load side, in the order in which it is worked out."""

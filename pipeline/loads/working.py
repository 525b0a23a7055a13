"""The working of one kit on one post, line by line: the same functions as the screen, each figure shown."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pipeline.loads import constants as c
from pipeline.loads import dead, footing, geometry, play, sag, wind
from pipeline.loads.cases import Case, Wind, hang_case, push_case, storm_case, wind_at_joint, worse_of_play
from pipeline.loads.load_arrays import LoadInputs, Step
from pipeline.loads.screen import Screened, footing_depth, screened
from pipeline.loads.steps import source_of, step
from pipeline.loads.working_strength import strength_steps

Policy = Mapping[str, Any]


def working(k: LoadInputs, policy: Policy) -> tuple[Step, ...]:
    """Every term of the screen for ONE kit (k = 1), in the order in which it is worked out.

    k: one kit, arrays (1,); policy: SI settings. A result that is not known is NaN. Range: as `screen`.
    Source: each step names its own.
    """
    if k.size.shape != (1,):
        raise ValueError(f"working() takes one kit, not {k.size.size}")
    s = screened(k, policy)
    return (
        *_heights(k, s),
        *_dead(k, s),
        *_play(k, s, policy),
        *_wind_steps(k, s, s.terms.play, "play", policy["play_wind_speed"], policy),
        *_wind_steps(k, s, s.terms.storm, "storm", k.wind_speed, policy),
        *_cases(s, policy),
        *(_joint(k, s, policy) if k.extended.item() else ()),
        *strength_steps(k, s, policy),
        *_footing(k, s),
        *_rest(k, s, policy),
    )


def _heights(k: LoadInputs, s: Screened) -> tuple[Step, ...]:
    g, at = geometry, s.terms.at
    return (
        step("Length of the post with its extension", "L = H + added", at.length, "m", source_of(g.post_length),
             H=k.height, added=k.added),
        step("Ring above the ground", "z_r = z_top + c", at.ring, "m", source_of(g.ring_height),
             z_top=k.ring_top, c=k.court_rise),
        step("Board's centre above the ground", "z_b = z_r - 0.150 + height/2", at.board, "m", source_of(g.board_centre),
             z_r=at.ring, height=k.board_height),
        step("Board's top edge above the ground", "z_t = z_r - 0.150 + height", at.board_top, "m", source_of(g.board_top),
             z_r=at.ring, height=k.board_height),
        step("Size that the mount clamps", "D_m = upper size with an extension, else D", at.clamped, "m",
             source_of(g.clamp_size), D=k.size, upper_size=k.upper_size),
        step("Board's face from the post's axis", "e_b = D_m/2 + overhang", at.board_out, "m", source_of(g.board_eccentricity),
             D_m=at.clamped, overhang=k.overhang),
        step("Mount's centre from the post's axis", "e_m = D_m/2 + overhang/2", at.mount_out, "m",
             source_of(g.mount_eccentricity), D_m=at.clamped, overhang=k.overhang),
        step("Ring's centre from the post's axis", "e_r = e_b + 0.376", at.ring_out, "m", source_of(g.ring_eccentricity),
             e_b=at.board_out),
    )  # fmt: skip


def _dead(k: LoadInputs, s: Screened) -> tuple[Step, ...]:
    at, t = s.terms.at, s.terms
    return (
        step("Mass that is hung on the post", "m = mount + board + ring + extension", s.loads.hung_mass, "kg",
             source_of(dead.hung_mass), mount=k.mount_mass, board=k.board_mass, ring=k.ring_mass, extension=k.extension_mass),
        step("Its weight", "W = g m", t.weight, "N", source_of(dead.weight), g=c.GRAVITY, m=s.loads.hung_mass),
        step("Moment of the dead load", "M_D = g (mount e_m + board e_b + ring e_r)", t.dead, "N m", source_of(dead.dead_moment),
             g=c.GRAVITY, mount=k.mount_mass, e_m=at.mount_out, board=k.board_mass, e_b=at.board_out,
             ring=k.ring_mass, e_r=at.ring_out),
    )  # fmt: skip


def _play(k: LoadInputs, s: Screened, policy: Policy) -> tuple[Step, ...]:
    t, lean = s.terms, source_of(play.lean_moment)
    return (
        step("Moment of the hanging load", "M_L = F e_b", t.hang, "N m", source_of(play.hang_moment),
             F=policy["play_load"], e_b=t.at.board_out),
        step("Moment of the push at the ring", "M_P = F z_r", t.push, "N m", source_of(play.push_moment),
             F=policy["push_load"], z_r=t.at.ring),
        step("Moment of the lean", "M_N = sin(lean) L W", t.lean, "N m", lean, lean=k.lean, L=t.at.length, W=t.weight),
        step("Moment of the lean with the hanging load", "M_NL = sin(lean) L (W + F)", t.lean_hang, "N m", lean,
             lean=k.lean, L=t.at.length, W=t.weight, F=policy["play_load"]),
    )  # fmt: skip


def _wind_steps(k: LoadInputs, s: Screened, w: Wind, name: str, speed: Any, policy: Policy) -> tuple[Step, ...]:
    t, at, storm = s.terms, s.terms.at, name == "storm"
    kz, q = source_of(wind.height_factor), source_of(wind.velocity_pressure)
    kd = wind.post_directionality(k.square)
    floor = f", at least {float(policy['least_wind_pressure']):.6g} Pa" if storm else ""
    press = source_of(wind.wind_pressure, *((wind.least_pressure,) if storm else ()))
    gust, exposure = policy["gust_factor"], "BCD"[int(k.exposure.item())]
    alpha, gradient = c.KZ_ALPHA[k.exposure], c.KZ_GRADIENT[k.exposure]
    power = f"Kz = {c.KZ_FACTOR:g} (max(z, {c.KZ_LEAST_HEIGHT:g})/zg)^(2/alpha)"
    flat = "statics, wind square on the board"
    lines = [
        step("Height factor at the board's top edge", power, t.kz_board, "", kz,
             exposure=exposure, z=at.board_top, zg=gradient, alpha=alpha),
        step("Height factor at the post's top", power, t.kz_post, "", kz,
             exposure=exposure, z=at.length, zg=gradient, alpha=alpha),
        step("Force coefficient of the post", "Cf by L/D, linear between 1, 7, 25", t.post_drag, "", source_of(wind.post_drag),
             L=at.length, D=k.size),
    ] if not storm else []  # fmt: skip
    lines += [
        step(f"Velocity pressure on the board, {name}", "q = 0.613 Kz Kd V^2", w.board_q, "Pa", q,
             Kz=t.kz_board, Kd=c.KD_BOARD, V=speed),
        step(f"Wind pressure on the board, {name}", f"p = q G Cf{floor}", w.board_pressure, "Pa", press,
             q=w.board_q, G=gust, Cf=policy["board_drag"]),
        step(f"Wind force on the board, {name}", "F = p width height", w.board, "N", flat,
             p=w.board_pressure, width=k.board_width, height=k.board_height),
        step(f"Velocity pressure on the post, {name}", "q = 0.613 Kz Kd V^2", w.post_q, "Pa", q, Kz=t.kz_post, Kd=kd, V=speed),
        step(f"Wind pressure on the post, {name}", f"p = q G Cf{floor}", w.post_pressure, "Pa", press,
             q=w.post_q, G=gust, Cf=t.post_drag),
        step(f"Wind force on the post, {name}", "F = p D H", w.post, "N", flat, p=w.post_pressure, D=k.size, H=k.height),
        *((step(f"Wind force on the extension, {name}", "F = p upper_size added", w.extension, "N", flat,
                p=w.post_pressure, upper_size=k.upper_size, added=k.added),) if k.extended.item() else ()),
        step(f"Moment of the board's wind, {name}", "M_B = F z_b", w.board_moment, "N m", flat, F=w.board, z_b=at.board),
        step(f"Moment of the wind on post and extension, {name}", "M_S = F H/2 + F_x (H + added/2)", w.post_moment, "N m", flat,
             F=w.post, H=k.height, F_x=w.extension, added=k.added),
    ]  # fmt: skip
    return tuple(lines)


def _cases(s: Screened, policy: Policy) -> tuple[Step, ...]:
    t, hang, push, storm = s.terms, s.hang, s.push, s.storm
    winds = {"M_B": t.play.board_moment, "M_S": t.play.post_moment}
    blown = {"M_B": t.storm.board_moment, "M_S": t.storm.post_moment}
    return (
        step("Moment at the ground, hang", "M = M_D + M_L + M_NL + M_B + M_S", hang.moment, "N m", source_of(hang_case),
             M_D=t.dead, M_L=t.hang, M_NL=t.lean_hang, **winds),
        step("Moment at the ground, push", "M = M_D + M_P + M_N + M_B + M_S", push.moment, "N m", source_of(push_case),
             M_D=t.dead, M_P=t.push, M_N=t.lean, **winds),
        step("Moment at the ground, play", "the worse of hang and push", s.loads.moment_play, "N m", source_of(worse_of_play),
             hang=hang.moment, push=push.moment),
        step("Moment at the ground, storm", "M = M_D + M_N + 0.6 (M_B + M_S)", s.loads.moment_storm, "N m",
             source_of(storm_case), M_D=t.dead, M_N=t.lean, **blown),
        step("Lateral force, hang", "V = wind in play", hang.lateral, "N", source_of(hang_case), wind=t.play.force),
        step("Lateral force, push", "V = push + wind in play", push.lateral, "N", source_of(push_case),
             push=policy["push_load"], wind=t.play.force),
        step("Lateral force, storm", "V = 0.6 wind", storm.lateral, "N", source_of(storm_case), wind=t.storm.force),
    )  # fmt: skip


def _joint(k: LoadInputs, s: Screened, policy: Policy) -> tuple[Step, ...]:
    t, blow = s.terms, source_of(wind_at_joint)
    windy = wind_at_joint(k, t.at, t.play)
    stormy = wind_at_joint(k, t.at, t.storm)

    def line(name: str, formula: str, case: Case, wind_moment: Any, **numbers: Any) -> Step:
        return step(f"Moment at the joint, {name}", formula, case.joint, "N m", blow,
                    M_D=t.dead, lean=k.lean, added=k.added, M_W=wind_moment, **numbers)  # fmt: skip

    return (
        line("hang", "M_J = M_D + M_L + sin(lean) added (W + F) + M_W", s.hang, windy,
             M_L=t.hang, W=t.weight, F=policy["play_load"]),
        line("push", "M_J = M_D + F |z_r - H| + sin(lean) added W + M_W", s.push, windy,
             F=policy["push_load"], z_r=t.at.ring, H=k.height, W=t.weight),
        line("storm", "M_J = M_D + sin(lean) added W + 0.6 M_W", s.storm, stormy, W=t.weight),
    )  # fmt: skip


def _footing(k: LoadInputs, s: Screened) -> tuple[Step, ...]:
    width = footing.bearing_width(k.square, k.size, k.driven, k.footing_diameter)
    bearing = footing.soil_bearing(k.soil_class)
    lines = [
        step("Width that bears on the soil", "b", width, "m", source_of(footing.bearing_width),
             driven="yes" if k.driven.item() else "no", D=k.size, footing=k.footing_diameter),
        step("Lateral bearing of the soil", "k, per metre of depth", bearing, "Pa/m", source_of(footing.soil_bearing),
             soil_class=k.soil_class),
    ]  # fmt: skip
    for name, case in (("hang", s.hang), ("push", s.push), ("storm", s.storm)):
        d = footing.depth(case.lateral, case.moment, width, bearing)
        lines.append(
            step(f"Depth of footing, {name}", "d^3 - (7.02 V/(k b)) d - 7.6518 M/(k b) = 0; beyond 12 ft as printed", d, "m",
                 source_of(footing.depth), V=case.lateral, M=case.moment, b=width, k=bearing)
        )  # fmt: skip
    lines.append(
        step("Depth of footing needed", "the deepest of the three; none on a base plate", s.loads.footing_depth_needed, "m",
             source_of(footing_depth), stated=k.footing_depth, base_plate="yes" if k.base_plate.item() else "no")
    )  # fmt: skip
    return tuple(lines)


def _rest(k: LoadInputs, s: Screened, policy: Policy) -> tuple[Step, ...]:
    at = s.terms.at
    return (
        step("Ring sag under the hanging load", "F e_b e_r L/(E I); not with an extension", s.loads.ring_sag, "m",
             source_of(sag.ring_sag), F=policy["play_load"], e_b=at.board_out, e_r=at.ring_out, L=at.length,
             E=policy["steel_modulus"], I=s.post.tube.inertia),
    )  # fmt: skip

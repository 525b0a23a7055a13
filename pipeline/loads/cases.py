"""The load cases: each term once, then hang, push and storm put together."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from pipeline.loads import dead, geometry, play, wind
from pipeline.loads.constants import KD_BOARD, STORM_FACTOR
from pipeline.loads.load_arrays import Bools, Floats, Ints, LoadInputs


@dataclass(frozen=True)
class Geometry:
    """Heights above the ground and eccentricities, each (k,) [m]."""

    length: Floats
    ring: Floats
    board: Floats
    board_top: Floats
    clamped: Floats
    board_out: Floats
    mount_out: Floats
    ring_out: Floats


@dataclass(frozen=True)
class Wind:
    """One wind on board, post and extension: forces [N] and their moments at the ground [N m], each (k,)."""

    board_q: Floats  # velocity pressure [Pa]
    post_q: Floats
    board_pressure: Floats  # q G Cf [Pa]
    post_pressure: Floats
    board: Floats  # [N]
    post: Floats
    extension: Floats
    board_moment: Floats  # [N m]
    post_moment: Floats  # post and extension

    @property
    def force(self) -> Floats:
        """Whole lateral force (k,) [N]."""
        return self.board + self.post + self.extension


@dataclass(frozen=True)
class Case:
    """One load case, each (k,)."""

    moment: Floats  # first-order, at the ground [N m]
    lateral: Floats  # V [N]
    carried: Floats  # axial load without the post's own weight [N]
    joint: Floats  # moment at the extension's joint [N m]; means nothing without one


@dataclass(frozen=True)
class Terms:
    """Every term of the cases, each (k,); moments at the ground [N m]."""

    at: Geometry
    weight: Floats  # mount, board, ring, extension [N]
    dead: Floats
    hang: Floats
    push: Floats
    lean: Floats  # with the weight alone
    lean_hang: Floats  # with the hanging load too
    kz_board: Floats
    kz_post: Floats
    post_drag: Floats
    play: Wind
    storm: Wind  # before the 0.6


def geometry_of(k: LoadInputs) -> Geometry:
    """Heights and eccentricities of k kits, each (k,) [m].

    k: the kits. Range: any.
    Source: `geometry`.
    """
    clamped = geometry.clamp_size(k.size, k.upper_size, k.extended)
    ring = geometry.ring_height(k.ring_top, k.court_rise)
    board_out = geometry.board_eccentricity(clamped, k.overhang)
    return Geometry(
        length=geometry.post_length(k.height, k.added),
        ring=ring,
        board=geometry.board_centre(ring, k.board_height),
        board_top=geometry.board_top(ring, k.board_height),
        clamped=clamped,
        board_out=board_out,
        mount_out=geometry.mount_eccentricity(clamped, k.overhang),
        ring_out=geometry.ring_eccentricity(board_out),
    )


def wind_on(
    k: LoadInputs, at: Geometry, kz_board: Floats, kz_post: Floats, drag: Floats, speed: Floats | float, least: float,
    policy: Mapping[str, Any],
) -> Wind:  # fmt: skip
    """Wind at one speed on board, post and extension.

    k: the kits (k,); at: heights [m]; kz_board, kz_post: exposure coefficients (k,) [-]; drag: Cf of the post
    (k,) [-]; speed: gust (k,) or scalar [m/s]; least: least q G Cf [Pa], 0 in play; policy: `gust_factor`,
    `board_drag`. The wind blows square on the board; the extension takes the post's Kz and Cf. Range: level ground.
    Source: ASCE 7-16, 29.3 and 29.4 (published).
    """
    gust = float(policy["gust_factor"])
    board_q = wind.velocity_pressure(kz_board, KD_BOARD, speed)
    post_q = wind.velocity_pressure(kz_post, wind.post_directionality(k.square), speed)
    on_board = wind.least_pressure(wind.wind_pressure(board_q, gust, float(policy["board_drag"])), least)
    on_post = wind.least_pressure(wind.wind_pressure(post_q, gust, drag), least)
    board = on_board * k.board_width * k.board_height
    post = on_post * k.size * k.height
    extension = np.where(k.extended, on_post * k.upper_size * k.added, 0.0)
    return Wind(
        board_q=board_q,
        post_q=post_q,
        board_pressure=on_board,
        post_pressure=on_post,
        board=board,
        post=post,
        extension=extension,
        board_moment=board * at.board,
        post_moment=post * k.height / 2 + extension * (k.height + k.added / 2),
    )


def terms(k: LoadInputs, policy: Mapping[str, Any]) -> Terms:
    """Every term of the load cases of k kits.

    k: the kits (k,); policy: SI settings `play_load`, `push_load`, `play_wind_speed`, `least_wind_pressure`,
    `gust_factor`, `board_drag`. Range: as each term's function says.
    Source: the functions called.
    """
    at = geometry_of(k)
    hanging = float(policy["play_load"])
    weight = dead.weight(dead.hung_mass(k.mount_mass, k.board_mass, k.ring_mass, k.extension_mass))
    kz_board, kz_post = kz_of(at, k.exposure)
    drag = wind.post_drag(k.square, at.length / k.size)
    return Terms(
        at=at,
        weight=weight,
        dead=dead.dead_moment(k.mount_mass, k.board_mass, k.ring_mass, at.mount_out, at.board_out, at.ring_out),
        hang=play.hang_moment(hanging, at.board_out),
        push=play.push_moment(float(policy["push_load"]), at.ring),
        lean=play.lean_moment(k.lean, at.length, weight),
        lean_hang=play.lean_moment(k.lean, at.length, weight + hanging),
        kz_board=kz_board,
        kz_post=kz_post,
        post_drag=drag,
        play=wind_on(k, at, kz_board, kz_post, drag, float(policy["play_wind_speed"]), 0.0, policy),
        storm=wind_on(k, at, kz_board, kz_post, drag, k.wind_speed, float(policy["least_wind_pressure"]), policy),
    )


def kz_of(at: Geometry, exposure: Ints) -> tuple[Floats, Floats]:
    """Exposure coefficient at the board's top edge and at the post's top, each (k,) [-].

    at: heights [m]; exposure: 0 B, 1 C, 2 D (k,). Range: level ground.
    Source: ASCE 7-16, table 26.10-1 (published); the top edge is the safe side.
    """
    return wind.height_factor(at.board_top, exposure), wind.height_factor(at.length, exposure)


def hang_case(k: LoadInputs, t: Terms, policy: Mapping[str, Any]) -> Case:
    """D + hang + wind in play.

    k: the kits; t: their terms; policy: `play_load` [N]. Range: as the terms'.
    Source: ASCE 7-16, 2.4.1 (published), the wind of play taken whole: house rule.
    """
    hanging = float(policy["play_load"])
    carried = t.weight + hanging
    return Case(
        moment=t.dead + t.hang + t.lean_hang + t.play.board_moment + t.play.post_moment,
        lateral=t.play.force,
        carried=carried,
        joint=t.dead + t.hang + play.lean_moment(k.lean, k.added, carried) + wind_at_joint(k, t.at, t.play),
    )


def push_case(k: LoadInputs, t: Terms, policy: Mapping[str, Any]) -> Case:
    """D + push + wind in play.

    k: the kits; t: their terms; policy: `push_load` [N]. Range: as the terms'.
    Source: ASCE 7-16, 2.4.1 (published), the wind of play taken whole: house rule.
    """
    push = float(policy["push_load"])
    over_joint = play.push_moment(push, np.abs(t.at.ring - k.height))
    return Case(
        moment=t.dead + t.push + t.lean + t.play.board_moment + t.play.post_moment,
        lateral=push + t.play.force,
        carried=t.weight,
        joint=t.dead + over_joint + play.lean_moment(k.lean, k.added, t.weight) + wind_at_joint(k, t.at, t.play),
    )


def storm_case(k: LoadInputs, t: Terms) -> Case:
    """D + 0.6 W at the design wind speed.

    k: the kits; t: their terms. Range: as the terms'.
    Source: ASCE 7-16, 2.4.1, 0.6 on forces (published).
    """
    lean = play.lean_moment(k.lean, k.added, t.weight)
    return Case(
        moment=t.dead + t.lean + STORM_FACTOR * (t.storm.board_moment + t.storm.post_moment),
        lateral=STORM_FACTOR * t.storm.force,
        carried=t.weight,
        joint=t.dead + lean + STORM_FACTOR * wind_at_joint(k, t.at, t.storm),
    )


def worse_of_play(hang: Floats, push: Floats) -> Floats:
    """The greater of two figures of the play cases (k,).

    hang, push: moment [N m] or utilisation [-] (k,). Range: any; what is not known stays so.
    Source: house rule, play is the worse of hang and push.
    """
    return np.maximum(hang, push)


def wind_at_joint(k: LoadInputs, at: Geometry, w: Wind) -> Floats:
    """Moment at an extension's joint of the wind on board and extension (k,) [N m].

    k: the kits; at: heights [m]; w: the wind. Range: extensions; the joint is at the post's top H.
    Source: statics, F_board |z_b - H| + F_extension added/2.
    """
    return w.board * np.abs(at.board - k.height) + w.extension * k.added / 2


def joint_utilisation(case: Case, extended: Bools, rated: Floats) -> Floats:
    """Share of the rated moment that a case takes at the joint (k,) [-]; 0 without an extension, NaN if unrated.

    case: the load case; extended: there is an extension (k,); rated: rated moment (k,) [N m], NaN = unknown.
    Range: any.
    Source: the seller's rated moment; ratio.
    """
    return np.where(extended, case.joint / np.where(extended, rated, 1.0), 0.0)

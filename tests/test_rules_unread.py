"""What could not be read never passes and never takes a default: rules and loads against the oracle, cell by cell."""

from __future__ import annotations

import math
import random
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from oracle.answer import whole_policy
from oracle.fit import ORDER
from oracle.fit import fit as oracle_fit
from oracle.kits import choices
from oracle.model import Post, floats
from rules_case import fitted, post, state
from worlds.make import fit_world, money_world
from worlds.write import write_catalogue

from pipeline.intake.catalogue import read_catalogue
from pipeline.loads.screen import screen
from pipeline.rules.catalogue_arrays import catalogue
from pipeline.rules.fit import fit
from pipeline.rules.kits import kits
from pipeline.rules.post_arrays import posts
from pipeline.rules.verdict import codes
from schemas.surveyed_post import SurveyedPost
from schemas.words import LOAD_STATES, STATES

NAMES = {
    "measured": "measured_with", "height_measured": "height_measured_with", "clear": "clear_length", "line": "post_line",
    "base": "post_base", "lean": "lean", "fittings": "old_fittings", "condition": "condition", "wall": "wall",
    "material": "material", "least_width": "least_board_width", "footing_diameter": "footing_diameter",
    "footing_depth": "footing_depth", "soil": "soil_class", "wind": "wind_speed", "exposure": "exposure",
    "cleared": "strength_cleared", "cleared_moment": "cleared_moment", "shimmed": "lean_shimmed",
}  # fmt: skip
"""The oracle's name of a cell that may be unreadable without holding its row, and the survey's."""


def blinded(rng: random.Random, p: Post) -> Post:
    """The post with one to three cells that cannot be read, and now and then a shape that is not stated."""
    names = rng.sample(sorted(NAMES), rng.choice((1, 1, 2, 3)))
    return replace(p, **dict.fromkeys(names), unread=frozenset(names), inferred=rng.random() < 0.2)


def surveyed(p: Post) -> SurveyedPost:
    """The oracle's post as the rules are handed it."""
    same = {there: getattr(p, here) for here, there in NAMES.items()}
    return SurveyedPost(
        **same, post_shape=p.shape, post_size=p.size, post_height=p.height, court_rise=p.rise, ring_heights=p.wanted,
        cleared_by=p.cleared_by, size_nominal=p.basis == "nominal pipe size", mount_asked=p.mount_asked,
        board_asked=p.board_asked, ring_asked=p.ring_asked, shape_inferred=p.inferred,
        unread=frozenset(NAMES[n] for n in p.unread),
    )  # fmt: skip


def same(got: float, want: float | None, share: float = 0.01) -> bool:
    return math.isnan(got) if want is None else got == want or math.isclose(got, want, rel_tol=share)


@pytest.mark.parametrize("seed", range(3))
def test_what_cannot_be_read_against_the_oracle(seed: int, tmp_path: Path) -> None:
    rng = random.Random(seed)
    world = (fit_world if seed else money_world)(seed, posts=60, sites=2)
    write_catalogue(world.made, tmp_path / "catalogue.xlsx", rng)
    read = read_catalogue(tmp_path / "catalogue.xlsx")
    c, plain = catalogue(read.tables), floats(world.made.catalogue)
    policy = whole_policy(plain)
    blind = [floats(blinded(rng, p)) for p in world.posts]
    p = posts([surveyed(b) for b in blind], c, read.policy)
    f = fit(p, c, read.policy)
    k = kits(p, c, f, read.policy, partial(screen, policy=read.policy))
    mounts = {m.code: m for m in plain.mounts}
    for i, b in enumerate(blind):
        for m, code in enumerate(c.mounts.code):
            want = oracle_fit(b, mounts[code], plain, policy)
            got = {x.code: STATES[int(np.broadcast_to(x.state, f.verdict.shape)[i, m])] for x in f.findings}
            assert got == {x: want.findings[x] for x in ORDER}, (i, code, b)
            assert (c.extensions.code[f.extension[i, m]] if f.extension[i, m] >= 0 else None) == (
                want.extension.code if want.extension else None
            ), (i, code, b)
        _same_kits(b, i, k, c, choices(b, plain, policy))


def _same_kits(b: Post, i: int, k: Any, c: Any, want: list[Any]) -> None:
    mine = np.flatnonzero(k.post == i)
    assert len(mine) == len(want), b
    best = {(x.fit.mount.code, x.board.code, x.ring.code): x for x in want}
    for n in mine:
        x = best[c.mounts.code[k.mount[n]], c.boards.code[k.board[n]], c.rings.code[k.ring[n]]]
        assert codes(int(k.confirm[n])) == tuple(x.confirm), (b, x)
        assert LOAD_STATES[int(k.load["load_state"][n])] == x.load.state, b
        assert bool(k.cleared[n]) == x.settled, b
        for name, value in (
            ("moment_play", x.load.moment_play), ("moment_storm", x.load.moment_storm), ("utilisation_play", x.load.play),
            ("utilisation_storm", x.load.storm), ("wall_needed", x.load.wall_needed),
            ("footing_depth_needed", x.load.footing_depth),
        ):  # fmt: skip
            assert same(float(k.load[name][n]), value), (name, k.load[name][n], value, b)


@pytest.mark.parametrize(
    ("column", "code", "other"),
    [
        ("measured_with", "SIZE", {}),
        ("height_measured_with", "HEIGHT", {}),
        ("clear_length", "CLEAR", {}),
        ("lean", "LEAN", {}),
        ("post_line", "LINE", {"post_line": None}),
        ("old_fittings", "FITTINGS", {"old_fittings": None}),
        ("post_base", "BASE", {}),
        ("condition", "CONDITION", {"condition": None}),
    ],
)
def test_a_cell_that_cannot_be_read_is_a_confirm(column: str, code: str, other: dict[str, Any]) -> None:
    _, _, f = fitted([post(**other, unread=frozenset({column}))])
    assert state(f, code) == "confirm"

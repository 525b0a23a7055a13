"""What must hold of any posts: order, likeness, and that more post never reaches less."""

from __future__ import annotations

from dataclasses import fields, replace

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from rules_case import POLICY, board, extension, feet, fitted, inches, mount, no_load, post, ring, tables

from pipeline.rules.alike import distinct
from pipeline.rules.kits import kits
from schemas import survey
from schemas.words import FIT_CODES

WORLD = tables(
    Mounts=(
        mount("M-1"),
        mount("M-2", post_shape="square", size_least_m=inches(4), size_most_m=inches(4)),
        mount("M-3", post_height_needed_m=feet("10.5"), adjustment="fixed", travel_m=0.0),
        mount("M-4", adjustment="continuous", size_most_m=inches("4.6")),
    ),
    Boards=(board("B-1"), board("B-2", width_m=inches(44))),
    Rings=(ring("R-1"), ring("R-2", ring_pattern="6x5")),
    Extensions=(extension("E-1"), extension("E-2", added_m=inches(12), joint="spigot", bore_least_m=0.07, bore_most_m=0.08)),
)

rows = st.builds(
    post,
    post_shape=st.sampled_from(survey.SHAPES),
    post_size=st.sampled_from([inches(s) for s in ("3.38", "3.4", "3.5", "3.6", "3.65", "4", "4.5")]),
    post_height=st.sampled_from([feet(h) for h in ("7", "8", "8.49", "8.5", "9", "10.5", "12")]),
    measured_with=st.sampled_from(survey.SIZE_METHODS),
    height_measured_with=st.sampled_from(survey.HEIGHT_METHODS),
    court_rise=st.sampled_from([None, 0.0, 0.1, -0.1]),
    wall=st.sampled_from([None, 0.003, 0.006]),
    lean=st.sampled_from([0.0, 0.01, 0.02, 0.1]),
    post_line=st.sampled_from(survey.LINES),
    old_fittings=st.sampled_from(survey.FITTINGS),
    ring_heights=st.sampled_from([None, (feet(10),), (feet(10), feet(9), feet("7.5")), (feet(8),)]),
    mount_asked=st.sampled_from([None, "M-1", "M-9"]),
    least_board_width=st.sampled_from([None, inches(48)]),
)
some_rows = st.lists(rows, min_size=1, max_size=6)

PAIR = ("verdict", "ring_height_max", "shortfall", "extension", "added", "top", "lowered", "covered")


def states(f):
    return np.stack([np.broadcast_to(x.state, f.verdict.shape) for x in f.findings])


def kit_rows(k, i):
    at = k.post == i
    return np.stack([getattr(k, f.name)[at] for f in fields(k) if f.name not in ("post", "load")], axis=1).tolist()


@settings(deadline=None, max_examples=60)
@given(some_rows, st.randoms())
def test_permuting_posts_permutes_the_answers(values, random):
    order = list(range(len(values)))
    random.shuffle(order)
    p, c, f = fitted(values, WORLD)
    q, _, g = fitted([values[i] for i in order], WORLD)
    assert all((getattr(f, n)[order] == getattr(g, n)).all() for n in PAIR)
    assert (states(f)[:, order] == states(g)).all()
    a, b = kits(p, c, f, POLICY, no_load), kits(q, c, g, POLICY, no_load)
    assert all(kit_rows(a, i) == kit_rows(b, j) for j, i in enumerate(order))


@settings(deadline=None, max_examples=60)
@given(some_rows)
def test_alike_posts_are_computed_once_and_answered_alike(values):
    p, _, f = fitted(values * 2, WORLD)
    first, group = distinct(p)
    assert len(first) <= len(values)
    assert (np.diff(first) > 0).all()
    assert (group[: len(values)] == group[len(values) :]).all()
    whole, again = p, p.take(first).take(group)
    assert all(np.array_equal(getattr(whole, x.name), getattr(again, x.name), equal_nan=True) for x in fields(p))
    assert (f.verdict[: len(values)] == f.verdict[len(values) :]).all()


@settings(deadline=None, max_examples=60)
@given(rows, st.floats(0.0, 2.0))
def test_a_taller_post_never_reaches_less(row, taller):
    _, _, f = fitted([row, replace(row, post_height=row.post_height + taller)], WORLD)
    assert (f.ring_height_max[1] >= f.ring_height_max[0]).all()
    assert (f.shortfall[1] <= f.shortfall[0]).all()
    height = states(f)[FIT_CODES.index("HEIGHT")]
    assert (height[1][f.extension[1] < 0] <= height[0][f.extension[1] < 0]).all()


@settings(deadline=None, max_examples=60)
@given(some_rows)
def test_verdict_follows_from_the_findings(values):
    """Contract section 1: any fail, else an extension, else any confirm, else viable."""
    _, _, f = fitted(values, WORLD)
    worst, extended = states(f).max(axis=0), f.extension >= 0
    for i, m in np.ndindex(f.verdict.shape):
        expected = 3 if worst[i, m] == 2 else 2 if extended[i, m] else worst[i, m]
        assert f.verdict[i, m] == expected
    assert tuple(x.code for x in f.findings) == FIT_CODES


def test_two_thousand_posts_expand_into_every_kit_without_a_loop_over_pairs():
    values = [post(post_height=feet(8) + i * 1e-4) for i in range(2000)]
    p, c, f = fitted(values, WORLD)
    k = kits(p, c, f, POLICY, no_load)
    assert len(k.post) == int(sum((f.verdict != 3) @ np.array([2, 2, 2, 2])))

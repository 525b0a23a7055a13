"""What a customer wants: four rankings against a plain sort of every kit, and one board for all posts."""

from __future__ import annotations

from collections import Counter
from decimal import Decimal
from fractions import Fraction
from types import SimpleNamespace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rules_case import POLICY, board, feet, fitted, inches, mount, no_load, post, ring, tables

from pipeline.loads.load_arrays import OVER
from pipeline.money.order import Amounts
from pipeline.rules.choice import LEAST_PRICE, MOST_HEIGHTS, ONE_BOARD, WIDEST_BOARD, Want, leading, offered, wanting
from pipeline.rules.kits import kits
from pipeline.site.compute import Answer
from pipeline.site.figures import figures, joined
from pipeline.site.option_words import changes
from pipeline.site.orders import Option, best_kits, need, one_board
from schemas.catalogue import CHOICES

D = Decimal
PRICES = st.sampled_from(["100", "100", "120.50", "300"]).map(Decimal)
MOUNTS = st.lists(
    st.tuples(st.sampled_from(["fixed", "stepped", "continuous"]), st.sampled_from([0, 12, 24, 27]), PRICES), max_size=3
)
BOARDS = st.lists(st.tuples(st.sampled_from([44, "44.0", 48, 54]), PRICES), max_size=3)
WANTS = st.tuples(st.sampled_from(range(len(CHOICES))), st.integers(-1, 3), st.integers(-1, 1))
POSTS = st.tuples(st.sampled_from([None, "B-1", "M-9"]), st.sampled_from([(10,), (10, 8), (10, 9, "7.5")]), WANTS)


def world(mounts, boards, rows):
    t = tables(
        Mounts=(mount("M-0"), *(_mount(n, *m) for n, m in enumerate(mounts, 1))),
        Boards=(board("B-0"), *(board(f"B-{n}", width_m=inches(w), price=p) for n, (w, p) in enumerate(boards, 1))),
        Rings=(ring("R-0"), ring("R-1", price=Decimal("80.00"))),
    )
    made = [post(board_asked=b, ring_heights=tuple(feet(h) for h in heights)) for b, heights, _ in rows]
    p, c, f = fitted(made, t)
    p = wanting(p, [Want(*w) for _, _, w in rows])
    return p, c, kits(p, c, f, POLICY, screened)


def screened(k):
    """A load screen that finds every board above 50 in over."""
    return no_load(k, lambda x: x.board_width > inches(50))


def _mount(n, adjustment, travel, price):
    return mount(f"M-{n}", adjustment=adjustment, travel_m=inches(travel), step_m=inches(5), price=price)


def plain_key(p, c, k, n, choice, pair):
    """Design section 8, rank, of one kit, worked out with plain numbers. Source: restated from the design."""
    m, b, r, i = int(k.mount[n]), int(k.board[n]), int(k.ring[n]), int(k.post[n])
    row = {t["mount"]: t for t in c.tables["Mounts"]}[c.mounts.code[m]]
    travel, step = (Fraction(str(round(row[name] / 0.0254, 6))) for name in ("travel_m", "step_m"))
    reach = {"fixed": 0, "continuous": travel, "stepped": travel // step * step if step else 0}[row["adjustment"]]
    asked = int(p.board_asked[i] != -1 and p.board_asked[i] != b)
    own = (0, -round(float(c.boards.width[b]), 8), -reach, int((b, r) != pair))[choice]
    codes = (c.mounts.code[m], c.boards.code[b], c.rings.code[r])
    return (k.load["load_state"][n] == OVER, asked, -int(k.covered[n]), int(k.verdict[n]), own, int(k.price[n]), *codes)


@settings(max_examples=60, deadline=None)
@given(MOUNTS, BOARDS, st.lists(POSTS, min_size=1, max_size=4))
def test_every_ranking_is_a_plain_sort_by_the_design_s_keys(mounts, boards, rows):
    p, c, k = world(mounts, boards, rows)
    lead = leading(p, c, k)
    for i, (_, _, (choice, b, r)) in enumerate(rows):
        at = np.flatnonzero(k.post == i).tolist()
        assert at == sorted(at, key=lambda n, w=(choice, b, r): plain_key(p, c, k, n, w[0], w[1:]))
        for other in (LEAST_PRICE, WIDEST_BOARD, MOST_HEIGHTS):
            best = min(at, key=lambda n, o=other: plain_key(p, c, k, n, o, (-1, -1)), default=-1)
            assert lead.best[other, i] == best
        with_pair = {(int(k.board[n]), int(k.ring[n])): int(n) for n in lead.with_pair if k.post[n] == i}
        for pair in {(int(k.board[n]), int(k.ring[n])) for n in at}:
            best = min(at, key=lambda n, q=pair: plain_key(p, c, k, n, ONE_BOARD, q))
            assert with_pair.get(pair, lead.best[LEAST_PRICE, i]) == best


@settings(max_examples=40, deadline=None)
@given(MOUNTS, BOARDS, st.lists(POSTS, min_size=1, max_size=4))
def test_what_is_offered_is_every_pair_of_a_kit_that_is_not_over(mounts, boards, rows):
    k = world(mounts, boards, rows)[2]
    o = offered(k)
    expected: dict[tuple[int, int, int], int] = {}
    for n in np.flatnonzero(k.load["load_state"] != OVER):
        key = (int(k.post[n]), int(k.board[n]), int(k.ring[n]))
        expected[key] = min(expected.get(key, 10**9), int(k.price[n]))
    assert (
        dict(zip(zip(o.post.tolist(), o.board.tolist(), o.ring.tolist(), strict=True), o.price.tolist(), strict=True)) == expected
    )


@pytest.mark.parametrize(
    ("offers", "pair"),
    [
        ([[[1, 0, 3, 900], [0, 0, 2, 100]]], (1, 0)),  # most posts
        ([[[1, 0, 3, 900], [0, 0, 2, 100]], [[0, 0, 2, 100]]], (0, 0)),  # over all sites
        ([[[1, 0, 3, 900], [0, 0, 3, 899]]], (0, 0)),  # then the lower sum of prices
        ([[[1, 1, 3, 900], [1, 0, 3, 900], [0, 1, 3, 900]]], (1, 0)),  # then codes: A-2 of the second board goes before B-1
        ([[]], (-1, -1)),
    ],
)
def test_one_board_by_hand(offers, pair):
    """Source: design section 8, by hand: posts, then the sum of least prices, then codes."""
    _, c, _ = world([], [], [(None, (10,), (0, -1, -1))])
    c = type(c)(**{**vars(c), "boards": type(c.boards)(**{**vars(c.boards), "code": ("B-1", "A-2")})})
    assert one_board([{"offers": o} for o in offers], c) == pair


@settings(max_examples=40, deadline=None)
@given(MOUNTS, BOARDS, st.lists(POSTS, min_size=1, max_size=4), st.integers(0, 3), st.integers(0, 1))
def test_what_is_kept_of_a_site_gives_the_kits_that_each_choice_would_rank_first(mounts, boards, rows, b, r):
    """Whatever the ranking in force was when it was kept."""
    p, c, k = world(mounts, boards, rows)
    start = np.searchsorted(k.post, np.arange(len(p) + 1))
    answer = Answer(p, None, k, start, np.arange(len(p)), leading(p, c, k), offered(k))
    quantities = [SimpleNamespace(quantity=n + 1) for n in range(len(p))]
    kept = figures(quantities, 0, answer, SimpleNamespace(catalogue=c))
    b = min(b, len(c.boards.code) - 1)
    for choice in range(len(CHOICES)):
        _, _, other = world(mounts, boards, [(asked, heights, (choice, b, r)) for asked, heights, _ in rows])
        first = np.flatnonzero(other.rank == 1)
        expected = Counter()
        for n in first:
            codes = (c.mounts.code[other.mount[n]], c.boards.code[other.board[n]], c.rings.code[other.ring[n]])
            expected.update(dict.fromkeys(codes, int(other.post[n]) + 1))
        got = need("s", kept, best_kits(kept, choice, (b, r), c), c)
        assert got.goods == expected
        assert got.counts.posts == sum(int(other.post[n]) + 1 for n in first)
    parts = [figures(quantities[n : n + 1], n, answer, SimpleNamespace(catalogue=c)) for n in range(len(p))]
    assert one_board([joined(parts)], c) == one_board([kept], c) == one_board(parts, c)


def test_what_a_choice_changes_is_said_in_words():
    """Source: by hand: two sites, three posts whose board differs."""
    _, c, _ = world([], [(54, D(1)), (48, D(2))], [(None, (10,), (0, -1, -1))])
    sites = [{"quantity": [2, 1]}, {"quantity": [1]}]
    shape = (1, 3, 2, 1)
    narrow, wide = (int(np.ravel_multi_index((0, b, 0, 0), shape)) for b in (2, 1))
    nothing = Amounts(D(0), D(0), D(0), D(0))
    now = Option("least price", True, 4, nothing, (np.array([narrow, -1]), np.array([narrow])))
    then = Option("widest board", False, 4, nothing, (np.array([wide, -1]), np.array([wide])))
    same = Option("one board", False, 4, nothing, now.kits)
    assert changes(then, now, sites, c) == ("3 posts get another kit", "board on 3 posts: Board B-1 instead of Board B-2")
    assert changes(same, now, sites, c) == changes(now, now, sites, c) == ()

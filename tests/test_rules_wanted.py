"""What the catalogue lacks: which posts count, and which new item serves how many of them."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rules_case import POLICY, extension, feet, fitted, inches, mount, post, tables

from pipeline.rules.remedy import widest_board
from pipeline.rules.wanted import Need, needs, wanted

SHORT = feet("7.5")  # a foot too short for the mount of rules_case


def lacking(rows, t=None):
    p, c, f = fitted(rows, t)
    wants, added = needs(p, c, f, POLICY, np.zeros(len(p), dtype=bool), widest_board(c))
    return [(bool(w), None if math.isnan(a) else round(float(a), 6)) for w, a in zip(wants, added, strict=True)]


@pytest.mark.parametrize(
    ("row", "expected"),
    [
        ({"post_height": SHORT}, (True, round(feet(1) - 0.006, 6))),  # by hand: the shortfall less the tolerance
        ({"post_size": inches(5)}, (True, None)),  # no mount takes 5 in
        ({"post_shape": "square"}, (True, None)),
        ({"post_shape": "other"}, (False, None)),
        ({"post_size": inches(5), "post_line": "bent"}, (False, None)),  # not for want of a mount alone
        ({"post_size": inches(5), "strength_cleared": "no"}, (False, None)),
        ({"clear_length": inches(20)}, (False, None)),  # the post's own trouble
        ({"post_height": SHORT, "clear_length": inches(20)}, (True, round(feet(1) - 0.006, 6))),  # asked of the extension then
    ],
)
def test_a_post_counts_where_a_mount_or_an_extension_is_all_that_it_lacks(row, expected):
    (found,) = lacking([post(**row)])
    assert found[0] == expected[0]
    if found[0]:
        assert found == expected


def test_a_short_post_that_is_bent_or_wants_a_wider_board_is_no_ones_customer():
    rows = [post(post_height=SHORT, post_line="bent"), post(post_height=SHORT, least_board_width=inches(72))]
    assert [w for w, _ in lacking(rows)] == [False, False]


def test_the_extension_that_is_wanted_serves():
    rows = [post(post_height=SHORT)]
    ((_, added),) = lacking(rows)
    for height, verdict in ((added, "viable_extended"), (added - 2e-6, "not_viable")):
        _, _, f = fitted(rows, tables(Extensions=(extension("E-1", added_m=height),)))
        assert f.verdict[0, 0] == ("viable", "viable_confirm", "viable_extended", "not_viable").index(verdict)


def need(site, size, added=math.nan, quantity=1, shape="round"):
    return Need(site, shape, size, added, quantity)


def test_sizes_within_one_window_are_one_need_and_each_height_serves_its_count():
    """By hand: 88.9 and 90 mm are one window of 6.35 mm, 101.6 is another."""
    rows = [need("A", 0.0889, 0.3, 2), need("B", 0.090, 0.5, 3), need("B", 0.1016, 0.2, 4), need("C", 0.1016), need("A", 0.102)]
    found = [(w.kind, w.least, w.most, w.posts, w.site_codes) for w in wanted(rows, 0.00635)]
    assert found == [
        ("extension", 0.0889, 0.090, 5, ("A", "B")),
        ("extension", 0.1016, 0.1016, 4, ("B",)),
        ("mount", 0.1016, 0.102, 2, ("A", "C")),
        ("extension", 0.0889, 0.0889, 2, ("A",)),
    ]
    assert [w.added for w in wanted(rows, 0.00635)][:2] == [0.5, 0.2]


some_needs = st.lists(
    st.builds(
        need, st.sampled_from("ABC"), st.integers(60, 90).map(lambda mm: mm / 1000),
        st.one_of(st.just(math.nan), st.integers(1, 9).map(lambda d: d / 10)), st.integers(1, 4),
        st.sampled_from(("round", "square")),
    ),
    max_size=14,
)  # fmt: skip


@settings(deadline=None, max_examples=100)
@given(some_needs)
def test_each_item_serves_what_it_says_and_none_that_serves_more_is_left_out(rows):
    """Against plain counting: every window that starts at a post's size, every height that a post needs."""
    window = 0.00635
    found = wanted(rows, window)
    for w in found:
        served = [
            n for n in rows
            if n.shape == w.shape and w.least <= n.size <= w.most and math.isnan(n.added) == (w.kind == "mount")
            and (w.kind == "mount" or n.added <= w.added)
        ]  # fmt: skip
        assert (sum(n.quantity for n in served), tuple(sorted({n.site_code for n in served}))) == (w.posts, w.site_codes)
        assert w.most - w.least <= window + 1e-9
    assert [w.posts for w in found] == sorted((w.posts for w in found), reverse=True)
    for start in rows:
        for kind, added in (("mount", math.nan), ("extension", start.added)):
            here = [
                n for n in rows
                if n.shape == start.shape and start.size <= n.size <= start.size + window
                and (math.isnan(n.added) if kind == "mount" else n.added <= added)
            ]  # fmt: skip
            many = sum(n.quantity for n in here)
            assert not many or any(w.kind == kind and w.posts >= many for w in found)


def test_a_mount_without_a_board_is_no_mount():
    t = tables(Mounts=(mount("M-1"), mount("M-5", size_least_m=inches(5), size_most_m=inches(5))))
    t["Pairings"] = ({"mount": "M-1", "board": "B-1"},)
    assert lacking([post(post_size=inches(5))], t) == [(True, None)]

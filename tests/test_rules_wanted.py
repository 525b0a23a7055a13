"""What the catalogue lacks: which posts count, and which new item serves how many of them."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rules_case import POLICY, board, extension, feet, fitted, inches, mount, post, tables

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


TWO = tables(Mounts=(mount("M-1"), mount("M-2", size_least_m=inches(4), size_most_m=inches(6), post_height_needed_m=feet(8))))
WIDE = tables(Mounts=(mount("M-1"), mount("M-2", post_height_needed_m=feet(8), board_width_most_m=inches(44))))


def test_each_post_is_looked_at_by_itself_with_every_mount():
    """By hand: M-1 takes 3.4 to 3.6 in and wants 8.5 ft, M-2 takes 4 to 6 in and wants 8 ft."""
    rows = [
        post(post_size=inches(3)), post(post_size=inches(3), post_line="bent"), post(post_height=SHORT), post(),
        post(post_size=inches(5), post_height=SHORT), post(post_size=inches(5), old_fittings="fixed"),
    ]  # fmt: skip
    short, shorter = round(feet(1) - 0.006, 6), round(feet("0.5") - 0.006, 6)
    assert lacking(rows, TWO) == [(True, None), (False, None), (True, short), (False, None), (True, shorter), (False, None)]


@pytest.mark.parametrize(("least", "added"), [(42, 0.5), (42.001, 1), (54, 1), (54.001, None)])
def test_a_mount_that_is_short_counts_where_its_boards_are_wide_enough(least, added):
    """M-2 is half a foot short with boards of 42 in, M-1 a foot with boards of 54 in."""
    t = {**WIDE, "Boards": (board("B-1"), board("B-2", width_m=inches(42)))}
    t["Pairings"] = tuple({"mount": m, "board": b} for m in ("M-1", "M-2") for b in ("B-1", "B-2"))
    ((wants, found),) = lacking([post(post_height=SHORT, least_board_width=inches(least))], t)
    assert (wants, found) == ((False, None) if added is None else (True, round(feet(added) - 0.006, 6)))


def test_of_items_that_serve_alike_the_smaller_goes_first():
    rows = [
        need("A10", 0.09, 0.5),
        need("A9", 0.09, 0.5 + 5e-7),
        need("A9", 0.09, 0.3, shape="square"),
        need("A10", 0.09, 0.3, 1, "square"),
    ]
    rows += [need("A9", 0.09, shape="square"), need("A10", 0.09, shape="square")]
    found = [(w.kind, w.shape, round(w.added, 3) if w.kind == "extension" else None, w.site_codes) for w in wanted(rows, 0.00635)]
    both = ("A9", "A10")
    assert found == [
        ("mount", "square", None, both), ("extension", "square", 0.3, both), ("extension", "round", 0.5, both),
    ]  # fmt: skip


def test_sizes_just_a_window_apart_are_one_need():
    for start in (0.0889, 0.1, 0.1016):
        (found,) = wanted([need("A", start), need("B", start + 0.00635)], 0.00635)
        assert (found.posts, found.least, found.most) == (2, start, start + 0.00635)
        assert len(wanted([need("A", start), need("B", start + 0.00635 + 2e-6)], 0.00635)) == 2

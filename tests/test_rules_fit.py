"""Each rule on both sides of each of its edges; the table is design section 4."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from rules_case import MM, extension, feet, fitted, inches, mount, post, state, tables, verdict

from pipeline.rules.ring_height import setting_range
from pipeline.rules.ring_height import settings as ring_settings

IN36, IN34 = inches("3.6"), inches("3.4")


def mm(number: float) -> float:
    return float(number * MM)


WORDS = [
    ("SHAPE", {"post_shape": "round"}, "pass"),
    ("SHAPE", {"post_shape": "square"}, "fail"),
    ("SHAPE", {"post_shape": "other"}, "fail"),
    ("LINE", {"post_line": "straight"}, "pass"),
    ("LINE", {"post_line": "unknown"}, "confirm"),
    ("LINE", {"post_line": "tapered"}, "confirm"),
    ("LINE", {"post_line": "gooseneck"}, "fail"),
    ("LINE", {"post_line": "bent"}, "fail"),
    ("FITTINGS", {"old_fittings": "none"}, "pass"),
    ("FITTINGS", {"old_fittings": "removable"}, "pass"),
    ("FITTINGS", {"old_fittings": "unknown"}, "confirm"),
    ("FITTINGS", {"old_fittings": "fixed"}, "fail"),
    ("CONDITION", {"condition": "sound"}, "pass"),
    ("CONDITION", {"condition": "surface rust"}, "pass"),
    ("CONDITION", {"condition": "unknown"}, "confirm"),
    ("CONDITION", {"condition": None}, "confirm"),
    ("CONDITION", {"condition": "corroded"}, "fail"),
    ("CONDITION", {"condition": "cracked"}, "fail"),
    ("CONDITION", {"condition": "loose"}, "fail"),
    ("BASE", {"post_base": "cast in"}, "pass"),
    ("BASE", {"post_base": "ground sleeve"}, "pass"),
    ("BASE", {"post_base": "driven"}, "pass"),
    ("BASE", {}, "pass"),
    ("BASE", {"post_base": "unknown"}, "pass"),
    ("BASE", {"post_base": "base plate"}, "confirm"),
    ("BASE", {"post_base": "base plate", "strength_cleared": "yes", "cleared_by": "An engineer"}, "pass"),
    ("BASE", {"post_base": "base plate", "strength_cleared": "yes"}, "confirm"),
    ("BASE", {"post_base": "portable", "strength_cleared": "yes", "cleared_by": "An engineer"}, "fail"),
    ("SHAPE", {"shape_inferred": True}, "confirm"),
    ("SHAPE", {"shape_inferred": True, "post_shape": "square"}, "fail"),
    ("LEAN", {"lean": math.radians(2), "lean_shimmed": "yes"}, "pass"),
    ("LEAN", {"lean": math.radians(2), "lean_shimmed": "no"}, "confirm"),
    ("LEAN", {"lean": math.radians(2.001), "lean_shimmed": "yes"}, "fail"),
    ("LEAN", {"lean": math.nan, "lean_shimmed": "yes"}, "confirm"),
    ("BASE", {"post_base": "portable"}, "fail"),
]

SIZES = [  # window 3.4 to 3.6 in; a rule is good to 1.6 mm
    (IN36, "rule across", "pass"),
    (IN36 + 0.9e-6, "rule across", "pass"),
    (IN36 + 2e-6, "rule across", "confirm"),
    (IN34, "rule across", "pass"),
    (IN34 - 2e-6, "rule across", "confirm"),
    (IN36 + mm(1.6), "rule across", "confirm"),
    (IN36 + mm(1.6) + 2e-6, "rule across", "fail"),
    (IN34 - mm(1.6), "rule across", "confirm"),
    (IN34 - mm(1.6) - 2e-6, "rule across", "fail"),
    (IN36 + mm(0.5), "calipers", "confirm"),
    (IN36 + mm(0.6), "calipers", "fail"),
    (IN36 + mm(0.5), "tape round the post", "confirm"),
    (IN36 + mm(0.6), "tape round the post", "fail"),
    (IN36 / 0.99, "pipe mark", "confirm"),
    (IN36 / 0.99 + 3e-6, "pipe mark", "fail"),
    (IN36 / 0.99, "drawing", "confirm"),
    (inches("3.5"), "estimate", "confirm"),  # 6 mm is wider than the window
    (IN36 + mm(6), "estimate", "confirm"),
    (IN36 + mm(6) + 2e-6, "estimate", "fail"),
]


@pytest.mark.parametrize(("code", "change", "expected"), WORDS)
def test_rules_that_are_lists_of_words(code, change, expected):
    _, _, f = fitted([post(**change)])
    assert state(f, code) == expected


@pytest.mark.parametrize(("size", "method", "expected"), SIZES)
def test_size(size, method, expected):
    _, _, f = fitted([post(post_size=size, measured_with=method)])
    assert state(f, "SIZE") == expected


def test_an_estimated_size_passes_only_with_its_whole_band():
    wide = tables(Mounts=(mount("M-1", size_least_m=inches(3), size_most_m=inches(4)),))
    edge = inches(4) - mm(6)
    sizes = [edge, edge + 2e-6, inches(3) + mm(6), inches(3) + mm(6) - 2e-6]
    _, _, f = fitted([post(post_size=s, measured_with="estimate") for s in sizes], wide)
    assert [state(f, "SIZE", i) for i in range(4)] == ["pass", "confirm", "pass", "confirm"]


def test_a_nominal_size_counts_one_per_cent_whatever_it_was_measured_with_but_an_estimate():
    rows = [post(size_nominal=True, measured_with=m) for m in ("rule across", "calipers", "estimate")]
    p, _, _ = fitted(rows)
    assert p.size_uncertainty == pytest.approx([0.01 * inches("3.5")] * 2 + [0.006])
    assert p.size_estimated.tolist() == [False, False, True]


@pytest.mark.parametrize(
    ("lean", "expected"),
    [
        (0.0, "pass"),
        (math.asin(6 / 450), "pass"),  # 450 mm x sin: check value 'trigonometry'
        (math.asin(6.003 / 450), "confirm"),
        (math.radians(1), "confirm"),
        (math.radians(2), "confirm"),
        (math.radians(2.001), "fail"),
        (math.nan, "confirm"),
    ],
)
def test_lean(lean, expected):
    _, _, f = fitted([post(lean=lean)])
    assert state(f, "LEAN") == expected


@pytest.mark.parametrize(
    ("degrees", "shimmed", "most"), [(0.5, None, 0.006), (1.5, None, 0.006), (1.5, "yes", 0.0157), (3, None, 0.0157)]
)
def test_a_lean_is_held_against_the_limit_that_decides(degrees, shimmed, most):
    """The ring's tolerance while it passes or is to be shimmed; beyond it, and with a shim, the most that a shim takes up."""
    _, _, f = fitted([post(lean=math.radians(degrees), lean_shimmed=shimmed)])
    (found,) = [x for x in f.findings if x.code == "LEAN"]
    assert found.most.item() == pytest.approx(most, abs=5e-6)
    assert found.margin.item() == pytest.approx(most - 0.45 * math.sin(math.radians(degrees)), abs=5e-6)


@pytest.mark.parametrize(
    ("height", "clear", "expected"),
    [
        (feet("8.5"), inches(30), "pass"),
        (feet("8.5"), inches(30) - 2e-6, "fail"),
        (feet("9.5"), inches(42), "pass"),  # a foot too tall: clamped a foot lower
        (feet("9.5"), inches(42) - 2e-6, "fail"),
        (feet("9.5"), None, "pass"),
    ],
)
def test_clear_counts_how_far_the_mount_is_lowered(height, clear, expected):
    _, _, f = fitted([post(post_height=height, clear_length=clear)])
    assert state(f, "CLEAR") == expected


HEIGHTS = [  # margin [mm], method, court level stated, state; tolerance 6 mm
    (0, "tape", False, "pass"),
    (-6, "tape", False, "pass"),
    (-6.01, "tape", False, "confirm"),
    (-12, "tape", False, "confirm"),
    (-12.01, "tape", False, "fail"),
    (-18, "tape", True, "confirm"),
    (-18.01, "tape", True, "fail"),
    (-9, "level or laser", False, "confirm"),
    (-9.01, "level or laser", False, "fail"),
    (-31, "drawing", False, "confirm"),
    (-31.01, "drawing", False, "fail"),
    (69, "estimate", False, "pass"),
    (68.9, "estimate", False, "confirm"),
    (75, "estimate", True, "pass"),
    (74.9, "estimate", True, "confirm"),
    (-81, "estimate", False, "confirm"),
    (-81.01, "estimate", False, "fail"),
]


@pytest.mark.parametrize(("margin", "method", "rise", "expected"), HEIGHTS)
def test_height(margin, method, rise, expected):
    row = post(post_height=feet("8.5") + mm(margin), height_measured_with=method)
    _, _, f = fitted([replace(row, court_rise=0.0, not_stated=() if rise else ("court_rise",))])
    assert state(f, "HEIGHT") == expected
    assert f.shortfall[0, 0] == pytest.approx(-mm(margin) if margin < -6 else 0.0, abs=1e-12)
    assert f.ring_height_max[0, 0] == pytest.approx(feet(10) + mm(margin))


def test_the_courts_level_counts_against_the_posts_height():
    _, _, f = fitted([post(court_rise=mm(100)), post(court_rise=-mm(100))])
    assert f.margin[:, 0] == pytest.approx([-0.1, 0.1])


def test_an_extension_is_needed_only_where_height_would_fail():
    t = tables(Extensions=(extension("E-1"),))
    rows = [
        post(post_height=feet("8.5") - mm(d), height_measured_with=how)
        for d, how in ((12, "tape"), (13, "tape"), (100, "estimate"))
    ]
    _, _, f = fitted(rows, t)
    assert f.extension[:, 0].tolist() == [-1, 0, 0]
    assert [state(f, "HEIGHT", i) for i in range(3)] == ["confirm", "pass", "confirm"]
    assert [verdict(f, i) for i in range(3)] == ["viable_confirm", "viable_extended", "viable_extended"]
    assert f.shortfall[:, 0] == pytest.approx([mm(12), mm(13), mm(100)])


SPIGOT = extension("E-S", joint="spigot", bore_least_m=mm(80), bore_most_m=mm(82))


@pytest.mark.parametrize(
    ("wall", "offered", "expected"),
    [
        (None, True, "confirm"),
        (float((inches("3.5") - mm(82)) / 2), True, "pass"),
        (float((inches("3.5") - mm(82)) / 2) - 2e-6, False, "pass"),
        (float((inches("3.5") - mm(80)) / 2), True, "pass"),
        (float((inches("3.5") - mm(80)) / 2) + 2e-6, False, "pass"),
    ],
)
def test_a_spigot_asks_for_the_bore(wall, offered, expected):
    _, _, f = fitted([post(post_height=feet(8), wall=wall)], tables(Extensions=(SPIGOT,)))
    assert (f.extension[0, 0] == 0) == offered
    assert state(f, "JOINT") == expected
    assert verdict(f) == ("viable_extended" if offered else "not_viable")


def test_the_extension_is_looked_for_whatever_else_failed():
    _, _, f = fitted([post(post_height=feet(8), post_line="bent")], tables(Extensions=(extension("E-1"),)))
    assert (f.extension[0, 0], f.added[0, 0], verdict(f)) == (0, inches(24), "not_viable")


EXTENSIONS = [  # a post 6 in short of a mount that clamps 30 in
    ({}, True),
    ({"added_m": inches(6) - mm(6)}, True),
    ({"added_m": inches(6) - mm(6) - 2e-6}, False),
    ({"added_m": inches(12), "upper_clear_m": inches(36)}, True),
    ({"added_m": inches(12), "upper_clear_m": inches(36) - 2e-6}, False),
    ({"added_m": inches(6), "upper_clear_m": inches(30)}, True),
    ({"added_m": inches(6), "upper_clear_m": inches(30) - 2e-6}, False),
    ({"size_least_m": inches("3.5"), "size_most_m": inches("3.5")}, True),
    ({"size_least_m": inches("3.5") + 2e-6}, False),
    ({"size_most_m": inches("3.5") - 2e-6}, False),
    ({"upper_size_m": IN36}, True),
    ({"upper_size_m": IN36 + 2e-6}, False),
    ({"post_shape": "square"}, False),
    ({"joint_length_m": inches(40)}, True),
    ({"joint_length_m": inches(40) + 2e-6}, False),
    ({"status": "withdrawn"}, False),
    ({"bore_least_m": mm(200), "bore_most_m": mm(300)}, True),  # a sleeve has no bore to enter
]


@pytest.mark.parametrize(("change", "expected"), EXTENSIONS)
def test_what_an_extension_must_be(change, expected):
    base = {"added_m": inches(6), **change}
    row = post(post_height=feet(8), clear_length=inches(40), wall=mm(5))
    _, _, f = fitted([row], tables(Extensions=(extension("E-1", **base),)))
    assert (f.extension[0, 0] == 0) == expected
    assert (verdict(f) == "viable_extended") == expected


def test_which_extension():
    """The least added height, then the least price, then the code in plain string order."""
    short, cheap = {"added_m": inches(6)}, {"price": extension("x")["price"] - 1}
    cases = [
        (("E-1", {}), ("E-2", short), "E-2"),
        (("E-1", short), ("E-2", {**short, **cheap}), "E-2"),
        (("E-1", {"added_m": inches(12), **cheap}), ("E-2", short), "E-2"),
        (("E-9", short), ("E-10", short), "E-10"),
    ]
    for a, b, expected in cases:
        _, c, f = fitted([post(post_height=feet(8))], tables(Extensions=(extension(a[0], **a[1]), extension(b[0], **b[1]))))
        assert c.extensions.code[f.extension[0, 0]] == expected


def test_clear_is_asked_of_the_extension_and_the_rest_of_the_post():
    row = post(post_height=feet(8), clear_length=inches(12))
    _, _, f = fitted([row], tables(Extensions=(extension("E-1", added_m=inches(6)),)))
    assert (state(f, "CLEAR"), verdict(f)) == ("pass", "viable_extended")
    _, _, f = fitted([row])
    assert (state(f, "CLEAR"), state(f, "HEIGHT")) == ("fail", "fail")


STEPPED = {"adjustment": "stepped", "travel_m": feet("2.5"), "step_m": inches(6)}
COVERED = [
    (STEPPED, [10, "9.5", 9, "7.5", 7], 4),
    (STEPPED, [10, "9.75", "9.25"], 1),
    ({**STEPPED, "travel_m": inches(17)}, [10, "9.5", 9, "8.5"], 3),  # travel not a whole number of steps
    ({**STEPPED, "travel_m": inches(18)}, [10, "9.5", 9, "8.5"], 4),
    ({"adjustment": "continuous", "travel_m": feet(2), "step_m": 0.0}, [10, "9.71", 8, "7.9"], 3),
    ({"adjustment": "fixed", "travel_m": 0.0, "step_m": 0.0}, [10, "9.5"], 1),
    ({**STEPPED, "travel_m": 0.3, "step_m": 0.1}, [10, "9.016"], 2),  # 0.3 / 0.1 is a little less than 3 in binary
    ({"adjustment": "stepped", "travel_m": inches(3), "step_m": inches(6)}, [10, "9.75"], 1),
]


@pytest.mark.parametrize(("change", "wanted", "expected"), COVERED)
def test_wanted_heights_covered(change, wanted, expected):
    _, _, f = fitted([post(ring_heights=tuple(feet(h) for h in wanted))], tables(Mounts=(mount("M-1", **change),)))
    assert (f.covered[0, 0], f.wanted[0]) == (expected, len(wanted))


def test_a_setting_serves_within_the_tolerance():
    near = (feet(10), feet(9) + mm(6), feet(8) - mm(6))
    off = (feet(10), feet(9) + mm(6) + 2e-6, feet(8) - mm(6) - 2e-6)
    _, _, f = fitted([post(ring_heights=near), post(ring_heights=off)])
    assert f.covered[:, 0].tolist() == [3, 1]


def test_a_short_post_covers_what_it_reaches_and_an_extended_one_the_target():
    rows = [post(post_height=feet(8), ring_heights=(feet(10), feet("9.5")))]
    _, _, bare = fitted(rows)
    assert (bare.top[0, 0], bare.covered[0, 0], verdict(bare)) == (pytest.approx(feet("9.5")), 1, "not_viable")
    _, _, f = fitted(rows, tables(Extensions=(extension("E-1", added_m=inches(12)),)))
    assert f.top[0, 0] == pytest.approx(feet(10))
    assert f.lowered[0, 0] == pytest.approx(inches(6))
    assert f.covered[0, 0] == 2


def test_a_missing_number_is_to_be_confirmed():
    rows = [post(post_size=None), post(post_height=None)]
    _, _, f = fitted(rows)
    assert (state(f, "SIZE", 0), state(f, "HEIGHT", 1), state(f, "CLEAR", 1)) == ("confirm",) * 3


@pytest.mark.parametrize(
    ("change", "below"),
    [
        ({"adjustment": "fixed", "travel_m": feet(2), "step_m": 0.0}, 0.0),
        ({"adjustment": "continuous", "travel_m": feet(2), "step_m": 0.0}, feet(2)),
        ({"adjustment": "stepped", "travel_m": feet("2.5"), "step_m": inches(6)}, feet("2.5")),
        ({"adjustment": "stepped", "travel_m": inches(29), "step_m": inches(6)}, inches(24)),  # by hand: four whole steps
        ({"adjustment": "stepped", "travel_m": 0.3, "step_m": 0.1}, 0.3),  # 0.3 / 0.1 is 2.9999999999999996
    ],
)
def test_the_lowest_setting_is_the_last_of_all_settings(change, below):
    _, c, _ = fitted([post()], tables(Mounts=(mount("M-1", **change),)))
    top = feet(10)
    assert setting_range(c.mounts)[0] == pytest.approx(below, abs=1e-12)
    assert ring_settings(c.mounts, 0, top)[-1] == pytest.approx(top - below, abs=1e-12)
    assert ring_settings(c.mounts, 0, top)[0] == top

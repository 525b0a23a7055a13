"""Edges of the rules that one wrong comparison, constant or argument would move without any other test noticing."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import numpy as np
import pytest
from rules_case import POLICY, board, extension, feet, fitted, inches, mount, no_load, post, ring, state, tables

from pipeline.rules import plain
from pipeline.rules.advice import ADVICE, Place
from pipeline.rules.arrays import FAIL, PASS
from pipeline.rules.asked import apart, refusals
from pipeline.rules.catalogue_arrays import catalogue
from pipeline.rules.choice import LEAST_PRICE, Want, leading
from pipeline.rules.finding_lines import pair_findings
from pipeline.rules.fit import RULES, fit
from pipeline.rules.kits import kits
from pipeline.rules.post_arrays import posts
from pipeline.rules.rank import fixed_keys
from pipeline.rules.remedy import remedies
from pipeline.rules.ring_height import settings
from pipeline.rules.sentences import Facts, footing
from pipeline.rules.verdict import finding
from schemas.findings import BY_CODE


def test_no_posts_are_no_kits():
    p, c, f = fitted([])
    assert (len(p), p.wanted.shape, p.target.shape, f.verdict.shape) == (0, (0, 1), (0,), (0, 1))
    assert p.unread_cells.shape[0] == len(kits(p, c, f, POLICY, no_load).post) == 0
    assert fit(p, c, POLICY).covered.shape == (0, 1)


@pytest.mark.parametrize(("more", "taken"), [(4e-10, "E-2"), (4e-9, "E-1"), (0.0, "E-2")])
def test_added_heights_are_equal_within_a_nanometre(more, taken):
    """Then the cheaper extension is taken. Source: design section 5, extension for a short post; 1e-9 m of slack."""
    t = tables(Extensions=(extension("E-1"), extension("E-2", added_m=inches(24) + more, price=Decimal(1))))
    _, c, f = fitted([post(post_height=feet(8))], t)
    assert c.extensions.code[f.extension[0, 0]] == taken


def advice_of(**values: object) -> dict[str, str]:
    """Advice about one post with a kit, in millimetres."""
    overhang = float(values.pop("overhang", 1.65))  # type: ignore[arg-type]
    p, _, _ = fitted([post(**values)])
    p.units[:] = plain.METRIC
    return {n.about: n.sentence for rule in ADVICE for n in rule(Place(p, 0, overhang, float("nan")))}


@pytest.mark.parametrize(
    ("overhang", "away", "face"),
    [
        (1.65, None, ""),
        (2.0, 1.95, "stands 0 mm inside the end line's inner edge; the rules ask for 1.20 m or 4 ft: 1200 mm less than that."),
        (2.0, 1.951, "stands 1 mm outside the end line's inner edge; the rules ask for 1.20 m or 4 ft: 1201 mm less than that."),
        (2.0, 0.744, "stands 1206 mm inside the end line's inner edge; the rules ask for 1.20 m or 4 ft: as asked."),
        (2.0, 0.743, "stands 1207 mm inside the end line's inner edge; the rules ask for 1.20 m or 4 ft: 7 mm more than that."),
    ],
)
def test_the_boards_face_to_the_millimetre(overhang, away, face):
    """Source: FIBA Official Basketball Rules, art. 3; common practice for the 6 mm that are as asked."""
    assert (
        advice_of(overhang=overhang, post_to_end_line=away).get("Board and end line", "").removeprefix("The board's face ")
        == face
    )


def test_words_of_little_free_space_and_of_a_post_on_the_line():
    free = "From the post's face to the board there are 599 mm free: less than the least class of EN 1270 (600 mm)."
    assert advice_of(overhang=0.599)["Free space"] == free + " Under 1650 mm a place is for shooting practice only."
    beyond = "The post stands 0 mm beyond the end line, within the 2000 mm that players run out: it wants padding."
    assert advice_of(post_to_end_line=0.0)["Padding"] == beyond
    assert advice_of(wind_speed=37.0)["Wind speed"].startswith("The design wind of 37.0 m/s is low:")


CATALOGUE = tables(
    Mounts=(
        mount("M-1", post_shape="square"),
        mount("M-2", post_shape="square", size_least_m=0.2, size_most_m=0.3),
        mount("M-3"),
    ),
    Boards=(board("B-1"), board("B-2", width_m=inches(44)), board("B-3")),
    Rings=(ring("R-1"), ring("R-2", ring_pattern="6x5")),
    Pairings=tuple({"mount": m, "board": b} for m, b in [("M-2", "B-1"), ("M-1", "B-1"), ("M-3", "B-3"), ("M-2", "B-2")]),
)


def asks(*rows):
    made = [post(**row) for row in rows]
    p, c, f = fitted(made, CATALOGUE)
    k = kits(p, c, f, POLICY, no_load)
    return p, k, refusals(made, p, c, f, k)


def test_the_mount_that_comes_nearest_is_named_for_the_board():
    """M-1 fails SHAPE alone, M-2 SHAPE and SIZE; B-2 is on M-2 alone."""
    _, _, (near, far, narrow) = asks(
        {"board_asked": "B-1"}, {"board_asked": "B-2"}, {"board_asked": "B-2", "least_board_width": 1.2}
    )
    assert "no mount that carries it fits; the nearest, M-1, fails SHAPE." in near[0].sentence
    assert (near[0].reason, near[0].findings) == ("not_viable", ("SHAPE",))
    assert "the nearest, M-2, fails SHAPE and SIZE." in far[0].sentence
    assert narrow[0].findings == ("BOARD",)
    (as_wide,) = asks({"board_asked": "B-2", "least_board_width": inches(44)})[2]
    assert as_wide[0].findings == ("SHAPE", "SIZE")


def test_a_mount_asked_for_is_looked_at_itself():
    _, _, (first, second, narrow) = asks(
        {"mount_asked": "M-2"}, {"mount_asked": "M-1"}, {"mount_asked": "M-1", "least_board_width": 2}
    )
    assert first[0].sentence == "The mount asked for, M-2, cannot be had at this post: it fails SHAPE and SIZE."
    assert second[0].sentence == narrow[0].sentence == "The mount asked for, M-1, cannot be had at this post: it fails SHAPE."


def test_alike_posts_may_ask_for_different_codes_that_are_unknown():
    rows = [post(mount_asked="zz-1"), post(mount_asked="zz-2")]
    p, c, f = fitted(rows[:1], CATALOGUE)
    k = kits(p, c, f, POLICY, no_load)
    found = refusals(rows, p, c, f, k, np.array([0, 0]))
    assert [[r.asked for r in one] for one in found] == [["zz-1"], ["zz-2"]]


def test_only_wishes_that_can_each_be_had_are_said_to_lie_apart():
    t = tables(Boards=(board("B-1"), board("B-2", ring_pattern="6x5")), Rings=(ring("R-1"), ring("R-2", ring_pattern="6x5")))
    rows = [
        post(board_asked="B-2", ring_asked="R-1"), post(board_asked="B-1", ring_asked="R-1"), post(board_asked="B-2"), post(),
        post(board_asked="B-9", ring_asked="R-1"), post(mount_asked="M-1", board_asked="B-1", ring_asked="R-2"),
        post(post_line="bent", board_asked="B-2", ring_asked="R-1"),
    ]  # fmt: skip
    p, c, f = fitted(rows, t)
    assert [len(n) for n in apart(p, kits(p, c, f, POLICY, no_load))] == [1, 0, 0, 0, 0, 1, 0]


@pytest.mark.parametrize(
    ("said", "text"),
    [
        (plain.size(float("nan")), "not known"), (plain.height(float("nan"), plain.METRIC), "not known"),
        (plain.at_least(float("nan")), "not known"), (plain.size(-1e-9), "0 in (0 mm)"),
        (plain.size(0.08886), "3.498 in (88.9 mm)"), (plain.size(0.08886, plain.METRIC), "88.9 mm"),
        (plain.window(0.0889, 0.0889, plain.FEET), "3.5 in"), (plain.window(0.0889, 0.0889), "3.5 in (88.9 mm)"),
        (plain.window(0.08886, 0.08894), "3.498 to 3.502 in (88.9 to 88.9 mm)"),
        (plain.window(0.08636, 0.09144, plain.METRIC), "86.4 to 91.4 mm"), (plain.speed(51.4, plain.FEET), "115 mph"),
    ],
)  # fmt: skip
def test_what_is_not_known_and_what_is_next_to_nothing(said, text):
    assert said == text


def remedy(row, t, rules=RULES):
    c = catalogue(t)
    p = posts([row], c, POLICY)
    return remedies(p, c, fit(p, c, POLICY, rules), POLICY, np.array([False]))[0]


@pytest.mark.parametrize("row", [{"old_fittings": "fixed"}, {"post_line": "gooseneck"}])
@pytest.mark.parametrize(("least", "named"), [(54, "M-1"), (54.001, "M-2")])
def test_a_board_as_wide_as_asked_for_is_wide_enough(row, least, named):
    t = tables(
        Mounts=(mount("M-1", price=Decimal(1)), mount("M-2", board_width_most_m=inches(72))),
        Boards=(board("B-1"), board("B-9", width_m=inches(72))),
    )
    assert remedy(post(least_board_width=inches(least), **row), t).mount == named


def test_the_cheapest_is_so_with_its_ring():
    t = tables(
        Mounts=(mount("M-1"), mount("M-2")),
        Boards=(board("B-1"), board("B-2", ring_pattern="6x5")),
        Rings=(ring("R-1", price=Decimal(200)), ring("R-2", ring_pattern="6x5", price=Decimal(100))),
        Pairings=({"mount": "M-1", "board": "B-1"}, {"mount": "M-2", "board": "B-2"}),
    )
    assert remedy(post(old_fittings="fixed"), t).mount == "M-2"


def test_of_mounts_that_cost_the_same_a_new_post_is_made_for_the_one_that_wants_the_lowest():
    t = tables(Mounts=(mount("M-1", post_height_needed_m=feet("9.5")), mount("M-2")))
    found = remedy(post(post_line="gooseneck"), t)
    assert (found.mount, found.steps[0].amount) == ("M-2", pytest.approx(feet("8.5")))


@pytest.mark.parametrize(
    ("clamp", "height", "kind"),
    [(feet("8.5"), 8.5, "clear"), (feet("8.5") + 2e-6, 8.5, "mount"), (feet("8.4"), 9, "clear"), (feet("8.6"), 9, "mount")],
)
def test_clamps_that_would_go_into_the_ground_want_another_mount(clamp, height, kind):
    """A post of 9 ft is clamped half a foot below its top, for a ring at 10 ft."""
    found = remedy(post(clear_length=feet(8), post_height=feet(height)), tables(Mounts=(mount("M-1", clamp_length_m=clamp),)))
    assert [s.kind for s in found.steps] == [kind]


def failing(code, state=FAIL):
    return lambda case: finding(code, np.full((1, 1), state, dtype=np.int8))


def test_a_rule_with_no_way_out_of_its_own_is_to_be_put_right():
    one = remedy(post(old_fittings="fixed"), tables(), (*RULES, failing("FOOTING")))
    assert [s.kind for s in one.steps] == ["strip", "mend"]
    assert one.sentence.startswith("Strip the welded fittings off and put right the ")
    assert one.sentence.endswith(": mount M-1 would then fit.")
    assert BY_CODE["FOOTING"].about in one.sentence
    both = remedy(post(), tables(), (*RULES, failing("FOOTING"), failing("STRENGTH", PASS)))
    assert [s.kind for s in both.steps] == ["mend"]
    two = remedy(post(), tables(), (*RULES, failing("FOOTING"), failing("STRENGTH")))
    assert ([s.kind for s in two.steps], two.mount) == (["mount"], "")
    assert "M-1" not in two.sentence


@pytest.mark.parametrize(
    ("travel", "steps"), [(inches(30), 5), (inches(30) - 1e-10, 5), (inches("29.997"), 4), (inches("29.99"), 4)]
)
def test_steps_are_whole_steps_within_the_travel(travel, steps):
    """To a thousand millionth of a step. Source: design section 5, settings."""
    _, c, f = fitted([post(ring_heights=(feet(10), feet("7.5")))], tables(Mounts=(mount("M-1", travel_m=travel),)))
    assert len(settings(c.mounts, 0, feet(10))) == steps + 1
    assert f.covered.tolist() == [[2 if steps == 5 else 1]]


def test_a_missing_number_neither_passes_nor_fails():
    """Source: design section 2, three-valued truth."""
    p, c, _ = fitted([post(), post(post_height=feet(7), post_size=inches(6))])
    unknown = replace(p, size=np.full(2, np.nan), height=np.full(2, np.nan))
    f = fit(unknown, c, POLICY)
    assert [state(f, code, i) for code in ("SIZE", "HEIGHT") for i in (0, 1)] == ["confirm"] * 4


def test_a_catalogue_of_nothing_and_blank_cells_of_one():
    nothing = catalogue({})
    assert (len(nothing.mounts.code), nothing.pairs.shape, nothing.price_unit, nothing.service_per_post) == (0, (0, 0), 1, 0)
    c = catalogue(tables(Mounts=(mount("M-1", travel_m=None, step_m=None, adjustment="fixed"),)))
    assert (c.mounts.travel.tolist(), c.mounts.step.tolist()) == ([0.0], [0.0])


@pytest.mark.parametrize(
    ("price", "unit"), [("400", "1"), ("400.00", "1"), ("0.00", "1"), ("400.5", "0.1"), ("400.125", "0.001")]
)
def test_prices_are_whole_multiples_of_a_power_of_ten(price, unit):
    c = catalogue(tables(Mounts=(mount("M-1", price=Decimal(price)),)))
    assert (c.price_unit, int(c.mounts.price[0]) * c.price_unit) == (Decimal(unit), Decimal(price))


def test_each_pair_of_two_posts_and_two_mounts_has_its_own_findings():
    t = tables(Mounts=(mount("M-1"), mount("M-2", size_least_m=inches(5), size_most_m=inches(6), price=Decimal(1))))
    p, c, f = fitted([post(), post(post_size=inches("5.5"), post_line="bent")], t)
    found = {(i, m): {x.code: x.state for x in pair_findings(p, c, f, i, m)} for i in (0, 1) for m in (0, 1)}
    assert [found[pair]["SIZE"] for pair in found] == ["pass", "fail", "fail", "pass"]
    assert [found[pair]["LINE"] for pair in found] == ["pass", "pass", "fail", "fail"]


@pytest.mark.parametrize(("needed", "said"), [(1.3, "1301 mm"), (1.2999995, "1300 mm"), (1.2999, "1300 mm")])
def test_a_computed_depth_is_said_deeper_than_it_is(needed, said):
    """It was rounded to the micrometre before: what is a whole millimetre may have been more."""
    found = footing(Facts("pass", value=2.0, least=needed, post={"base": "cast in"}, units=plain.METRIC))
    assert found == f"The screen asks for a footing {said} deep, and never less than the local frost depth; 2000 mm is stated."


def test_a_post_without_a_kit_leads_with_none():
    p, c, f = fitted([post(post_line="bent"), post()])
    k = kits(p, c, f, POLICY, no_load)
    assert leading(p, c, k).best.tolist() == [[-1, 0]] * 3


def test_who_wants_nothing_wants_the_least_price_of_any_board_and_ring():
    assert Want() == Want(LEAST_PRICE, -1, -1)


def test_widths_that_agree_to_a_nanometre_are_equal():
    """Source: design section 8, own key; the unit that a width was typed in decides nothing."""
    c = catalogue(tables(Boards=tuple(board(f"B-{n}", width_m=1.2 + more) for n, more in enumerate((0.0, 4e-10, 4e-9)))))
    assert fixed_keys(c, np.zeros(3, dtype=np.int64), np.arange(3))[0].tolist() == [1, 1, 0]

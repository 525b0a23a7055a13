"""Headings as people word them for themselves, and what bears them out below; names of places; totals without a label."""

from __future__ import annotations

from typing import Any

import pytest
from survey_books import book, sheet
from survey_checked import FileResult, check_book

from pipeline.intake.catalogue import documented_policy
from pipeline.intake.layout.place_names import is_place_name
from pipeline.intake.layout.row_kinds import what_a_lone_text_is
from pipeline.intake.survey.headings import claim

POLICY = documented_policy()


def read(*lines: list[Any]) -> FileResult:
    return check_book(book(sheet(list(lines))), "a.xlsx", POLICY)


def quoted(*lines: list[Any]) -> list[tuple[str | None, str | None, str, int | None]]:
    """Site, shape, post and number of every row that is not held."""
    return [(r.site_name or r.site_code, r.post_shape, r.post_code, r.quantity) for r in read(*lines).rows if not r.held]


STANDS_UP = [
    "Sticks out of ground", "Stands above pavement", "Up from dirt", "Sticks up out of the blacktop", "Out of the ground",
    "Above the asphalt", "Off the ground", "How far out of the ground", "Ground to top", "Part above ground",
    "Exposed above grade", "Up from the grass", "Sticking out of concrete",
]  # fmt: skip


@pytest.mark.parametrize("heading", STANDS_UP)
def test_how_far_a_post_stands_up_is_its_height(heading: str) -> None:
    found = claim(heading)
    assert found is not None
    assert found.name == "post_height"


NO_HEIGHT = [
    "Rim above ground", "Slab above grade", "Depth in ground", "Net off ground", "Below ground", "Distance from ground",
    "Lights above ground", "Asphalt", "Surface", "Above", "Length", "Concrete above ground", "Bottom of board above grade",
]  # fmt: skip


@pytest.mark.parametrize("heading", NO_HEIGHT)
def test_what_may_stand_up_of_another_thing_is_no_height(heading: str) -> None:
    found = claim(heading)
    assert found is None or found.name != "post_height"


SHAPE_IT_IS_IN = ["What kind of shape it's in", "What shape is it in", "Shape the pole is in", "In what shape", "Good shape?"]


@pytest.mark.parametrize("heading", SHAPE_IT_IS_IN)
def test_the_shape_that_a_post_is_in_is_its_condition(heading: str) -> None:
    found = claim(heading)
    assert found is not None
    assert found.name == "condition"


@pytest.mark.parametrize("heading", ["What shape is it", "Shape", "Kind of shape", "Overall shape", "Shape (sq/rd)"])
def test_the_shape_of_a_post_is_none(heading: str) -> None:
    found = claim(heading)
    assert found is None or found.name != "condition"


LAY_SIZES = [
    ("Outside", "4.5 in", True), ("Thickness of post", "4-1/2 inches", True), ("How big", "4 1/2\"", True),
    ("How thick", "4.5\"", True), ("O/S", "4.5 in", True), ("Side to side (in)", 4.5, True),
    ("Post thickness", "0.237 in", False),
    ("Thickness", "6 mm", False), ("Outside", "yes", False), ("Pole", "4.5\"", True), ("Outside (ft)", 12, False),
]  # fmt: skip


@pytest.mark.parametrize(("heading", "cell", "sized"), LAY_SIZES)
def test_a_lay_word_for_a_size_stands_over_sizes_of_posts(heading: str, cell: Any, sized: bool) -> None:
    rows = read(["School", "Ref", "Shape", heading, "Height (ft)"], ["Elm School", "N", "round", cell, 8.5]).rows
    assert [(r.post_size == pytest.approx(0.1143), r.held) for r in rows] == [(sized, not sized)]


NOMINAL = ["Nom. pipe size (NPS)", "Nom. dia.", "NPS", "Nominal pipe", "Pipe nominal size"]


@pytest.mark.parametrize("heading", NOMINAL)
def test_a_nominal_size_is_no_outside_size(heading: str) -> None:
    heads = ["Site", "Mark", "Ea.", heading, "Sch.", "Exposed ht."]
    rows = read(heads, ["Elm Park", "A", 2, 4, 40, "10'-8\""], ["Elm Park", "B", 1, "3-1/2", 40, "9'-8\""]).rows
    sizes = [round(r.post_size / 0.0254, 3) for r in rows if r.post_size and not r.held]
    assert sizes == [4.5, 4.0]  # ASME B36.10M, NPS 4 and NPS 3 1/2


def test_a_schedule_of_pipes_is_no_school() -> None:
    heads = ["Post", "Post size", "Sch.", "Height (ft)"]
    found = read(["Elm School"], heads, ["A", "NPS 4", 40, 10])
    assert [(r.site_name, r.held) for r in found.rows] == [("Elm School", False)]
    assert claim("SITE_CD") is not None


PLACES = [
    ("Bixby Sandlot", True), ("Vandalia Y", True), ("Gate 3", True), ("by the swings", False), ("Main court", False),
    ("Red", False), ("Blue court", False), ("North", False), ("Court 2", False), ("Back lot", False),
    ("Near Oak Drive", False), ("1", False), ("elmwood", False), ("Cedar Commons", True), ("measured twice", False),
]  # fmt: skip


@pytest.mark.parametrize(("text", "named"), PLACES)
def test_a_name_of_a_place_is_told_from_a_place_within_one(text: str, named: bool) -> None:
    assert is_place_name(text) == named


BODY = ["round", 4.5, 8.5]
HEADS = ["Shape", "OD (in)", "Height (ft)"]


@pytest.mark.parametrize("heading", ["Where", "place", "Bldg.", "Location"])
def test_where_names_the_site_where_its_cells_are_names(heading: str) -> None:
    rows = [["Cottonwood Commons", "1", *BODY], ['"', "2", *BODY], ["Gable Lane Courts", "1", *BODY]]
    if heading == "Where at":
        assert all(
            r.held or r.site_name != "by the swings" for r in read([heading, "Post", *HEADS], ["by the swings", "1", *BODY]).rows
        )
        return
    assert [q[0] for q in quoted([heading, "Post", *HEADS], *rows)] == ["Cottonwood Commons"] * 2 + ["Gable Lane Courts"]
    below = quoted(["School: Elm School"], [heading, "Post", *HEADS], *rows[:1])
    assert [q[0] for q in below] == ["Elm School"]


def test_courts_name_the_site_where_they_are_places_of_their_own() -> None:
    heads = ["Court", "Hoop", *HEADS]
    own = quoted(heads, ["Sycamore Heights", "home", *BODY], ["Vandalia Y", "home", *BODY])
    assert [(q[0], q[2]) for q in own] == [("Sycamore Heights", "home"), ("Vandalia Y", "home")]
    for names in (["Blue", "Red"], ["Maple court", "Oak court"], ["1", "2"], ["Memorial", "Johnson"]):
        assert quoted(heads, *([n, "home", *BODY] for n in names)) == []
    within = quoted(["Park", *heads], *(["Elm Park", n, "home", *BODY] for n in ("Sycamore Heights", "Vandalia Y")))
    assert {q[0] for q in within} == {"Elm Park"}


def test_a_code_and_what_it_stands_for_name_the_site() -> None:
    heads = ["SITE_CD", "SITE_DESC", "POST_ID", *HEADS]
    found = read(heads, ["GLN", "Glenwood Oval", "1", *BODY], ["MRT", "Mercantile Tot Lot", "1", *BODY]).rows
    assert [(r.site_code, r.site_name) for r in found] == [("GLN", "Glenwood Oval"), ("MRT", "Mercantile Tot Lot")]
    mixed = read(heads, ["GLN", "Bench and two hoops", "1", *BODY], ["GLN", "Fenced in 2019", "2", *BODY]).rows
    assert [(r.site_code, r.site_name or "") for r in mixed] == [("GLN", ""), ("GLN", "")]


def test_a_number_of_each_court_is_none_of_the_site() -> None:
    heads = ["Park", "Court", "No. of poles", *HEADS]
    each = quoted(heads, ["Elm Park", 1, 2, *BODY], ["Elm Park", 2, 2, "round", 3.5, 8])
    assert [(q[0], q[3]) for q in each] == [("Elm Park", 2), ("Elm Park", 2)]
    assert quoted(heads, ["Elm Park", 1, 2, *BODY], ["Elm Park", 1, 2, "round", 3.5, 8]) == []


def test_the_number_of_a_post_comes_before_that_of_the_register() -> None:
    heads = ["ASSET_ID", "FACILITY", "POST_NO", *HEADS]
    rows = [[104417, "Elm Park", 1, *BODY], [104418, "Elm Park", 2, *BODY], [104502, "Oak Park", 1, *BODY]]
    assert [q[2] for q in quoted(heads, *rows)] == ["1", "2", "1"]
    assert quoted(heads, *([a, s, 1, *body] for a, s, _, *body in rows[:2])) == []


@pytest.mark.parametrize("heading", ["Lights?", "Lights", "Bench?", "Trees"])
@pytest.mark.parametrize("answers", [("Y", "N"), ("yes", "no")])
def test_what_else_a_court_has_makes_no_other_table(heading: str, answers: tuple[str, str]) -> None:
    heads = ["School", "North pole OD", "North pole height", "South pole OD", "South pole height", heading]
    rows = [[f"{s} School", "4 in", "10 ft", "3.5 in", "9 ft", a] for s, a in zip(("Elm", "Oak"), answers, strict=True)]
    assert len(quoted(heads, *rows)) == 4


def test_posts_head_their_names_beside_what_the_rows_are_called() -> None:
    heads = ["Item", "Posts", "Form", "Diameter or side", "Top of post above grade"]
    rows = [["Tot lot hoop", "T1", "round", '2-7/8"', "7'-6\""], ["Main court", "M1, M2", "square", '4"', "10'-4\""]]
    assert [q[2:] for q in quoted(["Property: Cinnamon Creek"], heads, *rows)] == [("T1", 1), ("M1, M2", 2)]


def test_a_list_of_what_stands_on_each_ground_with_totals() -> None:
    heads = ["How many", "What", "Across", "Up from dirt", "Notes"]
    rows = [["Pecan Bottoms Park"], [2, "round", "4-1/2 in.", "10 ft. 8 in."], [1, "square", "4 in.", "9 ft.", "arms welded on"],
            [3],            ["Old Depot Park"], [1, "round", "3-1/2 in.", "9 ft. 1 in."], [1], ["Total 4 posts"]]  # fmt: skip
    found = read(["Goal post count"], heads, *rows)
    assert [(r.site_name, r.post_shape, r.quantity, r.held) for r in found.rows] == [
        ("Pecan Bottoms Park", "round", 2, False), ("Pecan Bottoms Park", "square", 1, False),
        ("Old Depot Park", "round", 1, False),
    ]  # fmt: skip
    assert [r.old_fittings for r in found.rows] == ["unknown", "fixed", "unknown"]
    wrong = read(["Goal post count"], heads, *rows[:3], [4])
    assert [r.held for r in wrong.rows] == [False, False, True]


@pytest.mark.parametrize(("cell", "kit"), [
    ("bent over at the top, gooseneck type", False), ("old brackets welded on", False), ("good", True), ("cracked weld", True),
])  # fmt: skip
def test_a_condition_that_says_gooseneck_or_welded_rules_kits_out(cell: str, kit: bool) -> None:
    row = read(["School", "Post", *HEADS, "Condition"], ["Elm", "1", *BODY, cell]).rows[0]
    assert (row.post_line != "gooseneck" and row.old_fittings != "fixed") == kit


REGISTERS = [
    ("SHAPECODE", "post_shape"), ("X_SECT", "post_shape"), ("ABVGRD_FT", "post_height"), ("AGL_FT", "post_height"),
    ("Exp. ht.", "post_height"), ("Height AFG", "post_height"), ("T.O.P. ht", "post_height"), ("POST_LBL", "post_code"),
    ("STRUCT_NO", "post_code"), ("Pole letter", "post_code"), ("PARK_NM", "site_name"), ("LOC_NAME", "site_name"),
    ("FACID", "site_code"), ("SITE_CD", "site_code"), ("POST_CNT", "quantity"), ("Poles per court", "quantity"),
    ("REM_HDWR", "old_fittings"), ("Exist. attach.", "old_fittings"), ("SURV_DATE", "surveyed_on"), ("COND_CD", "condition"),
    ("Section OD", "post_size"), ("Section dims", "post_size"), ("Pipe O.D. (measured)", "post_size"),
    ("Goal post dia", "post_size"),
    ("Old backboard arms?", "old_fittings"), ("Does it have old backboard arms?", "old_fittings"),
    ("old stuff still hanging on it?", "old_fittings"), ("Circ.", "post_size"), ("Around", "post_size"),
    ("Height (not rim)", "post_height"), ("OD near top", "post_size"),
    ("Diameter (round) or width (square)", "post_size"),
    ("Post height only", "post_height"), ("Pole (in)", "post_size"), ("Pole (ft)", "post_height"), ("Section length", None),
    ("Board size", None), ("Exp. date", None),
    ("Ground", "site_name"), ("Ground up", None), ("In ground?", None), ("Grade", None),
    ("Hoop circumference", None), ("Rim diameter", None), ("Size code of board", None),
]  # fmt: skip


@pytest.mark.parametrize(("heading", "name"), REGISTERS)
def test_short_forms_and_lay_words_of_headings(heading: str, name: str | None) -> None:
    found = claim(heading)
    assert (found.name if found else None) == name


UNITS = [
    ("Inches around", "in"), ("Feet above ground", "ft"), ("How many inches across", "in"), ("Feet tall", "ft"),
    ("HEIGHTFT", "ft"), ("Home end pole (in)", ""), ("In ground", ""), ("Inches", ""),
]  # fmt: skip


@pytest.mark.parametrize(("heading", "unit"), UNITS)
def test_a_unit_before_what_is_measured(heading: str, unit: str) -> None:
    found = claim(heading)
    assert (found.unit if found else "") == unit


def test_poles_with_a_unit_side_by_side_are_their_sizes() -> None:
    heads = ["Where we practice", "Home end pole (in)", "Home end ht (ft)", "Away end pole (in)", "Away end ht (ft)", "Round?"]
    found = read(heads, ["Northgate MS", 4.5, 10.5, 3.5, 10, "yes"]).rows
    assert [(r.site_name, r.post_code, r.held) for r in found] == [
        ("Northgate MS", "Home end", False), ("Northgate MS", "Away end", False),
    ]  # fmt: skip
    assert [r.post_size for r in found] == [pytest.approx(0.1143), pytest.approx(0.0889)]


def test_goal_posts_in_the_plural_head_their_names() -> None:
    heads = ["Lot", "Goal posts", "Shape of pole", "How thick is pole", "Height of pole"]
    rows = [
        ["Main lot", "1 and 2", "round", "4-1/2 inches", "10 feet"],
        ["Youth lot", "3", "round", "4 inches", "9 feet"],
    ]
    assert [q[2:] for q in quoted(["Grace Chapel"], heads, *rows)] == [("1 and 2", 2), ("3", 1)]


def test_posts_are_known_by_what_stands_below_where_no_word_speaks_of_them() -> None:
    heads = ["Mk", "Qty", "Section", "O.D.", "Exposed", "Base"]
    one, two = ["A1", 2, "round", '4.5"', "10'-6\"", "embedded"], ["B1", 4, "square", '4"', "10'-1\"", "bolted plate"]
    found = quoted(["ELM PLAZA"], heads, one, ["OAK PARK"], heads, two)
    assert [(q[0], q[1], q[3]) for q in found] == [("ELM PLAZA", "round", 2), ("OAK PARK", "square", 4)]
    for size, height in (('0.5"', "10'-6\""), ('4.5"', "30'"), ("4.5", "10.5")):
        assert [q.code for q in read(["ELM PLAZA"], heads, [*one[:3], size, height, "embedded"]).queries] == ["NO_HEADINGS"]


LONE = [
    ("Old Depot Park", "section"), ("Old Mill Lot", "section"), ("New Hope", "section"), ("Spring Hollow", "doubtful"),
    ("New Posts", "remark"), ("old pole by the gym", "remark"), ("Spring Survey", "remark"), ("New", "remark"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "kind"), LONE)
def test_a_name_may_begin_as_remarks_do(text: str, kind: str) -> None:
    assert what_a_lone_text_is(text) == kind


def test_a_location_of_codes_is_named_by_its_description() -> None:
    heads = ["ASSETNUM", "LOCATION", "LOCDESC", "POSTQTY", "POSTSHP", "POSTOD_IN", "POSTHGT_FT"]
    rows = [[10045, "PK-11", "Medina Park", 2, "ROUND", 4.5, 10.5], [10101, "PK-14", "Orchard Oval", 4, "SQUARE", 4, 9.8]]
    assert quoted(heads, *rows) == [("Medina Park", "round", "10045", 2), ("Orchard Oval", "square", "10101", 4)]


def test_where_a_post_stands_on_a_court_is_no_site() -> None:
    for heading in ("Where on court", "Where on the court is it", "Where is it rusted"):
        assert quoted([heading, "Post", *HEADS], ["Cutter Hill", "1", *BODY], ["Mays Hill", "2", *BODY]) == []
    for heading in ("Job", "Lot", "Spot"):
        assert quoted([heading, "Post", *HEADS], ["Painting", "1", *BODY], ["Repairs", "2", *BODY]) == []
    assert len(quoted(["Place we measured", "Post", *HEADS], ["Cutter Hill", "1", *BODY])) == 1
    assert len(quoted(["Where it is", "Post", *HEADS], ["Cutter Hill", "1", *BODY], ["Mays Hill", "2", *BODY])) == 2


def test_a_post_in_words_is_no_second_row_of_headings() -> None:
    heads = ["Place we measured", "Which hoop", "Pole round or square", "Pole thickness", "Pole height (ground to top)"]
    rows = [
        ["Willow Commons", "hoop 1", "round", "3 1/2 in", "9 ft 10 in"],
        ["York Green", "hoop 1", "square", "4 in", "10 ft 2 in"],
    ]
    assert quoted(heads, *rows) == [("Willow Commons", "round", "hoop 1", 1), ("York Green", "square", "hoop 1", 1)]


def test_a_pole_within_a_group_of_columns_is_its_shape_where_its_cells_say_so() -> None:
    heads = ["School", "Pole", "Dia", "Ht", "Pole", "Dia", "Ht"]
    row = ["Union HS", "round", '4.5"', "10'8\"", "round", '3.5"', "10'9\""]
    found = quoted([None, "Home basket", None, None, "Away basket", None, None], heads, row)
    assert found == [("Union HS", "round", "Home basket", 1), ("Union HS", "round", "Away basket", 1)]

"""Headings with several meanings, of which the cells below say the one; what is left in doubt; what the notes rule out."""

from __future__ import annotations

from typing import Any

import pytest
from survey_books import book, sheet
from survey_checked import check_book

from pipeline.intake.catalogue import documented_policy
from pipeline.intake.layout.find import find_records
from pipeline.intake.survey.headings import claim
from pipeline.intake.survey.survey_row import SurveyRow

POLICY = documented_policy()


def claims(heads: list[str], *rows: list[Any]) -> dict[str, str]:
    """Heading to column, of the records of one table."""
    records, _, _ = find_records(book(sheet([heads, *rows])), "a.csv")
    return {s.heading.text: name for r in records for name, s in r.values.items()}


def rows_of(*lines: list[Any]) -> tuple[SurveyRow, ...]:
    return check_book(book(sheet(lines)), "a.csv", POLICY).rows


BASE = ["School", "Diameter (in)", "Height (ft)"]
MEANT = [
    ("Type", ["round", "square"], "post_shape"), ("Type", ["straight", "gooseneck"], "post_line"),
    ("Pole type", ["sq", "rd"], "post_shape"),
    ("Mastform", ["gerade", "Schwanenhals"], "post_line"), ("Mastform", ["rund", "quadratisch"], "post_shape"),
    ("Type", ["round", "tapered"], None), ("Type", ["A", "B"], None), ("Type", ["S", "S"], None),
    ("Tipo", ["redondo", "cuadrado"], "post_shape"),
    ("CrossSect", ["ROUND", "SQUARE"], "post_shape"), ("Matl", ["steel", "galv"], "material"),
    ("Attach", ["none", "welded"], "old_fittings"),
    ("Ref.", ["BP-01", "BP-02"], "post_code"), ("#", [1, 2], "post_code"), ("#", [1, 1], None),
    ("Ref", ["1-4", "5"], None),
    ("End", ["North", "South"], "post_code"), ("End", ["North", "North"], None), ("Board material", ["steel", "wood"], None),
    ("Round", ["x", "x"], "post_shape"), ("Gooseneck", ["no", "yes"], "post_line"), ("Round", ["x", "3 in"], None),
    ("Welded Attachments (Y/N)", ["Y", "N"], "old_fittings"), ("Welded or bolted?", ["Y", "N"], None),
    ("Soldaduras?", ["no", "sí"], "old_fittings"),
]  # fmt: skip


@pytest.mark.parametrize(("heading", "cells", "name"), MEANT)
def test_the_cells_say_what_a_heading_means(heading: str, cells: list[Any], name: str | None) -> None:
    rows = [["Elm School", 4.5, 8.5, c] for c in cells]
    got = claims([*BASE, heading], *rows) if name == "post_code" or heading in ("#", "Ref", "End") else claims(
        [*BASE, heading, "Post"], *([*r, n] for n, r in enumerate(rows))
    )  # fmt: skip
    assert got.get(heading) == name


def test_posts_numbered_anew_at_each_ground_and_court_are_named() -> None:
    heads = ["School", "Court", "End", "Shape", "OD (in)", "Height (ft)"]
    lines = [["Elm", c, e, "round", 4.5, 8.5] for c in ("1", "2") for e in "NS"]
    assert [r.post_code for r in rows_of(heads, *lines)] == ["Court 1 N", "Court 1 S", "Court 2 N", "Court 2 S"]
    named = rows_of(["School", "Court", "Posts", *heads[3:]], *([*r[:2], "N & S", *r[3:]] for r in lines[::2]))
    assert [(r.post_code, r.quantity, r.held) for r in named] == [("Court 1 N & S", 2, False), ("Court 2 N & S", 2, False)]
    twice = rows_of(["School", "Court", "Pole", *heads[3:]], lines[0], [*lines[0][:5], 9])
    assert all(r.held for r in twice)
    lines = [["Elm", "Upper", "1", "round", 4.5, 8.5], ['"', '"', "2", '"', '"', '"'], ["Elm", "Lower", "1", "round", 4.5, 8.5]]
    clerk = rows_of(["School", "Court", "Pole", *heads[3:]], *lines)
    assert [r.post_code for r in clerk] == ["Upper 1", "Upper 2", "Lower 1"]
    lines = [["Elm", "1", "E", "round", 4.5, 8.5], [None, None, "W", "round", 4.5, 8.5], [None, "2", "E", "round", 4.5, 8.5]]
    block = rows_of(["School", "Court", "Pole", *heads[3:]], *lines)
    assert [r.post_code for r in block] == ["Court 1 E", "Court 1 W", "Court 2 E"]
    position = ["School", "Standort am Platz", *heads[3:]]
    korb = rows_of(position, ["Elm", "Korb 1", "round", 4.5, 8.5], ["Elm", "Korb 2", "round", 4.5, 8.5])
    assert [r.post_code for r in korb] == ["Korb 1", "Korb 2"]


def test_of_two_headings_that_say_where_the_one_over_names_of_grounds_counts() -> None:
    heads = ["Asset ID", "Building Name", "SiteLocation", "Pole Shape", "OD (in)", "Pole Height (ft)"]
    rows = rows_of(
        heads, ["BB-1", "Elm Street School", "Rear court", "round", 4.5, 8.5], ["BB-2", "Kirk School", "Front", "round", 4.5, 8.5]
    )
    assert [(r.site_name, r.post_code, r.held) for r in rows] == [
        ("Elm Street School", "BB-1", False),
        ("Kirk School", "BB-2", False),
    ]


def test_a_ground_is_named_without_the_place_within_it() -> None:
    heads = ["Location", "Ref", "Shape", "OD (in)", "Height (ft)"]
    rows = rows_of(
        heads, ["MUGA north, Dale School", "P01", "round", 4.5, 8.5], ["MUGA south, Dale School", "P02", "round", 4.5, 8.5]
    )
    assert [(r.site_name, r.post_code) for r in rows] == [("Dale School", "P01"), ("Dale School", "P02")]
    lines = [[f"Mill Rd Park - {side} court", "A and B", "round", 4.5, 8.5] for side in ("north", "south")]
    found = rows_of(["Court", "Post", *heads[2:]], *lines)
    assert [(r.site_name, r.post_code, r.quantity, r.held) for r in found] == [
        ("Mill Rd Park", "north court A and B", 2, False), ("Mill Rd Park", "south court A and B", 2, False),
    ]  # fmt: skip


def test_hoops_are_a_number_of_posts_where_they_can_be_no_names() -> None:
    heads = ["Site", "Hoops", "Shape", "OD (in)", "Height (ft)"]
    body = ["round", 4.5, 8.5]
    counted = rows_of(heads, ["Elm Park", 2, *body], ["Ash Park", 4, *body], ["Ash Park", 4, "square", 4, 8.5])
    assert [(r.quantity, r.held) for r in counted] == [(2, False), (4, False), (4, False)]
    assert [r.quantity for r in rows_of(heads, ["Elm Park", 1, *body], ["Elm Park", 2, *body])] == [1, 1]


def test_what_stands_below_tells_a_survey_by_lay_words() -> None:
    heads = ["place", "which hoop", "what kind of pole", "across", "off the ground to top", "anything on the pole"]
    row = rows_of(heads, ["Juniper Park", "by the pool", "round steel", '4"', "8'6\"", "nothing"])[0]
    assert (row.site_name, row.post_code, row.post_shape, row.old_fittings, row.held) == (
        "Juniper Park", "by the pool", "round", "none", False,
    )  # fmt: skip
    assert row.post_size == pytest.approx(0.1016)


def test_words_and_questions_about_one_thing_agree_or_are_asked() -> None:
    heads = ["School", "Post", "Shape", "OD (in)", "Height (ft)", "Hardware", "Weld?"]
    agree, differ = rows_of(heads, ["Elm", "1", "round", 4, 8, "none", "N"], ["Elm", "2", "round", 4, 8, "none", "Y"])
    assert (agree.old_fittings, agree.held, differ.held) == ("none", False, True)


def test_a_pipe_size_is_a_size_where_each_cell_names_a_pipe() -> None:
    heads = ["School", "Post", "Pipe size", "Height (ft)"]
    assert rows_of(heads, ["Elm", "1", "NPS 3", 8.5], ["Elm", "2", "4 in sch 40", 8.5])[0].post_size == pytest.approx(0.0889)
    assert rows_of(heads, ["Elm", "1", "3 in", 8.5])[0].held


SIZED = [
    ("Section", ["114.3 x 5.0 CHS", "100 x 100 x 4 SHS"], "post_size"),
    ("Post type", ["114 mm round", "100 mm square tube"], "post_size"),
    ("Section", ["114.3 x 5.0", "100 x 100"], None), ("Section", ["round", "square"], "post_shape"),
    ("Thickness of pole", ["89 mm", "100 mm"], "post_size"), ("Pole thickness (mm)", [89, 100], "post_size"),
    ("Pole thickness (mm)", [4, 5], "wall"), ("Pole thickness (mm)", [4, 100], "wall"), ("Pole thickness", [89, 100], "wall"),
]  # fmt: skip


@pytest.mark.parametrize(("heading", "cells", "name"), SIZED)
def test_a_section_or_a_thickness_is_the_size_where_every_cell_says_so(heading: str, cells: list[Any], name: str | None) -> None:
    rows = [["Elm School", post, cell, 3] for post, cell in zip("AB", cells, strict=True)]
    found = claims(["School", "Post no", heading, "Height above ground (m)"], *rows)
    assert found.get(heading) in ((name,) if name else (None, "post_shape"))


def test_a_size_in_two_columns_is_that_of_the_one_that_is_filled() -> None:
    heads = ["School", "Post", "Diameter if round (mm)", "Width if square (mm)", "Height (m)"]
    rows = rows_of(heads, ["Elm", "A", 89, None, 3], ["Elm", "B", None, 100, 3])
    assert [(r.post_shape, r.post_size, r.held) for r in rows] == [
        ("round", pytest.approx(0.089), False), ("square", pytest.approx(0.1), False),
    ]  # fmt: skip


TOLD = [("MS square post, old", True), ("octagonal pole", True), ("Market Square side", False), ("round pipe", False)]


@pytest.mark.parametrize(("cell", "held"), TOLD)
def test_a_shape_in_a_remark_is_held_against_the_one_that_the_size_says(cell: str, held: bool) -> None:
    row = rows_of(["School", "Post", "OD (mm)", "Height (m)", "Notes"], ["Elm", "A", 89, 3, cell])[0]
    assert row.held == held


COUNTED = [
    ("Posts", ["Elm", "Elm", "Oak"], ["MUGA", "Yard", "MUGA"], [2, 2, 1], True),
    ("Basketball posts", ["Elm", "Oak", "Ash"], ["", "", ""], [2, 4, 1], True),
    ("Posts", ["Elm", "Elm", "Oak"], ["MUGA", "MUGA", "MUGA"], [1, 2, 1], False),
    ("Posts", ["Elm", "Elm", "Oak"], ["MUGA", "MUGA", "MUGA"], [2, 1, 1], False),
]


@pytest.mark.parametrize(("heading", "sites", "courts", "numbers", "counted"), COUNTED)
def test_numbers_under_posts_count_where_they_can_be_no_names(
    heading: str, sites: list[str], courts: list[str], numbers: list[int], counted: bool
) -> None:
    rows = [[*row, "round", 89 + n, 3] for n, row in enumerate(zip(sites, courts, numbers, strict=True))]
    found = rows_of(["School", "Court", heading, "Shape", "OD (mm)", "Height (m)"], *rows)
    assert [r.quantity for r in found if not r.held] == (numbers if counted else [])


def test_a_thickness_beside_a_size_is_the_walls() -> None:
    heads = ["School", "Post no", "OD (mm)", "Pole thickness (mm)", "Height (m)"]
    assert claims(heads, ["Elm School", "A", 114, 50, 3])["Pole thickness (mm)"] == "wall"


def test_a_column_of_units_belongs_to_what_stands_before_it() -> None:
    heads = ["School", "Post", "Shape", "Size", "Unit", "Height (ft)"]
    assert rows_of(heads, ["Elm", "1", "round", 88.9, "mm", 8.5])[0].post_size == pytest.approx(0.0889)
    assert rows_of(heads, ["Elm", "1", "round", 88.9, "?", 8.5])[0].held


NOTES = [
    ("bracket welded on", "old_fittings", "fixed"), ("repainted; welded lugs", "old_fittings", "fixed"),
    ("not welded", "old_fittings", "unknown"),
    ("welded board removed", "old_fittings", "unknown"), ("gooseneck", "post_line", "gooseneck"),
    ("leans", "post_line", "unknown"),
    ("Perm. welded frame remains", "old_fittings", "fixed"),
    ("weld seam fine", "old_fittings", "unknown"),
    ("was welded, now gone", "old_fittings", "unknown"),
    ("a plate that was welded on", "old_fittings", "fixed"),
    ("gooseneck removed", "post_line", "unknown"),
]  # fmt: skip


@pytest.mark.parametrize(("notes", "name", "value"), NOTES)
def test_notes_rule_out_and_never_in(notes: str, name: str, value: str) -> None:
    row = rows_of(["School", "Post", "Shape", "OD (in)", "Height (ft)", "Notes"], ["Elm", "1", "round", 4.5, 8.5, notes])[0]
    assert getattr(row, name) == value
    assert value == "unknown" or [o.cell for o in row.origins if o.name == name] == ["F2"]


def test_notes_that_contradict_what_is_stated_are_asked() -> None:
    heads = ["School", "Post", "Shape", "OD (in)", "Height (ft)", "Old fittings", "Notes"]
    assert rows_of(heads, ["Elm", "1", "round", 4.5, 8.5, "none", "bracket welded on"])[0].held


def test_a_size_of_wood_by_its_trade_name_is_asked() -> None:
    heads = ["School", "Post", "Size", "Height (ft)", "Material"]
    assert rows_of(heads, ["Elm", "1", "4 x 4 in", 8.5, "wood"])[0].held
    assert not rows_of(heads, ["Elm", "1", "4 x 4 in", 8.5, "steel"])[0].held
    assert not rows_of(heads, ["Elm", "1", "90 x 90 mm", 8.5, "wood"])[0].held


def test_a_ground_named_before_the_next_headings_is_theirs() -> None:
    heads = ["Pole", "Shape", "OD (in)", "Height (ft)"]
    rows = rows_of(["Onyx School"], heads, ["1", "round", 4.5, 8.5], ["Pearl School"], heads, ["1", "round", 4.5, 9])
    assert [(r.site_name, r.held) for r in rows] == [("Onyx School", False), ("Pearl School", False)]
    doubtful = rows_of(["School: Onyx"], heads, ["1", "round", 4.5, 8.5], ["pearl"], heads, ["2", "round", 4.5, 9])
    assert [r.held for r in doubtful] == [False, True]


def test_a_heading_of_diameter_or_width_says_no_shape() -> None:
    for heading in ("Diameter or width (in)", "OD/Width (in)", "Ø o lato (in)", "Durchmesser/Kantenlänge in in"):
        assert rows_of(["School", "Post", heading, "Height (ft)"], ["Elm", "1", 4.5, 8.5])[0].post_shape is None, heading
    assert rows_of(["School", "Post", "Diameter (in)", "Height (ft)"], ["Elm", "1", 4.5, 8.5])[0].post_shape == "round"


def test_answers_to_several_questions_with_the_post_in_them() -> None:
    heads = ["School", "Pole", "Pole is round", "Pole is square", "Width (in)", "Height (ft)", "Old brackets welded"]
    rows = rows_of(heads, ["Elm", "1", True, False, 4.5, 8.5, False], ["Elm", "2", False, True, 4, 8.5, True])
    assert [(r.post_shape, r.old_fittings) for r in rows] == [("round", "unknown"), ("square", "fixed")]


def test_tables_side_by_side_are_read_each_by_itself() -> None:
    heads = ["Pole", "Shape", "OD (in)", "Height (ft)"]
    one, two = ["1", "round", 4.5, 8.5], ["1", "round", 3.5, 8]
    rows = rows_of(
        ["Customer: Oak League"], ["Onyx School", *[None] * 4, "Pearl School"], [*heads, None, *heads], [*one, None, *two]
    )
    assert [(r.site_name, r.customer, r.post_size, r.held) for r in rows] == [
        ("Onyx School", "Oak League", pytest.approx(0.1143), False), ("Pearl School", "Oak League", pytest.approx(0.0889), False),
    ]  # fmt: skip
    alone = rows_of(["Onyx School"], [*heads, None, *heads], [*one, None, *two])
    assert [r.site_name for r in alone] == ["Onyx School", "Onyx School"]


BY_WORDS = [
    ("Top of post above grade (ft.)", "post_height"), ("Rohr Außendurchmesser", "post_size"),
    ("SECTION_TYPE", "post_shape"),
    ("What's attached now", "old_fittings"), ("4. How wide is the pole? (inches)", "post_size"),
    ("Nº de postes iguais", "quantity"),
    ("1. What is the name of the park or school?", "site_name"), ("2. Which pole is this?", "post_code"),
    ("Höhe Mast", "post_height"),
    ("(5) Height above FGL [m]", "post_height"), ("off the ground to top", "post_height"),
    ("Name of field", "site_name"),
    ("Rohrmaß", "post_size"), ("Caño (diámetro)", "post_size"), ("N° de jirafa", "post_code"), ("# poles", "quantity"),
    ("QTY POLES", "quantity"), ("No. Poles", "quantity"), ("Poles no", None),
    ("Altezza dal terreno m", "post_height"), ("Durchmesser bzw. Kantenlänge [mm]", "post_size"), ("Total height", None),
    ("Altura total sobre el piso", "post_height"), ("Post Geometry", "post_shape"),
    ("Höhe m", "post_height"), ("Top height above NGL (m)", "post_height"),
    ("Curvado?", "post_line"), ("Soldado (S/N)", "old_fittings"),
    ("6. Is the pole straight all the way up?", "post_line"), ("Top of backboard above grade", None),
    ("Inside diameter", None),
    ("Diameter at base", None), ("Height of straight part", None), ("Height above court", None),
    ("Circumference of the pole at top", "post_size"),
    ("Number of brackets", None), ("State of school", None), ("Mass (kg)", None), ("Overall height", None),
]  # fmt: skip


@pytest.mark.parametrize(("heading", "name"), BY_WORDS)
def test_a_heading_is_known_by_all_its_words(heading: str, name: str | None) -> None:
    known = claim(heading)
    assert (known.name if known else None) == name


LEGENDS = [
    ("N = none, B = bolted, W = welded", "W", "fixed"), ("N = none, B = bolted, W = welded", "B", "removable"),
    ("Key: N - none; W - welded", "W", "fixed"), ("W = welded", "W", None), ("W = west, E = east", "W", None),
]  # fmt: skip


@pytest.mark.parametrize(("legend", "code", "value"), LEGENDS)
def test_a_legend_says_what_letters_stand_for(legend: str, code: str, value: str | None) -> None:
    heads = ["School", "Post", "Shape", "OD (in)", "Height (ft)", "Attachments (N/B/W)"]
    row = rows_of(heads, ["Elm", "1", "round", 4, 8, code], [legend])[0]
    assert row.old_fittings == value
    assert value is None or ("old_fittings", code, "words") in [(o.name, o.typed, o.how) for o in row.origins]


NUMBERS = [
    ("Nombre", [1, 2], 2, False),
    ("Count", [1, 3], 3, False),
    ("Number", [1, 2], 1, False),
    ("Number", [2, 2], None, True),
]


@pytest.mark.parametrize(("heading", "numbers", "second", "held"), NUMBERS)
def test_a_word_for_a_number_counts_is_asked_or_runs(heading: str, numbers: list[int], second: int | None, held: bool) -> None:
    heads = ["School", "Post", heading, "Shape", "OD (in)", "Height (ft)"]
    rows = rows_of(heads, *(["Elm", p, n, "round", 4, 8] for p, n in zip("NS", numbers, strict=True)))
    assert (rows[1].quantity or 1, rows[1].held) == (second or 1, held)


OTHERS = [
    ["Sign ID", "Location", "Post Type", "Height", "Width"], ["Manhole ID", "Location", "Shape", "Diameter (in)", "Depth (ft)"],
    ["Tank", "Site", "Shape", "Diameter (m)", "Height (m)"], ["Baum Nr", "Standort", "Umfang", "Höhe", "Zustand"],
    ["Árbol", "Parque", "Diámetro", "Altura", "Estado"], ["Backboard", "School", "Type", "Width", "Height"],
    ["Tree ID", "Species", "Diameter (in)", "Height (ft)", "Condition", "Notes"], ["Ref", "OD (mm)", "WT", "Length", "Material"],
    ["Item", "Shape", "Width", "Height", "Style"], ["No", "Type", "Diameter", "Height", "Qty", "Price"],
    ["Tag", "Size", "Height", "Base", "Finish"],
]  # fmt: skip


@pytest.mark.parametrize("heads", OTHERS, ids=lambda h: h[0])
def test_tables_of_other_things_are_no_survey(heads: list[str]) -> None:
    got = check_book(book(sheet([heads, ["a", "b", 3, 4, "good", "x"]])), "a.csv", POLICY)
    assert [q.code for q in got.queries] == ["NO_HEADINGS"]


@pytest.mark.parametrize(("heading", "cell", "kit"), [
    ("Old board", "welded", False), ("Old backboard", "Welded", False), ("Backboard", "welded", False),
    ("Old backboard", "welded steel frame", True),
    ("Ring", "fixed", True),
    ("Stuff", "old arm welded to the pole", False), ("Stuff", "none", True),
])  # fmt: skip
def test_welded_rules_kits_out_under_a_heading_that_is_not_read(heading: str, cell: str, kit: bool) -> None:
    row = rows_of(["School", "Post", "Shape", "OD (in)", "Height (ft)", heading], ["Elm", "1", "round", 4.5, 8.5, cell],
                  ["Elm", "2", "round", 4.5, 8.5, "bolted, some rust"])[0]  # fmt: skip
    assert (row.old_fittings != "fixed") == kit

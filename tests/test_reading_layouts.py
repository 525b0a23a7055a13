"""Layouts and headings as people make them: small tables, each with the posts that a careful person reads from it."""

from __future__ import annotations

from typing import Any

import pytest
from survey_books import book, sheet
from survey_checked import check_book

from pipeline.intake.catalogue import documented_policy
from pipeline.intake.layout.grounds import ground_in
from pipeline.intake.measures import heading_unit
from pipeline.intake.survey.headings import claim
from pipeline.intake.survey.list_words import read_word

POLICY = documented_policy()


def posts(*lines: list[Any], name: str = "Sheet1") -> list[tuple[str | None, str, int | None, str | None, float, float]]:
    """Site, post, number, shape, size and height in mm of every row that is not held."""
    rows = check_book(book(sheet(list(lines), name=name)), "a.xlsx", POLICY).rows
    return [
        (r.site_name, r.post_code, r.quantity, r.post_shape, round((r.post_size or 0) * 1000), round((r.post_height or 0) * 1000))
        for r in rows
        if not r.held
    ]


def test_posts_stand_side_by_side_below_what_is_measured() -> None:
    found = posts(
        ["School", "Shape", "Pole OD (in)", None, "Height (ft)", None, "Surface"],
        [None, "(both)", "N", "S", "N", "S", None],
        ["Ashby Elementary", "round", 4.5, 3.5, 10, 9.5, "asphalt"],
        ["Hale Elementary", "round", 4, None, 9, None, "asphalt"],
    )
    assert found == [
        ("Ashby Elementary", "N", 1, "round", 114, 3048), ("Ashby Elementary", "S", 1, "round", 89, 2896),
        ("Hale Elementary", "N", 1, "round", 102, 2743),
    ]  # fmt: skip


def test_a_heading_of_one_post_of_several_is_known_by_its_cells() -> None:
    two = [[None, "Post 1", None, None, "Post 2", None, None], ["Park", "type", "outside", "ht", "type", "outside", "ht"]]
    found = posts(*two, ["Pigeon Park", "round", "4 1/2 in", "10 ft", "square", "5 in", "9 ft"])
    assert found == [("Pigeon Park", "Post 1", 1, "round", 114, 3048), ("Pigeon Park", "Post 2", 1, "square", 127, 2743)]
    one = ["Park", "Post 1 type", "Post 1 OD", "Post 1 ht", "Post 2 type", "Post 2 OD", "Post 2 ht"]
    assert posts(one, ["Pigeon Park", "round", "4 1/2 in", "10 ft", "square", "5 in", "9 ft"]) == found


def test_groups_of_columns_are_posts_by_the_place_that_heads_them() -> None:
    upper = ["Reserve", "Home end", None, "Road end", None]
    lower = [None, "OD mm", "Out of ground m", "OD mm", "Out of ground m"]
    shape = ["All posts are round tube"]
    found = posts(shape, upper, lower, ["Magpie Reserve", 114, 3.45, 89, 3.4], ["Station Reserve", 165, 4.05, None, None])
    assert [(p[1], *p[4:]) for p in found] == [("Home end", 114, 3450), ("Road end", 89, 3400), ("Home end", 165, 4050)]
    twice = ["Reserve", "Existing post", None, "Proposed post", None]
    assert posts(shape, twice, lower, ["Magpie Reserve", 114, 3.45, 89, 3.4]) == []


def test_posts_in_columns_under_names_beside_a_column_of_units() -> None:
    found = posts(
        ["Site: Eastmoor Recreation Ground"],
        [None, None, "Posts"],
        ["Item", "Unit", "A", "B"],
        ["Section", None, "round", "square"],
        ["Outside size", "mm", 88.9, 100],
        ["Height above ground", "m", 3.3, 3.05],
        ["Condition", None, "sound", "sound"],
    )
    assert [p[1:] for p in found] == [("A", 1, "round", 89, 3300), ("B", 1, "square", 100, 3050)]


@pytest.mark.parametrize(
    ("heading", "cells", "read_as"),
    [("Dicke", ["114 mm", "100 mm"], "post_size"), ("Thickness (in)", [3.5, 4], "post_size"),
     ("Grosor", ["3 mm", "4 mm"], "wall"),     ("Thickness (mm)", [3.2, 4], "wall"), ("largo", ["9 cm", "11,5 cm"], "post_size"),
     ("Thickness of post", ["4 inches", "3 inches"], "post_size"),
     ("Thickness", ["30 mm", "31 mm"], "wall"), ("Thickness (mm)", [3.2, 114], "wall")],
)  # fmt: skip
def test_a_thickness_is_that_of_the_wall_or_of_the_post(heading: str, cells: list[Any], read_as: str) -> None:
    lines = [
        ["School", "Post", "Shape", heading, "Height"],
        *(["Elm School", str(n), "round", c, "3 m"] for n, c in enumerate(cells)),
    ]
    rows = check_book(book(sheet(lines)), "a.xlsx", POLICY).rows
    assert {read_as} == {n for r in rows for n in ("post_size", "wall") if n in r.typed}


def test_goals_that_are_named_are_no_number_and_a_number_no_name() -> None:
    heads = ["School", "Goal(s)", "Shape", "OD (in)", "Height (ft)"]
    body = ["round", 4.5, 10]
    named = posts(heads, ["Tui School", "N & S", *body], ["Tui School", "junior", *body], ["Rata School", "1 & 2", *body])
    assert [(p[0], p[1], p[2]) for p in named] == [
        ("Tui School", "N & S", 2),
        ("Tui School", "junior", 1),
        ("Rata School", "1 & 2", 2),
    ]
    counted = posts(heads, ["Tui School", 2, *body], ["Rata School", 4, *body])
    assert [(p[0], p[2]) for p in counted] == [("Tui School", 2), ("Rata School", 4)]


def test_a_column_that_may_name_several_posts_is_asked_about() -> None:
    lines = [["School", "Zone", "Shape", "OD (in)", "Height (ft)"], ["Tui School", "1, 2, 3", "round", 4.5, 10]]
    found = check_book(book(sheet(lines)), "a.xlsx", POLICY)
    assert [(q.code, q.cell, q.name) for q in found.queries if q.code == "HEADING" and not q.record] == [
        ("HEADING", "B1", "post_code")
    ]
    assert all(r.held for r in found.rows)


def test_a_row_of_units_may_say_that_a_column_counts() -> None:
    heads = ["Schule", "Mast", "Stück", "Querschnitt", "Außenmaß", "Höhe"]
    found = posts(heads, [None, None, "[Stk]", None, "[mm]", "[m]"], ["Schule Anger", "M1", 2, "Quadratrohr", 150, 3.9])
    assert found == [("Schule Anger", "M1", 2, "square", 150, 3900)]


HEADINGS = [
    ("Sticks out of ground", "post_height"), ("Up from ground (m)", "post_height"), ("Stands above pavement", "post_height"),
    ("Länge über Gelände [m]", "post_height"), ("Longueur hors sol", "post_height"), ("Longitud sobre el suelo", "post_height"),
    ("Alto da terra", "post_height"), ("Comprimento acima do solo", "post_height"), ("Height of concrete above ground", None),
    ("Footing top above grade", None), ("Height of slab above ground", None), ("Outside", "post_size"), ("How wide", "post_size"),
    ("Pipe or square tube", "post_shape"), ("pipe / tube", "post_shape"), ("Steel or wood", None), ("In or out", None),
    ("gemessen aussen", "post_size"), ("measured outside", "post_size"), ("Abmessung (Ø x t)", "post_size"),
    ("altes Zeug am Pfosten", "old_fittings"), ("old stuff", "old_fittings"), ("Misura fuori", "post_size"),
    ("Poste/s", "quantity"),
]  # fmt: skip


@pytest.mark.parametrize(("heading", "name"), HEADINGS)
def test_headings_of_the_trade_and_of_lay_people(heading: str, name: str | None) -> None:
    known = claim(heading)
    assert (known.name if known else None) == name


@pytest.mark.parametrize(
    ("text", "bare", "unit"),
    [("Dia. in", "Dia.", "in"), ("Width in", "Width", "in"), ("Across in", "Across", "in"), ("Ht. m", "Ht.", "m"),
     ("Set in", "Set in", ""), ("Measured in", "Measured in", "")],
)  # fmt: skip
def test_a_short_unit_behind_what_is_measured(text: str, bare: str, unit: str) -> None:
    assert heading_unit(text) == (bare, unit)


@pytest.mark.parametrize(
    ("text", "value"),
    [("4x4", "square"), ("Formrohr 100x100", "square"), ("100 x 100 mm tube", "square"), ('4" x 4" HSS', "square"),
     ("100x50", None),     ("4x4x1/4", None), ("Rohr", "round"), ("4-Kant", "square"), ("round galv", "round"), ("tube", None)],
)  # fmt: skip
def test_words_of_a_shape(text: str, value: str | None) -> None:
    word = read_word("post_shape", text)
    assert (word.value if word else None) == value


@pytest.mark.parametrize(
    ("text", "name"),
    [("Schulhaus Lindenmatt", "Schulhaus Lindenmatt"), ("VS Oberlehen", "VS Oberlehen"),
     ("Bolzplatz Klärweg", "Bolzplatz Klärweg"),     ("Primaria Don Ferri", "Primaria Don Ferri"),
     ("Centro sportivo Le Querce", "Centro sportivo Le Querce"),
     ("Gemeinde Hinterau, Werkhof", ""), ("Media Markt", ""), ("Primary data", "")],
)  # fmt: skip
def test_grounds_by_name(text: str, name: str) -> None:
    assert ground_in(text) == name


LINES_OF_WARNING = [
    ("note: Mill Leat lower has steel arms welded to the post", {"lower"}),
    ("Post P1 is a gooseneck", {"P1"}),
    ("(this one has brackets welded on)", {"P1"}),
    ("All posts have old brackets welded on", {"upper", "lower", "P1"}),
    ("the fence is welded", set()),
    ("lower: nothing welded on", set()),
    ("The board frames were welded by the old school", set()),
]


@pytest.mark.parametrize(("said", "ruled_out"), LINES_OF_WARNING)
def test_a_remark_row_that_says_welded_is_about_the_post_that_it_names(said: str, ruled_out: set[str]) -> None:
    lines = [
        ["Play area", "Post", "Shape", "OD (in)", "Height (ft)"],
        ["Mill Leat", "upper", "round", 4.5, 10],
        ["Mill Leat", "lower", "round", 4.5, 10],
        ["Mill Leat", "P1", "round", 4.5, 10],
        [said],
    ]
    rows = check_book(book(sheet(lines)), "a.xlsx", POLICY).rows
    assert {r.post_code for r in rows if r.old_fittings == "fixed" or r.post_line == "gooseneck"} == ruled_out
    assert [r.held for r in rows] == [False] * 3


def test_courts_in_rows_of_their_own_are_grounds_or_parts_of_one() -> None:
    heads, body = ["Post", "Shape", "OD (in)", "Height (ft)"], ["round", 4.5, 10]
    grounds = posts(heads, ["Bluff Community Court"], ["P1", *body], ["Clear Lake Court"], ["P1", *body])
    assert [p[:2] for p in grounds] == [("Bluff Community Court", "P1"), ("Clear Lake Court", "P1")]
    parts = posts(["School: Elm School"], [], ["Court 1"], heads, ["P1", *body], [], ["Lower court"], heads, ["P1", *body])
    assert [p[:2] for p in parts] == [("Elm School", "Court 1 P1"), ("Elm School", "Lower court P1")]
    assert posts(["Crew 3 hoop posts"], heads, ["P1", *body]) == []


def test_a_list_of_courts_of_one_ground_names_no_grounds() -> None:
    heads = ["Amenity", "Pole", "Dimensions", "Height"]
    found = posts(
        ["Community:", "Fox Hollow Estates"], [], heads, ["Basketball 1", "Left", "4 x 4 in", "118 in"],
        ["Basketball 2", "Left", "4 x 4 in", "117 in"], ["Basketball 2", "Right", "4 x 4 in", "117 in"],
    )  # fmt: skip
    assert {p[0] for p in found} == {"Fox Hollow Estates"}
    assert [p[1] for p in found] == ["Basketball 1 Left", "Basketball 2 Left", "Basketball 2 Right"]


def test_a_size_around_round_posts_and_across_square_ones() -> None:
    heads = ["Park", "Pole", "Round or square", "Around (in)", "Across (in)", "Height"]
    found = posts(heads, ["Elm Park", "1", "Round", 14.14, None, "10 ft"], ["Elm Park", "2", "Square", None, 4, "10 ft"])
    assert [p[3:5] for p in found] == [("round", 114), ("square", 102)]


def test_posts_that_are_called_a_and_b_stand_side_by_side() -> None:
    heads = [
        "Ground",
        "Post A shape",
        "Post A size (in)",
        "Post A height (ft)",
        "Post B shape",
        "Post B size (in)",
        "Post B height (ft)",
    ]
    found = posts(heads, ["Barley Ground", "square", 4, 10, "round", 3.5, 9], ["Easter Field", "square", 6, 12, None, None, None])
    assert [(p[0], p[1], p[3], p[4]) for p in found] == [
        ("Barley Ground", "Post A", "square", 102), ("Barley Ground", "Post B", "round", 89),
        ("Easter Field", "Post A", "square", 152),
    ]  # fmt: skip


def test_tables_of_other_things_beside_and_below() -> None:
    heads = ["Line", "Site", "Post no.", "Post shape", "Post OD", "Post ht above grade", None, "Floodlight", "Ht"]
    found = posts(
        heads,
        [10, "Marigold Park", "1 & 2", "round", "4.5 in", "11 ft", None, "FL-1", "25 ft"],
        [20, "Marigold Park", "3", "square", "4 in", "10 ft", None, "FL-2", "25 ft"],
        ["Light poles"],
        ["Line", "Site", "Pole", "Ht"],
        [30, "Marigold Park", "L1", "25 ft"],
    )
    assert [p[1:] for p in found] == [("1 & 2", 2, "round", 114, 3353), ("3", 1, "square", 102, 3048)]


@pytest.mark.parametrize(
    ("heading", "numbers", "held", "counted"),
    [("Cnt", [2, 2, 1], False, [2, 2, 1]), ("Same pole x", [2, 2, 1], False, [2, 2, 1]), ("Brn", [2, 2, 1], True, [1, 1, 1]),
     ("Court", [2, 2, 1], False, [1, 1, 1]), ("Priority", [2, 2, 1], False, [1, 1, 1]), ("Brn", [1, 2, 3], False, [1, 1, 1])],
)  # fmt: skip
def test_an_unread_column_that_may_be_a_number_of_posts_is_asked_about(
    heading: str, numbers: list[int], held: bool, counted: list[int]
) -> None:
    lines = [["School", "Post", heading, "Shape", "OD (in)", "Height (ft)"]]
    lines += [["Elm School", f"P{i}", n, "round", 4.5, 10] for i, n in enumerate(numbers)]  # type: ignore[list-item]
    rows = check_book(book(sheet(lines)), "a.xlsx", POLICY).rows
    assert [r.held for r in rows] == [held] * len(numbers)
    assert [r.quantity or 1 for r in rows] == counted


def test_the_first_of_several_tables_is_named_like_the_next() -> None:
    heads, body = ["Poste", "Tipo", "Diámetro mm", "Altura m"], ["redondo", 89, 3]
    found = posts(["Sede Pudeto"], heads, ["Oriente", *body], [], ["Sede Mirador"], heads, ["Poniente", *body])
    assert [p[:2] for p in found] == [("Sede Pudeto", "Oriente"), ("Sede Mirador", "Poniente")]


def test_what_the_ring_has_now_is_not_what_is_wanted() -> None:
    heads = ["School", "Post", "Shape", "OD (in)", "Height (ft)", "Rim height now (ft)"]
    assert [p[1] for p in posts(heads, ["Elm School", "N", "round", 4.5, 10, 9.5])] == ["N"]


def test_a_name_is_cut_only_before_a_place_within() -> None:
    heads, body = ["Localização", "Poste", "Secção", "Medida por fora (mm)", "Alt. acima do pavimento (m)"], ["redonda", 90, 3.05]
    found = posts(heads, ["Parque de Merendas da Fonte", 1, *body], ["Escola Velha de Lameiras", 1, *body])
    assert [p[0] for p in found] == ["Parque de Merendas da Fonte", "Escola Velha de Lameiras"]
    parted = posts(["Location", "Post", "Shape", "OD (in)", "Height (ft)"], ["Mill Road Park - north court", 1, "round", 4.5, 10])
    assert [p[0] for p in parted] == ["Mill Road Park"]


def test_a_label_over_each_of_several_tables_names_its_ground() -> None:
    heads, body = ["Pole #", "Pipe or tube", "Diameter or width", "Height of pole"], ["Round pipe", "4 in", "10 ft 2 in"]
    first = [["Location: Grace Harbor Church"], ["Measured by the deacon"], heads, [1, *body]]
    found = posts(*first, [], ["Location: Second Street Chapel"], heads, [1, *body])
    assert [p[:2] for p in found] == [("Grace Harbor Church", "1"), ("Second Street Chapel", "1")]


def test_what_exports_and_totals_say_beside_the_posts() -> None:
    heads = ["PARK_NAME", "POST_NO", "POST_SHAPE", "POST_SIZE_MM", "POST_HT_MM", "SHAPE_X"]
    assert [p[1:] for p in posts(heads, ["Elm Park", 1, "ROUND", 89, 3000, -79.1])] == [("1", 1, "round", 89, 3000)]
    pole = ["School", "Pole No.", "Type of pipe", "Outer dia / side (mm)", "Ht. above ground (mm)"]
    found = posts(pole, ["Oak School", "P1", "Round", 114, 3100], ["Total", None, "1 nos."])
    assert [p[1] for p in found] == ["P1"]


def test_all_sizes_are_every_measure() -> None:
    heads, body = ["School", "Post", "Shape", "Outside size", "Post height"], ["Elm School", "N", "round", 114, 3200]
    assert [p[4:] for p in posts(["All sizes in mm"], heads, body)] == [(114, 3200)]
    assert posts(["Sizes in mm"], heads, body) == []


QUESTIONS = [
    ("Le poteau est-il rond ou carré ?", "post_shape"), ("¿El poste es redondo o cuadrado?", "post_shape"),
    ("O poste é redondo ou quadrado?", "post_shape"), ("Quelle est la hauteur du poteau ?", "post_height"),
    ("¿Cuánto mide de alto el poste?", "post_height"), ("Wie hoch ist der Mast über dem Boden?", "post_height"),
    ("Quanto mede o poste por fora (mm)?", "post_size"), ("Welchen Durchmesser hat der Mast?", "post_size"),
    ("¿Cuántos postes iguales hay?", "quantity"), ("Combien de poteaux identiques ?", "quantity"),
    ("Wie viele gleiche Masten?", "quantity"), ("Tem alguma peça soldada no poste?", "old_fittings"),
    ("Ist etwas am Mast angeschweißt?", "old_fittings"), ("Qual a altura do aro?", "ring_heights"),
    ("Wie hoch ist das Brett?", None),
    ("Quelle est la hauteur du panneau ?", None), ("¿Cuántos aros hay?", None), ("Quanto mede a tabela?", None),
]  # fmt: skip


@pytest.mark.parametrize(("heading", "name"), QUESTIONS)
def test_whole_questions_in_other_languages(heading: str, name: str | None) -> None:
    known = claim(heading)
    assert (known.name if known else None) == name


SAID_ELSEWHERE = [
    ("Elm School (2 posts)", "N", "", 2), ("Elm School - 3 poles", "", "", 3), ("Elm School x 2", "", "", 2),
    ("Elm School (2 courts)", "", "", 1),
    ("Elm School", "east x2", "", 2), ("Elm School", "three", "", 3), ("Elm School", "EX2", "", 1), ("Elm School", "X2", "", 1),
    ("Elm School", "N", "pair of posts", None), ("Elm School", "N", "x2", None), ("Elm School", "N", "net missing; 2 off", None),
    ("Elm School", "N", "2 of these", 2), ("Elm School", "N", "repainted in 2 places", 1), ("Elm School", "N", "1 post", 1),
]  # fmt: skip


@pytest.mark.parametrize(("site", "post", "notes", "number"), SAID_ELSEWHERE)
def test_a_number_of_posts_said_elsewhere_is_not_lost(site: str, post: str, notes: str, number: int | None) -> None:
    """`number` None: it is asked."""
    heads = ["School", "Post", "Shape", "OD (in)", "Height (ft)", "Notes"]
    rows = check_book(book(sheet([heads, [site, post or None, "round", 4.5, 10, notes or None]])), "a.xlsx", POLICY).rows
    assert [(r.site_name, r.held) for r in rows] == [("Elm School", number is None)]
    assert number is None or [r.quantity or 1 for r in rows] == [number]


def test_a_number_behind_a_name_is_that_of_its_rows_or_asked() -> None:
    heads, body = ["School", "Post", "Shape", "OD (in)", "Height (ft)"], ["round", 4.5, 10]
    two = posts(heads, ["Elm School (2 posts)", "N", *body], ["Elm School (2 posts)", "S", *body])
    assert [p[:3] for p in two] == [("Elm School", "N", 1), ("Elm School", "S", 1)]
    assert posts(heads, ["Elm School (3 posts)", "N", *body], ["Elm School (3 posts)", "S", *body]) == []
    section = posts(heads[1:], ["FIR PARK - 2 poles"], ["N", *body], ["S", *body])
    assert [p[0] for p in section] == ["FIR PARK", "FIR PARK"]


def test_a_second_post_beside_a_first_without_a_word() -> None:
    heads = ["School", "Shape", "OD (in)", "Ht (ft)", "2nd OD (in)", "2nd Ht (ft)"]
    assert [p[4:] for p in posts(heads, ["Elm School", "round", 4.5, 10, 3.5, 9])] == [(114, 3048), (89, 2743)]


def test_the_fields_of_another_export_down_a_column_are_no_posts() -> None:
    fields = ["institution", "source", "comment", "ag", "author", "DATA"]
    found = check_book(book(sheet([[f, f"value {n}", f"more {n}"] for n, f in enumerate(fields)])), "a.xlsx", POLICY)
    assert (list(found.rows), [q.code for q in found.queries]) == ([], ["NO_HEADINGS"])


def test_an_outside_diameter_says_round_and_an_outside_width_does_not() -> None:
    body = ["Elm School", "N", 4.5, 10]
    assert [p[3] for p in posts(["School", "Post", "Outside diameter (in)", "Height (ft)"], body)] == ["round"]
    assert posts(["School", "Post", "Outside width (in)", "Height (ft)"], body) == []
    assert posts(["School", "Post", "Outside diameter or side (in)", "Height (ft)"], body) == []


def test_communities_are_grounds_where_most_have_names_of_two_words() -> None:
    heads, body = ["Community", "Pole", "Round or Square", "Dia. or Width (in)", "Height"], ["Round", 4.5, "10'-6\""]
    found = posts(heads, ["Saddle Ridge", "North", *body], ["Quail Run", "North", *body], ["Bluestem", "Only", *body])
    assert [p[0] for p in found] == ["Saddle Ridge", "Quail Run", "Bluestem"]


def test_places_below_a_lone_ground_are_parts_of_it() -> None:
    heads, body = ["Location", "Pole", "Shape", "OD (in)", "Height (ft)"], ["round", 4.5, 10]
    oak = [["OAK PARK"], ["Pool lot", "1", *body], ["Clubhouse", "1", *body]]
    found = posts(heads, *oak, ["ELM PARK"], ["Main lot", "1", *body])
    assert [p[:2] for p in found] == [("OAK PARK", "Pool lot 1"), ("OAK PARK", "Clubhouse 1"), ("ELM PARK", "1")]
    own = posts(heads, ["Oak Park", "1", *body], ["Elm Park", "1", *body])
    assert [p[:2] for p in own] == [("Oak Park", "1"), ("Elm Park", "1")]


def test_a_side_of_a_court_in_a_list_of_places_is_no_size() -> None:
    said = "Dimensions extérieures en pouces, hauteurs en pieds au-dessus de l'asphalte"
    heads = ["École", "Emplacement", "Sorte", "Dimension", "Hauteur"]
    rows = [
        ["École Marie", "côté nord", "rond", 4.5, 10],
        [None, "côté sud", "rond", 4.5, 9.75],
        ["École Curé", "un seul", "carré", 4, 9],
    ]
    found = posts([said], [], heads, *rows)
    assert [(p[0], *p[3:]) for p in found] == [
        ("École Marie", "round", 114, 3048), ("École Marie", "round", 114, 2972), ("École Curé", "square", 102, 2743),
    ]  # fmt: skip
    assert posts(heads, *rows) == []

"""Tables as people send them: a small one a rule, each with what must come out of it."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from survey_books import book, sheet
from survey_checked import FileResult, check_book, check_path

from pipeline.intake.catalogue import documented_policy

POLICY = documented_policy()


def read(*lines: list[Any]) -> FileResult:
    return check_book(book(sheet(list(lines))), "a.xlsx", POLICY)


def quoted(*lines: list[Any]) -> list[tuple[str | None, str, int | None]]:
    """Site, post and number of every row that is not held."""
    return [(r.site_name or r.site_code, r.post_code, r.quantity) for r in read(*lines).rows if not r.held]


BODY = ["round", 4.5, 8.5]
HEADS = ["Shape", "OD (in)", "Height (ft)"]


def test_a_place_within_a_ground_is_no_site() -> None:
    below_school = read(["School", "Location", "Post", *HEADS], ["Elm School", "Playground", "N", *BODY])
    assert [(r.site_name, r.held) for r in below_school.rows] == [("Elm School", False)]
    unknown = read(["Trust member", "Location", "Post", *HEADS], ["Elm Academy", "Playground", "N", *BODY])
    assert all(r.held for r in unknown.rows)
    assert {(q.code, q.cell) for q in unknown.queries if not q.record} == {("HEADING", "A1"), ("HEADING", "B1")}
    titled = read(["School: Elm School"], ["Location", "Post", *HEADS], ["Playground", "N", *BODY])
    assert [r.site_name for r in titled.rows] == ["Elm School"]
    alone = read(["Location", "Post", *HEADS], ["Elm Court", "N", *BODY])
    assert [r.site_name for r in alone.rows] == ["Elm Court"]


def test_a_court_is_asked_about_where_nothing_names_the_site() -> None:
    found = read(["Court", "Post", *HEADS], ["Pond court", "left", *BODY])
    assert [(q.code, q.cell) for q in found.queries if not q.record] == [("HEADING", "A1")]
    assert all(r.held for r in found.rows)
    titled = read(["School: Elm School"], ["Court", "Post", *HEADS], ["Pond court", "left", *BODY])
    assert [q for q in titled.queries if q.code == "HEADING"] == []


def test_ditto_marks_of_a_text_table_are_no_quotes(tmp_path: Path) -> None:
    rows = ["Site\tPost\tShape\tOD\tHeight", "Elm\t1\tround\t3.5 in\t8.5 ft", '"\t2\t"\t"\t9\'6"', '"\t3\t"\t4"\t"']
    for name, text in (("a.tsv", "\n".join(rows)), ("a.csv", "\r\n".join(r.replace("\t", ",") for r in rows))):
        (tmp_path / name).write_text(text, "utf-8")
        found = check_path(str(tmp_path / name), name, POLICY).rows
        assert {(r.site_name or r.site_code, r.post_shape) for r in found} == {("Elm", "round")}
        assert [round(r.post_size / 0.0254, 6) for r in found if r.post_size] == [3.5, 3.5, 4]
        assert [round(r.post_height / 0.3048, 6) for r in found if r.post_height] == [8.5, 9.5, 9.5]
    (tmp_path / "b.csv").write_text('Site,Post,Notes\nElm,1,"a,"",b"\n', "utf-8")
    assert check_path(str(tmp_path / "b.csv"), "b.csv", POLICY).rows == ()


TICKS = [
    ("Redondo", "Cuadrado", "Curvado", "Con soldaduras"), ("Rond", "Carré", "Courbé", "Restes soudés"),
    ("Rund", "Vierkant", "Gebogen", "Etwas angeschweißt"), ("É redondo", "Quadrado", "Com curva", "Tem solda"),
    ("Tondo", "Quadro", "Ricurvo", "Presenza saldature"), ("Round", "Square", "Gooseneck", "Welds"),
]  # fmt: skip


@pytest.mark.parametrize("heads", TICKS, ids=[h[0] for h in TICKS])
def test_columns_of_ticks_in_six_languages(heads: tuple[str, ...]) -> None:
    rows = [["Elm", 1, "4 in", "9 ft", "x", None, None, None], ["Elm", 2, "4 in", "9 ft", None, "x", "x", "x"]]
    found = read(["Site", "Post", "OD", "Height", *heads], *rows).rows
    assert [r.post_shape for r in found] == ["round", "square"]
    assert (found[1].post_line, found[1].old_fittings) == ("gooseneck", "fixed")
    assert found[0].post_line in (None, "unknown")


@pytest.mark.parametrize("thing", ["Bench", "Light pole", "Flagpole", "Soccer goal", "Farola", "Panchina", "Park bench"])
def test_another_thing_among_posts_is_held(thing: str) -> None:
    heads, post = ["Park", "Asset", "Asset no.", *HEADS], ["Elm Park", "Basketball post", "B1", *BODY]
    assert quoted(heads, post, ["Elm Park", thing, "X1", *BODY]) == [("Elm Park", "B1", 1)]


@pytest.mark.parametrize("thing", ["Light", "Park", "Tennis", "Football / basketball", "Goal post", "near the bench", "Steel"])
def test_a_word_beside_a_post_does_not_make_it_another_thing(thing: str) -> None:
    heads = ["Park", "Class", "Post", *HEADS]
    assert quoted(heads, ["Elm Park", thing, "B1", *BODY]) == [("Elm Park", "B1", 1)]


def test_a_number_in_a_form_of_one_post_is_the_posts_number() -> None:
    form = [
        ["What is the name of the school?", "Elm School"], ["How many posts are there?", 2], ["Shape of the posts", "round"],
        ["What is the diameter?", "89 mm"], ["How high are the posts above the ground?", "2.6 m"],
    ]  # fmt: skip
    assert quoted(*form) == [("Elm School", "1", 2)]


def test_posts_are_counted_where_each_row_is_a_site_of_its_own() -> None:
    heads = ["Site", "Posts", *HEADS]
    assert quoted(heads, ["Elm", 2, *BODY], ["Oak", 1, *BODY]) == [("Elm", "1", 2), ("Oak", "1", 1)]
    assert quoted(heads, ["Elm", 2, *BODY], ["Elm", 1, *BODY]) == []
    assert quoted(heads, ["Elm", 1, *BODY], ["Oak", 2, *BODY]) == []


def test_a_total_height_is_the_posts_in_a_table_of_posts_alone() -> None:
    rows = ["Parque Sur", "N", "redondo", "90 mm", "2,6 m"]
    assert quoted(["Parque", "Poste", "Forma", "Diámetro", "Altura total"], rows) == [("Parque Sur", "N", 1)]
    assert quoted(["Parque", "Poste", "Forma", "Diámetro", "Altura total", "Tablero"], [*rows, "madera"]) == []
    assert quoted(["Parque", "Canasta", "Forma", "Diámetro", "Altura total"], rows) == []


@pytest.mark.parametrize("heading", ["Qty on site", "Posts on hand", "Quantity here"])
def test_a_number_under_a_heading_that_is_not_known_is_asked(heading: str) -> None:
    found = read(["School", "Post", heading, *HEADS], ["Elm", "A", 2, *BODY], ["Elm", "B", 3, *BODY])
    assert all(r.held or r.quantity in (2, 3) for r in found.rows)


OTHERS = [
    ("Light pole inventory", "Pole ID", "Pole shape"), ("Soccer goal posts", "Goal", "Shape"),
    ("Volleyball posts", "Post", "Shape"),
    ("Inventario de luminarias", "Poste", "Forma"), ("Postes de iluminação", "Poste", "Formato"),
    ("Censimento lampioni", "Palo", "Forma"),
    ("Panneaux de signalisation", "Poteau", "Forme"), ("Volleyballpfosten", "Pfosten", "Form"),
    ("Postes de luz", "Poste", "Forma"),
    ("Shade structure posts", "Post", "Shape"), ("Posts", "Post", "Luminaire"), ("", "Tetherball pole", "Shape"),
]  # fmt: skip


@pytest.mark.parametrize(("title", "post", "shape"), OTHERS)
def test_posts_of_other_things_are_no_survey(title: str, post: str, shape: str) -> None:
    table = [["School", post, shape, "Post shape", "OD (in)", "Height (ft)"], ["Elm School", "1", "round", *BODY]]
    found = read([title or None], *table)
    assert not found.rows
    assert [q.code for q in found.queries] == ["NO_HEADINGS"]


@pytest.mark.parametrize(
    "title", ["Elm Street School posts", "Riverside Football Club: posts", "Posts near the trees", "Light survey of posts"]
)
def test_a_title_that_speaks_of_other_things_by_the_way(title: str) -> None:
    assert quoted([title], ["School", "Post", *HEADS], ["Elm School", "1", *BODY]) == [("Elm School", "1", 1)]


def test_a_table_of_other_things_below_one_of_posts() -> None:
    heads, post = ["School", "Post", *HEADS], ["Elm School", "1", *BODY]
    lines = [["Basketball posts"], heads, post, [None], ["Volleyball posts"], heads, ["Elm School", "2", *BODY]]
    assert quoted(*lines) == [("Elm School", "1", 1)]


@pytest.mark.parametrize("heading", ["Unidades", "Units", "Stk.", "N_POSTS", "No. off"])
def test_a_column_that_counts_is_no_site_and_is_not_lost(heading: str) -> None:
    heads = ["Location", "Post", heading, *HEADS]
    assert quoted(heads, ["Quarry", 1, 1, *BODY], ["Quarry", 2, 2, *BODY]) == [("Quarry", "1", 1), ("Quarry", "2", 2)]


def test_grounds_under_a_heading_of_courts_are_the_sites() -> None:
    assert quoted(["Court", "Post", *HEADS], ["Ash Grove School", 1, *BODY]) == [("Ash Grove School", "1", 1)]


def test_a_name_in_words_is_the_site_rather_than_a_number() -> None:
    assert quoted(["Academy", "Location", "Post", *HEADS], [3, "Elm Court", "N", *BODY]) == [("Elm Court", "N", 1)]


def test_poles_that_are_named_in_one_row_are_names_in_all() -> None:
    rows = [["Moss", "1, 2", *BODY], ["Moss", 3, *BODY]]
    assert quoted(["Site", "Poles", *HEADS], *rows) == [("Moss", "1, 2", 2), ("Moss", "3", 1)]


def test_a_parish_yields_to_the_ground() -> None:
    assert quoted(["Freguesia", "Local", "Poste", *HEADS], ["Sé", "Largo Velho", 1, *BODY]) == [("Largo Velho", "1", 1)]


LABELS = [
    "Unterschrift:", "Bemerkungen", "Observaciones: ninguna", "Remarques", "Fecha: marzo", "Firma", "Data", "Hinweis: Tor ist zu",
    "Responsable: secretaría", "Legenda", "Postes", "Seite 2",
]  # fmt: skip


@pytest.mark.parametrize("label", LABELS)
def test_a_label_of_a_form_names_no_site(label: str) -> None:
    lines = [["Elm School"], ["Post", *HEADS], ["1", *BODY], [label], ["2", *BODY]]
    assert {r.site_name for r in read(*lines).rows} <= {"Elm School", None}


def test_a_lone_text_with_a_colon_is_asked_about() -> None:
    found = read(["Post", *HEADS], ["Harbour Street:"], ["1", *BODY])
    assert [r.held for r in found.rows] == [True]
    assert quoted(["Post", *HEADS], ["Harbour School:"], ["1", *BODY]) == [("Harbour School", "1", 1)]


def test_left_and_right_in_german_stand_side_by_side() -> None:
    upper = ["Schule", "Linker Pfosten", None, None, "Rechter Pfosten", None, None]
    lower = [None, *["Form", "Ø mm", "Höhe m"] * 2]
    rows = ["Waldschule", "rund", 89, 2.6, "rund", 114, 3]
    assert quoted(upper, lower, rows) == [("Waldschule", "Linker Pfosten", 1), ("Waldschule", "Rechter Pfosten", 1)]


def test_a_part_of_a_ground_is_asked_about_where_nothing_names_the_site() -> None:
    found = read(["Location", "Post", *HEADS], ["Main playground", 1, *BODY], ["Gym", 1, *BODY])
    assert all(r.held for r in found.rows)
    assert [(q.code, q.cell) for q in found.queries if not q.record] == [("HEADING", "A1")]


@pytest.mark.parametrize("heading", ["Équipement", "Facility", "Property"])
def test_what_a_row_is_names_no_site(heading: str) -> None:
    assert quoted([heading, "Post", *HEADS], ["Basketball post", 1, *BODY], ["Basketball post", 2, *BODY]) == []


@pytest.mark.parametrize("heading", ["Sports", "Community", "Recreation", "School type", "School contact", "Site details"])
def test_a_word_beside_a_ground_names_no_site(heading: str) -> None:
    assert quoted([heading, "Post", *HEADS], ["Downs", 1, *BODY]) == []


def test_the_number_of_a_sites_posts_on_each_of_its_rows_is_asked() -> None:
    heads = ["School", "Total posts", "Post", *HEADS]
    assert quoted(heads, ["Elm", 2, "N", *BODY], ["Elm", 2, "S", *BODY], ["Oak", 2, "N", *BODY]) == [("Oak", "N", 2)]
    same = ["School", "Identical posts", "Post", *HEADS]
    assert quoted(same, ["Elm", 2, "N", *BODY], ["Elm", 2, "S", *BODY]) == [("Elm", "N", 2), ("Elm", "S", 2)]


@pytest.mark.parametrize("heading", ["Post(s)", "Posts:", "Poteau(x)", "Poste(s)", "Pole(s)"])
def test_a_post_called_by_a_number_is_not_so_many_posts(heading: str) -> None:
    rows = [["Alder", "1 & 2", *BODY], ["Alder", "3", *BODY], ["Hazel", "1, 2 and 3", *BODY]]
    assert [(site, n) for site, _, n in quoted(["Site", heading, *HEADS], *rows)] == [("Alder", 2), ("Alder", 1), ("Hazel", 3)]


def test_feet_and_inches_in_two_columns_are_one_height() -> None:
    heads = ["School", "Post", "Shape", "OD (in)", "Height ft", "Height in"]
    found = read(heads, ["Elm", 1, "round", 4.5, 8, 6], ["Elm", 2, "round", 4.5, 10, 0], ["Elm", 3, "round", 4.5, 8.5, 102])
    assert [round(r.post_height / 0.0254, 6) for r in found.rows if r.post_height] == [102, 120, 102]
    doubtful = read(heads, ["Elm", 1, "round", 4.5, 8.5, 6], ["Elm", 2, "round", 4.5, 8, 14], ["Elm", 3, "round", 4.5, 8, "6?"])
    assert all(r.held for r in doubtful.rows)


MIXED = [
    ("Basketball court light poles", 0), ("Basketball courts: fence posts", 0), ("Mâts d'éclairage du terrain de basket", 0),
    ("Postes de la valla de la pista de baloncesto", 0), ("Zaunpfosten Basketballplatz", 0), ("Pali rete campo basket", 0),
    ("Scoreboard posts", 0), ("Basketball and volleyball posts", 1), ("Volleyball & basketball posts", 1),
    ("Basketball posts", 1),
    ("Postes de baloncesto y voleibol", 1), ("Red posts at the basketball court", 1), ("Postes cerca de la cancha", 1),
]  # fmt: skip


@pytest.mark.parametrize(("title", "read"), MIXED)
def test_what_stands_beside_the_posts_of_a_title_says_whose_they_are(title: str, read: int) -> None:
    assert len(quoted([title], ["School", "Post", *HEADS], ["Elm School", "1", *BODY])) == read


@pytest.mark.parametrize("heading", ["Price", "Unit price", "Precio", "SKU"])
def test_a_list_of_what_is_sold_is_no_survey(heading: str) -> None:
    assert quoted(["School", "Post", *HEADS, heading], ["Elm School", "1", *BODY, 400]) == []


@pytest.mark.parametrize("heading", ["Fence post", "Sign post", "Light pole"])
def test_a_heading_that_names_another_thing_heads_no_survey(heading: str) -> None:
    assert quoted(["Basketball court"], ["Park", heading, *HEADS], ["Elm Park", "1", *BODY]) == []


PLURAL = [
    "Posts",
    "Poles",
    "Uprights",
    "Stanchions",
    "Postes",
    "Poteaux",
    "Mâts",
    "Masten",
    "Pali",
    "Mástiles",
    "Mastros",
    "Montanti",
    "Säulen",
]


@pytest.mark.parametrize("heading", PLURAL)
def test_posts_in_the_plural_are_counted_or_asked_never_one(heading: str) -> None:
    apart = quoted(["Site", heading, *HEADS], ["Denholm", 2, *BODY], ["Elmfield", 1, *BODY])
    assert [(site, n) for site, _, n in apart] == [("Denholm", 2), ("Elmfield", 1)]
    assert quoted(["Site", heading, *HEADS], ["Denholm", 2, *BODY], ["Denholm", 3, *BODY]) == []


def test_a_number_under_a_group_of_post_details_does_not_name_the_post() -> None:
    upper = ["Site details", None, "Post details", None, None, None]
    lower = ["School", "Ref", "Type", "Dim (mm)", "H (mm)", "No."]
    rows = [["Orchid Primary", "O1", "Round", 89, 2600, 2], ["Tulip Primary", "T1", "Square", 100, 2750, 1]]
    assert quoted(upper, lower, *rows) == []  # `No.` may be the number: that is asked


UNIT_LINES = [
    ("All measurements in inches", 102, {"post_size": 3.5, "post_height": 102}),
    ("Sizes in inches, heights in feet", 8.5, {"post_size": 3.5, "post_height": 102}),
    ("Pole survey (all dims in inches unless noted)", "8.5 ft", {"post_size": 3.5, "post_height": 102}),
    ("Units: inches U.N.O.", 102, {"post_size": 3.5, "post_height": 102}),
    ("Heights are in feet", 8.5, {"post_height": 102}),
    ("inches for sizes; feet for heights", 8.5, {"post_size": 3.5, "post_height": 102}),
    ("Todas las medidas en pulgadas", 102, {"post_size": 3.5, "post_height": 102}),
    ("Alle Maße in Zoll", 102, {"post_size": 3.5, "post_height": 102}),
    ("The board is 72 in", 8.5, {}),
    ("Wind in mph", 8.5, {}),
]


@pytest.mark.parametrize("below", [False, True])
@pytest.mark.parametrize(("said", "height", "read_as"), UNIT_LINES)
def test_a_line_that_states_the_units(said: str, height: Any, read_as: dict[str, float], below: bool) -> None:
    table = [["School", "Post", "Shape", "Size", "Height"], ["Elm School", "N", "round", 3.5, height]]
    (row,) = read(*([*table, [], [said]] if below else [[said], [], *table])).rows
    found = {n: round(v / 0.0254, 6) for n in ("post_size", "post_height") if (v := getattr(row, n)) is not None}
    assert found == read_as
    bare = {n for n in read_as if n == "post_size" or height != "8.5 ft"}
    assert {(o.name, o.how) for o in row.origins if o.how == "title"} == {(n, "title") for n in bare}
    assert row.held == (len(read_as) < 2)


def test_lines_that_differ_about_units_state_none() -> None:
    heads, body = ["School", "Post", "Shape", "Size", "Height"], ["Elm School", "N", "round", 3.5, 102]
    assert read(["All sizes in inches"], ["All sizes in mm"], heads, body).rows[0].post_size is None
    one = read(["All measurements in mm"], ["Sizes in inches"], heads, [*body[:4], 2600]).rows[0]
    assert (one.post_size, one.post_height) == (pytest.approx(0.0889), pytest.approx(2.6))
    headed = read(["All measurements in mm"], ["School", "Post", "Shape", "Size (in)", "Height"], [*body[:4], 2600]).rows[0]
    assert (headed.post_size, headed.post_height) == (pytest.approx(0.0889), pytest.approx(2.6))


def test_a_cover_that_states_the_units() -> None:
    heads, body = ["Post", "Shape", "Size", "Height"], ["N", "round", 3.5, 102]
    cover = sheet([["Our posts"], ["All measurements in inches"]], name="Read me")
    tabs = [sheet([heads, body], name=n) for n in ("Elm School", "Oak School")]
    rows = check_book(book(cover, *tabs), "a.xlsx", POLICY).rows
    assert [(r.site_name, r.post_size and round(r.post_size / 0.0254, 6)) for r in rows] == [
        ("Elm School", 3.5),
        ("Oak School", 3.5),
    ]


SHAPE_LINES = [
    ("ROUND POSTS", "round"),
    ("They are all round.", "round"),
    ("no squares down here, all pipe", "round"),
    ("All poles are square tube", "square"),
    ("Note: posts are square", "square"),
    ("Todos los postes son redondos", "round"),
    ("Tous les poteaux sont carrés", "square"),
    ("Alle Masten rund", "round"),
    ("Pali quadrati", "square"),
    ("some posts are round, others square", None),
    ("The posts are not round", None),
    ("Market Square", None),
    ("The last two are square", None),
    ("Round trip 12 miles", None),
    ("Our posts: round or square?", None),
]


@pytest.mark.parametrize("below", [False, True])
@pytest.mark.parametrize(("said", "shape"), SHAPE_LINES)
def test_a_line_that_states_the_shape(said: str, shape: str | None, below: bool) -> None:
    table = [["School", "Post", "Size (in)", "Height (ft)"], ["Elm School", "N", 3.5, 8.5]]
    (row,) = read(*([*table, [], [said]] if below else [[said], [], *table])).rows
    assert (row.post_shape, row.held) == (shape, shape is None)
    assert [(o.typed, o.how) for o in row.origins if o.name == "post_shape"] == ([(said, "title")] if shape else [])
    assert row.shape_inferred == (shape is not None)


def test_the_nearest_line_above_states_the_shape() -> None:
    heads, body = ["School", "Post", "Size (in)", "Height (ft)"], ["Elm School", 1, 3.5, 8.5]
    two = read(["ROUND POSTS"], heads, body, [], ["SQUARE POSTS"], heads, ["Elm School", 2, 4, 8.5]).rows
    assert [(r.post_code, r.post_shape) for r in two] == [("1", "round"), ("2", "square")]
    one = read(heads, ["Round"], body, ["Square"], ["Elm School", 2, 4, 8.5]).rows
    assert [(r.site_name, r.post_shape) for r in one] == [("Elm School", "round"), ("Elm School", "square")]
    tab = read(["Post", "Size (in)", "Height (ft)", "Base"], ["Elm School"], ["Square posts"], [1, 4, 8.5, "concrete"]).rows
    assert [(r.site_name, r.post_shape) for r in tab] == [("Elm School", "square")]
    against = read(["All posts are round"], heads, ["Elm School", 1, "4 x 4", 8.5]).rows
    assert [r.held for r in against] == [True]
    stated = read(["All posts are round"], ["Shape", *heads], ["square", "Elm School", 1, 4, 8.5]).rows
    assert [r.post_shape for r in stated] == ["square"]

"""Tables as people send them from where English is not spoken. Source of the wordings: common practice."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from survey_books import book, sheet
from survey_checked import FileResult, check_book

from pipeline.intake.catalogue import documented_policy
from pipeline.intake.layout.grounds import ground_in
from pipeline.intake.layout.row_kinds import what_a_lone_text_is
from pipeline.intake.measures import Measure, PipeSize, heading_unit, read_post_size
from pipeline.intake.survey.headings import claim
from pipeline.intake.survey.list_words import rules_out

POLICY = documented_policy()
LINES = (Path(__file__).parent / "data" / "headings_elsewhere.tsv").read_text("utf-8").splitlines()[1:]


def read(*lines: list[Any]) -> FileResult:
    return check_book(book(sheet(list(lines))), "a.xlsx", POLICY)


def posts(*lines: list[Any]) -> list[tuple[str | None, int | None, str | None, float, float]]:
    """Site, number, shape, size [mm] and height [mm] of every row that is not held."""
    rows = [r for r in read(*lines).rows if not r.held]
    return [
        (r.site_name, r.quantity, r.post_shape, round(1000 * (r.post_size or 0), 1), round(1000 * (r.post_height or 0), 1))
        for r in rows
    ]


@pytest.mark.parametrize("line", LINES, ids=lambda line: "-".join(line.split("\t")[:2]))
def test_lay_headings_of_other_languages_mean_their_column(line: str) -> None:
    name, _, headings = line.split("\t")
    assert {h: c.name if (c := claim(h)) else None for h in headings.split("|")} == dict.fromkeys(headings.split("|"), name)


@pytest.mark.parametrize(
    "heading",
    ["Altura da quadra", "Altura del aro", "Grosor de chapa y pintura", "Hauteur du panneau", "City"],
)
def test_what_is_of_another_thing_is_no_size_or_height(heading: str) -> None:
    found = claim(heading)
    assert found is None or found.name not in ("post_size", "post_height", "site_name")


@pytest.mark.parametrize(
    ("heading", "unit"),
    [("Diamètre (po)", "in"), ("Hauteur (pi)", "ft"), ("Medida por fuera (pulg.)", "in"),
     ("Bitola (pol.)", "in"), ("Altura (pés)", "ft"),
     ("Hauteur en mètres", "m"), ("Alto (pies)", "ft"), ("H [poll.]", "in")],
)  # fmt: skip
def test_abbreviated_units_of_other_languages(heading: str, unit: str) -> None:
    assert heading_unit(heading)[1] == unit


@pytest.mark.parametrize(
    ("typed", "millimetres"),
    [
        ('redonda 4" sch 40', 114.3),
        ('4" cédula 40', 114.3),
        ("tube rond DN 80", 88.9),
        ("DN 100 tondo", 114.3),
        ('tubo de 3" ced. 40', 88.9),
    ],
)
def test_pipes_are_named_with_their_shape(typed: str, millimetres: float) -> None:
    found = read_post_size(typed)
    assert isinstance(found, PipeSize)
    assert float(found.size) * 1000 == pytest.approx(millimetres, abs=0.05)


def test_a_square_post_has_no_schedule() -> None:
    assert not isinstance(read_post_size('cuadrado 4" sch 40'), (Measure, PipeSize))


GROUNDS = [
    ("E.M. Professora Lindaura", "E.M. Professora Lindaura"), ("CEIP Fuente Alta - postes", "CEIP Fuente Alta"),
    ("Esc. Sec. Técnica 9", "Esc. Sec. Técnica 9"), ("EB 2,3 Dona Alda", "EB 2,3 Dona Alda"),
    ("Plaza Los Robles", "Plaza Los Robles"),
    ("Institut Sainte-Claire, relevé des poteaux", "Institut Sainte-Claire"), ("Square des Ormes", "Square des Ormes"),
    ("I.C. Volpini - rilievo pali", "I.C. Volpini"), ("Square Tube", ""), ("Square", ""), ("Plaza", ""),
    ("Primaria", ""), ("Institut", ""),
]  # fmt: skip


@pytest.mark.parametrize(("title", "name"), GROUNDS)
def test_grounds_are_named_in_titles_by_their_abbreviations(title: str, name: str) -> None:
    assert ground_in(title) == name


@pytest.mark.parametrize(
    "text", ["EB1 do Rossio", "Campo dos Loureiros", "Stadio della Vittoria", "Pista de los Álamos", "Cour sous les Tilleuls"]
)
def test_names_with_small_words_are_sections(text: str) -> None:
    assert what_a_lone_text_is(text) in ("section", "place")


@pytest.mark.parametrize(
    ("name", "text", "out"),
    [("old_fittings", "suporte do aro soldado no tubo", True), ("old_fittings", "soldada no poste", True),
     ("old_fittings", "herraje soldado y no sale", True), ("old_fittings", "ferrures soudées, pas démontables", True),
     ("old_fittings", "staffe saldate, non si tolgono", True), ("old_fittings", "Halter angeschweißt, geht nicht ab", True),
     ("old_fittings", "lo soldaron el año pasado", True), ("post_line", "poteau cintré", True),
        ("post_line", "palo ricurvo", True),
     ("old_fittings", "ancien support soudé déposé", False), ("old_fittings", "platine soudée au pied", False),
     ("old_fittings", "soporte no soldado", False), ("old_fittings", "não soldado", False),
     ("old_fittings", "sin soldar", False),
     ("old_fittings", "pas soudé", False), ("old_fittings", "non saldato", False),
     ("post_line", "no tiene cuello de ganso", False)],
)  # fmt: skip
def test_in_the_tube_is_no_negation(name: str, text: str, out: bool) -> None:
    assert rules_out(name, text) is out


def test_courts_without_a_name_leave_the_site_to_what_says_where() -> None:
    heads = ["Quartier", "Terrain", "Nb poteaux", "Forme", "Ø ext. (mm)", "Hauteur hors sol (m)"]
    rows = [
        ["Bel Air", "T1", 2, "rond", 114, 3.2],
        ["Bel Air", "T2", 2, "rond", 90, 2.9],
        ["Les Prés", "T1", 4, "carré", 100, 3.4],
    ]
    assert posts(heads, *rows) == [
        ("Bel Air", 2, "round", 114, 3200), ("Bel Air", 2, "round", 90, 2900), ("Les Prés", 4, "square", 100, 3400)
    ]  # fmt: skip
    named = [["Bel Air", "Terrain du Pont", 2, "rond", 114, 3.2], ["Bel Air", "Terrain Noir", 2, "rond", 90, 2.9]]
    assert [p[0] for p in posts(heads, *named)] == ["Terrain du Pont", "Terrain Noir"]


def test_a_ground_beside_its_courts_is_the_site() -> None:
    heads = ["Sede", "Cancha", "Cuántos postes", "Caño", "Grosor (afuera)", "Altura desde el piso"]
    said = ["Diámetros en cm por fuera y alturas en metros desde el piso."]
    rows = [
        ["Central", "de arriba", 2, "redondo", 11.4, 3.3],
        [None, "de abajo", 2, "redondo", 10.2, 3.15],
        ["Anexo", "única", 1, "cuadrado", 10, 2.85],
    ]
    assert posts(said, [], heads, *rows) == [
        ("Central", 2, "round", 114, 3300), ("Central", 2, "round", 102, 3150), ("Anexo", 1, "square", 100, 2850)
    ]  # fmt: skip


def test_a_count_above_its_total_is_a_count() -> None:
    heads = ["Cancha", "Postes", "Forma", "Diám. exterior", "Alto del piso a la punta"]
    rows = [["Los Pinos", 2, "redondo", '4"', "3.20 m"], ["El Venado", 4, "cuadrado (PTR)", '3"', "2.75 m"]]
    assert [(p[0], p[1], p[2]) for p in posts(heads, *rows, ["TOTAL", 6])] == [
        ("Los Pinos", 2, "round"),
        ("El Venado", 4, "square"),
    ]


def test_places_within_the_ground_of_a_title_stand_over_posts_in_columns() -> None:
    lines = [
        ["E.M. Dona Alda"], [], [None, "Poste 1", "Poste 2"], ["Onde fica", "pátio de cima", "pátio de baixo"],
        ["Formato", "redondo", "quadrado"],
        ["Medida por fora (cm)", 8.9, 10], ["Altura do chão até em cima (m)", 3, 3.1],
    ]  # fmt: skip
    assert [(p[0], *p[2:]) for p in posts(*lines)] == [
        ("E.M. Dona Alda", "round", 89, 3000),
        ("E.M. Dona Alda", "square", 100, 3100),
    ]


def test_a_length_round_the_post_in_other_words() -> None:
    heads = ["Escuela", "Poste", "Contorno del tubo (cm)", "Altura (m)"]
    assert posts(heads, ["Norte", "A", "35,9", "3,05"]) == [("Norte", 1, "round", 114.3, 3050)]


def test_numbers_that_differ_on_one_site_are_each_rows_on_all() -> None:
    heads = ["Stade", "Poteaux", "Forme", "Diamètre (mm)", "Hauteur (m)"]
    two = [["Stade Sud", 2, "rond", 114, 3.05], ["Stade Sud", 2, "carré", 120, 3.4]]
    assert posts(heads, *two, ["Stade Nord", 2, "rond", 90, 2.6]) == [("Stade Nord", 2, "round", 90, 2600)]
    other = [["Stade Nord", 2, "rond", 90, 2.6], ["Stade Nord", 1, "rond", 76, 2.1]]
    assert [p[1] for p in posts(heads, *two, *other)] == [2, 2, 2, 1]


def test_posts_side_by_side_under_their_sides() -> None:
    heads = ["Centro"] + [f"{side}: {what}" for side in ("Norte", "Sur") for what in ("forma", "Ø o lado (mm)", "altura (m)")]
    assert [p[2:] for p in posts(heads, ["IES Ribera", "redondo", 102, 3.05, "cuadrado", 80, 2.6])] == [
        ("round", 102, 3050), ("square", 80, 2600)
    ]  # fmt: skip


def test_a_network_of_schools_is_no_net() -> None:
    heads = ["Unidade", "Poste", "Geometria", "Largura ou diâmetro (mm)", "Altura (m)"]
    assert (
        len(posts(["Levantamento de postes - Rede municipal de ensino"], heads, ["EMEF Alda Reis", "01", "redonda", 102, 3.05]))
        == 1
    )
    assert posts(["Postes de rede de voleibol"], heads, ["EMEF Alda Reis", "01", "redonda", 102, 3.05]) == []


def test_a_section_with_a_unit_is_a_size() -> None:
    heads = ["Parc", "Poteau (forme)", "Section (mm)", "Hauteur hors sol"]
    assert posts(heads, ["Parc Vert", "rond", 114, "3m05"]) == [("Parc Vert", 1, "round", 114, 3050)]


def test_grounds_over_the_names_of_posts_in_columns_are_each_their_own() -> None:
    lines = [
        [None, "École Beau-Site", None, "Halle des Prés", None], [None, "P1", "P2", "P1", "P2"],
        ["Forme", "ronde", "ronde", "carrée", "carrée"],
        ["Diamètre / côté (mm)", 102, 102, 100, 100], ["Hauteur hors sol (m)", 3.05, 3.04, 2.95, 2.96],
    ]  # fmt: skip
    assert [(p[0], p[2]) for p in posts(*lines)] == [("École Beau-Site", "round")] * 2 + [("Halle des Prés", "square")] * 2

"""What a label says of the rows below it, whose ground it is and who is there; sizes of one shape; headings of both posts."""

from __future__ import annotations

from typing import Any

import pytest
from survey_books import book, sheet
from survey_checked import FileResult, check_book

from pipeline.intake.catalogue import documented_policy
from pipeline.intake.survey.headings import claim

POLICY = documented_policy()
HEADS, BODY = ["Post", "Shape", "OD (in)", "Height (ft)"], ["round", 4.5, 8.5]


def read(*lines: list[Any]) -> FileResult:
    return check_book(book(sheet(list(lines))), "a.xlsx", POLICY)


def sites(*lines: list[Any]) -> list[str | None]:
    """The site of each row, None where it names none."""
    return [r.site_name or r.site_code or None for r in read(*lines).rows]


LABELS = [
    "Association: Partridge Run HOA", "Association: Partridge Run", "HOA: Partridge Run", "H.O.A.: Partridge Run",
    "Homeowners Association: Partridge Run", "Homeowners' Assoc.: Partridge Run", "POA: Partridge Run",
    "Community association: Partridge Run", "Apartment complex: Partridge Run", "Complex: Partridge Run",
    "Mobile home park: Partridge Run", "RV Park: Partridge Run", "Housing site: Partridge Run", "Resort: Partridge Run",
    "Campground: Partridge Run", "Youth center: Partridge Run", "Residence hall: Partridge Run", "Congregation: Partridge Run",
    "Parish: Partridge Run", "Subdivision: Partridge Run", "Stop 1: Partridge Run", "Site #3: Partridge Run",
    "School no. 2: Partridge Run", "Park 4: Partridge Run", "Location: Partridge Run", "Tract: Partridge Run",
    "Unit: Partridge Run",
]  # fmt: skip


@pytest.mark.parametrize("label", LABELS)
def test_a_ground_is_labelled_by_another_word(label: str) -> None:
    name = label.split(": ")[1]
    other = label.replace("Partridge Run", "Quail Bend")
    table = [HEADS, ["1", *BODY], ["2", *BODY]]
    assert sites([label], [None], *table, [None], [other], [None], *table) == [name] * 2 + [other.split(": ")[1]] * 2
    assert sites(HEADS, [label], ["1", *BODY], [other], ["1", *BODY]) == [name, other.split(": ")[1]]


NO_LABELS = [
    "Association: Tri-County Youth Basketball Association", "Location: J. Smith", "Location: Springfield, Ohio",
    "Location: Orange County", "Location: Behind Gym", "Crew: Red Team", "Inspector: Bob Lee", "Chapter: Lee Hart",
    "Troop: Lee Hart", "Route: North Loop", "Phone: Lee Hart", "Court: Upper Lot", "Ward: Oak Hollow",
]  # fmt: skip


@pytest.mark.parametrize("label", NO_LABELS)
def test_what_labels_no_ground_names_none(label: str) -> None:
    assert sites([label], HEADS, ["1", *BODY]) == [None]
    assert sites(HEADS, [label], ["1", *BODY]) == [None]


BESIDE = [
    "Custodian: Al Hart", "Head custodian: Al Hart", "Principal: Dr. Field", "Board contact: Lee Park", "Foreman: Lee Hart",
    "Weather: Sunny", "Site contact: Al", "Ranger in charge: P. Osei", "Crew lead: Al", "Athletic director: Al Hart",
    "Gate code: Ask Office",
    "Inspected by: Al Hart",
]  # fmt: skip


@pytest.mark.parametrize("text", BESIDE)
def test_who_is_at_a_site_names_no_other(text: str) -> None:
    rows = [["OAK PARK"], [text], ["1", *BODY], [text], ["2", *BODY], ["ELM PARK"], ["1", *BODY]]
    assert sites(HEADS, *rows) == ["OAK PARK", "OAK PARK", "ELM PARK"]


def test_an_address_behind_posts_may_be_of_another_ground() -> None:
    address = ["Address: 12 Park St"]
    assert sites(HEADS, ["OAK PARK"], address, ["1", *BODY]) == ["OAK PARK"]
    assert sites(HEADS, ["OAK PARK"], ["1", *BODY], address, ["2", *BODY]) == ["OAK PARK", None]


def test_posts_in_columns_below_each_other_where_one_band_lacks_a_heading() -> None:
    first = [
        ["School", "Elm School"],
        ["Post", "N", "S"],
        ["Shape", "round", "round"],
        ["OD (in)", 4.5, 4.5],
        ["Height (ft)", 8, 9],
    ]
    second = [["School", "Oak School"], [None, "N"], ["Shape", "round"], ["OD (in)", 3.5], ["Height (ft)", 9.5]]
    rows = [r for r in read(*first, [None], *second).rows if not r.held]
    assert {(r.site_name, round(r.post_size / 0.0254, 6)) for r in rows if r.post_size} <= {
        ("Elm School", 4.5),
        ("Oak School", 3.5),
    }


OF_ONE_SHAPE = [
    ("Round: inches around", "in"), ("Square: inches on a side", "in"), ("Round posts: OD", ""), ("Square posts: width", ""),
    ("If round, distance around (in)", "in"), ("Rd: dia", ""), ("Round ones - inches around", "in"),
    ("Square: inches per side", "in"),
    ("Square poles - inches across", "in"), ("If square: inches each side", "in"),
]  # fmt: skip


@pytest.mark.parametrize(("heading", "unit"), OF_ONE_SHAPE)
def test_a_size_with_its_shape_in_front(heading: str, unit: str) -> None:
    found = claim(heading)
    assert found is not None
    assert (found.name, found.unit) == ("post_size", unit)


@pytest.mark.parametrize(
    "heading", ["Square: inches around", "Square posts: perimeter", "Round: height", "Round, square or other"]
)
def test_the_way_round_a_square_is_no_size(heading: str) -> None:
    found = claim(heading)
    assert found is None or found.name == "post_shape"


def test_round_ones_around_and_square_ones_on_a_side() -> None:
    heads = ["Park", "Post", "Round: inches around", "Square: inches on a side", "Height (ft)"]
    rows = read(heads, ["Oak Park", "1", 14.125, None, 9], ["Oak Park", "2", None, 4, 9]).rows
    assert [(r.post_shape, r.size_basis, r.held) for r in rows[:1]] == [("round", "circumference", False)]
    assert [(r.post_shape, round((r.post_size or 0) / 0.0254, 6), r.held) for r in rows[1:]] == [("square", 4, False)]


BOTH = ["both ends", "(both ends)", "- both ends", "each end", "both posts", "(same both poles)", "for both ends"]


@pytest.mark.parametrize("words", BOTH)
def test_what_is_both_posts_stands_once(words: str) -> None:
    heads = ["Park", f"Post {words}", f"OD {words}", "Home end - post height", "Visitor end - post height"]
    rows = read(heads, ["Oak Park", "round", "4 1/2 in", "10 ft", "10 ft 2 in"]).rows
    assert [(r.post_shape, round((r.post_height or 0) / 0.3048, 3), r.held) for r in rows] == [
        ("round", 10, False), ("round", 10.167, False),
    ]  # fmt: skip
    alone = read(["Park", "Post", "Shape", f"OD {words}", "Height (ft)"], ["Oak Park", "1", "round", "4 in", 9]).rows
    assert all(r.held for r in alone)  # two posts, of which the row names one


WHERE = [
    "Which park did you check?", "Which playground did you go to?", "Name of the park you checked",
    "Which location did you survey?",
    "Which site does this entry relate to?", "Which field did you inspect today?", "Which park was checked",
]  # fmt: skip


@pytest.mark.parametrize("heading", WHERE)
def test_a_form_asks_where_its_writer_was(heading: str) -> None:
    found = claim(heading)
    assert found is not None
    assert found.name == "site_name"


NOT_WHERE = [
    "Who checked the park?", "When did you visit the park?", "Did you check the park?", "Which school do you go to?",
    "Which park is closest to you?", "How many parks did you check?",
]  # fmt: skip


@pytest.mark.parametrize("heading", NOT_WHERE)
def test_other_questions_ask_for_no_site(heading: str) -> None:
    found = claim(heading)
    assert found is None or found.name != "site_name"


def test_courts_of_names_and_what_court_it_is() -> None:
    heads = ["Ball court", *HEADS]
    names = ["Tamarack", "Shady Bend", "Pipeline Trail"]
    assert sites(heads, *([n, "1", *BODY] for n in names)) == names
    asked = read(heads, *([n, "1", *BODY] for n in ("Tamarack", "Cage", "Shady Bend")))
    assert [(q.code, q.cell) for q in asked.queries if not q.record] == [("HEADING", "A1")]


WHOSE = [
    "Twp. park",
    "City park",
    "Host church",
    "Member school",
    "Participating school",
    "District school",
    "Inspected premises",
]


@pytest.mark.parametrize("heading", WHOSE)
def test_whose_ground_it_is_stands_before_it(heading: str) -> None:
    found = claim(heading)
    assert found is not None
    assert found.name == "site_name"


OF_A_TOWN = [
    "School district",
    "School city",
    "Park district",
    "Church city",
    "School county",
    "State of school",
    "Post location",
]


@pytest.mark.parametrize("heading", OF_A_TOWN)
def test_of_which_town_a_ground_is_names_no_ground(heading: str) -> None:
    found = claim(heading)
    assert found is None or found.name not in ("site_name", "site_code")


ABOVE = [
    "Ht above pad", "Height over sidewalk", "Height above mulch", "Height off parking lot", "Post height above concrete apron",
    "Height above asphalt", "Ht. above wood chips",
]  # fmt: skip


@pytest.mark.parametrize("heading", ABOVE)
def test_what_a_post_stands_above_is_its_ground(heading: str) -> None:
    found = claim(heading)
    assert found is not None
    assert found.name == "post_height"


ITSELF = [
    "Slab height",
    "Pad height",
    "Concrete height",
    "Surface height",
    "Height of slab",
    "Pavement elevation",
    "Court surface height",
]


@pytest.mark.parametrize("heading", ITSELF)
def test_how_high_a_ground_lies_is_no_height_of_a_post(heading: str) -> None:
    found = claim(heading)
    assert found is None or found.name != "post_height"


@pytest.mark.parametrize("heading", ["How big across", "How thick across", "How fat across", "How big is it across"])
def test_how_far_a_post_is_across_is_its_size(heading: str) -> None:
    found = claim(heading)
    assert found is not None
    assert found.name == "post_size"


def test_two_kinds_of_place_name_the_site_where_all_cells_do() -> None:
    assert sites(["Hall / lot", *HEADS], ["Burdick Hall lot", "1", *BODY], ["Treadwell Quad", "1", *BODY]) == [
        "Burdick Hall lot", "Treadwell Quad",
    ]  # fmt: skip
    assert sites(["Hall / lot", *HEADS], ["lower", "1", *BODY], ["upper", "2", *BODY]) == [None, None]


@pytest.mark.parametrize("heading", ["Attached", "On pole", "What's on them", "Still there", "Old gear"])
def test_what_hangs_on_a_post_is_told_by_the_cells(heading: str) -> None:
    rows = [["Elm Park", "1", *BODY, "nothing"], ["Elm Park", "2", *BODY, "rim welded on"]]
    assert [r.old_fittings for r in read(["Park", *HEADS, heading], *rows).rows] == ["none", "fixed"]


def test_a_form_above_each_of_several_tables() -> None:
    table = [["Goal", "Support", "Support size", "Support height"], ["A", "round steel", "4-1/2 in.", "10 ft. 7 in."]]
    lines: list[list[Any]] = []
    for name in ("St. Bridget Parish Center", "Walnut Street Youth House"):
        lines += [
            ["Insured location:", name],
            ["Contact:", "Fr. Dolan"],
            ["Date of visit:", "6 June 2025"],
            [None],
            *table,
            [None],
        ]
    rows = read(*lines).rows
    assert [(r.site_name, r.post_code, r.post_shape, r.quantity, r.held) for r in rows] == [
        ("St. Bridget Parish Center", "A", "round", 1, False), ("Walnut Street Youth House", "A", "round", 1, False),
    ]  # fmt: skip


def test_sizes_that_are_outside_in_inches() -> None:
    said = "Hi, here are the poles. Everything is round pipe. Sizes are outside, in inches. Heights in feet."
    rows = read([said], ["School", "Post", "Size", "Height"], ["Oak School", "1", 4.5, 10]).rows
    assert [(round((r.post_size or 0) / 0.0254, 6), r.post_shape, r.held) for r in rows] == [(4.5, "round", False)]


def test_posts_in_columns_under_grounds_beside_what_all_of_it_is() -> None:
    lines = [
        ["Outdoor posts", "Two Rivers School", "Two Rivers School", "Cottonwood School"], [None, "North", "South", "East"],
        ["Round or square?", "round", "round", "square"], ["How big across", "4 in", "4 in", "3 in"],
        ["How tall from the ground", "10 ft", "10 ft 1 in", "9 ft"],
    ]  # fmt: skip
    assert [(r.site_name, r.post_code) for r in read(*lines).rows if not r.held] == [
        ("Two Rivers School", "North"), ("Two Rivers School", "South"), ("Cottonwood School", "East"),
    ]  # fmt: skip


UNITS_BELOW = [("Dia. or side", "in"), ("Diameter", "in"), ("O.D.", "in."), ("Size", "in")]


@pytest.mark.parametrize(("size", "unit"), UNITS_BELOW)
@pytest.mark.parametrize("pole", ["Pole", "Shape", "Post"])
def test_units_under_the_headings_and_letters_for_shapes(size: str, unit: str, pole: str) -> None:
    lines = [["Park", "Hoop", pole, size, "Height"], [None, None, "R/S", unit, "ft-in"]]
    rows = read(*lines, ["Oak Park", "1", "R", "4-1/2", "10-3"], ["Oak Park", "2", "S", "4", "9-8"]).rows
    assert [(r.post_code, r.post_shape, round((r.post_size or 0) / 0.0254, 6), r.held) for r in rows] == [
        ("1", "round", 4.5, False), ("2", "square", 4, False),
    ]  # fmt: skip


def test_letters_under_a_word_for_a_post_are_shapes() -> None:
    heads = ["Park", "Hoop", "Pole", "Diameter (in)", "Height (ft)"]
    rows = read(heads, ["Oak Park", "1", "R", 4.5, 10], ["Oak Park", "2", "S", 4, 9]).rows
    assert [(r.post_code, r.post_shape, r.held) for r in rows] == [("1", "round", False), ("2", "square", False)]


@pytest.mark.parametrize("heading", ["Post (HSS or pipe)", "Pole (pipe/HSS)", "Post section (see key)"])
def test_a_bracket_behind_a_heading_that_its_cells_tell(heading: str) -> None:
    heads = ["Park", "Mark", heading, "Clear ht."]
    rows = read(heads, ["Oak Park", "P1", "NPS 4 pipe", "10'-7\""], ["Oak Park", "P2", "HSS4x4x3/16", "10'-0\""]).rows
    assert [(r.post_code, r.post_shape, r.held) for r in rows] == [("P1", "round", False), ("P2", "square", False)]


def test_courts_of_a_register_tell_posts_of_one_name_apart() -> None:
    heads = ["PARK_NAME", "COURT_NO", "POST_NO", "SHAPE", "OD_IN", "HT_FT"]
    rows = read(heads, ["Oak Park", 1, "A", *BODY], ["Oak Park", 2, "A", "round", 3.5, 9]).rows
    assert [(r.site_name, r.held) for r in rows] == [("Oak Park", False)] * 2
    assert len({r.post_code for r in rows}) == len(rows)


@pytest.mark.parametrize("heading", ["Found", "As found", "Observed", "Good or bad", "Rust"])
def test_how_a_post_is_kept_is_told_by_the_cells(heading: str) -> None:
    rows = [["Elm Park", "1", *BODY, "good"], ["Elm Park", "2", *BODY, "surface rust"]]
    assert [r.condition for r in read(["Park", *HEADS, heading], *rows).rows] == ["sound", "surface rust"]


@pytest.mark.parametrize("text", ["gooseneck pipe", "round gooseneck", "curved pipe", "goosenecked round pole"])
def test_a_gooseneck_among_shapes(text: str) -> None:
    rows = [["Elm Park", "1", "round pipe", 4.5, 9], ["Elm Park", "2", "sq tube", 4, 9], ["Elm Park", "3", text, 4.5, 9]]
    found = read(["Park", "Hoop", "type", "size (in)", "hgt (ft)"], *rows).rows[-1]
    assert (found.post_shape, found.post_line, found.held) == ("round", "gooseneck", False)


def test_all_in_inches_behind_how_it_was_measured() -> None:
    said = "Distance around is with the tape wrapped on the pole, all in inches. Height is feet and inches."
    rows = read([said], ["Field", "Pole", "Distance around", "How high"], ["Thistle Down", "left", "14 1/8", "10' 5\""]).rows
    assert [(round((r.post_size or 0) / 0.0254, 3), r.post_shape, r.held) for r in rows] == [(4.496, "round", False)]


@pytest.mark.parametrize("heading", ["Court", "Location", "Ball court"])
def test_posts_of_one_number_at_two_places_of_a_titled_ground_are_two(heading: str) -> None:
    rows = read(["School: Elm School"], [heading, *HEADS], ["Shady Bend", "1", *BODY], ["Pipeline Trail", "1", *BODY]).rows
    assert [(r.site_name, r.post_code, r.held) for r in rows] == [
        ("Elm School", "Shady Bend 1", False), ("Elm School", "Pipeline Trail 1", False),
    ]  # fmt: skip


def test_a_building_of_a_named_ground_is_no_site_of_its_own() -> None:
    assert sites(["School: Elm School"], HEADS, ["Building: Main"], ["1", *BODY], ["Building: Annex"], ["2", *BODY]) == [
        None,
        None,
    ]
    assert sites(HEADS, ["OAK PARK"], ["1", *BODY], ["Location: Cedar Bend"], ["2", *BODY]) == ["OAK PARK", None]
    assert sites(HEADS, ["Building: Cole Hall"], ["1", *BODY], ["Building: Ray Center"], ["2", *BODY]) == [
        "Cole Hall",
        "Ray Center",
    ]

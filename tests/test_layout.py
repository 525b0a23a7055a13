"""Layouts that people use: what each record takes from where, and what is asked instead of guessed."""

from __future__ import annotations

from typing import Any

import pytest
from survey_books import book, sheet
from survey_checked import check_book

from pipeline.intake.catalogue import documented_policy
from pipeline.intake.layout.find import find_records
from pipeline.intake.layout.record import Record
from pipeline.intake.layout.row_kinds import what_a_lone_text_is
from pipeline.reading.book import Sheet

H = ["Post", "Post shape", "Post size [in]", "Height above ground [ft]"]
S = ["Site code", "Site name", *H]


def read(*sheets: Sheet) -> tuple[list[Record], list[str]]:
    records, queries, _ = find_records(book(*sheets), "a.xlsx")
    wrong = [f"{w.name} {w.at} {w.code}" for r in records for w in r.wrong]
    return records, wrong + [f"{q.name} {q.cell} {q.code}" for q in queries]


def says(record: Record, *names: str) -> list[Any]:
    return [record.values[n].cell.value if n in record.values else None for n in names]


def how(record: Record, name: str) -> tuple[Any, str, str]:
    stated = record.values[name]
    return stated.cell.value, stated.at, stated.how


POST = ("post_code", "post_shape", "post_size", "post_height")
SITE = ("site_code", "site_name")


@pytest.mark.parametrize("mark", ['"', "''", "〃", ",,", '" "', "do", "do.", "Ditto", "same", "as above", "same as above"])
def test_a_mark_is_the_nearest_cell_above_that_is_none(mark: str) -> None:
    rows = [S, ["A", "Elm", "1", "round", 3.5, 8], [mark, mark, "2", mark, mark, mark], [mark, mark, "3", mark, 4, mark]]
    records, wrong = read(sheet(rows))
    assert wrong == []
    assert [says(r, *SITE, *POST) for r in records] == [
        ["A", "Elm", "1", "round", 3.5, 8], ["A", "Elm", "2", "round", 3.5, 8], ["A", "Elm", "3", "round", 4, 8],
    ]  # fmt: skip
    assert how(records[2], "post_height") == (8, "F4", "same_as_above")


def test_a_mark_takes_nothing_across_a_blank_cell_a_heading_a_section_or_a_total() -> None:
    rows = [
        H, ['N', "round", 3.5, 8], ["S", "round", None, 8], ["E", "round", '"', 8],
        ["Oak Park School"], ["N", '"', 4, 8], ["Subtotal", None, 3], ["S", "round", '"', 8], H, ["E", '"', 3.5, 8],
    ]  # fmt: skip
    records, wrong = read(sheet(rows))
    assert wrong == [
        "post_size C4 MISSING", "post_shape B6 MISSING", "post_size C8 MISSING", "post_shape B10 MISSING",
    ]  # fmt: skip
    assert all("post_size" not in records[n].values for n in (2, 4))


def test_a_mark_is_no_name_of_a_post_and_no_clearance() -> None:
    heads = [*S, "Strength cleared", "Cleared by", "Notes"]
    rows = [heads, ["A", "Elm", "1", "round", 3.5, 8, "yes", "J. Oak, PE 1", "x"], ['"', '"', '"', '"', '"', '"', '"', '"', '"']]
    records, wrong = read(sheet(rows))
    assert wrong == ["post_code C3 UNREADABLE", "strength_cleared G3 UNREADABLE", "cleared_by H3 UNREADABLE"]
    assert says(records[1], "post_code", "strength_cleared", "cleared_by", "notes", "post_size") == [None, None, None, '"', 3.5]


def test_a_sites_cells_and_no_others_are_carried_down_its_block() -> None:
    heads = ["Site code", "Site name", "Customer", "Site kind", *H, "Lean [deg]"]
    rows = [
        heads, ["A", "Elm", "Oak District", "school", "1", "round", 3.5, 8, 1], None,
        [None, None, None, None, "2", "round", 4, 8],
        ["Subtotal", None, None, None, None, None, 2], [None, None, None, None, "3", "round", 4, 8],
        ["B", None, None, None, "1", "round", 4, 8], [None, None, None, None, "2", "round", 4, 8],
        ["C", "Fir"], [None, None, None, None, "1", "round", 4, 8], heads, [None, None, None, None, "9", "round", 4, 8],
    ]  # fmt: skip
    records, wrong = read(sheet(rows))
    assert wrong == []
    assert [says(r, "site_code", "site_name", "customer", "site_kind", "post_code", "lean") for r in records] == [
        ["A", "Elm", "Oak District", "school", "1", 1], ["A", "Elm", "Oak District", "school", "2", None],
        ["A", "Elm", "Oak District", "school", "3", None], ["B", None, None, None, "1", None], ["B", None, None, None, "2", None],
        ["C", "Fir", None, None, "1", None], [None, None, None, None, "9", None],
    ]  # fmt: skip
    assert how(records[1], "site_name") == ("Elm", "B4", "block")


def test_a_heading_that_is_not_read_hides_no_square_post_and_no_gooseneck() -> None:
    heads = ["School", "Post", "As built", "Diameter (in)", "Height (ft)", "Shaft"]
    rows = [heads, ["Elm", "1", "round", 4.5, 8.5, "goose-neck"], ["Elm", "2", "square", 4, 9, "ear welded on"], ["", "", 2]]
    records, _ = read(sheet(rows))
    queries = check_book(book(sheet(rows)), "a.csv", documented_policy()).queries
    assert [q.cell for q in queries if (q.name, q.code) == ("post_shape", "CONFLICT")] == ["C3"]
    assert [[w.at for w in r.warnings] for r in records] == [["F2"], ["F3"]]
    rows_read = check_book(book(sheet(rows)), "a.csv", documented_policy()).rows
    assert [(r.post_line, r.old_fittings) for r in rows_read[:2]] == [("gooseneck", "unknown"), ("unknown", "fixed")]


def test_another_name_takes_no_code_of_the_block_before() -> None:
    records, _ = read(sheet([S, ["A", "Elm", "1", "round", 3.5, 8], [None, "Fir", "2", "round", 3.5, 8]]))
    assert says(records[1], *SITE) == [None, "Fir"]


TITLES = (
    ([["School: Elm Street"]], "Elm Street"),
    ([["School:", "Elm Street"]], "Elm Street"),
    ([["School name", None, "Elm Street", "Surveyed on", "2026-05-03"]], "Elm Street"),
    ([["School name", "Customer"], ["Elm Street", "Oak District"]], "Elm Street"),
    ([["Survey of posts"], ["School: Elm Street  Customer: Oak District"]], "Elm Street"),
    ([["Site: Elm Street School"]], "Elm Street School"),
    ([["Name: J. Smith"]], None),
    ([["Location: J. Smith"]], None),
    ([["Location: Elm Street Park"]], "Elm Street Park"),
    ([["Survey of hoops at Oak Street School, 3 March 2026"]], "Oak Street School"),
    ([["Pole survey - Elm Street School"]], "Elm Street School"),
    ([["Relevé des poteaux, École Jules Verne"]], "École Jules Verne"),
    ([["Oak County School District"]], None),
    ([["PROJECT", "Falcon Park Court Upgrade", None, "Rev", "B"]], "Falcon Park"),
    ([["Project: Falcon Park Court Upgrade"]], "Falcon Park"),
    ([["Surveyed by: Tom Field"]], None),
    ([["Surveyor", "Jane Park"]], None),
    ([["Hoops measured by Tom Field"]], None),
    ([["Town of Elm Park"]], None),
    ([["Location of works: Dingle Rec"]], "Dingle Rec"),
    ([["Site contact: Tom Park"]], None),
    ([["Elm School", "Oak School"]], None),
    ([["Poles of Oak Park and Elm Park"]], None),
    ([["Basketball park survey"]], None),
    ([["School survey"]], None),
    ([["Oak School"], ["Elm School"]], None),
    ([["School: Elm Street"], ["School: Fir Lane"]], None),
)


@pytest.mark.parametrize(("above", "name"), TITLES)
def test_a_title_holds_for_the_table_below(above: list[list[Any]], name: str | None) -> None:
    records, _ = read(sheet([*above, H, ["N", "round", 3.5, 8], ["S", "round", 3.5, 8]]))
    assert [says(r, "site_name") for r in records] == [[name], [name]]
    assert name is None or records[0].values["site_name"].how == "title"


def test_a_new_title_ends_all_of_the_old_one() -> None:
    rows = [
        ["School: Elm"], ["Customer: Oak District"], ["Site code: E1"], H, ["N", "round", 3.5, 8], None,
        ["School: Fir"], H, ["N", "round", 3.5, 8],
    ]  # fmt: skip
    records, _ = read(sheet(rows))
    assert [says(r, "site_name", "site_code", "customer") for r in records] == [
        ["Elm", "E1", "Oak District"],
        ["Fir", None, None],
    ]


def test_a_row_with_a_site_of_its_own_takes_nothing_of_the_titles_site() -> None:
    rows = [
        ["School: Elm"],
        ["Customer: Oak District"],
        S,
        ["A", "Fir", "1", "round", 3.5, 8],
        ["B", "Elm", "1", "round", 3.5, 8],
    ]
    records, _ = read(sheet(rows))
    assert [says(r, *SITE, "customer") for r in records] == [["A", "Fir", None], ["B", "Elm", "Oak District"]]


def test_a_lone_text_names_the_site_of_the_rows_below_it() -> None:
    rows = [H, ["Elm Street School"], ["N", "round", 3.5, 8], ["OAK PARK"], ["N", "round", 3.5, 8], ["Total", None, None, 2]]
    records, wrong = read(sheet(rows))
    assert wrong == []
    assert [how(r, "site_name") for r in records] == [
        ("Elm Street School", "A2", "section_row"),
        ("OAK PARK", "A4", "section_row"),
    ]


def test_a_lone_text_in_doubt_names_no_site_and_is_asked_about() -> None:
    records, wrong = read(sheet([H, ["Elm Street School"], ["N", "round", 3.5, 8], ["by the gates"], ["S", "round", 3.5, 8]]))
    assert wrong == []
    assert says(records[1], "site_name") == ["Elm Street School"]
    records, wrong = read(sheet([H, ["Elm Street School"], ["N", "round", 3.5, 8], ["oakdale"], ["S", "round", 3.5, 8]]))
    assert says(records[1], "site_name") == [None]
    assert wrong == ["site_name A4 CONFLICT"]


LONE = (
    ("Elm Street School", "section"), ("RIVERSIDE", "section"), ("St. Mary's", "section"), ("P.S. 118", "section"),
    ("Measured by the caretaker", "remark"), ("all 3.5 in", "remark"), ("G = galvanized", "remark"),
    ("Note: call first", "remark"),
    ("Page 2 of 3", "remark"), ("March 2026", "remark"), ("* new", "remark"), ("Continued", "remark"),
    ("Upper court", "place"), ("Court 2", "place"), ("north side", "place"), ("elmwood", "doubtful"),
)  # fmt: skip


@pytest.mark.parametrize(("text", "kind"), LONE)
def test_what_a_lone_text_is(text: str, kind: str) -> None:
    assert what_a_lone_text_is(text) == kind


def test_the_tab_names_the_site_where_several_have_the_same_headings_and_none_names_one() -> None:
    rows = [H, ["N", "round", 3.5, 8]]
    records, _ = read(sheet(rows, "Elm Street"), sheet(rows, "Fir Lane"), sheet(rows, "Sheet3"), sheet([["x"]], "Notes"))
    assert [says(r, "site_name") for r in records] == [["Elm Street"], ["Fir Lane"], [None]]
    records, _ = read(sheet(rows, "Elm Street"), sheet([["School: Oak"], *rows], "Fir Lane"))
    assert [says(r, "site_name") for r in records] == [[None], ["Oak"]]
    records, _ = read(sheet(rows, "Elm Street"))
    assert says(records[0], "site_name") == [None]


def test_posts_in_one_cell() -> None:
    heads = ["Site code", *H, "Identical posts"]
    rows = [
        heads, ["A", "N & S", "round", 3.5, 8, None], ["B", "1 to 4", "round", 3.5, 8, 4], ["C", "both", "round", 3.5, 8, None],
        ["D", "1-4", "round", 3.5, 8, None], ["E", "1-1", "round", 3.5, 8, None], ["E", "1-2", "round", 3.5, 8, None],
        ["F", "3/4", "round", 3.5, 8, 1],
    ]  # fmt: skip
    records, wrong = read(sheet(rows))
    assert wrong == []
    assert [says(r, "quantity") for r in records] == [[2], [4], [2], [4], [None], [None], [1]]
    assert how(records[0], "quantity") == (2, "F2", "post_cell")


ASKED = (
    ([["A", "N & S", "round", 3.5, 8, 3]], ["quantity F2 CONFLICT"]),
    ([["A", "all", "round", 3.5, 8, None]], ["quantity F2 MISSING"]),
    ([["A", "1-4", "round", 3.5, 8, None], ["A", "5", "round", 3.5, 8, None]], ["quantity F2 CONFLICT"]),
    (
        [["A", "N & S", "round", 3.5, 8, None], ["A", "N", "round", 3.5, 8, None]],
        ["post_code B2 CONFLICT", "post_code B3 CONFLICT"],
    ),
    ([["A", "N & S", "round", 3.5, 8, None], ["B", "N", "round", 3.5, 8, None]], []),
)


@pytest.mark.parametrize(("rows", "expected"), ASKED)
def test_posts_in_one_cell_that_contradict(rows: list[list[Any]], expected: list[str]) -> None:
    assert read(sheet([["Site code", *H, "Identical posts"], *rows]))[1] == expected


BESIDE = (
    [["School name", "N pole size [in]", "N pole height [ft]", "S pole size [in]", "S pole height [ft]", "Shape"]],
    [["School name", "Size (post 1) [in]", "Height (post 1) [ft]", "Size (post 2) [in]", "Height (post 2) [ft]", "Shape"]],
    [["School name", "Post 1", None, "Post 2", None, "Shape"], [None, "size [in]", "height [ft]", "size [in]", "height [ft]"]],
    [
        ["School name", "North", "North", "South", "South", "Shape"],
        [None, "size [in]", "height [ft]", "size [in]", "height [ft]"],
    ],
)


@pytest.mark.parametrize("heads", BESIDE)
def test_posts_side_by_side(heads: list[list[Any]]) -> None:
    rows = [*heads, ["Elm", 3.5, 8, 4, 9, "round"], ["Fir", 3.5, 8.5, None, None, "round"]]
    records, wrong = read(sheet(rows))
    assert wrong == []
    assert [says(r, "site_name", "post_shape", "post_size", "post_height") for r in records] == [
        ["Elm", "round", 3.5, 8], ["Elm", "round", 4, 9], ["Fir", "round", 3.5, 8.5],
    ]  # fmt: skip
    assert len({(r.label, says(r, "post_code")[0]) for r in records}) == 3
    assert records[1].values["post_code"].how == "group_heading"
    assert (records[1].places["post_size"], records[1].values["post_size"].at) == (f"D{len(heads) + 1}",) * 2


@pytest.mark.parametrize(("stated", "expected"), [(2, []), (None, []), (4, ["quantity G2 CONFLICT"] * 2)])
def test_a_number_outside_the_groups_is_that_of_the_groups(stated: Any, expected: list[str]) -> None:
    rows = [[*BESIDE[0][0], "Identical posts"], ["Elm", 3.5, 8, 4, 9, "round", stated]]
    records, wrong = read(sheet(rows))
    assert wrong == expected
    assert [says(r, "quantity") for r in records] == [[None], [None]]


def test_two_readings_of_one_post_are_not_two_posts() -> None:
    rows = [[*H, "Size 1 [in]", "Size 2 [in]", "Old post size [in]"], ["N", "round", 3.5, 8, 3.4, 3.6, 4]]
    records, _ = read(sheet([["School: Elm"], *rows]))
    assert [says(r, *POST) for r in records] == [["N", "round", 3.5, 8]]


IN_COLUMNS = (
    [["Post", "N", "S"], ["Post shape", "round", '"'], ["Post size [in]", 3.5, 4], ["Height above ground [ft]", 8, 9]],
    [
        ["Post", None, "N", "S"],
        ["Post shape", None, "round", "round"],
        ["Post size", "in", 3.5, 4],
        ["Height above ground", "ft", 8, 9],
    ],
    [[None, None, "N", "S"], ["Shape", None, "round", "round"], ["Size", "in", 3.5, 4], ["Height", "ft", 8, 9]],
)


@pytest.mark.parametrize("rows", IN_COLUMNS)
def test_posts_in_columns(rows: list[list[Any]]) -> None:
    records, wrong = read(sheet([["School", "Elm Street"], None, *rows, None, ["School: Fir Lane"], *rows]))
    assert wrong == []
    assert [says(r, "site_name", *POST) for r in records] == [
        ["Elm Street", "N", "round", 3.5, 8], ["Elm Street", "S", "round", 4, 9],
        ["Fir Lane", "N", "round", 3.5, 8], ["Fir Lane", "S", "round", 4, 9],
    ]  # fmt: skip
    assert len({r.label for r in records}) == 4
    assert records[0].label.startswith("column ")
    first = records[0].values["post_size"]
    assert first.at == first.cell.address == f"{'B' if len(rows[0]) == 3 else 'C'}5"


def test_two_headings_of_one_column_are_rivals() -> None:
    records, wrong = read(sheet([[*S, "Pole height [in]"], ["A", "Elm", "1", "round", 3.5, 8, 96]]))
    assert wrong == ["post_height G1 CONFLICT"]
    assert says(records[0], "post_height") == [8]
    assert [(s.cell.value, s.at) for s in records[0].rivals["post_height"]] == [(96, "G2")]


def test_posts_heads_names_where_another_states_the_number_and_the_number_where_another_names() -> None:
    heads = ["Site code", "Posts", "Qty", *H[1:]]
    records, _ = read(sheet([heads, ["A", "N & S", 2, "round", 3.5, 8]]))
    assert says(records[0], "post_code", "quantity") == ["N & S", 2]
    records, _ = read(sheet([["Site code", "Posts", *H], ["A", 2, "N", "round", 3.5, 8]]))
    assert says(records[0], "post_code", "quantity") == ["N", 2]


def test_rows_after_a_total_are_read_where_they_are_another_sites() -> None:
    rows = [S, ["A", "Elm", "1", "round", 3.5, 8], ["Total", None, None, None, 1], ["B", "Fir", "1", "round", 3.5, 8],
            ["Total", None, None, None, 1], ["B", "Fir", "2", "round", 3.5, 8]]  # fmt: skip
    records, wrong = read(sheet(rows))
    assert [says(r, "site_code") for r in records] == [["A"], ["B"]]
    assert wrong == ["post_code C6 CONFLICT"]


def test_a_heading_that_is_not_known_is_one_question_a_file_and_its_rows_point_to_it() -> None:
    heads = [*S[:5], "How tall is the pole roughly, over the ground", "Form of the thing"]
    rows = [
        heads,
        ["A", "Elm", "1", "round", "3.5 in", "8 ft", "tapered"],
        ["A", "Elm", "2", "round", "3.5 in", "8 ft", "gooseneck"],
    ]
    records, queries, _ = find_records(book(sheet(rows, "May"), sheet(rows, "June")), "a.xlsx")
    asked = {q.cell: (q.code, q.name, q.suggestion, q.holds_row) for q in queries}
    assert asked["G1"] == ("HEADING", "post_line", "Post line", False)
    assert len(queries) == len(asked)
    assert all(r.asked.get("post_line") == "G1" for r in records)
    assert "Is column G, “Form of the thing”, the Post line?" in next(q.message for q in queries if q.cell == "G1")


def test_posts_alone_is_the_number_or_the_names_and_is_asked() -> None:
    records, wrong = read(sheet([["Site code", "Posts", *H[1:]], ["A", "N & S", "round", 3.5, 8], ["A", "E", "round", 3.5, 8]]))
    assert [says(r, "post_code", "quantity") for r in records] == [["N & S", 2], ["E", None]]
    records, wrong = read(sheet([["Site code", "Posts", *H[1:]], ["A", 2, "round", 3.5, 8], ["A", 1, "round", 3.5, 8]]))
    assert wrong == ["quantity B1 HEADING"]
    assert set(records[0].asked) == {"quantity", "post_code"}


def test_what_stands_under_a_group_of_another_thing_is_not_the_post_s() -> None:
    rows = [
        ["Outdoor basketball inventory"],
        [None, None, "POLE", None, None, None, "BACKBOARD", None],
        ["School", "Court", "Shape", "Diameter", "Height", "Qty", "Size", "Condition"],
        ["Adams Elem.", "East", "Round", '4-1/2"', "9'-6\"", 2, "72x42", "Good"],
        ["Clark Middle", "Main", "Square", '4" x 4"', "10'-0\"", 2, "72x42", "Good"],
    ]
    found = [record.values for record in read(sheet(rows))[0]]
    assert [(v["post_size"].cell.column, v["post_height"].cell.column, "condition" in v) for v in found] == [(4, 5, False)] * 2


def test_names_over_columns_of_posts_stand_behind_one_of_units_too() -> None:
    posts = [["Shape", "-", "round", "round"], ["Outside dimension", "mm", 114.3, 114.3], ["Height", "mm", 2998, 3004]]
    rows = [["Site", "Riverside Field"], ["Item", "Unit", "BP1", "BP2"], *posts, ["Attachments", "-", "none", "bolted"]]
    found = [says(r, "post_code", "post_size", "post_height") for r in read(sheet(rows))[0]]
    assert found == [["BP1", 114.3, 2998], ["BP2", 114.3, 3004]]


def test_grounds_over_columns_of_posts_are_their_sites() -> None:
    rows = [[None, "Hazel Park", "Hazel Park", "Rowan Green"], ["Post ref.", "HP1", "HP2", "RG1"],
            ["Shape", "round", "round", "square"],
            ["OD (mm)", 102, 101, 90], ["Height (m)", 3, 3.1, 2.8]]  # fmt: skip
    records, _ = read(sheet(rows))
    assert [says(r, "site_name", "post_code") for r in records] == [
        ["Hazel Park", "HP1"], ["Hazel Park", "HP2"], ["Rowan Green", "RG1"],
    ]  # fmt: skip


def test_a_sentence_over_a_table_names_the_ground_without_its_words() -> None:
    heads, row = ["Post", "Shape", "OD (mm)", "Height (m)"], ["1", "round", 89, 3]
    records, _ = read(sheet([["Our school is St Wilfrid's Primary School and we have three posts."], heads, row]))
    assert says(records[0], "site_name") == ["St Wilfrid's Primary School"]

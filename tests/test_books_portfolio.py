"""The portfolio: sums, links, what waits for whom."""

from __future__ import annotations

import warnings
from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest
from books_made import post, setting, summary, survey_row
from books_open import formulas, opened, recalculated, words

from pipeline.intake.query import Query
from pipeline.sheets.look_first import ranking, reasons
from pipeline.sheets.overview import SITES_DRAWN, summed
from pipeline.sheets.portfolio import portfolio_workbook
from pipeline.sheets.waiting import effect
from schemas.order import natural
from schemas.words import CAUTION

SHEETS = [
    "Overview",
    "Sites",
    "Waits",
    "Customers",
    "Order list",
    "Order by customer",
    "Extensions",
    "Shortfalls",
    "Wanted",
    "Look first",
    "Queries",
    "Promises",
    "Changes",
    "Expired",
    "Reach",
    "Files",
    "Figures",
]
QUERY = Query(
    "a.xlsx", "Posts", "F7", "UNREADABLE", "'about 8 ft' is an estimate.", "Type the height.", True, "S001", "9", "post_height"
)
CHANGE = {
    "site_code": "S001", "revision_was": 1, "revision": 2, "kind": "price", "item": "BD-01", "was": "275.00", "now": "280.00",
    "total_was": "1000.00", "total": "1010.00",
}  # fmt: skip
GONE = {"site_code": "OLD", "site_name": "Old ground", "revision": 3, "workbook": "sites/OLD/OLD-r3.xlsx"}
FILE = {"file": "a.xlsx", "format": "xlsx", "rows": 240, "held": 1, "notes": ("A hidden sheet was read.",)}

WANTED = {
    "rank": 1, "kind": "extension", "post_shape": "round", "size_least_m": 0.0889, "size_most_m": 0.0889, "added_m": 0.61,
    "posts": 12, "sites": 2, "site_codes": "S001;S002",
}  # fmt: skip


def made(sites: int) -> bytes:
    expired = [{"site_code": "S003", "revision": 1, "valid_until": "2026-10-01"}]
    every = (summary(i) for i in range(sites))
    return portfolio_workbook(every, [QUERY], [FILE], [CHANGE], expired, [GONE], [WANTED], setting(), "2026-11-25")


@pytest.fixture(scope="module")
def forty() -> bytes:
    return made(40)


def test_same_bytes_and_no_warning(forty):
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        assert made(40) == forty
    assert opened(forty).sheetnames == SHEETS


def test_empty_portfolio_says_so_everywhere():
    book = opened(portfolio_workbook((), (), (), (), (), (), (), setting(), "2026-11-25"))
    assert book.sheetnames == SHEETS
    assert all(len(words(book, s).splitlines()) > 1 for s in SHEETS)
    assert "Every post that was read has a kit" in words(book, "Shortfalls")


def test_overview_answers(forty):
    text = words(opened(forty), "Overview")
    total = sum(Decimal(f"{1174 + i}.49") for i in range(40))
    assert f"40 sites: 14 ready, 13 to confirm, 13 incomplete. All quotations together: {total:,} USD." in text
    assert "A licensed engineer | to clear: strength of the post (40) | 40 | Shortfalls" not in text
    assert "A licensed engineer | to clear: strength of the post (40) | 40 | Waits" in text
    assert "Senders of surveys | to correct 1 row, from 1 file | 1 | Queries" in text
    assert "The technical desk | posts that no kit fits | 20 | Shortfalls" in text


def test_recalculation_gives_the_stored_results(forty, tmp_path):
    stored, again, live = opened(forty), recalculated(forty, tmp_path), formulas(forty)
    assert len(live) >= 13
    pairs = {place: (stored[place[0]][place[1]].value, again[place[0]][place[1]].value) for place in live}
    assert {place: pair for place, pair in pairs.items() if pair[0] != pair[1]} == {}


def test_sites_are_linked_to_their_workbooks(forty):
    sheet = opened(forty)["Sites"]
    links = {row[0].value: cell.hyperlink.target for row in sheet.iter_rows() for cell in row if cell.hyperlink}
    assert links["S007"] == "sites\\S007\\S007-r1.xlsx", "as Excel writes a link to a file"
    assert len(links) == 40


def test_what_the_catalogue_lacks_is_in_the_sites_units(forty):
    text = words(opened(forty), "Wanted")
    assert "1 | an extension of at least 2 ft 1 in for round posts of 3 1/2 in | 12 | 2 | S001, S002" in text


def test_order_list_and_reach_are_sums(forty):
    book = opened(forty)
    assert "MT-01 | mount | Clamp mount 1 | 200 | 76000 | 1 | 40" in words(book, "Order list")
    assert "Alder Valley Schools | MT-01 | mount | Clamp mount 1 | 200 | 400 | 5 | 76000 | 40" in words(book, "Order by customer")
    assert "MT-01 | Clamp mount 1 | 240 | 160 | 40 | 40 | 40 | 0" in words(book, "Reach")
    assert "BD-01 | Board 1 | 160" in words(book, "Reach")
    assert "OLD | 3 | OLD-r3 | Old ground" in words(book, "Changes")


def test_pictures_are_there_and_say_what_they_leave_out(forty):
    assert len(opened(forty)["Overview"]._charts) == 3
    outcomes = opened(forty)["Figures"].tables["outcomes_by_site"].ref
    assert outcomes == f"A3:E{3 + SITES_DRAWN}"


def test_sums_are_in_a_fixed_order():
    assert list(summed([{"b10": 1, "b9": 1, "none": 0}, {"a": 3}])) == ["a", "b9", "b10"]


def test_outcomes_stand_in_the_order_of_the_sites():
    book = opened(made(40))
    table = book["Figures"].tables["outcomes_by_site"]
    codes = [row[0].value for row in book["Figures"][table.ref][1:]]
    assert codes == sorted(codes, key=natural)
    assert len(codes) == SITES_DRAWN


@pytest.mark.parametrize(
    ("code", "holds", "said"),
    [
        ("UNREADABLE", True, "holds the row"),
        ("ASKED", False, "quoted all the same"),
        ("NO_HEADINGS", False, "nothing could be read"),
        ("UNREADABLE_FILE", False, "nothing could be read"),
    ],
)
def test_effect_of_a_query(code, holds, said):
    assert effect(replace(QUERY, code=code, holds_row=holds)).value == said


@pytest.mark.parametrize(
    "sheet", ["Overview", "Sites", "Customers", "Order list", "Extensions", "Shortfalls", "Reach", "Figures"]
)
def test_cautions_stand_wherever_a_fit_is_shown(forty, sheet):
    assert CAUTION in words(opened(forty), sheet)


def looked_at(code: str, urgency: int, reasons: list[str], value: float = 0.5) -> dict[str, Any]:
    return {"post_code": code, "quantity": 1, "answer": "", "style": "text", "urgency": urgency, "share": "", "value": value,
            "reasons": reasons}  # fmt: skip


def test_the_posts_to_look_at_first_stand_first():
    """Band, then what weighs most, then the share, then natural order."""
    posts = [
        ("S2", looked_at("1", 0, [])),
        ("S1", looked_at("10", 4, [], 1.2)),
        ("S1", looked_at("9", 4, [], 1.2)),
        ("S1", looked_at("2", 3, ["condition not known", "wall not known", "footing not known"])),
        ("S1", looked_at("3", 3, ["driven"])),
        ("S1", looked_at("4", 4, [], 1.3)),
    ]
    assert [(s, p["post_code"]) for s, p in ranking(posts)] == [
        ("S1", "4"), ("S1", "9"), ("S1", "10"), ("S1", "3"), ("S1", "2"), ("S2", "1"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"post_base": "driven", "footing_depth": 1.0}, ["driven"]),
        ({"post_base": None, "condition": None}, ["base not known", "condition not known", "footing not known"]),
        ({"footing_depth": 1.0, "footing_diameter": 0.4}, []),
        ({"post_base": "base plate"}, []),
    ],
)
def test_why_to_look_at_a_post_is_said(changes, said):
    assert list(reasons(replace(post("1"), row=survey_row("1", **changes)))) == said


def test_customers_are_sums_of_their_sites(forty):
    text = words(opened(forty), "Customers")
    total = float(sum(Decimal(f"{1174 + i}.49") for i in range(40)))
    assert "Alder Valley Schools | Incomplete | 40 | 240" in text
    assert str(total) in text


def test_lengths_stand_in_the_units_of_most_sites(forty):
    book = opened(forty)
    assert "Short by [ft-in]" in words(book, "Extensions")
    assert "[m]" not in words(book, "Extensions") + words(book, "Shortfalls")

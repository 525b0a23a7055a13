"""The quotation that is sent: what it says, that its sums are live and right, and that nothing of the desk's stands in it."""

# ruff: noqa: E501 (tables of texts)

from __future__ import annotations

import json
import re
import warnings
from decimal import Decimal

import pytest
from books_open import formulas, opened, recalculated, words
from customers_made import CHOICES, dozen, one, site, strange

from pipeline.sheets.customer_lines import MONEY, grouped, totals
from pipeline.sheets.customer_report import as_plain, from_plain
from pipeline.sheets.customer_workbook import customer_workbook
from schemas.words import CAUTION, CAUTION_IN_SHORT, ON_SITE_CHECKS

SHEETS = ["Quote", "Posts", "Options", "To confirm"]
DESK = r"house default|\(memory\)|documented default|[Rr]ank|fingerprint|margin|technical desk|policy|ledger"
"""Words of the desk's own: they have no place in what is sent."""


@pytest.mark.parametrize("make", [one, dozen, strange])
def test_every_quotation_is_whole(make):
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        data = customer_workbook(make())
        book = opened(data)
    assert book.sheetnames[:4] == SHEETS
    assert data == customer_workbook(make())
    assert set(book.defined_names) == {f"quote_{name}" for name in MONEY}
    for sheet in book:
        assert CAUTION in words(book, sheet.title)
        assert CAUTION_IN_SHORT in str(sheet.oddHeader.center.text)
        assert not re.search(DESK, words(book, sheet.title))


@pytest.mark.parametrize("make", [one, dozen])
def test_recalculation_gives_the_stored_results(make, tmp_path):
    data = customer_workbook(make())
    stored, again, live = opened(data), recalculated(data, tmp_path), formulas(data)
    pairs = {place: (stored[place[0]][place[1]].value, again[place[0]][place[1]].value) for place in live}
    assert {place: pair for place, pair in pairs.items() if pair[0] != pair[1]} == {}
    whole = sum((s.total for s in make().sites), Decimal(0))
    ((sheet, cell),) = list(stored.defined_names["quote_total"].destinations)
    assert stored[sheet][cell].value == float(whole)


def test_lines_are_the_sums_of_the_sites_lines():
    made = dozen()
    every = [line for kind in ("goods", "service") for line in grouped(made.sites, kind)]
    assert sum((line.line_total for line in every), Decimal(0)) == totals(made.sites)["net"]
    assert len(every) == 4, "one line an item and unit price, over all sites"
    assert every[0].quantity == 48


def test_a_site_goes_through_json_and_back():
    made = site(3)
    assert from_plain(json.loads(json.dumps(as_plain(made)))) == made


def test_it_says_what_must_be_signed_and_what_is_open():
    book = opened(customer_workbook(one()))
    text = words(book, "Quote")
    for part in (
        "Harrow Court Supply", "14 Mill Lane", "tax number HC-4471", "Alder Valley Schools", "each site, gate office", "30 days net",
        "4 to 6 weeks from order", "Not included", "Post 9 | Not quoted until the survey is corrected.", "Post 5 | Nothing that we can offer",
        "The fit at 1 post must be confirmed on site", "Strength or footing at 3 posts must be looked at by a licensed engineer",
        "Acceptance", "Signature", "Order number", "Thank you",
    ):  # fmt: skip
        assert part in text, part
    assert all(f"{what}: {say}" in words(book, "To confirm") for what, say in ON_SITE_CHECKS)
    assert "a licensed engineer, and nobody else" in words(book, "To confirm")
    assert [c for c in CHOICES if c in words(book, "Options").lower()] == list(CHOICES)
    assert book.properties.creator == "Harrow Court Supply"


def test_without_a_seller_it_says_so():
    assert "The seller's particulars are wanting" in words(opened(customer_workbook(strange())), "Quote")


def test_nothing_from_outside_is_a_formula():
    assert all(re.match(r"=(ROUND|[A-G]\d+$)", f) for f in formulas(customer_workbook(strange())).values())


def test_paper_follows_the_policy():
    assert {s.page_setup.paperSize for s in opened(customer_workbook(dozen()))} == {9}
    assert {s.page_setup.paperSize for s in opened(customer_workbook(one()))} == {1}

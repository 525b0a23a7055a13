"""The site workbook: what it says, that it is safe, and that its stored results are what a recalculation gives."""

from __future__ import annotations

import math
import re
import warnings
from dataclasses import replace
from decimal import Decimal
from itertools import product

import pytest
from books_made import AWKWARD, awkward, kit, large, post, report, setting, small, survey_row, totals
from books_open import formulas, opened, recalculated, words
from hypothesis import given, settings
from hypothesis import strategies as st

from pipeline.sheets.line_formula import line_total
from pipeline.sheets.load_words import BANDS, answer, footing, takes
from pipeline.sheets.report import QuoteLine, Totals
from pipeline.sheets.site_workbook import site_workbook
from pipeline.sheets.viable_kits import against, marks
from pipeline.xlsx.styles import PALETTE
from pipeline.xlsx.wrap import clean
from schemas.words import CAUTION, NOT_LOOKED_AT, ON_SITE_CHECKS

SHEETS = ["Quote", "Posts", "Viable kits", "Shortfalls", "Extensions", "Loads", "Survey", "Basis"]
NAMES = {"quote_net", "quote_freight", "quote_tax", "quote_total"}


@pytest.fixture(scope="module")
def small_book() -> bytes:
    return site_workbook(small(), setting())


def named(book, name):
    ((sheet, cell),) = list(book.defined_names[name].destinations)
    return book[sheet][cell].value


@pytest.mark.parametrize("make", [small, awkward, lambda: report(()), lambda: report((post("1"),))])
def test_every_workbook_is_whole(make):
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        data = site_workbook(make(), setting())
        book = opened(data)
    assert book.sheetnames[:8] == SHEETS
    assert set(book.defined_names) == NAMES
    assert data == site_workbook(make(), setting())
    for sheet in book:
        assert sheet.max_row > 1, f"{sheet.title} says nothing"
        ranges = [openpyxl_range(t.ref) for t in sheet.tables.values()]
        assert not [m for m in sheet.merged_cells.ranges if any(overlap(m.bounds, r) for r in ranges)]
    tables = [name for sheet in book for name in sheet.tables]
    assert len(tables) == len(set(tables))


def openpyxl_range(ref):
    from openpyxl.utils import range_boundaries

    return range_boundaries(ref)


def overlap(a, b):
    return a[0] <= b[2] and b[0] <= a[2] and a[1] <= b[3] and b[1] <= a[3]


def test_totals_are_live_and_stored(small_book):
    made, book, live = small(), opened(small_book), opened(small_book, values=False)
    for name, amount in (
        ("net", made.totals.net),
        ("freight", made.totals.freight),
        ("tax", made.totals.tax),
        ("total", made.totals.total),
    ):
        assert named(book, f"quote_{name}") == float(amount)
        assert str(named(live, f"quote_{name}")).startswith("=")


def half_cents() -> list[QuoteLine]:
    """Lines whose exact total ends in half a cent, where binary numbers like to fall to the wrong side."""
    discounts = ("2.5", "5", "7.5", "12.5", "33.25", "0")
    prices = (f"{n}.{c:02d}" for n, c in product((0, 1, 2, 19, 333, 1004, 24999), (1, 5, 15, 25, 35, 45, 55, 67, 75, 85, 99)))
    made = []
    for price, (discount, count) in product(prices, [(d, q) for d in discounts for q in (1, 3, 50)]):
        line = QuoteLine("goods", "X", "x", count, Decimal(price), Decimal(price), Decimal(discount), Decimal(0))
        exact = count * line.unit_price * (1 - line.discount_percent / 100)
        if exact * 1000 % 10 == 5 or discount == "0":
            made.append(replace(line, line_total=line_total(line, 2)))
    assert len(made) > 200
    return made


def test_recalculation_gives_the_stored_results(tmp_path):
    lines = tuple(half_cents())
    made = replace(small(), lines=lines, totals=totals(lines, "0.08875"))
    data = site_workbook(made, setting())
    stored, again, live = opened(data), recalculated(data, tmp_path), formulas(data)
    assert len(live) > len(lines)
    wrong = {place: (stored[place[0]][place[1]].value, again[place[0]][place[1]].value) for place in live}
    assert {place: pair for place, pair in wrong.items() if pair[0] != pair[1]} == {}
    assert named(stored, "quote_total") == float(made.totals.total)


def test_a_currency_without_a_minor_unit_has_no_decimals():
    lines = (QuoteLine("goods", "X", "x", 3, Decimal(1001), Decimal(1001), Decimal("2.5"), Decimal(2928)),)
    nothing = Decimal(0)
    sums = Totals(Decimal(2928), nothing, nothing, nothing, Decimal(2928), 1.0)
    made = report((post("1"),), lines=lines, currency="JPY", totals=sums)
    data = site_workbook(made, setting())
    assert named(opened(data), "quote_total") == 2928
    assert any(f.endswith(",8),0)") for f in formulas(data).values())


def test_a_line_that_the_formula_would_not_give_is_a_plain_number():
    odd = QuoteLine("goods", "X", "x", 1, Decimal("1.00"), Decimal("1.00"), Decimal(0), Decimal("0.99"))
    data = site_workbook(report((post("1"),), lines=(odd,), totals=totals((odd,))), setting())
    assert not [f for (sheet, _), f in formulas(data).items() if "*(1-" in f]


def test_quote_says_what_a_customer_must_know(small_book):
    text = words(opened(small_book), "Quote")
    for part in (
        "ALDER-r2", "Alder Valley Schools", "2026-12-25", "What changed since r1", "was 5,120.75, is now",
        "Post 9 | Not quoted until the survey is corrected. 'about 8 ft' is an estimate in words. Instead: Type the height alone",
        "Post 5 | No kit fits this post. What would help: Strip the welded bracket", "look for a circumference of 10.99",
        "a licensed engineer, and nobody else", "Posts 3 and 8 | The rough load is over",
        "Post 4: The strength is not known",
        "Board BD-99 is withdrawn.", CAUTION, *(say for _, say in ON_SITE_CHECKS),
    ):  # fmt: skip
        assert part in text, part


def test_cautions_stand_on_every_sheet(small_book):
    book = opened(small_book)
    assert [s for s in book.sheetnames if CAUTION not in words(book, s)] == []
    assert NOT_LOOKED_AT in words(book, "Loads")


def test_loads_are_never_a_wrong_zero(small_book):
    sheet = opened(small_book)["Loads"]
    rows = [r for r in sheet[sheet.tables["loads_rough"].ref] if r[0].value in ("4", "8")]
    assert [[c.value for c in r[2:4]] for r in rows] == [["not known"] * 2, ["too slender for this screen"] * 2]
    nothing = kit(moment_play=float("nan"), moment_storm=float("nan"), utilisation_play=None, utilisation_storm=None)
    data = site_workbook(report((replace(post("1"), kits=(nothing,)),)), setting())
    assert words(opened(data), "Loads").count("not computed") >= 3


def test_survey_does_not_depend_on_the_order_of_rows():
    one = report((post("1", 2), post("2", 3)))
    other = report((post("1", 9), post("2", 4)))
    assert site_workbook(one, setting()) == site_workbook(other, setting())


def test_survey_names_the_cell_of_a_held_row(small_book):
    text = words(opened(small_book), "Survey")
    assert "about 8 ft: district.xlsx, Posts, F10" in text
    assert 'Post size | 3 1/2" | 3 1/2 in | every post' in text
    assert "Customer | Alder Valley Schools | Alder Valley Schools | every post" in text


def test_nothing_from_outside_is_a_formula():
    data = site_workbook(awkward(), setting())
    assert not [f for f in formulas(data).values() if "HYPERLINK" in f or "SUM(A1)" in f]
    text = words(opened(data), "Quote")
    assert AWKWARD in text
    assert "ملعب" in text


def test_marks_and_differences():
    kits = (kit(1), kit(2, unit_price=Decimal(600)), kit(3), kit(5, covered=2))
    items = setting().items
    assert marks(kits, items) == ["recommended, widest range of heights", "least price", "", "widest board"]
    assert against(kits[3], kits[0], items, True) == (
        "board 8 in wider; steel face for acrylic; continuous for stepped; serves 1 ring height more"
    )


@pytest.mark.parametrize(("feet", "other"), [(True, r"\d mm\b"), (False, r"\d (ft|in|lb|mph)\b")])
def test_one_unit_system_a_sheet_where_nothing_is_computed(feet, other):
    book = opened(site_workbook(replace(small(), feet=feet), setting()))
    for sheet in ("Viable kits", "Shortfalls", "Extensions"):
        assert not re.search(other, words(book, sheet).replace("extension, 24 in", "")), sheet
    if not feet:
        assert not re.search(other, words(book, "Loads"))


def test_a_footer_that_begins_with_a_digit_is_no_font_size():
    data = site_workbook(report((post("1"),), site_code="12"), setting())
    assert opened(data)["Quote"].oddFooter.left.text.strip().startswith("12-r1")


def test_four_hundred_posts_are_all_there():
    book = opened(site_workbook(large(), setting()))
    rows = book["Posts"][book["Posts"].tables["posts_answer"].ref][1:]
    assert sum(row[1].value for row in rows) == 400
    assert len(rows) < 20, "posts that say the same share a row"


@settings(max_examples=12, deadline=None)
@given(st.lists(st.text(st.characters(), max_size=60), min_size=6, max_size=6))
def test_any_text_gives_a_workbook_that_opens(texts):
    name, customer, code, remedy, notes, word = texts
    row = survey_row(code, typed={"notes": notes}, notes=notes)
    sentence = replace(post(code, kits=0, remedy=remedy, taken=(word,)), row=row)
    other = replace(post(code + "2", kits=1), row=survey_row(code + "2"))
    made = report((sentence, other), site_name=name, customer=customer, remarks=(word,), site_code=code or "X")
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        data = site_workbook(made, setting())
        book = opened(data)
    assert book["Quote"]["B2"].value == (clean(customer) if customer else "not stated on the survey")
    assert all(re.match(r"=(ROUND|SUMPRODUCT|G\d+$)", f) for f in formulas(data).values())


@pytest.mark.parametrize(
    ("state", "play", "storm", "needed", "material", "said"),
    [
        ("within", 0.5, 0.9, 0.004, "steel", "more than 80 % of the rough strength: have a licensed engineer"),
        ("within", 0.5, 0.7, 0.004, "steel", "of a sound post with its full wall. The load takes 60 to 80 %"),
        ("over", 1.2, 0.9, 0.004, "steel", "120 % of the rough strength: only a licensed engineer"),
        ("over", math.inf, 0.9, 0.004, "steel", "too slender for this screen: only a licensed engineer"),
        ("unknown", None, None, 0.00405, "steel", "look for a wall of at least 4.1 mm"),
        ("unknown", None, None, None, "wood", "for steel posts only"),
        ("unknown", None, None, None, "steel", "no wall of a steel tube"),
    ],
)
def test_loads_say_it_in_plain_words(state, play, storm, needed, material, said):
    found = replace(post("1"), row=survey_row("1", material=material))
    shown = replace(found.kits[0], load_state=state, utilisation_play=play, utilisation_storm=storm, wall_needed=needed)
    assert said in takes(found, shown, feet=False)


def test_no_load_is_ever_green():
    shares = (0.0, 0.6, 0.61, 0.8, 0.81, 1.0, 1.01, math.inf)
    looks = {answer(replace(post("1").kits[0], utilisation_play=u, load_state="within" if u <= 1 else "over"))[1] for u in shares}
    looks |= {answer(replace(post("1").kits[0], utilisation_play=None, load_state="unknown"))[1], *(band[2] for band in BANDS)}
    assert looks == {"text", "check", "bad"}


def test_nothing_beside_a_load_is_green(small_book):
    """Not even the fit: a reader takes a green cell for the whole row."""
    book = opened(small_book)
    for sheet in ("Posts", "Viable kits", "Loads"):
        cells = [c for row in book[sheet].iter_rows() for c in row if c.value is not None]
        assert "Fits" in [c.value for c in cells] or sheet == "Loads"
        assert [c.coordinate for c in cells if f"#{str(c.font.color.rgb)[2:]}" == PALETTE["good"][0]] == []


# between two marks of the tape: reach and shortfall of a mount, highest and lowest setting of a kit [m]
BETWEEN = {"reach": 2.43888, "short": 0.60909, "top": 3.04733, "lowest": 2.43888}


@pytest.mark.parametrize(
    ("feet", "short", "reach", "top", "both"),
    [(True, "2 ft", "8 ft", "9 ft 11 15/16 in", "9 ft 11 15/16 in (3.047 m)"), (False, "610", "2438", "3047 mm", "3047 mm")],
)
def test_heights_are_shown_on_the_safe_side(feet, short, reach, top, both):
    lowest = "8 ft 1/16 in" if feet else "2439 mm"
    near = replace(post("2").mounts[0], verdict="not_viable", failed=("HEIGHT",), ring_height_max=BETWEEN["reach"],
                   shortfall=BETWEEN["short"])  # fmt: skip
    with_kit = replace(post("1"), kits=(kit(top=BETWEEN["top"], lowest=BETWEEN["lowest"]),))
    without = replace(post("2", kits=0), mounts=(near,))
    book = opened(site_workbook(report((with_kit, without), feet=feet), setting()))
    assert f" {both} " in words(book, "Posts").replace("|", " ")
    assert f"ring {lowest} to {top}" in words(book, "Viable kits")
    rows = [[str(c.value) for c in row] for row in book["Shortfalls"].iter_rows()]
    (said,) = [row for row in rows if near.mount in row]
    assert said[3:5] == [short, reach]
    assert f"{short if feet else short + ' mm'} of post wanting" in said[6]


@pytest.mark.parametrize(
    ("base", "depth", "diameter", "needed", "said", "look"),
    [
        ("cast in", 1.4, 0.45, 1.31, "1320 mm needed, 1400 mm stated", "text"),
        ("cast in", 1.2, 0.45, 1.31, "TOO SHALLOW", "bad"),
        ("cast in", None, 0.45, 1.31, "depth not stated", "check"),
        ("cast in", 1.4, None, 1.31, "diameter not stated", "check"),
        ("driven", 1.4, None, 1.31, "stated", "text"),
        ("base plate", None, None, None, "anchors: an engineer", "check"),
        ("cast in", 1.4, 0.45, None, "not known", "check"),
    ],
)
def test_the_footings_answer_stands_beside_the_strengths(base, depth, diameter, needed, said, look):
    row = survey_row("1", post_base=base, footing_depth=depth, footing_diameter=diameter)
    found = replace(post("1"), row=row)
    words, style = footing(found, replace(found.kits[0], footing_depth_needed=needed), feet=False)
    assert said in words
    assert style == look

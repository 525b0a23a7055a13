"""Readings that one wrong comparison or constant in the grammar would change without any other test noticing."""

from __future__ import annotations

import openpyxl
import pytest
from catalogue_made import sheets, write

from pipeline.intake.catalogue import read_catalogue
from pipeline.intake.measures import Doubt, Measure, read_measure, read_post_size


@pytest.mark.parametrize(
    ("value", "unit"), [(0.0725, "100 %"), (7.25, "%"), ("7.25 %", ""), ("0.0725", ""), (0.0725, "")]
)  # fmt: skip
def test_a_rate_is_a_fraction_however_it_is_written(value, unit):
    found = read_measure(value, "number", unit)
    assert isinstance(found, Measure)
    assert float(found.value) == pytest.approx(0.0725, rel=1e-12)


@pytest.mark.parametrize(("shown", "stored"), [("0.00%", 0.0725), ("0%", 0.07), ("General", 0.0725)])
def test_a_tax_rate_in_a_cell_that_is_formatted_as_percent(tmp_path, shown, stored):
    """What the cell shows as 7.25 % is stored as 0.0725 (ECMA-376, 18.8.30) and is a rate of 0.0725, no ten thousandth of it."""
    path = write(sheets(), tmp_path / "catalogue.xlsx")
    book = openpyxl.load_workbook(path)
    for row in book["Policy"].iter_rows():
        if row[0].value == "tax_rate":
            row[1].value, row[1].number_format = stored, shown
    book.save(path)
    assert float(read_catalogue(path).policy["tax_rate"]) == stored


NO_ONE_READING = [
    ("angle", "1/20", "NO_UNIT", ("1:20", "1/20 deg")),
    ("angle", "1/2", "NO_UNIT", ("1/2 deg",)),
    ("angle", "30'", "UNREADABLE", ("30 deg",)),
    ("angle", '5 1/2"', "UNREADABLE", ("5 1/2 deg",)),
    ("length", "2 m 59", "UNREADABLE", ("2.59 m", "2 m 59 mm")),
    ("length", "2 m 5", "UNREADABLE", ()),
    ("length", "2 m 590", "UNREADABLE", ()),
    ("length", "2 m - 59", "UNREADABLE", ()),
    ("length", "2 cm 59", "UNREADABLE", ()),
]


@pytest.mark.parametrize(("kind", "typed", "code", "readings"), NO_ONE_READING)
def test_a_doubt_names_the_readings_and_no_others(kind, typed, code, readings):
    found = read_measure(typed, kind, "")
    assert isinstance(found, Doubt)
    assert found.code == code
    for reading in ("1:20", "1/20 deg", "1:2", "1/2 deg", "30 deg", "5 1/2 deg", "2.59 m", "2 m 59 mm", "2.5 m", "2.590 m"):
        said = reading in f"{found.message} {found.suggestion}".replace("1:20,", "1:20 ,")
        assert said == any(reading in r for r in readings), reading


@pytest.mark.parametrize("below", [2, 4, 8, 16, 32, 64, 128])
def test_inches_are_measured_in_halves_of_halves(below):
    found = read_measure(f'3 1/{below}"', "length", "")
    assert isinstance(found, Measure)
    assert float(found.value) == pytest.approx((3 + 1 / below) * 0.0254, rel=1e-12)


@pytest.mark.parametrize("below", [3, 5, 6, 10, 12, 20, 25, 50, 100, 1000])
def test_other_parts_that_people_measure_in(below):
    found = read_measure(f'3 1/{below}"', "length", "")
    assert isinstance(found, Measure)
    assert float(found.value) == pytest.approx((3 + 1 / below) * 0.0254, rel=1e-12)


@pytest.mark.parametrize("below", [7, 9, 11, 13, 14, 15, 17, 24, 30, 31, 33, 63, 65, 127, 129, 256, 99, 101, 999])
def test_nobody_measures_in_other_parts(below):
    assert isinstance(read_measure(f'3 1/{below}"', "length", ""), Doubt)


@pytest.mark.parametrize(
    ("typed", "units"),
    [("30 x 30", ["mm", "cm"]), ("29 x 29", ["cm"]), ("500 x 500", ["mm"]), ("501 x 501", []), ("4 x 4", ["in", "cm"])],
)
def test_sides_without_a_unit_offer_the_units_that_a_post_could_have(typed, units):
    """30 to 500 mm across."""
    found = read_post_size(typed, "")
    assert isinstance(found, Doubt)
    assert found.code == "NO_UNIT"
    assert [u for u in ("in", "mm", "cm") if f"{typed} {u}" in f"{found.message} {found.suggestion}"] == units


@pytest.mark.parametrize("typed", ["13.5 ft (4.5 m)", "89 mm / 4.5 in", "46 in (130 cm)"])
def test_two_measures_that_do_not_agree_are_named_as_such(typed):
    found = read_measure(typed, "length", "")
    assert isinstance(found, Doubt)
    assert found.code == "UNREADABLE"
    assert "says two measures that do not agree" in found.message

"""Readings that one wrong comparison or constant in the grammar would change without any other test noticing."""

from __future__ import annotations

import openpyxl
import pytest
from catalogue_made import sheets, write

from pipeline.intake.catalogue import read_catalogue
from pipeline.intake.measures import (
    Doubt,
    Measure,
    format_unit,
    read_decimal,
    read_lengths,
    read_measure,
    read_post_size,
    read_whole,
)
from pipeline.intake.measures.text import LONGEST


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


READINGS = [
    ("8-9", "", ("8 ft 9 in",)), ("8-9", "ft", ("8 ft 9 in", "8 ft", "9 ft")), ("8-13", "ft", ("8 ft", "13 ft")),
    ("8-9 in", "", ("8 ft 9 in", "8 in", "9 in")), ("8-9 mm", "", ("8 mm", "9 mm")), ("8.5-9", "m", ("8.5 m", "9 m")),
    ("8 6", "ft", ("8 ft 6 in", "8 ft", "6 ft")), ("8 - 9", "ft-in", ("8-9", "8 ft", "9 ft")), ("8-9 1/2", "ft", ()),
    ("8'14\"", "", ("9 ft 2 in", "8 ft", "14 in")), ("8' 12\"", "", ("9 ft 0 in", "8 ft", "12 in")),
    ("8'-9", "", ("8 ft 9 in", "8 ft")),
    ("8ft2", "", ("8 ft 2 in", "8 ft")), ("8ft3", "", ("8 ft 3 in", "8 ft")), ("8' .5", "", ("8 ft .5 in",)),
    ("8' 1/2", "", ("8 ft 1/2 in", "8 1/2 ft")), ("ft 8", "", ("8 ft",)),
    ("2 yd 3 ft", "", ("2 yd", "3 ft")), ("2 m 100 cm", "", ("2 m", "100 cm")), ("6 in 8 ft", "", ("6 in", "8 ft")),
    ("1 m 5 ft", "", ("1 m", "5 ft")), ("height -8 ft", "", ("8 ft",)), ('3" 1/2', "", ()), ("3in1/2", "", ()), ("8 -ft", "", ()),
    ("8ft.6in", "", ("8 ft 6 in", "8 ft 0.6 in")),
    ('11/2"', "", ("1 1/2 in", "5.5 in")), ('10/2"', "", ("5 in",)), ('12/2"', "", ("6 in",)), ('3 11/2"', "", ()),
    ("11/2 9/4", "in", ()), ('0/16"', "", ()), ("2 m - 40 cm", "", ()), ("8-6 m", "ft-in", ()),
]  # fmt: skip
"""What has several meanings, and the readings that its query names (contract section 2)."""


@pytest.mark.parametrize(("typed", "unit", "readings"), READINGS)
def test_the_query_names_the_readings(typed, unit, readings):
    found = read_measure(typed, "length", unit)
    assert isinstance(found, Doubt)
    assert (found.code, found.readings) == ("UNREADABLE", readings)


@pytest.mark.parametrize(
    ("typed", "unit", "inches"),
    [("8'2", "", 98), ("8 ft 3", "", 99), ("8'-6", "", 102), ("8' 6.5", "", 102.5), ("8-9", "ft-in", 105),
     ("8 6 1/2", "ft-in", 102.5), ("8' 1/3\"", "", 96 + 1 / 3), ("1e2 in", "", 100), ("1." + "0" * 39 + " in", "", 1),
     ('3"1/2', "", 3.5), ('8\'3"1/2', "", 99.5), ("8-ft", "", 96), ("8' 11 15/16\"", "", 107.9375), ("- 8.5 ft", "", -102)],
)  # fmt: skip
def test_what_has_one_meaning_is_read(typed, unit, inches):
    found = read_measure(typed, "length", unit)
    assert isinstance(found, Measure)
    assert float(found.value) == pytest.approx(inches * 0.0254, rel=1e-12)


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


@pytest.mark.parametrize(("typed", "agrees"), [("10.0 in (255.27 mm)", True), ("10.0 in (255.30 mm)", False)])
def test_two_measures_agree_within_half_a_step_of_the_coarser(typed, agrees):
    """Half of 0.1 in is 1.27 mm."""
    assert isinstance(read_measure(typed, "length", ""), Measure) is agrees


@pytest.mark.parametrize("typed", ["13.5 ft (4.5 m)", "89 mm / 4.5 in", "46 in (130 cm)"])
def test_two_measures_that_do_not_agree_are_named_as_such(typed):
    found = read_measure(typed, "length", "")
    assert isinstance(found, Doubt)
    assert found.code == "UNREADABLE"
    assert "says two measures that do not agree" in found.message


@pytest.mark.parametrize("typed", ["1e-13 m", "1e13 m", "1e12 m", "1." + "0" * 40 + " m"])
def test_a_number_that_no_measure_needs_is_a_slip(typed):
    found = read_measure(typed, "length", "")
    assert isinstance(found, Doubt)
    assert found.code == "UNREADABLE"


SECTIONS = [
    ("100 x 19.9 mm", 0.1, "", 0.0199), ("100 x 20 mm", None, "", None), ("200 x 25.4 mm", 0.2, "", 0.0254),
    ("200 x 25.5 mm", None, "", None), ("100 x 100 x 19.9 mm", 0.1, "square", 0.0199), ("100 x 100 x 20 mm", None, "", None),
    ("HSS20x0.375", 0.508, "round", 0.009525), ("HSS20.5x0.375", None, "", None), ("SHS 100x5 mm", 0.1, "square", 0.005),
    ("89 x 0 mm", None, "", None),
]  # fmt: skip


@pytest.mark.parametrize(("typed", "size", "shape", "wall"), SECTIONS)
def test_a_wall_is_less_than_a_fifth_of_the_size_and_at_most_25_mm(typed, size, shape, wall):
    """Source: contract section 2 for the fifth; AISC Manual table 1-13, round sections up to 20 in (memory)."""
    found = read_post_size(typed, "")
    assert isinstance(found, Doubt) == (size is None)
    if isinstance(found, Measure):
        assert (float(found.value), found.shape, float(found.wall)) == (pytest.approx(size), shape, pytest.approx(wall))


@pytest.mark.parametrize(
    "read", [read_whole, read_decimal, lambda t: read_measure(t, "length", "m"), lambda t: read_post_size(t, "in")]
)
def test_the_longest_text_that_is_read(read):
    assert not isinstance(read("4".ljust(LONGEST)), Doubt)
    assert isinstance(read("4".ljust(LONGEST + 1)), Doubt)


@pytest.mark.parametrize("value", [None, True, b"8"])
def test_what_is_no_text_and_no_number_is_no_measure(value):
    assert read_measure(value, "length", "ft").message.endswith("is not a measure.")
    assert read_post_size(value, "in").message.endswith("is not a size.")
    assert read_lengths(value, "ft").message.endswith("is not a measure.")
    assert read_whole(value).message.endswith("is not a whole number.")
    assert read_decimal(value).message.endswith("is not a number.")


def test_what_cannot_be_seen_stands_as_a_space_in_a_query():
    assert read_whole("4\u200bx\x07y").message == "“4 x y” is not a whole number."


def test_the_longest_list_and_the_longest_format_that_are_looked_at():
    assert len(read_lengths("8;" * 5 * LONGEST, "ft")) == 5 * LONGEST
    assert "is too long for a list of lengths" in read_lengths("8;" * 5 * LONGEST + " ", "ft").message
    assert format_unit('0.0" mm"'.ljust(200)) == "mm"
    assert format_unit('0.0" mm"'.ljust(201)) == ""


@pytest.mark.parametrize(
    ("value", "whole", "decimal"),
    [(999_999_999_999.0, True, True), (1e12, True, False), (999_999_999_999_999.0, True, False), (1e15, False, False),
     ("999999999", True, True), ("1000000000", False, True), ("1" * 15, False, True), ("1" * 16, False, False)],
)  # fmt: skip
def test_the_greatest_numbers_that_are_read(value, whole, decimal):
    assert (not isinstance(read_whole(value), Doubt), not isinstance(read_decimal(value), Doubt)) == (whole, decimal)


@pytest.mark.parametrize(
    ("typed", "read"), [("125.6 mm round", True), ("125.7 mm round", False), ("15 NB", True), ("12 NB", False)]
)
def test_round_may_be_round_the_post_from_40_mm_across_and_a_bore_in_inches_up_to_12(typed, read):
    """Source: pi x 40 mm is 125.66 mm; 12 NB is NPS 12 or no DN, 15 NB is DN 15 (ASME B36.10M)."""
    assert isinstance(read_post_size(typed, ""), Doubt) is not read

"""Laws of the grammar: what is printed is read back; no text raises; nothing without a digit is a number."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import example, given, settings
from hypothesis import strategies as st

from pipeline.intake.measures import (
    Doubt,
    Measure,
    PipeSize,
    format_unit,
    heading_unit,
    read_decimal,
    read_lengths,
    read_measure,
    read_post_size,
    read_whole,
)
from schemas.survey import SIZE_BASES

INCH = Fraction(254, 10000)
KINDS = ("length", "angle", "speed", "mass", "moment", "force", "pressure", "number", "percent")
UNITS = ("", "ft", "in", "mm", "m", "ft-in", "deg", "mph", "kg", "%", "NPS", "nonsense")
# Characters that measures are made of, so that random text comes near to being one.
NEAR = st.text(st.sampled_from("0123456789 .,'\"/-+xftinmcdegrad½⅜′″°%()~?;:@\u00a0\u2009８Ø"), max_size=14)
PIECES = st.lists(
    st.sampled_from(
        [
            "8",
            "6",
            "3.5",
            "1/2",
            "2,590",
            "½",
            "-",
            "–",
            "'",
            '"',
            "ft",
            "in",
            "mm",
            "m",
            "to",
            "or",
            "about",
            "~",
            "OD",
            "(",
            ")",
            "x",
            ";",
            "and",
            "sch",
            "40",
            "NPS",
            "DN",
            "80",
            "deg",
            "per",
            "kg",
        ]
    ),
    max_size=7,
).map(" ".join)
TEXT = st.one_of(NEAR, PIECES, PIECES.map(lambda s: s.replace(" ", "")), st.text(max_size=20))


def printed(sixteenths: int, style: int) -> str:
    """Feet, inches and sixteenths in one of the ways in which they are printed."""
    feet, rest = divmod(sixteenths, 192)
    inches, part = divmod(rest, 16)
    fraction = Fraction(part, 16)
    tail = f" {fraction}" if part else ""
    return (
        f"{feet}'-{inches}{tail}\"",
        f"{feet}' {inches}{tail}\"",
        f"{feet} ft {inches}{tail} in",
        f"{feet}′ {inches}{tail.replace('/', '⁄')}″",
        f"{feet}'{inches}{tail.replace(' ', '-')}\"",
        f"{Fraction(sixteenths, 16).limit_denominator(16).__float__()} in",
    )[style]


@settings(deadline=None)
@given(st.integers(1, 16 * 12 * 40), st.integers(0, 5))
def test_feet_and_inches_come_back(sixteenths: int, style: int) -> None:
    found = read_measure(printed(sixteenths, style), "length")
    assert isinstance(found, Measure)
    assert found.value == Fraction(sixteenths, 16) * INCH


UNIT_SI = {"mm": Fraction(1, 1000), "cm": Fraction(1, 100), "m": Fraction(1), "in": INCH, "ft": 12 * INCH}


@settings(deadline=None)
@given(
    st.integers(1, 10**5),
    st.integers(0, 3),
    st.sampled_from(sorted(UNIT_SI)),
    st.sampled_from(sorted(UNIT_SI)),
    st.integers(0, 3),
    st.sampled_from(("{} ({})", "{}({})", "{} [{}]", "{} / {}", "{}/{}", "height {} ({})", "{} ({}) high")),
)
def test_a_length_said_twice_is_the_first(number: int, places: int, unit: str, other: str, rounded: int, form: str) -> None:
    """A length and the same in another unit, rounded as a person would: the first is read, to the last digit."""
    first = Fraction(number, 10**places)
    second = round(first * UNIT_SI[unit] / UNIT_SI[other], rounded)
    ambiguous = places == 3 or rounded == 3  # three digits behind a point are no thousands
    text = form.format(f"{float(first):.{places}f} {unit}", f"{float(second):.{rounded}f} {other}")
    found = read_measure(text, "length")
    if unit == other:
        assert isinstance(found, Doubt)
    elif second > 0 and not ambiguous:
        assert isinstance(found, Measure), text
        assert (found.value, found.unit) == (first * UNIT_SI[unit], unit)


@settings(deadline=None)
@given(st.integers(1, 10**5), st.sampled_from(("mm", "in", "cm")), st.sampled_from(("m", "ft")), st.integers(3, 9))
def test_two_lengths_that_differ_are_never_one(number: int, unit: str, other: str, times: int) -> None:
    second = float(number * times * UNIT_SI[unit] / UNIT_SI[other])
    assert isinstance(read_measure(f"{number} {unit} ({second:.6f} {other})", "length"), Doubt)


GROUPS = (("", "."), ("", ","), (",", "."), (".", ","), (" ", ","), (" ", "."), ("\u00a0", ","), ("\u2009", "."))
"""Signs between thousands and before decimals. Source: Unicode CLDR 44, number symbols of en, es, fr, de, pt, it (memory)."""


@settings(deadline=None)
@given(st.integers(1, 10**7), st.integers(0, 2), st.sampled_from(GROUPS), st.sampled_from((" mm", "mm", "MM", " mm.", "")))
def test_any_formatting_of_a_number_is_read_back(number: int, places: int, signs: tuple[str, str], unit: str) -> None:
    """The number itself, or a doubt where a sign before three digits has two meanings; never another number."""
    group, point = signs
    text = f"{number / 10**places:,.{places}f}".replace(",", "G").replace(".", point).replace("G", group)
    found = read_measure(f"{text}{unit}", "length", "mm")
    one_group_of_points = group == "." and not places and text.count(".") == 1  # `2.590 mm`: a decimal point by contract
    if isinstance(found, Measure) and not one_group_of_points:
        assert found.value == Fraction(number, 10**places) / 1000
    elif not one_group_of_points:
        assert places == 0, f"{text!r} was not read"


@settings(deadline=None)
@given(st.integers(300, 2200), st.integers(10, 60), st.sampled_from(("{} x {} mm", "{}x{} mm", "Ø{}×{} mm", "{} mm x {} mm")))
def test_size_by_wall_comes_back(size: int, wall: int, form: str) -> None:
    found = read_post_size(form.format(size / 10, wall / 10))
    if wall * 5 < size:
        assert isinstance(found, Measure)
        assert (found.value, found.wall) == (Fraction(size, 10000), Fraction(wall, 10000))
    else:
        assert isinstance(found, Doubt)


@settings(deadline=None)
@given(st.integers(1, 10**7), st.sampled_from(["{:.1f} mm", "{:,.1f} mm", "{:.1f}mm", "{:.1f}"]))
def test_millimetres_come_back(tenths: int, form: str) -> None:
    found = read_measure(form.format(tenths / 10), "length", "mm")
    assert isinstance(found, Measure)
    assert found.value == Fraction(tenths, 10000)


@settings(deadline=None)
@given(st.floats(allow_nan=True, allow_infinity=True), st.sampled_from(KINDS), st.sampled_from(UNITS))
def test_a_number_never_raises_and_needs_a_unit(value: float, kind: str, unit: str) -> None:
    found = read_measure(value, kind, unit)
    assert isinstance(found, Measure | Doubt)
    if not unit and kind != "number":
        assert isinstance(found, Doubt)
    if isinstance(found, Measure):
        assert abs(float(found.value)) < 1e12


@settings(max_examples=600, deadline=None)
@given(TEXT, st.sampled_from(KINDS), st.sampled_from(UNITS))
@example("8'6\" (2.59 m)", "length", "ft")
@example("٣ ft", "length", "ft")
@example("²", "length", "ft")
@example("8 ft\x00", "length", "ft")
def test_no_text_raises_and_none_is_a_number_silently(text: str, kind: str, unit: str) -> None:
    found = read_measure(text, kind, unit)
    if isinstance(found, Doubt):
        assert found.code in ("UNREADABLE", "NO_UNIT")
        assert found.message
        assert found.suggestion
        for reading in found.readings:
            assert isinstance(read_measure(reading, kind, unit), Measure), f"{text!r}: {reading!r} cannot be typed"
    else:
        assert any(c.isdigit() or c in "½⅜" for c in text)
        assert not set(text) & set("~?;@x")


@settings(max_examples=400, deadline=None)
@given(TEXT, st.sampled_from(UNITS), st.sampled_from(("", *SIZE_BASES)))
def test_no_size_raises(text: str, unit: str, basis: str) -> None:
    found = read_post_size(text, unit, basis)
    assert isinstance(found, Measure | PipeSize | Doubt)
    if not any(c.isdigit() or c in "½⅜" for c in text):
        assert isinstance(found, Doubt)


@settings(max_examples=400, deadline=None)
@given(TEXT)
def test_nothing_else_raises(text: str) -> None:
    read_lengths(text, "ft")
    read_whole(text)
    read_decimal(text)
    heading, unit = heading_unit(text)
    assert isinstance(heading, str)
    assert isinstance(unit, str)
    assert isinstance(format_unit(text), str)


@settings(deadline=None)
@given(st.integers(-(10**9) + 1, 10**9 - 1))
def test_whole_numbers_come_back(n: int) -> None:
    assert read_whole(str(n)) == read_whole(n) == read_whole(float(n)) == n


@settings(deadline=None)
@given(st.decimals(min_value=0, max_value=10**8, places=2))
def test_money_comes_back(amount: object) -> None:
    for form in ("{:f}", "{:,f}", "${:,f}", "{:,f} USD"):
        assert read_decimal(form.format(amount)) == amount
    assert read_decimal(f"{amount:,f}".replace(",", " ").replace(".", ",")) == amount

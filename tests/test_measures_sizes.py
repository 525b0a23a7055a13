"""Post sizes: pipes' names and schedules against a reference library, and what each text is read as."""

from __future__ import annotations

from fractions import Fraction

import pytest
from fluids.piping import schedule_lookup

from pipeline.intake.measures import Doubt, Measure, PipeSize, read_lengths, read_post_size
from pipeline.intake.measures.pipes import BY_DN, PIPES, SCHEDULES, TOO_BIG, TWO_PIPES

NOMINAL, OUTSIDE, ROUND = "nominal pipe size", "outside diameter", "circumference"
MM = 1000.0


@pytest.mark.parametrize("schedule", SCHEDULES)
def test_pipes_against_fluids(schedule: str) -> None:
    """Source: ASME B36.10M and B36.19M tables 1, in millimetres, as the library `fluids` 1.3 has them."""
    nominal, _, outside, wall = schedule_lookup[schedule]
    known = {Fraction(n).limit_denominator(8): (o, w) for n, o, w in zip(nominal, outside, wall, strict=True)}
    for pipe in PIPES:
        assert (schedule in pipe.walls) == (pipe.nps in known), f"NPS {pipe.name} schedule {schedule}"
        if schedule in pipe.walls:
            o, w = known[pipe.nps]
            assert float(pipe.size) * MM == pytest.approx(o, abs=0.06)
            assert float(pipe.walls[schedule]) * 25.4 == pytest.approx(w, abs=0.011)


def test_dn_is_the_size_that_its_name_says() -> None:
    """Source: ISO 6708 (DN is a rounded name): within an eighth of 25 mm an inch up to NPS 4, memory."""
    assert sorted(BY_DN) == [6, 8, 10, 15, 20, 25, 32, 40, 50, 65, 80, 90, 100, 125, 150, 200, 250, 300, 350, 400]
    for dn, (b36, en) in TWO_PIPES.items():
        assert float(BY_DN[dn].size) * MM == pytest.approx(float(b36), abs=0.06)
        assert abs(float(b36) - float(en)) > 1.0


def test_sizes_that_are_too_big_for_a_post() -> None:
    """Source: ASME B36.10M-2018, table 1: by 2 in up to NPS 48, by 4 in up to NPS 80 (memory)."""
    by_two = [18, 20, 22, 24, 26, 28, 30, 32, 34, 36, 38, 40, 42, 44, 46, 48]
    assert sorted(TOO_BIG) == [*by_two, 52, 56, 60, 64, 68, 72, 76, 80]


# typed, heading's unit, basis -> outside diameter in inches, wall in inches or None, name
PIPE_CASES = [
    *(
        (t, "", "", "3.5", None, "NPS 3")
        for t in ("NPS 3", "3 NPS", "3 in NPS", "NPS3", "NPS-3", '3"NPS', "nps 3", "NPS: 3", "3 IPS")
    ),
    *(
        (t, "", "", "3.5", None, "NPS 3")
        for t in ("3 inch nominal", "nominal 3 inch pipe", '3" nom. pipe', '3" nominal pipe size', '3" NB')
    ),
    *(
        (t, "", "", "3.5", ".216", "NPS 3")
        for t in ('3" (sch 40)', '3"-sch40', '3" sch 40', "3 in sch 40", '3" SCH40', '3"sch40', "3 in. Sch. 40 pipe", 'sch 40 3"')
    ),
    *(
        (t, "", "", "3.5", ".216", "NPS 3")
        for t in ('3" schedule 40 pipe', "Schedule 40, 3 in", "3 STD pipe", "3 in std wall", '3" Sch-40 galvanized steel')
    ),
    *(
        (t, "", "", "3.5", ".300", "NPS 3")
        for t in ("NPS 3 sch 80", "3 in XS", '3" extra strong', '3" X-STRONG', "3 in 80S", '3" extra heavy')
    ),
    *((t, "", "", "3.5", ".600", "NPS 3") for t in ("3 in XXS", '3" double extra strong')),
    *(
        (t, "", "", "4.0", None, "NPS 3 1/2")
        for t in ("NPS 3 1/2", 'NPS 3-1/2"', "NPS 3.5", "3 1/2 NPS", "3-1/2 nominal", "3½ NPS", "NPS 3½")
    ),
    *((t, "", "", "4.0", ".226", "NPS 3 1/2") for t in ("3-1/2 in sch 40", '3½" sch 40', "3.5 in sch 40")),
    *((t, "", "", "3.5", None, "DN 80") for t in ("DN 80", "DN80", "dn 80", "80 DN", "DN-80", "80 mm nominal", "80 NB")),
    ("DN 80 sch 40", "", "", "3.5", ".216", "DN 80"),
    ("DN 100", "mm", "", "4.5", None, "DN 100"),
    ("NPS 3", "mm", "", "3.5", None, "NPS 3"),
    ("NPS 5", "", "", "5.563", None, "NPS 5"),
    ("2.5 sch 40", "in", "", "2.875", ".203", "NPS 2 1/2"),
    ("1-1/4 in sch 10", "", "", "1.660", ".109", "NPS 1 1/4"),
    ("3", "", NOMINAL, "3.5", None, "NPS 3"),
    ("3 in", "", NOMINAL, "3.5", None, "NPS 3"),
    (3.0, "in", NOMINAL, "3.5", None, "NPS 3"),
    (3.5, "in", NOMINAL, "4.0", None, "NPS 3 1/2"),
    ("3 1/2", "in", NOMINAL, "4.0", None, "NPS 3 1/2"),
    ("NPS 3", "in", NOMINAL, "3.5", None, "NPS 3"),
    ("80", "mm", NOMINAL, "3.5", None, "DN 80"),
    (80, "mm", NOMINAL, "3.5", None, "DN 80"),
    (3, "NPS", "", "3.5", None, "NPS 3"),
    ("80", "DN", "", "3.5", None, "DN 80"),
    ("3.5 in OD sch 40", "", "", "3.5", ".216", "NPS 3"),
    ("88.9 mm OD sch 40", "", OUTSIDE, "3.5", ".216", "NPS 3"),
]


@pytest.mark.parametrize(("typed", "unit", "basis", "outside", "wall", "name"), PIPE_CASES)
def test_pipe_sizes(typed: str | float, unit: str, basis: str, outside: str, wall: str | None, name: str) -> None:
    found = read_post_size(typed, unit, basis)
    assert isinstance(found, PipeSize), found
    inch = Fraction(254, 10000)
    assert (found.size, found.designation) == (Fraction(outside) * inch, name)
    assert found.wall == (None if wall is None else Fraction(wall) * inch)
    assert any("ASME B36.10M" in s for s in found.remarks)


@pytest.mark.parametrize(
    ("typed", "unit", "basis", "inches"),
    [
        ("2 7/8 OD", "in", "", "2.875"), ("3.5 in O.D. pipe", "", "", "3.5"), ("3.5 in tube", "", "", "3.5"),
        ("3", "in", "", "3"),
        ("4 in square", "", "", "4"), ("4 in sq.", "", "outside width", "4"), ('3 1/2"', "", OUTSIDE, "3.5"),
        ("12 in", "", ROUND, "12"),
        ("12 in around", "", ROUND, "12"), ("12 in circumference", "in", ROUND, "12"), (3.5, "in", "", "3.5"),
        ('3.5" round post', "", "", "3.5"),
    ],
)  # fmt: skip
def test_sizes_as_measured(typed: str | float, unit: str, basis: str, inches: str) -> None:
    found = read_post_size(typed, unit, basis)
    assert isinstance(found, Measure), found
    assert found.value == Fraction(inches) * Fraction(254, 10000)


SAID = [
    # typed, heading's unit, outside size [mm], shape, wall [mm], basis
    ("88.9 x 3.2 mm", "", "88.9", "", "3.2", ""), ("88,9 x 3,2", "mm", "88.9", "", "3.2", ""),
    ("Ø88.9×3.2 mm", "", "88.9", "round", "3.2", ""), ("88.9*3.2mm", "", "88.9", "", "3.2", ""),
    ('3.5" x .216"', "", "88.9", "", "5.4864", ""), ("3.5 in OD x 0.216 in wall", "", "88.9", "round", "5.4864", ""),
    ("HSS3.500x0.216", "", "88.9", "round", "5.4864", ""), ("HSS4x4x1/4", "", "101.6", "square", "6.35", ""),
    ("HSS7X0.500", "", "177.8", "round", "12.7", ""), ("HSS 4 x 4 x .25", "mm", "101.6", "square", "6.35", ""),
    ("3.5\" OD, 0.216\" wall", "", "88.9", "round", "5.4864", ""), ("88.9 mm, esp. 3,2 mm", "", "88.9", "", "3.2", ""),
    ("3.5\" OD (0.216\" wall)", "", "88.9", "round", "5.4864", ""), ("tubo cuadrado 100 x 100 mm", "", "100", "square", None, ""),
    ("Rohr 88,9 x 3,2 mm", "", "88.9", "", "3.2", ""), ("redondo de 88,9 mm", "", "88.9", "round", None, ""),
    ("Round, 3.5 in", "", "88.9", "round", None, ""), ("scatolato 100x100 mm", "", "100", "square", None, ""),
    ("HSS 88.9 x 3.2", "mm", "88.9", "round", "3.2", ""), ("CHS 114.3x5.0 mm", "", "114.3", "round", "5", ""),
    ("SHS 100x100x5", "mm", "100", "square", "5", ""), ("4 x 4 x 1/4", "in", "101.6", "square", "6.35", ""),
    ('4" x 4"', "", "101.6", "square", None, ""), ("4x4", "in", "101.6", "square", None, ""),
    ("4 by 4 in", "", "101.6", "square", None, ""), ("100 x 100", "mm", "100", "square", None, ""),
    ("4 in sq.", "", "101.6", "square", None, ""), ('4" square tube', "", "101.6", "square", None, ""),
    ("100 mm vierkant", "", "100", "square", None, ""), ('3.5" dia', "", "88.9", "round", None, ""),
    ("3.5 in OD", "", "88.9", "round", None, ""), ("Ø 89", "mm", "89", "round", None, ""),
    ("3.5 in round", "", "88.9", "round", None, ""), ('3.5" rnd', "", "88.9", "round", None, ""),
    ("89 mm", "", "89", "", None, ""), ("11 in around", "", "279.4", "round", None, "circumference"),
    ("Umfang 28 cm", "", "280", "round", None, "circumference"), ("3.5 in (88.9 mm)", "", "88.9", "", None, ""),
    ("89 mm / 3.5 in", "", "89", "", None, ""), ("60,3 mm de diamètre", "", "60.3", "round", None, ""),
    ('4.5" OD steel', "", "114.3", "round", None, ""), ("Ø ext. 89 mm", "", "89", "round", None, ""),
    ("Durchmesser 89 mm", "", "89", "round", None, ""), ("diámetro 89 mm", "", "89", "round", None, ""),
    ("CHS 88.9x3.2", "", "88.9", "round", "3.2", ""), ("SHS 100x100x4", "", "100", "square", "4", ""),
    ("89 CHS", "", "89", "round", None, ""),
    ("Rohr Ø 102 mm", "", "102", "round", None, ""), ("tubo redondo 102 mm", "", "102", "round", None, ""),
    ("D = 89 mm", "", "89", "round", None, ""),
    ("Vierkantrohr 100/100 mm", "", "100", "square", None, ""), ("tubolare quadro 100x100 mm", "", "100", "square", None, ""),
    ("C = 280 mm", "", "280", "round", None, "circumference"),
    ("14 in around the post", "", "355.6", "round", None, "circumference"),
]  # fmt: skip


@pytest.mark.parametrize(("typed", "unit", "mm", "shape", "wall", "basis"), SAID)
def test_what_a_size_says_of_shape_and_wall(typed: str, unit: str, mm: str, shape: str, wall: str | None, basis: str) -> None:
    found = read_post_size(typed, unit, "")
    assert isinstance(found, Measure), found
    assert found.value == Fraction(mm) / 1000
    assert found.wall == (None if wall is None else Fraction(wall) / 1000)
    assert (found.shape, found.basis) == (shape, basis)


@pytest.mark.parametrize(
    "typed", ["NPS 3 (DN 80)", "NPS 3 (88.9 mm)", "DN 80 (NPS 3)", '3" (DN 80)', "3.5 in OD (NPS 3)", 'DN 80 (3")']
)
def test_a_pipe_said_twice(typed: str) -> None:
    found = read_post_size(typed, "", "")
    assert float(found.size if isinstance(found, PipeSize) else found.value) == pytest.approx(0.0889)


DOUBTFUL = [
    *((t, "", "", "CONFLICT", "tape round the post") for t in ("DN 65", "DN65", "DN 125", "DN 150 sch 40", "65 NB")),
    (65, "mm", NOMINAL, "CONFLICT", "73.0 mm"),
    *((t, "in", OUTSIDE, "CONFLICT", "nominal pipe size") for t in ("NPS 3", "3 in sch 40", "DN 80")),
    ("NPS 3", "in", ROUND, "CONFLICT", "nominal pipe size"),
    ("NPS 3 OD", "", "", "CONFLICT", "one of them"),
    ("3.5 OD", "in", NOMINAL, "CONFLICT", "one of them"),
    ("3.6 in OD sch 40", "", "", "CONFLICT", "its own column"),
    ("11 in around", "", OUTSIDE, "CONFLICT", "circumference"),
    ("3.5 in OD", "", ROUND, "CONFLICT", "outside diameter"),
    ("NPS 7", "", "", "UNREADABLE", "NPS 6"),
    ("DN 85", "", "", "UNREADABLE", "DN 80"),
    ("2 7/8 in sch 40", "", "", "UNREADABLE", "NPS 2 1/2"),
    (2.875, "in", NOMINAL, "UNREADABLE", "NPS 2 1/2"),
    ("88.9 mm", "", NOMINAL, "UNREADABLE", ""),
    ("3 in sch 20", "", "", "UNREADABLE", "5, 10, 30, 40"),
    ("3 in sch 40 XS", "", "", "UNREADABLE", "more than one schedule"),
    ("3 in pipe", "", "", "UNREADABLE", "NPS 3"),
    ("3 sch 40", "mm", "", "UNREADABLE", "NPS 3"),
    ("about NPS 3", "", "", "UNREADABLE", "NPS 3"),
    ("NPS 3 or 4", "", "", "UNREADABLE", "NPS 3 or NPS 4"),
    ("NPS 3-4", "", "", "UNREADABLE", ""),
    ("6 NB", "", "", "UNREADABLE", "NPS 6"),
    ("11 in round", "", "", "UNREADABLE", "Size is"),
    ("2 in (60.3 mm)", "", "", "UNREADABLE", "NPS 2"),
    ("3 in (88.9 mm)", "", "", "UNREADABLE", "NPS 3"),
    ("3.5 in (114.3 mm)", "", "", "UNREADABLE", "3.5 in or 114.3 mm"),
    ("4 x 6 in", "", "", "UNREADABLE", "wider one way"),
    ("HSS6x4x1/4", "", "", "UNREADABLE", "wider one way"),
    ("HSS 88.9x3.2", "", "", "NO_UNIT", "88.9 x 3.2 mm"),
    ("88.9x3.2", "", "", "NO_UNIT", "88.9 x 3.2 mm"),
    ("4x4", "", "", "NO_UNIT", "4 x 4 in"),
    ('4" sq 4" dia', "", "", "UNREADABLE", "contradict"),
    ('4" x 4" dia', "", "", "UNREADABLE", "round"),
    ("U 28 cm", "", "", "UNREADABLE", "not known"),
    ("100 sq mm", "", "", "UNREADABLE", ""),
    ("DN 450", "", "", "UNREADABLE", "too big"),
    ("NPS 24", "", "", "UNREADABLE", "too big"),
    ("tubo 3 in", "", "", "UNREADABLE", "NPS 3"),
    ("tubo 3 in, esp. 3 mm", "", "", "UNREADABLE", "differ"),
    ("3.5 in OD, wall 4 in", "", "", "UNREADABLE", "wider one way"),
    ("about 3.5 in", "", "", "UNREADABLE", "Measure again"),
    ("3.5 in ID", "", "", "UNREADABLE", "outside"),
    ("1.75 in radius", "", "", "UNREADABLE", "diameter"),
    *((t, "", "", "UNREADABLE", "") for t in ("sch 40", "NPS", "pipe", "50A", "three inch", "")),
    ("3.5", "", "", "NO_UNIT", "3.5 in"),
    ("88.9 OD", "", "", "NO_UNIT", "88.9 mm"),
    ("2 7/8 OD", "", "", "NO_UNIT", "2 7/8 in"),
]


@pytest.mark.parametrize(("typed", "unit", "basis", "code", "says"), DOUBTFUL)
def test_doubtful_sizes(typed: str | float, unit: str, basis: str, code: str, says: str) -> None:
    found = read_post_size(typed, unit, basis)
    assert isinstance(found, Doubt), found
    assert found.code == code
    assert says in f"{found.message} {found.suggestion}"
    for reading in found.readings:
        assert not isinstance(read_post_size(reading, unit, ""), Doubt), reading


@pytest.mark.parametrize(
    ("typed", "unit", "feet"),
    [
        ("8; 9; 10", "ft", "8 9 10"), ("8'; 10'", "", "8 10"), ("8 ft and 10 ft", "", "8 10"), ("10' / 8'", "", "10 8"),
        ("10 ft\n8 ft", "", "10 8"),
        ("10', 9', 8'", "", "10 9 8"), ("8'6\"; 10'", "", "8.5 10"), ("8 ft and 6 in", "", "8.5"), ("8 ft, 6 in", "", "8.5"),
        ("7½;10;", "ft", "7.5 10"),
        ("10 ft (3.05 m)", "", "10"), ("8 ft / 2.44 m", "", "8"), ("10 ft (3.05 m); 8 ft (2.44 m)", "", "10 8"),
        ("9-6; 10-0", "ft-in", "9.5 10"), (10, "ft", "10"), ("３.048 m；2,4384 m", "", "10 8"),
    ],
)  # fmt: skip
def test_lists_of_lengths(typed: str | float, unit: str, feet: str) -> None:
    found = read_lengths(typed, unit)
    assert isinstance(found, tuple), found
    assert [m.value for m in found] == [Fraction(f) * Fraction(3048, 10000) for f in feet.split()]


@pytest.mark.parametrize(
    ("typed", "unit", "code", "suggestion"),
    [
        ("8, 10", "ft", "UNREADABLE", "8; 10"), ("8/10", "ft", "UNREADABLE", "8; 10"), ("8 and 10", "ft", "UNREADABLE", "8; 10"),
        ("8-10", "ft", "UNREADABLE", ""), ("8 to 10 ft", "", "UNREADABLE", ""),
        ("8; about 9; 10", "ft", "UNREADABLE", "Measure again"),
        ("8;10 ft", "", "NO_UNIT", "8 ft, 8 in"), ("10 ft (3.5 m)", "", "UNREADABLE", "10 ft or 3.5 m"),
        ("8 ft / 3.1 m", "", "UNREADABLE", "8 ft or 3.1 m"), (";", "ft", "UNREADABLE", ""),
        ("3,05, 2,60", "m", "UNREADABLE", ""),
    ],
)  # fmt: skip
def test_doubtful_lists(typed: str, unit: str, code: str, suggestion: str) -> None:
    found = read_lengths(typed, unit)
    assert isinstance(found, Doubt), found
    assert found.code == code
    assert suggestion in found.suggestion


@pytest.mark.parametrize(
    ("typed", "size", "shape"),
    [
        ("4 x 4 sq tube, inches", 101.6, "square"), ("4x4 square tubing in inches", 101.6, "square"),
        ("100 SHS, mm", 100, "square"), ("100 x 100 SHS (in mm)", 100, "square"), ("3.5 round, inches", 88.9, "round"),
        ("4 in square, mm", 0, ""), ("4 sq inches", 0, ""), ("4 x 4 sq inches", 0, ""), ("4 about square, inches", 0, ""),
    ],
)  # fmt: skip
def test_a_unit_behind_the_words_of_a_shape(typed: str, size: float, shape: str) -> None:
    found = read_post_size(typed)
    if not size:
        assert isinstance(found, Doubt), found
    else:
        assert isinstance(found, Measure), found
        assert (float(found.value) * MM, found.shape) == (pytest.approx(size), shape)

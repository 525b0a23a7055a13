"""Nominal pipe sizes: outside diameters and walls, in inches exactly.

Source: ASME B36.10M-2018 table 1 (welded and seamless wrought steel pipe), schedules 5 to 160, STD, XS, XXS;
ASME B36.19M-2018 table 1 (stainless steel pipe), schedules 5S, 10S, 40S, 80S. Recalled (memory), and each figure
held against the library `fluids` in the tests. DN of each NPS: ISO 6708 names as B36.10M lists them.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from schemas.lengths import INCH_EXACT as INCH

SCHEDULES = ("5", "10", "20", "30", "40", "60", "80", "100", "120", "140", "160", "STD", "XS", "XXS", "5S", "10S", "40S", "80S")
"""Column names of the walls below."""

_TABLE = """
NPS   DN  OD     5    10   20   30   40   60   80   100  120  140   160   STD  XS   XXS  5S   10S  40S  80S
1/8   6   0.405  -    .049 -    .057 .068 -    .095 -    -    -     -     .068 .095 -    -    .049 .068 .095
1/4   8   0.540  -    .065 -    .073 .088 -    .119 -    -    -     -     .088 .119 -    -    .065 .088 .119
3/8   10  0.675  -    .065 -    .073 .091 -    .126 -    -    -     -     .091 .126 -    -    .065 .091 .126
1/2   15  0.840  .065 .083 -    .095 .109 -    .147 -    -    -     .188  .109 .147 .294 .065 .083 .109 .147
3/4   20  1.050  .065 .083 -    .095 .113 -    .154 -    -    -     .219  .113 .154 .308 .065 .083 .113 .154
1     25  1.315  .065 .109 -    .114 .133 -    .179 -    -    -     .250  .133 .179 .358 .065 .109 .133 .179
1-1/4 32  1.660  .065 .109 -    .117 .140 -    .191 -    -    -     .250  .140 .191 .382 .065 .109 .140 .191
1-1/2 40  1.900  .065 .109 -    .125 .145 -    .200 -    -    -     .281  .145 .200 .400 .065 .109 .145 .200
2     50  2.375  .065 .109 -    .125 .154 -    .218 -    -    -     .344  .154 .218 .436 .065 .109 .154 .218
2-1/2 65  2.875  .083 .120 -    .188 .203 -    .276 -    -    -     .375  .203 .276 .552 .083 .120 .203 .276
3     80  3.500  .083 .120 -    .188 .216 -    .300 -    -    -     .438  .216 .300 .600 .083 .120 .216 .300
3-1/2 90  4.000  .083 .120 -    .188 .226 -    .318 -    -    -     -     .226 .318 -    .083 .120 .226 .318
4     100 4.500  .083 .120 -    .188 .237 -    .337 -    .438 -     .531  .237 .337 .674 .083 .120 .237 .337
5     125 5.563  .109 .134 -    -    .258 -    .375 -    .500 -     .625  .258 .375 .750 .109 .134 .258 .375
6     150 6.625  .109 .134 -    -    .280 -    .432 -    .562 -     .719  .280 .432 .864 .109 .134 .280 .432
8     200 8.625  .109 .148 .250 .277 .322 .406 .500 .594 .719 .812  .906  .322 .500 .875 .109 .148 .322 .500
10    250 10.750 .134 .165 .250 .307 .365 .500 .594 .719 .844 1.000 1.125 .365 .500 1.000 .134 .165 .365 .500
12    300 12.750 .156 .180 .250 .330 .406 .562 .688 .844 1.000 1.125 1.312 .375 .500 1.000 .156 .180 .375 .500
14    350 14.000 .156 .250 .312 .375 .438 .594 .750 .938 1.094 1.250 1.406 .375 .500 -    .156 .188 .375 .500
16    400 16.000 .165 .250 .312 .375 .500 .656 .844 1.031 1.219 1.438 1.594 .375 .500 -    .165 .188 .375 .500
"""

TWO_PIPES: dict[int, tuple[str, str]] = {65: ("73.0", "76.1"), 125: ("141.3", "139.7"), 150: ("168.3", "165.1")}
"""DN that mean two different pipes: outside diameters [mm] in ASME B36.10M and in EN 10255.

Source: ASME B36.10M-2018 table 1; EN 10255:2004 table 2 (memory); design section 3.
"""

TOO_BIG = frozenset(Fraction(n) for n in (*range(18, 50, 2), 52, 56, 60, 64, 68, 72, 76, 80))
"""Nominal sizes [in] of B36.10M above those listed; their outside diameter is the same number of inches, and DN is 25 times it.

Source: ASME B36.10M-2018 table 1 (memory).
"""


@dataclass(frozen=True, slots=True)
class Pipe:
    """One nominal size: its NPS [in] and how that is written, DN, outside diameter [in] and walls [in] by schedule."""

    nps: Fraction
    name: str
    dn: int
    outside: Fraction
    walls: dict[str, Fraction]

    @property
    def size(self) -> Fraction:
        """Outside diameter [m]."""
        return self.outside * INCH


def _pipe(line: str) -> Pipe:
    name, dn, outside, *walls = line.split()
    whole, _, part = name.partition("-") if "-" in name else (name, "", "0")
    known = {s: Fraction(w) for s, w in zip(SCHEDULES, walls, strict=True) if w != "-"}
    return Pipe(Fraction(whole) + Fraction(part), name.replace("-", " "), int(dn), Fraction(outside), known)


PIPES: tuple[Pipe, ...] = tuple(_pipe(line) for line in _TABLE.strip().splitlines()[1:])

BY_NPS: dict[Fraction, Pipe] = {p.nps: p for p in PIPES}
BY_DN: dict[int, Pipe] = {p.dn: p for p in PIPES}


def nearest(nps: Fraction) -> Pipe:
    """The listed pipe whose nominal size is nearest."""
    return min(PIPES, key=lambda p: abs(p.nps - nps))


def of_outside(size: Fraction) -> Pipe | None:
    """The pipe whose outside diameter [m] this is, to the rounding of a table in millimetres."""
    return next((p for p in PIPES if abs(p.size - size) <= Fraction(6, 100000)), None)

"""What the grammar answers: a measure, a pipe size, or a doubt."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

DoubtCode = Literal["UNREADABLE", "NO_UNIT", "CONFLICT", "NOT_IN_LIST"]


@dataclass(frozen=True, slots=True)
class Measure:
    """One value in the coherent SI unit of its kind, exact where the unit allows it.

    `unit` is the short unit that its sender used (`ft`, `in`, `ft-in`, `mm`, `deg`, `slope`, ...),
    `remarks` what was taken for granted, in sentences. Of a post's size only: `shape` is round or square
    where the cell says it (`4 x 4`, `sq`, `dia`; '' = it does not), `wall` [m] the wall of a size by
    wall (`88.9 x 3.2 mm`), `basis` circumference where the cell says so and nothing else was stated.
    """

    value: Fraction | float
    unit: str
    remarks: tuple[str, ...] = ()
    shape: str = ""
    wall: Fraction | None = None
    basis: str = ""


@dataclass(frozen=True, slots=True)
class PipeSize:
    """A nominal pipe size: its outside diameter [m], its name (`NPS 3`), and the wall [m] of a stated schedule."""

    size: Fraction
    designation: str
    wall: Fraction | None
    unit: str
    remarks: tuple[str, ...] = ()
    shape: str = "round"


@dataclass(frozen=True, slots=True)
class Doubt:
    """Why something is not one value: query code, sentence, what to type instead, the readings it could have.

    Where there is one reading it is the suggestion: typed into the cell, it is read. Where there are
    several, none is put first. `estimate` tells that nothing but a word of doubt stands beside the reading.
    """

    code: DoubtCode
    message: str
    suggestion: str
    readings: tuple[str, ...] = ()
    estimate: bool = False

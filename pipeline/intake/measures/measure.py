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
    `said` what was taken for granted, in sentences.
    """

    value: Fraction | float
    unit: str
    said: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PipeSize:
    """A nominal pipe size: its outside diameter [m], its name (`NPS 3`), and the wall [m] of a stated schedule."""

    size: Fraction
    designation: str
    wall: Fraction | None
    unit: str
    said: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Doubt:
    """Why something is not one value: query code, sentence, what to type instead, the readings it could have.

    Where there are readings the suggestion is the first of them: typed into the cell, it is read.
    """

    code: DoubtCode
    message: str
    suggestion: str
    readings: tuple[str, ...] = ()

"""What is wrong with one cell, and a row with all that is wrong with its cells."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from pipeline.intake.query import Code
from pipeline.intake.survey.survey_row import SurveyRow


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong with a cell, in a sentence without the heading, what to type instead, and what it could mean."""

    code: Code
    message: str
    suggestion: str
    readings: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CellFault:
    """A fault of one column at the cell that its query names."""

    name: str
    at: str
    fault: Fault


@dataclass(frozen=True, slots=True)
class RowRead:
    """A row as its cells were read, each by itself; whether all of it can be true is not looked at yet.

    `asked` has the columns that wait for the answer about a heading, with that heading's cell.
    """

    row: SurveyRow
    faults: tuple[CellFault, ...] = ()
    asked: tuple[tuple[str, str], ...] = ()

    def as_dict(self) -> dict[str, Any]:
        """Plain values, fit for JSON."""
        faults = [(f.name, f.at, f.fault.code, f.fault.message, f.fault.suggestion, f.fault.readings) for f in self.faults]
        return {"row": self.row.as_dict(), "faults": faults, "asked": self.asked}

    @staticmethod
    def from_dict(d: dict[str, Any]) -> RowRead:
        """The inverse of `as_dict` after a trip through JSON."""
        faults = tuple(
            CellFault(n, at, Fault(code, message, instead, tuple(could))) for n, at, code, message, instead, could in d["faults"]
        )
        return RowRead(SurveyRow.from_dict(d["row"]), faults, tuple((name, at) for name, at in d["asked"]))

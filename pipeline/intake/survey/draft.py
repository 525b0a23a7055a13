"""A row of a survey while it is read: its values, what is wrong with them, where they come from."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from pipeline.intake.layout.legend import Legend
from pipeline.intake.layout.record import How, Stated
from pipeline.intake.survey.fault import CellFault, Fault
from pipeline.intake.survey.list_words import Seller
from pipeline.intake.survey.read_cell import typed
from pipeline.intake.survey.survey_row import Origin


@dataclass
class Draft:
    """A row while it is read."""

    cells: dict[str, str]
    seller: Seller = field(default_factory=dict)
    legend: Legend = field(default_factory=dict)
    typed: dict[str, str] = field(default_factory=dict)
    values: dict[str, Any] = field(default_factory=dict)
    given: dict[str, str] = field(default_factory=dict)  # unit of each measure
    remarks: list[str] = field(default_factory=list)
    faults: list[CellFault] = field(default_factory=list)
    origins: list[Origin] = field(default_factory=list)
    answered: set[str] = field(default_factory=set)  # columns that several yes/no questions answer together

    @property
    def faulty(self) -> set[str]:
        """Columns that could not be read."""
        return {f.name for f in self.faults}

    def fault(self, name: str, fault: Fault, at: str = "") -> None:
        """Note a fault of a column, at its own cell unless said otherwise."""
        self.faults.append(CellFault(name, at or self.cells.get(name, ""), fault))

    def comes_from(self, name: str, how: How, words: str, taken_as: Any) -> None:
        """Note where a value comes from that was not typed in the cell itself."""
        self.origins.append(Origin(name, self.cells.get(name, ""), words, shown(taken_as), how))


def shown(value: Any) -> str:
    """A value as data/readings.csv has it: SI, at most ten digits."""
    if isinstance(value, tuple):
        return "; ".join(shown(v) for v in value)
    return f"{value:.10g}" if isinstance(value, float) else str(value)


def how_it_came(stated: Stated) -> How:
    """How a value got here; a bare number that takes its unit from a line above the table is read from there."""
    unit = stated.heading.unit if stated.heading.unit_in_title else ""
    return stated.how or ("title" if unit and typed(stated.cell, unit) != typed(stated.cell) else "")

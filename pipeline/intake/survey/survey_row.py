"""A row of a survey as it was read; apart from the rest, so that what reads rows again starts at once."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any


@dataclass(frozen=True, slots=True)
class SurveyRow:
    """One data row of a survey.

    `values` holds SI floats, words, whole numbers and tuples of floats by column name; a name that
    is absent is not stated and has no default of its own (the policy may have one). `post_size` is
    the outside size D whatever the sender stated; `size_basis` tells what it was stated as.
    `typed` is what stood in each cell, with the heading's unit where that counted (`8.5 ft`).
    `units` is the unit that each length was given in. `not_stated` lists columns that took their
    default, `said` sentences about what was inferred (a wall from a schedule). A row that is held
    keeps what could be read.
    """

    file: str
    sheet: str
    row: int
    site_code: str
    post_code: str
    held: bool
    values: dict[str, Any]
    typed: dict[str, str]
    cells: dict[str, str]
    units: dict[str, str] = field(default_factory=dict)
    not_stated: tuple[str, ...] = ()
    said: tuple[str, ...] = ()
    extra: dict[str, str] = field(default_factory=dict)

    def as_dict(self) -> dict[str, Any]:
        """Plain values, fit for JSON; its dictionaries are the row's own."""
        return {name: getattr(self, name) for name in self.__slots__}

    @staticmethod
    def from_dict(d: dict[str, Any]) -> SurveyRow:
        """The inverse of `as_dict` after a trip through JSON."""
        values = {k: tuple(v) if isinstance(v, list) else v for k, v in d["values"].items()}
        return SurveyRow(**{**d, "values": values, "not_stated": tuple(d["not_stated"]), "said": tuple(d["said"])})

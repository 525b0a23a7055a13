"""A row of a survey as it was read; apart from the rest, so that what reads rows again starts at once."""

from __future__ import annotations

from dataclasses import astuple, dataclass, field, fields
from typing import Any

from schemas.surveyed_post import SurveyedPost


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a value comes from that was not typed in the cell itself; the fields of data/readings.csv."""

    name: str
    cell: str
    typed: str
    taken_as: str
    how: str
    file: str = ""  # and sheet of the cell, where they are not the row's own
    sheet: str = ""
    who: str = ""  # by whom and when, of an answer from the site


@dataclass(frozen=True, slots=True, kw_only=True)
class SurveyRow(SurveyedPost):
    """One data row of a survey: the post, and where each of its values stood.

    `label` is where it stands in words (`row 7`, `column D`), which no other row of its sheet has.
    `typed` is what stood in each cell, with the heading's unit where that counted (`8.5 ft`); `cells`
    the address of each column's cell; `units` the unit that each measure was given in; `remarks` sentences
    about what was inferred (a wall from a schedule); `origins` what was not typed in the cell itself; `own` what
    stands in the survey's own cells of columns that a field sheet has answered. A
    row that is held keeps what could be read.
    """

    file: str
    sheet: str
    row: int
    label: str
    held: bool
    typed: dict[str, str] = field(default_factory=dict)
    cells: dict[str, str] = field(default_factory=dict)
    units: dict[str, str] = field(default_factory=dict)
    remarks: tuple[str, ...] = ()
    extra: dict[str, str] = field(default_factory=dict)
    origins: tuple[Origin, ...] = ()
    own: dict[str, str] = field(default_factory=dict)

    def as_dict(self) -> dict[str, Any]:
        """Plain values, fit for JSON; `values` has what is stated, by column. Its dictionaries are the row's own."""
        plain = {name: getattr(self, name) for name in _OF_A_ROW}
        origins = [astuple(o) for o in self.origins]
        return plain | {"unread": sorted(self.unread), "origins": origins, "values": stated(self)}

    @staticmethod
    def from_dict(d: dict[str, Any]) -> SurveyRow:
        """The inverse of `as_dict` after a trip through JSON."""
        row = {name: value for name, value in d.items() if name != "values"}
        values = {k: tuple(v) if isinstance(v, list) else v for k, v in d["values"].items()}
        texts = {name: tuple(d[name]) for name in ("not_stated", "remarks")}
        origins = tuple(Origin(*o) for o in d["origins"])
        return SurveyRow(**{**row, **values, **texts, "unread": frozenset(d["unread"]), "origins": origins})


_NOT_A_VALUE = ("not_stated", "unread")
_VALUES = tuple(f.name for f in fields(SurveyedPost) if f.name not in _NOT_A_VALUE)
_OF_A_ROW = ("not_stated", *(f.name for f in fields(SurveyRow) if f.name not in (*_VALUES, *_NOT_A_VALUE)))


def stated(post: SurveyedPost) -> dict[str, Any]:
    """What is known of a post, by column in the order of the glossary; what is not known is left out."""
    every = ((name, getattr(post, name)) for name in _VALUES)
    return {name: value for name, value in every if not (value is None or value is False or value == "")}

"""Column and Table: one entry of the glossary, from which everything else is made."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Kind = Literal[
    "text",  # free words
    "code",  # an identifier; compared without regard to case and outer spaces
    "choice",  # one of `values`
    "whole",  # whole number
    "number",  # plain number
    "length",
    "lengths",  # several lengths, `;` between
    "pipe",  # a length, or a nominal pipe size
    "angle",  # an angle or a slope
    "speed",
    "mass",
    "moment",
    "force",
    "pressure",
    "percent",
    "money",
    "flag",  # true, false
    "date",
]

SI_UNIT: dict[str, str] = {
    "length": "m",
    "lengths": "m",
    "pipe": "m",
    "angle": "rad",
    "speed": "m/s",
    "mass": "kg",
    "moment": "N m",
    "force": "N",
    "pressure": "Pa",
}
"""Coherent SI unit in which a kind is kept inside, by kind; kinds that are not here have none."""


@dataclass(frozen=True)
class Column:
    """One column, said once.

    `name` is the name inside and in data files; `heading` what stands over the column in a
    spreadsheet; `unit` the unit that the heading carries on our own forms (input) or the unit of
    the figures (output); `default` what a blank cell means, as a person would type it ('' = no
    default); `least`/`most` name the policy settings that bound a plausible value. A column that
    `may_be_missing` may be left out of its sheet: every cell of it is then blank.
    """

    name: str
    heading: str
    kind: Kind
    unit: str = ""
    needed: bool = False
    values: tuple[str, ...] = ()
    default: str = ""
    help: str = ""
    synonyms: tuple[str, ...] = ()
    least: str = ""
    most: str = ""
    may_be_missing: bool = False

    @property
    def titled(self) -> str:
        """The heading with its unit in brackets, as our own forms print it."""
        return f"{self.heading} [{self.unit}]" if self.unit else self.heading


@dataclass(frozen=True)
class Table:
    """A table: its name (the sheet's or the file's), what one row is, its columns and its key."""

    name: str
    row_is: str
    columns: tuple[Column, ...]
    key: tuple[str, ...] = ()
    may_be_missing: bool = False

    @property
    def names(self) -> tuple[str, ...]:
        """Names of the columns, in order."""
        return tuple(c.name for c in self.columns)

    def column(self, name: str) -> Column:
        """The column called `name`; KeyError names what exists."""
        for c in self.columns:
            if c.name == name:
                return c
        raise KeyError(f"{self.name} has no column {name!r}; it has {', '.join(self.names)}")

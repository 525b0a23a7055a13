"""A record: one row of posts after the layout has been read, each of its values with its own cell."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from pipeline.reading.book import Cell

How = Literal[
    "", "same_as_above", "block", "title", "sheet_name", "section_row", "group_heading", "type_table", "post_cell", "remark",
    "made",
    "inferred", "schedule", "size_cell", "words", "seller_words", "answered", "field_sheet",
]  # fmt: skip
"""Where a value comes from where it was not typed in the cell itself ('' = it was); `how` of data/readings.csv."""


@dataclass(frozen=True, slots=True)
class Heading:
    """The heading that a value stands under: its words, its unit ('' = none) and its own address ('' = it has no cell)."""

    text: str
    unit: str = ""
    address: str = ""
    basis: str = ""  # what the heading itself says that a post's size is, '' = nothing
    unit_in_title: bool = False  # whether the unit stands in a line outside the table


@dataclass(frozen=True, slots=True)
class Stated:
    """One value of a record: the cell that it is read from, its heading, and how it got here.

    `at` is the address that a query names: the record's own cell, which differs from `cell.address` where the value is
    taken from elsewhere (a ditto mark's own cell, a blank cell below a block's first row).
    """

    cell: Cell
    heading: Heading
    at: str
    how: How = ""


@dataclass(frozen=True, slots=True)
class Wrong:
    """What the layout itself finds wrong with a record: the column, the cell that the query names, what to type instead."""

    name: str
    at: str
    code: Literal["MISSING", "CONFLICT", "UNREADABLE", "HEADING"]
    message: str  # a sentence without the column's heading in front
    suggestion: str


@dataclass(frozen=True, slots=True)
class Record:
    """One record of posts: `values` by column name of the survey's glossary, blank cells left out.

    `places` has the address of every known column's cell for this record, blank or not, so that a query about what is
    missing names a cell. `extra` is what stands in columns that are not known, by heading. `label` says where the record
    stands in words a person uses: `row 7`, `column D`, `row 7, N pole`. `row` is the sheet's row, or its column where
    posts stand in columns.

    `rivals` has further filled cells under headings that mean the same column (where they say another thing, that is a
    CONFLICT at their cells). `wrong` is what the layout cannot answer: the values of those columns are left out. `named`
    has the posts' own names where the Post cell names several. `asked` are columns for which a HEADING query stands,
    with the heading's cell: they may be stated under a heading that is not known. `shapes` are shapes under such headings,
    `warnings` cells there that say gooseneck or welded. `shape_above` is a line outside the
    table that states the posts' shape. `legend` has what codes on the sheet stand for. `summed`: a total
    below is the sum of the numbers of posts on the rows, which are then each row's own.
    """

    sheet: str
    row: int
    label: str
    values: dict[str, Stated]
    places: dict[str, str]
    extra: dict[str, str] = field(default_factory=dict)
    rivals: dict[str, tuple[Stated, ...]] = field(default_factory=dict)
    wrong: tuple[Wrong, ...] = ()
    named: tuple[str, ...] = ()
    asked: dict[str, str] = field(default_factory=dict)
    shapes: tuple[Stated, ...] = ()
    warnings: tuple[Stated, ...] = ()
    shape_above: Stated | None = None
    legend: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    summed: bool = False

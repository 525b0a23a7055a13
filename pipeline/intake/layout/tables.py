"""Where the surveys stand in a sheet: heading rows, the columns that they claim, the rows below them."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from pipeline.intake.layout.chosen_columns import choose, site_elsewhere, without_courts
from pipeline.intake.layout.grid import Grid, Row
from pipeline.intake.layout.grounds import ground_in
from pipeline.intake.layout.heading_rows import HeadingRow, heading_at, is_of_others
from pipeline.intake.layout.headings_by_cells import by_words_below, stands_again
from pipeline.intake.layout.several_meanings import Rows, decided
from pipeline.intake.layout.under_headings import UNIT_WORDS, under_headings
from pipeline.intake.measures import heading_unit
from pipeline.intake.survey.headings import claim, fold
from pipeline.intake.survey.lay_headings import says_around, says_nominal
from pipeline.intake.survey.other_things import is_over_other_things
from pipeline.intake.survey.whole_questions import size_asked
from schemas.survey import SIZE_BASIS_OF_HEADING, SURVEY

_SEARCHED = 200  # rows with cells in which the first heading row is looked for
_BASES = {fold(h): b for h, b in SIZE_BASIS_OF_HEADING.items()}


@dataclass(frozen=True, slots=True)
class Head:
    """One heading that claims a column: its place in the grid, its own cell, words, unit ('' = none) and post ('' = all)."""

    row: int
    column: int
    address: str
    text: str
    unit: str
    label: str = ""

    @property
    def basis(self) -> str:
        """What the heading says that the post's size is, where it says it itself."""
        bare = heading_unit(self.text)[0]
        if known := _BASES.get(fold(bare), ""):
            return known
        if says_nominal(bare) or says_nominal(self.text):
            return "nominal pipe size"
        return "circumference" if says_around(bare) else size_asked(self.text)


@dataclass(frozen=True)
class Table:
    """One heading row with the rows below it, up to the next heading row.

    `heads` has the headings that claim a column of the glossary: the second and further ones of a
    list with the same label contradict the first. `extra` has the headings of all other columns,
    `passed_over` those among them that could have claimed a column where a surer one does.
    """

    grid: Grid
    row: int
    heads: Mapping[str, tuple[Head, ...]]
    extra: Mapping[int, str]
    rows: tuple[tuple[int, Row], ...]
    passed_over: tuple[tuple[str, str], ...] = ()
    unit_row: int = 0
    clashing_units: tuple[str, ...] = ()
    heading_rows: Mapping[int, int] = field(default_factory=dict)  # of headings that do not stand in the first heading row
    unit_columns: Mapping[int, int] = field(default_factory=dict)  # columns of units, by the column that they stand behind
    by_cells: tuple[tuple[str, str], ...] = ()  # headings that mean what their cells say, with their columns

    def heading_at(self, column: int) -> str:
        """The sheet's own address of the heading of a column that no name claims."""
        return self.grid.at(self.heading_rows.get(column, self.row), column)

    @property
    def sheet(self) -> str:
        """The sheet's name."""
        return self.grid.sheet.name


def feet_and_inches(heads: Sequence[Head]) -> bool:
    """Whether two headings of the same words beside each other are one measure's feet and inches."""
    if len({fold(heading_unit(h.text)[0]) for h in heads}) > 1:
        return False
    return len(heads) == 2 and [h.unit for h in heads] == ["ft", "in"] and heads[1].column == heads[0].column + 1


def find_tables(grid: Grid, named: bool = False, titled: bool = False) -> list[Table]:
    """The survey tables of a sheet, in order; none where no row of headings is found.

    `named`: the posts' names stand where no heading is; `titled`: what stands outside the grid names the site.
    """
    rows, on_tab = grid.rows, titled or bool(ground_in(grid.sheet.name))
    starts: list[tuple[int, HeadingRow]] = []
    i = 0
    while i < len(rows) and (starts or i < _SEARCHED):
        found = heading_at(rows, i, 3 if starts else 1, named, on_tab)
        again = bool(starts) and stands_again(rows[starts[-1][0]][1], rows[i][1])
        if not found and (again or not starts):
            found = by_words_below(rows, i, lambda heading, data: decided(heading, data)[0], named, on_tab)
        if found and starts and len(found.claims) < 8 and 2 * len(found.claims) < len(found.texts):
            found = None  # a row of data that happens to use a few of the words
        if starts and not found and _begins_others(rows, i):
            starts.append((i, HeadingRow(1, {}, {}, {}, of_others=True)))
        if found:
            starts.append((i, replace(found, of_others=is_of_others(rows, i, found, grid.sheet.name))))
        i += found.taken if found else 1
    ends = [s for s, _ in starts[1:]] + [len(rows)]
    return [_table(grid, start, head, end) for (start, head), end in zip(starts, ends, strict=False) if not head.of_others]


def _begins_others(rows: Rows, i: int) -> bool:
    """Whether a lone text is the title of other things, with headings of its own below it: `Light poles`."""
    lone, below = rows[i][1], rows[i + 1][1] if i + 1 < len(rows) else {}
    if len(lone) != 1 or not all(c.kind == "text" for c in (*lone.values(), *below.values())):
        return False
    headings = len(below) > 1 and not any(any(map(str.isdigit, str(c.value))) for c in below.values())
    return headings and is_over_other_things(str(next(iter(lone.values())).value))


def _table(grid: Grid, start: int, heading: HeadingRow, end: int) -> Table:
    """The table whose heading starts at index `start`, up to index `end`."""
    rows = grid.rows
    first = start + heading.taken
    taken, at, units = under_headings([row for _, row in rows[first:end]], len(heading.texts))
    data = tuple(rows[first + taken : end])
    heading, by_cells = decided(heading, data)
    heading = without_courts(heading, data)
    chosen, passed_over = choose(heading, data, grid.turned)
    site_elsewhere(chosen, heading, data)
    clashing = [heading.texts[n] for ns in chosen.values() for n in ns if _clash(heading.claims[n].unit, units.get(n, ""))]
    heads = {name: tuple(_head(grid, start, heading, n, units) for n in columns) for name, columns in chosen.items()}
    claimed = {h.column for hs in heads.values() for h in hs}
    seen = sorted({n for _, cells in data for n in cells} | heading.texts.keys())
    extra = {n: heading.texts.get(n, "") for n in seen if n not in claimed}
    unit_row = rows[first + at][0] if units else 0
    lower = {n: rows[first - 1][0] for n in heading.texts if n not in rows[start][1]}
    beside = _unit_columns(heading, heads)
    return Table(grid, rows[start][0], heads, extra, data, passed_over, unit_row, tuple(clashing), lower, beside, by_cells)


def _head(grid: Grid, start: int, heading: HeadingRow, column: int, units: Mapping[int, str]) -> Head:
    """One claimed heading; a unit in it and another one below it cancel each other."""
    number, upper = grid.rows[start]
    row = number if column in upper else number + heading.taken - 1
    unit, below = heading.claims[column].unit, units.get(column, "")
    unit = "" if _clash(unit, below) else unit or below
    return Head(row, column, grid.at(row, column), heading.texts[column], unit, heading.labels.get(column, ""))


def _unit_columns(heading: HeadingRow, heads: Mapping[str, tuple[Head, ...]]) -> dict[int, int]:
    """Columns of units by the column of a measure that shows none.

    `Unit` right behind it, one that names it (`HeightUoM`), or the only one, right behind all measures beside each other.
    """
    units = {n: rest for n, text in heading.texts.items() if (rest := _beside_unit(text)) is not None}
    without = {h.column: name for name, hs in heads.items() for h in hs if not h.unit and name in _MEASURED}
    named = {n: rest for n, rest in units.items() if rest}
    found = {c: n for n, rest in named.items() for c in without if _is_named(rest, c, heading, without)}
    found |= {c: c + 1 for c in without if c + 1 in units and c not in found and not units[c + 1]}
    if len(units) == 1 and not named and (last := next(iter(units)) - 1) in without:
        first = last
        while first - 1 in without:
            first -= 1
        found |= dict.fromkeys(range(first, last), last + 1)
    return found


_MEASURED = frozenset(c.name for c in SURVEY.columns if c.kind in ("length", "lengths", "pipe"))


def _beside_unit(text: str) -> list[str] | None:
    """The words of a heading beside one for a unit: `Height` of `HeightUoM`; None where it has no such word."""
    apart = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", text.replace("UoM", "Uom"))
    rest = [w for w in re.split(r"[_\s]+", apart.strip()) if w]
    return [w for w in rest if fold(w) not in UNIT_WORDS] if {fold(w) for w in rest} & UNIT_WORDS else None


def _is_named(rest: Sequence[str], column: int, heading: HeadingRow, without: Mapping[int, str]) -> bool:
    """Whether the words beside that for a unit name a measure, and no other one: by its own words, or as its column."""

    def names(n: int) -> bool:
        own = {fold(w) for w in re.findall(r"[^\W_]+", re.sub(r"(?<=[a-z])(?=[A-Z])", " ", heading.texts[n]))}
        said = claim(" ".join(rest))
        return {fold(w) for w in rest} <= own or (said is not None and said.name == without[n])

    return [n for n in without if names(n)] == [column]


def _clash(unit: str, below: str) -> bool:
    return bool(unit and below and unit != below)

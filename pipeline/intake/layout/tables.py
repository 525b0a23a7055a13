"""Where the surveys stand in a sheet: heading rows, the columns that they claim, the rows below them."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from pipeline.intake.layout.assets import are_schedules, posts_before_assets
from pipeline.intake.layout.counted_posts import whole_numbers
from pipeline.intake.layout.courts import is_court, may_be_a_court
from pipeline.intake.layout.grid import Grid, Row
from pipeline.intake.layout.grounds import ground_in
from pipeline.intake.layout.heading_rows import HeadingRow, heading_at, is_of_others
from pipeline.intake.layout.headings_by_cells import by_words_below, stands_again
from pipeline.intake.layout.place_names import is_on_a_ground
from pipeline.intake.layout.posts_headed import names_under, number_posts, says_posts
from pipeline.intake.layout.round_or_square import round_or_square
from pipeline.intake.layout.several_meanings import Rows, decided, names_grounds
from pipeline.intake.layout.under_headings import UNIT_WORDS, under_headings
from pipeline.intake.measures import heading_unit
from pipeline.intake.survey.heading_words import speaks_of_posts
from pipeline.intake.survey.headings import FAINT, LISTS_IN_HEADINGS, WEAK, Claim, fold, says_where
from pipeline.intake.survey.lay_headings import says_around, says_nominal
from pipeline.intake.survey.list_words import read_word
from pipeline.intake.survey.post_cells import is_same_as_above
from schemas.grounds import NUMBERED_SCHOOLS, WITHIN_A_GROUND
from schemas.post_words import SIDES
from schemas.survey import SIZE_BASIS_OF_HEADING

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
        return _BASES.get(fold(bare), "") or (
            "circumference" if says_around(bare) else "nominal pipe size" if says_nominal(bare) or says_nominal(self.text) else ""
        )


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
        if found:
            starts.append((i, replace(found, of_others=is_of_others(rows, i, found, grid.sheet.name))))
        i += found.taken if found else 1
    ends = [s for s, _ in starts[1:]] + [len(rows)]
    return [_table(grid, start, head, end) for (start, head), end in zip(starts, ends, strict=False) if not head.of_others]


def _table(grid: Grid, start: int, heading: HeadingRow, end: int) -> Table:
    """The table whose heading starts at index `start`, up to index `end`."""
    rows = grid.rows
    first = start + heading.taken
    taken, at, units = under_headings([row for _, row in rows[first:end]], len(heading.texts))
    data = tuple(rows[first + taken : end])
    heading, by_cells = decided(heading, data)
    heading = _without_courts(heading, data)
    chosen, passed_over = _choose(heading, data)
    _site_elsewhere(chosen, heading, data)
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
    """Columns headed `Unit` right behind a heading that shows none."""
    units = {n for n, text in heading.texts.items() if text.strip() and {fold(w) for w in re.split(r"[_\s]+", text)} & UNIT_WORDS}
    return {h.column: h.column + 1 for hs in heads.values() for h in hs if not h.unit and h.column + 1 in units}


def _clash(unit: str, below: str) -> bool:
    return bool(unit and below and unit != below)


def _without_courts(heading: HeadingRow, data: Rows) -> HeadingRow:
    """The headings, where courts without a name (`T1`, `2`) name no site: one that says where, and names it, does."""
    where = [n for n, c in heading.claims.items() if c.name == "site_name"]
    if not where or not all(may_be_a_court(heading.texts[n]) and _all_codes(n, data) for n in where):
        return heading
    claims = {n: c for n, c in heading.claims.items() if n not in where}
    of_ground = [n for n, t in heading.texts.items() if n not in claims and says_where(t) and not _all_codes(n, data)]
    named = {of_ground[0]: Claim("site_name", "", FAINT)} if len(of_ground) == 1 else {}
    return replace(heading, claims=claims | named)


def _site_elsewhere(chosen: dict[str, list[int]], heading: HeadingRow, data: Rows) -> None:
    """A column of other things names no site, nor one that says where: within a ground, or beside one that names grounds."""
    for name in ("site_name", "site_code"):  # `Sch.` may be a pipe's schedule
        columns = [n for n in chosen.get(name, ()) if not are_schedules(heading.texts[n], data, n)]
        if name in chosen and not columns:
            del chosen[name]
        elif name in chosen:
            chosen[name] = columns
    if "site_name" in chosen and not (
        named := [n for n in chosen["site_name"] if not _of_other_words(heading.claims[n], n, data)]
    ):
        del chosen["site_name"]
    elif "site_name" in chosen:
        chosen["site_name"] = named
    where = chosen.get("site_name", [])
    if where and all(heading.claims[n].strength == FAINT for n in where):
        claimed = {n for columns in chosen.values() for n in columns}
        if _within_a_ground(where[0], data) or any(names_grounds(n, data) for n in heading.texts if n not in claimed):
            del chosen["site_name"]


def _choose(heading: HeadingRow, data: Rows) -> tuple[dict[str, list[int]], tuple[tuple[str, str], ...]]:
    """Columns that claim each name, in order; a weak heading yields to a surer one, and is named."""
    claims, texts = heading.claims, heading.texts
    by_name: dict[str, list[int]] = {}
    for n in sorted(claims):
        by_name.setdefault(claims[n].name, []).append(n)
    _posts_that_are_named(by_name, claims, texts, names_under(heading.texts, data))
    chosen, passed_over = {}, []
    for name, columns in by_name.items():
        sure = [n for n in columns if claims[n].strength > WEAK]
        if (
            name == "quantity"
            and not sure
            and not heading.labels
            and "post_code" not in by_name
            and any(says_posts(texts[n]) for n in columns)
        ):
            where = (by_name.get("site_name") or by_name.get("site_code", []))[:1] + [n for n, t in texts.items() if is_court(t)]
            if len(columns) == 1 and number_posts(whole_numbers(columns[0], data), where, data):
                chosen[name] = columns
                continue
            passed_over += [(texts[n], "") for n in columns]  # 'Posts' may be their names
            continue
        if name == "post_size" and round_or_square({n: texts[n] for n in columns}, data):
            chosen[name] = columns
            continue
        sure = sure or _named_in_words(name, [n for n in columns if claims[n].strength > FAINT], columns, texts, data)
        sure = sure or [n for n in columns if len(columns) > 1 and names_grounds(n, data)]
        sure = posts_before_assets(sure, heading, data) if name == "post_code" else sure
        if sure:
            passed_over += [(texts[n], texts[sure[0]]) for n in columns if n not in sure]
        chosen[name] = sure or columns
    return chosen, tuple(passed_over)


def _texts(column: int, data: Rows) -> list[str]:
    return [str(row[column].value) for _, row in data if column in row and row[column].kind == "text"]


def _of_other_words(known: Claim, column: int, data: Rows) -> bool:
    """Whether a column names no site by what stands there: the game, or nothing but words of a list (`concrete`)."""
    texts = [t for t in _texts(column, data) if not is_same_as_above(t)]
    weak = known.strength <= WEAK and bool(texts) and all(len(t.strip()) > 2 for t in texts)
    listed = weak and any(all(read_word(name, t) for t in texts) for name in LISTS_IN_HEADINGS)
    return listed or _of_the_game(column, data)


def _of_the_game(column: int, data: Rows) -> bool:
    """Whether every cell speaks of the game or of a post, and names no ground: `Basketball post`."""
    texts = _texts(column, data)
    return bool(texts) and all(speaks_of_posts(t) and not ground_in(t) for t in texts)


_NUMBERED_SCHOOL = re.compile(rf"(?:{NUMBERED_SCHOOLS})\W+(?:n\W{{0,2}}o?\W*)?\d{{1,4}}", re.IGNORECASE)
"""`Liceo 3`, `Escuela N° 12`: the number is the school's name."""


def _within_a_ground(column: int, data: Rows) -> bool:
    """Whether half of the cells are parts of a ground without a name of their own: `Playground`, `North court 2`."""
    texts = [t for t in _texts(column, data) if not is_same_as_above(t) and not _NUMBERED_SCHOOL.fullmatch(t.strip())]
    within = [set(re.findall(r"[^\W\d_]+", t.casefold())) <= WITHIN_A_GROUND | SIDES or is_on_a_ground(t) for t in texts]
    return 2 * sum(within) >= max(1, len(within))


def _named_in_words(name: str, sure: list[int], columns: list[int], texts: Mapping[int, str], data: Rows) -> list[int]:
    """Surer columns of a name, but for one of numbers where another one names the site in words, and one of its courts."""
    if name != "site_name":
        return sure
    codes = {n for n in columns if whole_numbers(n, data) or (may_be_a_court(texts[n]) and _all_codes(n, data))}
    named = [n for n in sure if n not in codes] or ([n for n in columns if n not in codes] if sure else [])
    return [n for n in named if not may_be_a_court(texts[n])] or named


def _all_codes(column: int, data: Rows) -> bool:
    """Whether no cell has a word of three letters: `T1`, `2`."""
    return not any(re.search(r"[^\W\d_]{3}", t) for t in _texts(column, data) if not is_same_as_above(t))


def _posts_that_are_named(
    by_name: dict[str, list[int]], claims: Mapping[int, Claim], texts: Mapping[int, str], named: frozenset[int]
) -> None:
    """`Posts` heads the posts' names where none else does, and another heading states their number or its cells are names."""
    columns = by_name.get("quantity", [])
    weak = [n for n in columns if claims[n].strength == WEAK and says_posts(texts[n])]
    if len(weak) == 1 and "post_code" not in by_name and (len(columns) > 1 or weak[0] in named):
        by_name["quantity"] = [n for n in columns if n not in weak]
        by_name["post_code"] = weak
        if not by_name["quantity"]:
            del by_name["quantity"]

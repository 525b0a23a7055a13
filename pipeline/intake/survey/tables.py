"""Where the surveys stand in a sheet: heading rows, the columns that they claim, the rows below them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache

from pipeline.intake.measures import heading_unit
from pipeline.intake.survey.headings import MEANINGS, SYNONYM, WEAK, Claim, claim, fold, joined, only_unit
from pipeline.reading.book import Cell, Sheet, address
from schemas.survey import SIZE_BASIS_OF_HEADING

_SEARCHED = 200  # rows with cells in which the first heading row is looked for
_OF_A_POST = frozenset(("post_code", "post_shape", "post_size", "post_height", "post_line", "old_fittings"))
_WHOSE = frozenset(("site_code", "site_name", "post_code"))
_NOTHING_WORDS = frozenset(("", "unit", "units", "text", "number", "code", "list", "na", "choose"))
_BASES = {fold(h): b for h, b in SIZE_BASIS_OF_HEADING.items()}

Row = Mapping[int, Cell]
"""Cells of one row by column."""


@dataclass(frozen=True, slots=True)
class Head:
    """One heading that claims a column: where it stands, its words, its unit ('' = none)."""

    row: int
    column: int
    text: str
    unit: str

    @property
    def address(self) -> str:
        """The heading's own cell."""
        return address(self.row, self.column)

    @property
    def basis(self) -> str:
        """What the heading says that the post's size is, where it says it itself."""
        return _BASES.get(fold(heading_unit(self.text)[0]), "")


@dataclass(frozen=True)
class Table:
    """One heading row with the rows below it, up to the next heading row.

    `heads` has the headings that claim a column of the glossary: the second and further ones of a
    list contradict the first. `extra` has the headings of all other columns, `passed_over` those
    among them that could have claimed a column where a surer one does.
    """

    sheet: str
    row: int
    heads: dict[str, list[Head]]
    extra: dict[int, str]
    rows: tuple[tuple[int, Row], ...]
    passed_over: tuple[tuple[str, str], ...] = ()
    unit_row: int = 0
    clashing_units: tuple[str, ...] = field(default=())


def rows_of(sheet: Sheet) -> list[tuple[int, dict[int, Cell]]]:
    """The rows of a sheet that hold anything, in order; cells of nothing but spaces count as blank."""
    rows: dict[int, dict[int, Cell]] = {}
    for cell in sheet.cells:
        if not (cell.kind == "text" and is_blank(str(cell.value))):
            rows.setdefault(cell.row, {})[cell.column] = cell
    return sorted(rows.items())


_VISIBLE = re.compile(r"[^\s\u200b-\u200f\u2060\ufeff\u00ad]")


def is_blank(text: str) -> bool:
    """Whether nothing of `text` can be seen."""
    return _VISIBLE.search(text) is None


def find_tables(sheet: Sheet) -> list[Table]:
    """The survey tables of a sheet, in order; none where no row of headings is found."""
    rows = rows_of(sheet)
    starts: list[tuple[int, int, dict[int, Claim], dict[int, str]]] = []  # index, rows taken, claims, texts
    i = 0
    while i < len(rows) and (starts or i < _SEARCHED):
        found = _heading_at(rows, i, likely=3 if starts else 1)
        if found and starts and len(found[1]) < 8 and 2 * len(found[1]) < len(found[2]):
            found = None  # a row of data that happens to use a few of the words
        if found:
            starts.append((i, *found))
            i += found[0]
        else:
            i += 1
    ends = [s[0] for s in starts[1:]] + [len(rows)] * bool(starts)
    return [_table(sheet, rows, *start, end) for start, end in zip(starts, ends, strict=True)]


def _heading_at(
    rows: list[tuple[int, dict[int, Cell]]], i: int, likely: int
) -> tuple[int, dict[int, Claim], dict[int, str]] | None:
    """Rows taken, claims and texts of the heading that starts at row `i`, or None."""
    upper = rows[i][1]
    if sum(_may_be_heading(c) for c in upper.values()) < likely:
        return None
    texts = {n: str(c.value) for n, c in upper.items() if c.kind == "text"}
    alone = {n: found for n, t in texts.items() if (found := claim(t))}
    if len(_names(alone)) < likely and likely > 1:
        return None
    below = rows[i + 1] if i + 1 < len(rows) else (0, {})
    if below[0] == rows[i][0] + 1 and all(c.kind == "text" for c in (*upper.values(), *below[1].values())):
        both, both_texts, used = _over_two_rows(texts, {n: str(c.value) for n, c in below[1].items()})
        lower = {n: found for n, c in below[1].items() if (found := claim(str(c.value)))}
        more = len(_names(both)) >= max(len(_names(alone)), len(_names(lower)))
        if used and more and _is_survey(both):
            return 2, both, both_texts
    return (1, alone, texts) if _is_survey(alone) else None


def _over_two_rows(upper: dict[int, str], lower: dict[int, str]) -> tuple[dict[int, Claim], dict[int, str], bool]:
    """Claims of headings written over two rows; a blank upper cell belongs to the group on its left.

    Also the words of each heading, and whether any heading needed both rows.
    """
    claims: dict[int, Claim] = {}
    texts: dict[int, str] = {}
    used, group = False, ""
    for n in sorted(upper.keys() | lower.keys()):
        group = upper.get(n, group)
        over = group if n in lower else upper[n]
        under = lower.get(n, "")
        texts[n] = f"{upper.get(n, '')} {under}".strip()
        starts_group = n in upper and n in lower and n + 1 in lower and n + 1 not in upper
        found = joined(over, under, grouped=n not in upper or starts_group) if len(upper) > 1 else claim(under or over)
        if found:
            claims[n] = found
            used = used or bool(under and over and claim(f"{over} {under}"))
    return claims, texts, used


_FIRST_WORD = re.compile(r"\W*(\w+)")


def _first_words() -> frozenset[str]:
    from schemas.languages import HEADINGS, WEAK_HEADINGS
    from schemas.survey import SURVEY

    heads = [w for c in SURVEY.columns for w in (c.heading, *HEADINGS[c.name], *WEAK_HEADINGS.get(c.name, ()))]
    return frozenset(w.casefold().split()[0] for w in heads)


_FIRST_WORDS = _first_words()


def _may_be_heading(cell: Cell) -> bool:
    """A cheap look before the dear one: a short text that starts as a heading does."""
    return cell.kind == "text" and len(str(cell.value)) <= 80 and _starts_as_heading(str(cell.value))


@lru_cache(maxsize=16384)
def _starts_as_heading(text: str) -> bool:
    m = _FIRST_WORD.match(text.casefold())
    return (m is not None and m[1] in _FIRST_WORDS) or fold(text) in MEANINGS


def _names(claims: Mapping[int, Claim]) -> set[str]:
    return {c.name for c in claims.values()}


def _is_survey(claims: Mapping[int, Claim]) -> bool:
    """Whether a row of headings heads a survey: three columns, two of them surely about a post, and whose it is."""
    names = _names(claims)
    of_a_post = {c.name for c in claims.values() if c.strength >= SYNONYM} & _OF_A_POST
    return len(names) >= 3 and len(of_a_post) >= 2 and (bool(names & _WHOSE) or len(of_a_post) >= 4)


def _table(
    sheet: Sheet,
    rows: list[tuple[int, dict[int, Cell]]],
    start: int,
    taken: int,
    claims: dict[int, Claim],
    texts: dict[int, str],
    end: int,
) -> Table:
    """The table whose heading takes `taken` rows from index `start`, up to index `end`."""
    first = start + taken
    heading_row = rows[start][0]
    units = _units_below(rows[first][1]) if first < end else {}
    chosen, passed_over = _choose(claims, texts)
    heads: dict[str, list[Head]] = {}
    clashing = []
    for name, columns in chosen.items():
        for n in columns:
            unit, below = claims[n].unit, units.get(n, "")
            if unit and below and unit != below:
                clashing.append(texts[n])
                unit = below = ""
            at = heading_row if n in rows[start][1] else heading_row + taken - 1
            heads.setdefault(name, []).append(Head(at, n, texts[n], unit or below))
    claimed = {h.column for hs in heads.values() for h in hs}
    data = tuple(rows[first + bool(units) : end])
    seen = sorted({n for _, cells in data for n in cells} | texts.keys())
    extra = {n: texts.get(n, "") for n in seen if n not in claimed}
    unit_row = rows[first][0] if units else 0
    return Table(sheet.name, heading_row, heads, extra, data, passed_over, unit_row, tuple(clashing))


def _choose(claims: Mapping[int, Claim], texts: Mapping[int, str]) -> tuple[dict[str, list[int]], tuple[tuple[str, str], ...]]:
    """Columns that claim each name, in order; a weak heading yields to a surer one, and is named."""
    by_name: dict[str, list[int]] = {}
    for n in sorted(claims):
        by_name.setdefault(claims[n].name, []).append(n)
    chosen, passed_over = {}, []
    for name, columns in by_name.items():
        sure = [n for n in columns if claims[n].strength > WEAK]
        if name == "quantity" and not sure and "post_code" not in by_name:
            passed_over += [(texts[n], "") for n in columns]  # 'Posts' may be their names
            continue
        if sure:
            passed_over += [(texts[n], texts[sure[0]]) for n in columns if n not in sure]
        chosen[name] = sure or columns
    return chosen, tuple(passed_over)


def _units_below(cells: Row) -> dict[int, str]:
    """Units by column, where a row says nothing but units; {} where it says anything else."""
    units = {}
    for n, cell in cells.items():
        if cell.kind != "text":
            return {}
        unit = only_unit(str(cell.value))
        if unit:
            units[n] = unit
        elif fold(str(cell.value)) not in _NOTHING_WORDS:
            return {}
    return units

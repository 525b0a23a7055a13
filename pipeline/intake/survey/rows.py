"""Which rows below a heading are posts: not blank ones, titles, totals, or what follows a total."""

from __future__ import annotations

import re
from dataclasses import dataclass

from pipeline.intake.survey.tables import Row, Table
from pipeline.reading.book import Cell
from schemas.order import folded
from schemas.survey import SURVEY

_TOTAL = re.compile(r"(grand |overall )?(total|totals|sum|sum total)( (of )?(posts|poles))?\s*[:=]?\s*\d*", re.IGNORECASE)
_PARTIAL = re.compile(r"(sub-? ?totals?|average|mean|count|minimum|maximum)\s*[:=]?\s*\d*", re.IGNORECASE)
_NUMBER = re.compile(r"[-+−]?[\d.,'\s]+( ?(posts|poles|pcs|ft|in|m|mm))?\.?", re.IGNORECASE)
_NOT_ABOUT_A_POST = ("site_code", "site_name", "customer", "site_kind", "notes")
_NAMED = 5  # rows that a sentence names
_NEEDED = tuple(c.name for c in SURVEY.columns if c.needed)


@dataclass(frozen=True)
class Sorted:
    """Rows of a table that are posts, sentences about those that are not, and rows after a total that look like posts."""

    posts: tuple[tuple[int, Row], ...]
    said: tuple[str, ...]
    after_total: tuple[tuple[int, Row], ...]


def sort_rows(table: Table) -> Sorted:
    """Tell the posts of a table from its titles, totals and footers; a row in doubt is a post."""
    claimed = {h.column for heads in table.heads.values() for h in heads}
    side = {h.column for n in _NOT_ABOUT_A_POST for h in table.heads.get(n, ())}
    codes = _words_of_fuller_rows(table)
    posts: list[tuple[int, Row]] = []
    after: list[tuple[int, Row]] = []
    partial: list[str] = []
    titles: list[str] = []
    elsewhere: list[str] = []
    total = 0
    for number, cells in table.rows:
        kind = "" if total else _kind_of_total(cells)
        if total:
            if _looks_like_post(table, cells):
                after.append((number, cells))
        elif kind == "total":
            total = number
        elif kind == "partial":
            partial.append(str(number))
        elif not any(n in claimed for n in cells):
            elsewhere.append(str(number))
        elif _is_title(cells, claimed - side, codes):
            titles.append(f"{number} (“{_shown(cells)}”)")
        else:
            posts.append((number, cells))
    said = (
        f"Row {total} is read as a total; what follows it is not read as posts." if total else "",
        _several(partial, "read as subtotals, not as posts"),
        _several(titles, "read as titles or remarks, not as posts"),
        _several(elsewhere, "not read as posts: nothing stands there in a known column"),
    )
    return Sorted(tuple(posts), tuple(s for s in said if s), tuple(after))


def _several(rows: list[str], what: str) -> str:
    """One sentence about some rows, the first few of them named."""
    if not rows:
        return ""
    more = f" and {len(rows) - _NAMED} more" if len(rows) > _NAMED else ""
    return f"Rows {what}: {', '.join(rows[:_NAMED])}{more}."


def _kind_of_total(cells: Row) -> str:
    """`total`, `partial` or '': a label of a total, and otherwise nothing but numbers."""
    columns = sorted(cells)
    label, *rest = [cells[n] for n in columns]
    if label.kind == "number" and rest:  # a running number in front of the label
        label, *rest = rest
    text = " ".join(str(label.value).split()) if label.kind == "text" else ""
    kind = "total" if _TOTAL.fullmatch(text) else "partial" if _PARTIAL.fullmatch(text) else ""
    return kind if kind and all(_is_numeric(c) for c in rest) else ""


def _is_numeric(cell: Cell) -> bool:
    return cell.kind in ("number", "error", "no_result") or (
        cell.kind == "text" and _NUMBER.fullmatch(str(cell.value).strip()) is not None
    )


def _looks_like_post(table: Table, cells: Row) -> bool:
    """Whether most needed columns of a row are filled."""
    filled = [n for n in _NEEDED if any(h.column in cells for h in table.heads.get(n, ()))]
    return len(filled) >= 5


def _words_of_fuller_rows(table: Table) -> set[tuple[int, str]]:
    """Column and folded text of every cell that has company in its row."""
    return {(n, folded(str(c.value))) for _, cells in table.rows if len(cells) > 1 for n, c in cells.items() if c.kind == "text"}


def _is_title(cells: Row, about_a_post: set[int], codes: set[tuple[int, str]]) -> bool:
    """A single text that says nothing about a post and is not a code that other rows have in its column."""
    if len(cells) > 1:
        return False
    ((column, cell),) = cells.items()
    return cell.kind == "text" and column not in about_a_post and (column, folded(str(cell.value))) not in codes


def _shown(cells: Row) -> str:
    text = " ".join(str(next(iter(cells.values())).value).split())
    return text if len(text) <= 40 else text[:39] + "…"

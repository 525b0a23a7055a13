"""Answers typed into the list `To correct`: they count as typed in the cell."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from pipeline.intake.layout.as_shown import as_shown
from pipeline.intake.layout.list_words import (
    ANSWER,
    ASKED,
    BLANK,
    CELL,
    HEADINGS,
    NOTHING,
    SHEET,
    SIGN,
    STANDS,
    TITLE,
    WRONG,
)
from pipeline.intake.measures import heading_unit
from pipeline.intake.survey.headings import claim
from pipeline.intake.survey.near_headings import NOT_READ
from pipeline.reading.book import Book, Cell, Sheet, place

_LONGEST_LIST = 100_000  # rows


@dataclass(frozen=True)
class Answers:
    """What was answered, by sheet and address; `differ` has cells that say one thing while their answer says another."""

    taken: Mapping[tuple[str, str], Cell] = field(default_factory=dict)
    differ: Mapping[tuple[str, str], tuple[str, str]] = field(default_factory=dict)  # what stands there, what was answered


@dataclass(frozen=True, slots=True)
class _Answer:
    sheet: str
    cell: str
    stood: str
    wrong: str
    answer: Cell


def is_list(sheet: Sheet) -> bool:
    """Whether a sheet is the list of an earlier round."""
    first = sheet.cells[0] if sheet.cells else None
    return sheet.name.startswith(TITLE) and first is not None and str(first.value).startswith(SIGN)


def with_answers(book: Book) -> tuple[Book, Answers]:
    """`book` without its lists, each answer in the cell that it answers; and what was answered.

    An answer beside a cell that was corrected too counts where both say the same; where they differ, the cell stays as it
    is and the two are handed back.
    """
    sheets = {s.name: {c.address: c for c in s.cells} for s in book.sheets if not is_list(s)}
    taken: dict[tuple[str, str], Cell] = {}
    differ: dict[tuple[str, str], tuple[str, str]] = {}
    for a in (a for s in book.sheets if is_list(s) for a in _answers_in(s)):
        for sheet, cell in _answered_by(a, sheets):
            key, there = (sheet, cell), sheets[sheet].get(cell)
            now = taken.get(key) or there
            stands = as_shown(now) if now else ""
            if key not in taken and (_is_as_sent(a, there) or not stands):
                taken[key] = _placed(a, place(cell), there)
            elif not _same(stands, as_shown(a.answer)):
                differ[key] = (stands, as_shown(a.answer))
    taken = {key: cell for key, cell in taken.items() if key not in differ}
    if not taken and all(s.name in sheets for s in book.sheets):
        return book, Answers()
    return replace(book, sheets=tuple(_filled(s, taken) for s in book.sheets if s.name in sheets)), Answers(taken, differ)


def _answered_by(a: _Answer, sheets: Mapping[str, Mapping[str, Cell]]) -> list[tuple[str, str]]:
    """The cells that an answer is for: its own; of a question about a heading, every heading of the same words."""
    if a.sheet not in sheets:
        return []
    own = [(a.sheet, a.cell)]
    if not a.wrong.startswith(ASKED) or not a.stood:
        return own
    alike = [
        (name, at)
        for name, cells in sheets.items()
        for at, c in cells.items()
        if c.kind == "text" and _same(as_shown(c), a.stood)
    ]
    return list(dict.fromkeys([*own, *alike]))


def _is_as_sent(a: _Answer, there: Cell | None) -> bool:
    """Whether the answered cell still shows what the list says; what programs show in several ways counts as unchanged."""
    if there is not None and there.kind in ("date", "error", "no_result"):
        return True
    return _same(as_shown(there) if there else "", "" if a.stood == BLANK else a.stood)


def _answers_in(sheet: Sheet) -> Iterator[_Answer]:
    """Rows of a list whose answer is filled."""
    rows: dict[int, dict[int, Cell]] = {}
    for cell in sheet.cells[:_LONGEST_LIST]:
        rows.setdefault(cell.row, {})[cell.column] = cell
    places: dict[str, int] = {}
    for _, cells in sorted(rows.items()):
        texts = {str(c.value): n for n, c in cells.items() if c.kind == "text"}
        if not places and {HEADINGS[CELL], HEADINGS[ANSWER]} <= texts.keys():
            places = texts
        elif places and (answer := cells.get(places[HEADINGS[ANSWER]])):
            shown = {
                h: as_shown(cells[places[h]]) if places.get(h) in cells else ""
                for h in (HEADINGS[n] for n in (SHEET, CELL, STANDS, WRONG))
            }
            if place(shown[HEADINGS[CELL]])[0] and as_shown(answer).strip():
                yield _Answer(
                    shown[HEADINGS[SHEET]], shown[HEADINGS[CELL]], shown[HEADINGS[STANDS]], shown[HEADINGS[WRONG]], answer
                )


def _same(a: str, b: str) -> bool:
    """Whether two cells show the same, spaces aside; programs write one number in several ways."""
    a, b = " ".join(a.split()), " ".join(b.split())
    if a.casefold() == b.casefold():
        return True
    try:
        return float(a) == float(b)
    except ValueError:
        return False


def _placed(a: _Answer, at: tuple[int, int], there: Cell | None) -> Cell:
    """The answer in the cell that it answers; a heading keeps its unit, and one that means nothing its own words."""
    row, column = at
    shown = " ".join(as_shown(a.answer).split())
    if there is not None and there.kind == "text" and shown.casefold() == NOTHING:
        return replace(there, value=f"{NOT_READ}{there.value}")
    if there is not None and there.kind == "text" and claim(shown) and not claim(str(there.value)):
        unit = "" if heading_unit(shown)[1] else heading_unit(str(there.value))[1]
        if unit:
            return Cell(row, column, "text", f"{shown} [{unit}]")
    return replace(a.answer, row=row, column=column)


def _filled(sheet: Sheet, taken: Mapping[tuple[str, str], Cell]) -> Sheet:
    """A sheet with the answers in their cells."""
    new = {(c.row, c.column): c for (name, _), c in taken.items() if name == sheet.name}
    if not new:
        return sheet
    cells = {(c.row, c.column): c for c in sheet.cells} | new
    return replace(sheet, cells=tuple(c for _, c in sorted(cells.items())))

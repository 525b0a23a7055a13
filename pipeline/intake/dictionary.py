"""The seller's own dictionary: what headings and words of senders mean, for all senders."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from pipeline.intake.measures import heading_unit
from pipeline.intake.survey.folding import fold, fold_word
from pipeline.intake.survey.headings import WEAK, claim
from pipeline.intake.survey.near_headings import NOT_READ
from pipeline.reading.book import Book, Cell, Sheet
from schemas.survey import SURVEY

NOTHING = "nothing"
"""What a heading means whose column is not to be read."""

_LONGEST = 80
_OTHERS = 2  # headings in the same row or column, before a text counts as a heading


@dataclass(frozen=True)
class Dictionary:
    """`headings`: name of the column ('' = nothing) by folded heading; `words`: value by folded word, by column."""

    headings: Mapping[str, str]
    words: Mapping[str, Mapping[str, str]]


EMPTY = Dictionary({}, {})


def column_meant(text: str) -> str:
    """Name of the column that a heading of the survey means, in any of its languages; '' where it is none."""
    known = claim(text)
    return known.name if known and known.strength > WEAK else ""


def dictionary(tables: Mapping[str, Iterable[Mapping[str, Any]]]) -> Dictionary:
    """The dictionary in the tables `Headings` and `Words` of a catalogue without a fault."""
    headings = {fold(r["heading"]): column_meant(r["means"]) for r in tables.get("Headings", ())}
    words: dict[str, dict[str, str]] = defaultdict(dict)
    for row in tables.get("Words", ()):
        name = column_meant(row["column"])
        value = next(v for v in SURVEY.column(name).values if fold_word(v) == fold_word(row["means"]))
        words[name][fold_word(row["word"])] = value
    return Dictionary(headings, dict(words))


def with_sellers_headings(book: Book, seller_words: Dictionary) -> Book:
    """The book with each of the seller's headings in the survey's own words; one that means nothing is marked as not read.

    A text counts as a heading where two others of its row or of its column are headings that are known.
    """
    if not seller_words.headings:
        return book
    return replace(book, sheets=tuple(_sheet(s, seller_words.headings) for s in book.sheets))


def _sheet(sheet: Sheet, headings: Mapping[str, str]) -> Sheet:
    places = [c for c in sheet.cells if c.kind == "text" and _meant(c, headings) is not None]
    if not places:
        return sheet
    known = [c for c in sheet.cells if c.kind == "text" and len(str(c.value)) <= _LONGEST and claim(str(c.value))]
    lines: dict[tuple[str, int], set[tuple[int, int]]] = defaultdict(set)
    for c in (*known, *places):
        lines["row", c.row].add((c.row, c.column))
        lines["column", c.column].add((c.row, c.column))
    heads = {(c.row, c.column) for c in places if max(len(lines["row", c.row]), len(lines["column", c.column])) > _OTHERS}
    cells = tuple(_in_our_words(c, headings) if (c.row, c.column) in heads else c for c in sheet.cells)
    return replace(sheet, cells=cells)


def _meant(cell: Cell, headings: Mapping[str, str]) -> str | None:
    """The column that the seller says a heading means, with its unit or without; None where nothing is said of it."""
    text = str(cell.value)
    if len(text) > _LONGEST:
        return None
    whole = headings.get(fold(text))
    return headings.get(fold(heading_unit(text)[0])) if whole is None else whole


def _in_our_words(cell: Cell, headings: Mapping[str, str]) -> Cell:
    name = _meant(cell, headings)
    if not name:
        return cell if name is None else replace(cell, value=f"{NOT_READ}{cell.value}")
    unit = heading_unit(str(cell.value))[1]
    heading = SURVEY.column(name).heading
    return replace(cell, value=f"{heading} [{unit}]" if unit else heading)

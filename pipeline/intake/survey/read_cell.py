"""One cell of a survey to a value in SI, or to what is wrong with it."""

from __future__ import annotations

import math
import re
import unicodedata
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from typing import Any

from pipeline.intake.layout.grid import is_blank
from pipeline.intake.measures import Doubt, Measure, PipeSize, read_lengths, read_measure, read_post_size, read_whole
from pipeline.intake.query import Code
from pipeline.intake.survey.dates import as_length, date_of_text, day_of, likely_typed
from pipeline.intake.survey.fault import Fault
from pipeline.intake.survey.list_words import NO_WORDS, InWords, Seller, question_of, read_word
from pipeline.intake.survey.shape_words import shape_described
from pipeline.intake.survey.spellings import says_nothing, suggestions, word_of
from pipeline.reading.book import Cell
from schemas.column import Column
from schemas.lists import joined
from schemas.survey import HOLDS_ROW, SURVEY, TOOL_OF

_PER_CENT = "100 %"  # a number format that shows the stored 0.02 as 2 %
_MEASURES = ("length", "lengths", "angle", "speed", "pipe")
_BLANK_IS = {
    "ring_heights": "the standard ring height",
    "wind_speed": "the standard wind speed",
    "exposure": "the standard exposure",
    "footing_diameter": "the standard footing",
    "soil_class": "the standard soil class",
    "size_basis": "the outside size",
    "clear_length": "the whole height",
}
"""What a blank means in a column whose default is not in the glossary."""

EXAMPLES = {
    "length": "8 ft 6 in",
    "pipe": "3 1/2 in",
    "angle": "1 deg",
    "speed": "115 mph",
    "lengths": "8 ft; 10 ft",
    "whole": "2",
    "moment": "6000 N m",
    "date": "2026-03-14",
}


@dataclass(frozen=True, slots=True)
class Reading:
    """What a cell was read as; `value` None where it is blank."""

    value: Any
    unit: str = ""
    remarks: tuple[str, ...] = ()
    how: InWords = ""  # whether a word of a list was said in other words
    size: Measure | None = None  # of a post's size: what its cell says of shape, wall and basis


BLANK = Reading(None)


def read_cell(
    column: Column, cell: Cell | None, unit: str = "", basis: str = "", heading: str = "", seller: Seller = NO_WORDS
) -> Reading | Fault:
    """Read one cell of `column` under a heading with `unit`; `basis` is what a post's size was stated as.

    `heading` is the heading's text, `seller` the seller's own words of lists.
    """
    if cell is None or (cell.kind == "text" and is_blank(str(cell.value))):
        return BLANK
    if cell.kind in ("error", "no_result"):
        return _no_value(column, cell)
    if column.kind == "date" and cell.kind in ("date", "text", "number"):
        return _day(column, cell)
    if cell.kind == "date":
        return _date(column, cell, unit)
    if cell.kind == "number" and not math.isfinite(cell.value):  # type: ignore[arg-type]
        return Fault("UNREADABLE", f"“{typed(cell)}” is no number that can be used.", example(column))
    if cell.kind == "text" and says_nothing(column, str(cell.value)):
        return _nothing(column, cell, unit)
    if column.kind == "choice":
        return _choice(column, cell, heading, seller)
    if column.kind in ("text", "code"):
        return _words(column, cell)
    if cell.kind == "bool":
        return Fault("UNREADABLE", f"“{typed(cell)}” is no {_noun(column)}.", example(column))
    return _number(column, cell, unit, basis)


def typed(cell: Cell, unit: str = "") -> str:
    """What stood in the cell, with the heading's unit where a bare number took it."""
    if cell.kind == "date":
        return cell.shown or str(cell.value)
    if cell.kind == "bool":
        return "TRUE" if cell.value else "FALSE"
    if cell.kind == "no_result":
        return "formula without a stored result"
    if cell.kind == "number":
        text = plain_number(cell.value)  # type: ignore[arg-type]
        if cell.shown and not cell.shown_unit and not unit:
            return cell.shown
        if cell.shown_unit == _PER_CENT:
            return f"{plain_number(_percent(cell.value))} %"  # type: ignore[arg-type]
        unit = cell.shown_unit or unit
    else:
        text = str(cell.value).strip()
        if any(c.isalpha() or c in "'\"′″’”“°%Ø:" for c in text):
            return text
    return f"{text} {unit}".strip()


def plain_number(value: float) -> str:
    """A number as a person writes it: 12 for 12.0."""
    return str(int(value)) if math.isfinite(value) and value == int(value) and abs(value) < 1e15 else repr(value)


def example(column: Column) -> str:
    """What a good cell of the column looks like; said to be an example, so that nobody copies it."""
    if column.values:
        return joined(column.values, "or")
    like = _EXAMPLE_OF.get(column.name) or EXAMPLES.get(column.kind, "")
    if not like:
        return column.help
    return f"the number of posts, such as {like}" if column.kind == "whole" else f"the true value, such as {like}"


_EXAMPLE_OF = {
    "wall": "3/16 in",
    "court_rise": "4 in",
    "clear_length": "60 in",
    "least_board_width": "48 in",
    "footing_diameter": "18 in",
    "footing_depth": "36 in",
    "post_to_end_line": "2 ft",
}


def blank_means(column: Column) -> str:
    """What a blank cell is taken as ('' = nothing: it is just not stated)."""
    return _BLANK_IS.get(column.name, column.default)


def _no_value(column: Column, cell: Cell) -> Fault:
    """Neither an error nor a formula without a result is ever read as a blank."""
    if cell.kind == "error":
        message = f"the cell holds the error “{cell.value}”."
    else:
        message = "the cell holds a formula without a stored result: type the value itself."
    free = column.kind in ("text", "code")
    return Fault("ERROR_CELL", message, "Type the value itself." if free else example(column))


def _date(column: Column, cell: Cell, unit: str) -> Reading | Fault:
    """A date in a cell that wants none: the spreadsheet program has made it of something else."""
    if column.name == "notes":
        return Reading(typed(cell))
    originals = likely_typed(str(cell.value))
    shown = typed(cell)
    if not originals:
        return Fault("DATE_CELL", f"the spreadsheet program has made the date “{shown}” of what was typed.", example(column))
    listed = joined([f"“{o}”" for o in originals], "or")
    as_typed = shown == str(cell.value) or str(cell.value).startswith("0000")
    date = f"“{shown}”" if as_typed else f"“{shown}” ({str(cell.value)[:10]})"
    message = f"the spreadsheet program has made the date {date} of what was typed, likely {listed}."
    return Fault("DATE_CELL", message, next((f for f in _instead(column, originals, unit) if f), example(column)))


def _day(column: Column, cell: Cell) -> Reading | Fault:
    """A day: a date cell, or a text that is one day only."""
    day = day_of(str(cell.value)) if cell.kind != "number" else ""
    if day and not day.startswith("0000"):
        return Reading(day)
    return Fault("UNREADABLE", f"“{typed(cell)}” cannot be read as one day.", example(column))


def _instead(column: Column, originals: tuple[str, ...], unit: str) -> list[str]:
    """What can be pasted over a date: lengths that are read in one way; a post is no feet wide and no number of posts `1-2`."""
    if column.kind in _MEASURES:
        narrow = column.kind == "pipe" or column.name == "wall"
        return [as_length(o, unit) for o in originals if "/" in o or not narrow]
    return [] if column.kind == "whole" else [f"'{o}" for o in originals]


def _nothing(column: Column, cell: Cell, unit: str) -> Reading | Fault:
    """`-`, `n/a` and their like: as good as blank only where a blank takes no default."""
    shown = typed(cell)
    if column.needed:
        if column.kind in ("text", "code"):
            return Fault("MISSING", f"“{shown}” says nothing, and the cell is needed.", example(column))
    elif not blank_means(column):
        return BLANK
    code: Code = "NOT_IN_LIST" if column.kind == "choice" else "UNREADABLE"
    taken = f" Leave the cell blank for {blank_means(column)}." if blank_means(column) else ""
    if word := word_of(column.name, str(cell.value)) if column.kind == "choice" else None:
        return Reading(word)
    return Fault(code, f"“{shown}” cannot be read as a {_noun(column)}.{taken}", example(column))


def _choice(column: Column, cell: Cell, heading: str, seller: Seller) -> Reading | Fault:
    """A word of the column's list, or one that says it; under a yes/no heading the heading says what yes means."""
    text = plain_number(cell.value) if cell.kind == "number" else typed(cell)  # type: ignore[arg-type]
    asked = question_of(heading, column.name)
    if cell.kind == "bool" and asked:
        text = "yes" if cell.value else "no"
    word = read_word(column.name, text, heading, seller) if cell.kind != "bool" or asked else None
    if word is not None:
        return Reading(int(word.value) if column.name == "soil_class" else word.value, how=word.how)
    if column.name == "post_shape" and (described := shape_described(text)):
        return Reading(described, how="words")
    near = suggestions(column.name, text)
    listed = joined(column.values, "or")
    counts = "" if column.name in HOLDS_ROW else " It counts as unknown."
    return Fault("NOT_IN_LIST", f"“{text}” is not one of: {listed}.{counts}", near[0] if len(near) == 1 else listed)


def _words(column: Column, cell: Cell) -> Reading | Fault:
    """Free words or a code; a number as its format shows it (`S-007`), else a whole one without its decimal point."""
    if cell.kind == "bool":
        return Fault("UNREADABLE", f"the spreadsheet program has made “{typed(cell)}” of what was typed.", example(column))
    if cell.kind == "number" and not cell.shown:
        return Reading(plain_number(cell.value))  # type: ignore[arg-type]
    text = _seen(cell.shown if cell.kind == "number" else str(cell.value), column.kind)
    return Reading(text) if text else BLANK


def _number(column: Column, cell: Cell, unit: str, basis: str) -> Reading | Fault:
    """A whole number or a measure, by the grammar; a unit that the number format shows counts as the cell's."""
    value: Any = cell.value
    if cell.kind == "number" and column.kind != "whole":
        unit = cell.shown_unit or unit
        if cell.shown_unit == _PER_CENT:
            unit, value = "%", _percent(value)
    got = _read(value, column.kind, unit, basis)
    if isinstance(got, Doubt):
        shown = typed(cell)
        message = got.message if str(cell.value).strip() in got.message or shown in got.message else f"“{shown}”: {got.message}"
        if isinstance(value, str) and (iso := date_of_text(value)):
            return _date(column, Cell(cell.row, cell.column, "date", iso, "", value.strip()), unit)
        return Fault(got.code, message, _estimate(column, got) or got.suggestion or example(column), got.readings)
    if isinstance(got, PipeSize):
        return Reading(got, got.unit, got.remarks)
    if isinstance(got, Measure):
        return Reading(float(got.value), got.unit, got.remarks, size=got if column.kind == "pipe" else None)
    if isinstance(got, tuple):
        return Reading(tuple(float(m.value) for m in got), got[0].unit, tuple(s for m in got for s in m.remarks))
    return Reading(got)


def _estimate(column: Column, doubt: Doubt) -> str:
    """Where nothing but a word of doubt stands beside a measure: what to choose in which column ('' elsewhere)."""
    if not doubt.estimate or column.name not in TOOL_OF:
        return ""
    tool = SURVEY.column(TOOL_OF[column.name]).heading
    return f"Measure again; or type {doubt.readings[0]}, and choose “estimate” under “{tool}”."


_CONTROLS = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069\ufeff]")
_UNSEEN_IN_CODES = re.compile("[\u200b-\u200f\u2060-\u2065\u00ad]")


def _seen(text: str, kind: str) -> str:
    """The text without characters that nobody sees; two codes that look the same are the same."""
    text = _CONTROLS.sub("", text).strip()
    return " ".join(unicodedata.normalize("NFC", _UNSEEN_IN_CODES.sub("", text)).split()) if kind == "code" else text


@lru_cache(maxsize=8192, typed=True)
def _read(value: str | int | float, kind: str, unit: str, basis: str) -> Any:
    if kind == "whole":
        return read_whole(value)
    if kind == "pipe":
        return read_post_size(value, unit, basis)
    if kind == "lengths":
        return read_lengths(value, unit)
    return read_measure(value, kind, unit)


def _percent(value: float) -> float:
    """A number that is shown as a percentage, in per cent: 2 for 0.02."""
    return float(Decimal(repr(value)) * 100)


def _noun(column: Column) -> str:
    nouns = {
        "whole": "whole number",
        "choice": "word of the list",
        "angle": "lean",
        "speed": "wind speed",
        "pipe": "size",
        "date": "day",
        "moment": "moment",
    }
    return nouns.get(column.kind, "length")

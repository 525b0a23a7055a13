"""How many posts a row is where no heading states it: a remark that says nothing else, or more posts beside the first."""

from __future__ import annotations

import re

from pipeline.intake.layout.grid import line
from pipeline.intake.layout.record import Stated, Wrong
from pipeline.intake.measures import read_whole
from pipeline.intake.survey.folding import fold_word
from pipeline.intake.survey.read_cell import typed
from pipeline.reading.book import Cell
from schemas.languages import NO
from schemas.post_words import MAY_BE_SO_MANY, MORE_ALIKE, NUMBERS, SO_MANY

_SO_MANY = re.compile(SO_MANY, re.IGNORECASE)
_MAY_BE = re.compile(MAY_BE_SO_MANY, re.IGNORECASE)
_MORE = re.compile(MORE_ALIKE, re.IGNORECASE)
_NONE = frozenset(fold_word(w) for w in (*NO, "0", "none", "nil", "-", "just this one", "only this one"))
_MOST = 100


def told_in(notes: Stated | None) -> Stated | None:
    """The number of posts that one piece of a remark says, and nothing else in it: `2 of these`, `pair of these`."""
    found = [n for piece in _pieces(notes) if (n := _so_many(piece))]
    if notes is None or len(found) != 1:
        return None
    cell = Cell(notes.cell.row, notes.cell.column, "number", found[0])
    return Stated(cell, notes.heading, notes.cell.address, "remark")


def may_be_told(notes: Stated | None) -> int:
    """The number of posts that a piece of a remark may say of the row, or of its ground; 0 where none does."""
    found = [m for piece in _pieces(notes) if (m := _MAY_BE.fullmatch(piece))]
    numbers = [_several("2" if m["pair"] else next(g for g in m.groups() if g)) for m in found]
    return numbers[0] if len(numbers) == 1 else 0


def _pieces(notes: Stated | None) -> list[str]:
    """What a remark says, one thing after the other."""
    text = typed(notes.cell) if notes and notes.cell.kind == "text" else ""
    return [piece.strip(" )!") for piece in re.split(r"[;,.(]|\s[-–—]\s", text)]


def _so_many(piece: str) -> int:
    """The number in a piece; 0 where it is none."""
    m = _SO_MANY.fullmatch(piece)
    return _several(m["number"] or "2") if m else 0


def _several(word: str) -> int:
    """The number that a word or figures say; 0 where it is not several posts."""
    number = int(word) if word.isdigit() else NUMBERS.get(word.casefold(), 0)
    return number if 1 < number <= _MOST else 0


def counts_more(heading: str) -> bool:
    """Whether a heading asks how many more posts are like the one of the row."""
    return _MORE.search(heading) is not None


def more_than_one(heading: str, cell: Cell) -> Wrong | None:
    """What is asked where more posts than the row's one are stated; None where the cell says that there are none."""
    if fold_word(typed(cell)) in _NONE:
        return None
    stated = read_whole(cell.value) if cell.kind in ("text", "number") else None
    message = f"“{typed(cell)}” stands under “{line(heading)}”: how many posts the row is in all is not said."
    in_all = f"{stated + 1} under Identical posts" if isinstance(stated, int) else "how many posts the row is in all"
    return Wrong("quantity", cell.address, "CONFLICT", message, in_all)

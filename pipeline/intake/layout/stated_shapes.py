"""A shape that a line outside a table states for the posts below it: `ROUND POSTS`, `All poles are square tube`."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from pipeline.intake.layout.grid import Row, line
from pipeline.intake.layout.record import Heading, Record, Stated
from pipeline.intake.survey.folding import fold
from pipeline.intake.survey.list_words import read_word
from schemas.heading_words import GOALS, POST_WORDS
from schemas.stated_lines import ALL_OF_THEM, BESIDE_A_SHAPE

_POSTS = frozenset(fold(w) for w in POST_WORDS | GOALS | {*ALL_OF_THEM})
_PASSED_OVER = _POSTS | {fold(w) for w in BESIDE_A_SHAPE}
_CLAUSE = re.compile(r"[;.,:()\n]|\s[-–—]\s|\s(?:and|y|et|und|e|&)\s", re.IGNORECASE)
_LONGEST, _MOST_CELLS = 200, 2


@dataclass(frozen=True, slots=True)
class StatedShape:
    """A line that states a shape: its row, the shape, and its cell."""

    row: int
    shape: str
    stated: Stated


def shapes_of(rows: Sequence[tuple[int, Row]]) -> list[StatedShape]:
    """Lines among the rows of a sheet that state the shape of posts, from the top."""
    found = []
    for number, cells in rows:
        if len(cells) > _MOST_CELLS or any(c.kind != "text" for c in cells.values()):
            continue
        for cell in cells.values():
            text = str(cell.value)
            if shape := shape_said(text, len(cells) == 1):
                stated = Stated(replace(cell, value=line(text)), Heading("line"), cell.address, "title")
                found.append(StatedShape(number, shape, stated))
    return found


def shape_said(text: str, alone: bool = True) -> str:
    """The one shape that a line states of posts, '' where it states none; `alone`: nothing stands beside it."""
    if len(text) > _LONGEST:
        return ""
    clauses = [c for c in _CLAUSE.split(text) if c.strip()]
    said = {shape for c in clauses if (shape := _in_clause(c, alone and len(clauses) == 1))}
    return said.pop() if len(said) == 1 else ""


def _in_clause(clause: str, alone: bool) -> str:
    words = re.findall(r"[^\W_]+", clause)
    rest = [w for w in words if fold(w) not in _PASSED_OVER]
    of_posts = alone or any(fold(w) in _POSTS for w in words)
    word = read_word("post_shape", " ".join(rest)) if rest and of_posts else None
    return word.value if word and word.value in ("round", "square") else ""


def with_shape(record: Record, lines: Sequence[StatedShape], turned: bool) -> Record:
    """The record with the line that states its shape: the nearest above it, else the only one of the sheet."""
    above = [] if turned else [s for s in lines if s.row < record.row]
    if above:
        return replace(record, shape_above=above[-1].stated)
    return replace(record, shape_above=lines[0].stated) if len({s.shape for s in lines}) == 1 else record

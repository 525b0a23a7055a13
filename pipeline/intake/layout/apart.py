"""Tables side by side on one sheet: the same row of headings stands twice and more beside itself, with the posts' names."""

from __future__ import annotations

from dataclasses import replace

from pipeline.intake.layout.grid import Row, upright
from pipeline.intake.survey.folding import fold
from pipeline.intake.survey.headings import claim
from pipeline.reading.book import Sheet

_SEARCHED = 60  # rows with cells
_LEAST = 3  # headings of one table


def apart(sheet: Sheet) -> list[Sheet]:
    """The sheet in parts, each with the columns of one table; what stands above the first table alone is all tables'."""
    for number, cells in upright(sheet).rows[:_SEARCHED]:
        if starts := _starts(cells):
            bounds = list(zip([1, *starts[1:]], [*starts[1:], 1 << 21], strict=True))
            shared = _shared(sheet, number, starts[1])
            return [
                replace(sheet, cells=tuple(c for c in sheet.cells if lo <= c.column < hi or (n and c.row in shared)))
                for n, (lo, hi) in enumerate(bounds)
            ]
    return [sheet]


def _starts(cells: Row) -> list[int]:
    """The first column of each table whose headings repeat in a row; [] where none do."""
    texts = [(n, fold(str(c.value))) for n, c in cells.items() if c.kind == "text"]
    for length in range(_LEAST, len(texts) // 2 + 1):
        pieces = [texts[i : i + length] for i in range(0, len(texts), length)]
        if len(texts) == len(cells) and all([t for _, t in p] == [t for _, t in pieces[0]] for p in pieces):
            claims = [found.name for n, _ in pieces[0] if (found := claim(str(cells[n].value)))]
            return [p[0][0] for p in pieces] if "post_code" in claims and len(set(claims)) >= _LEAST else []
    return []


def _shared(sheet: Sheet, heading: int, second: int) -> set[int]:
    """Rows above the headings in which nothing stands over the second table."""
    above = {c.row for c in sheet.cells if c.row < heading}
    return above - {c.row for c in sheet.cells if c.row < heading and c.column >= second}

"""Numbers of posts under a heading that may number them, or name them."""

from __future__ import annotations

from collections.abc import Sequence

from pipeline.intake.layout.courts import is_court
from pipeline.intake.layout.grid import Row
from pipeline.intake.layout.heading_rows import HeadingRow
from pipeline.intake.layout.posts_headed import number_posts
from pipeline.intake.measures import heading_unit, read_whole
from pipeline.intake.survey.folding import fold
from pipeline.intake.survey.heading_words import goals_in_the_plural
from pipeline.intake.survey.post_cells import posts_named
from schemas.several_meanings import COUNTS

Rows = Sequence[tuple[int, Row]]
_TOTAL = 2  # cells of a total, at most


def counts_posts(column: int, heading: HeadingRow, rows: Rows) -> bool:
    """Whether the numbers there are those of the posts that another cell of their row names, one row of several at least.

    A word that only counts will do with whole numbers where another heading names the posts; `Hoops` are as many posts, where
    the numbers can be no names.
    """
    numbers = whole_numbers(column, rows)
    if not numbers:
        return False
    if goals_in_the_plural(heading.texts[column]):
        where = [n for n, c in heading.claims.items() if c.name in ("site_code", "site_name")]
        return number_posts(numbers, where or [n for n, t in heading.texts.items() if is_court(t)], rows)
    named = any(c.name == "post_code" and n != column for n, c in heading.claims.items())
    running = numbers == list(range(1, len(numbers) + 1))
    if stands_behind(column, heading, numbers) and are_no_names(numbers) and number_posts(numbers, _places(heading), rows):
        return True
    if (named and are_no_names(numbers)) or ((named or not running) and fold(heading_unit(heading.texts[column])[0]) in _COUNTS):
        return True
    agree = []
    for _, row in rows:
        if column not in row or len(row) < 3:
            continue
        stated = read_whole(row[column].value)
        several = [posts_named(str(c.value)) for n, c in row.items() if n != column and c.kind == "text"]
        counted = {p.number for p in several if p}
        if (counted and stated not in counted) or (not counted and stated != 1):
            return False
        agree.append(stated)
    return any(isinstance(n, int) and n > 1 for n in agree)


def stands_behind(column: int, heading: HeadingRow, numbers: Sequence[int]) -> bool:
    """Whether a number behind the sizes and heights may be how many posts the row is: small, and no running number."""
    measured = [n for n, c in heading.claims.items() if c.name in ("post_size", "post_height")]
    a_number = fold(heading_unit(heading.texts[column])[0]) in _NUMBER
    running = list(numbers) == list(range(1, len(numbers) + 1))
    return (
        a_number and len(measured) > 1 and column > max(measured) and not running and 1 < max(numbers, default=0) <= _MANY_POSTS
    )


def _places(heading: HeadingRow) -> list[int]:
    """The columns that say where a post stands."""
    sites = [n for n, c in heading.claims.items() if c.name in ("site_name", "site_code")]
    return sites[:1] + [n for n, text in heading.texts.items() if is_court(text)]


_NUMBER = frozenset(map(fold, ("no", "nos", "nr", "n", "num", "number", "numbers", "total", "#", "nº", "número", "nombre")))


def are_no_names(numbers: Sequence[int]) -> bool:
    """Whether numbers beside the posts' names can be no identifiers, nor the ground's total: small, some alike, not all."""
    return 1 < len(set(numbers)) < len(numbers) and max(numbers) <= _MANY_POSTS


_MANY_POSTS = 12


_COUNTS = frozenset(fold(w) for w in COUNTS)


def whole_numbers(column: int, rows: Rows) -> list[int]:
    """The whole numbers of a column, from 1 up; [] where any cell is none."""
    cells = [row[column] for _, row in rows if column in row and len(row) > _TOTAL]
    read = [read_whole(c.value) if c.kind in ("text", "number") else None for c in cells]
    numbers = [n for n in read if isinstance(n, int) and n > 0]
    return numbers if len(numbers) == len(cells) else []

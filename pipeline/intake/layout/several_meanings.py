"""Headings with several meanings: what stands below them says which column it is, or they stay as they are."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import cache

from pipeline.intake.layout.grid import Row, line
from pipeline.intake.layout.grounds import ground_in
from pipeline.intake.layout.heading_rows import HeadingRow
from pipeline.intake.measures import heading_unit, read_whole
from pipeline.intake.survey.folding import fold
from pipeline.intake.survey.headings import SYNONYM, WEAK, Claim
from pipeline.intake.survey.list_words import read_word
from pipeline.intake.survey.post_cells import is_same_as_above, posts_named
from pipeline.reading.book import Cell
from schemas.several_meanings import SEVERAL_MEANINGS

Rows = Sequence[tuple[int, Row]]


@cache
def _can_mean() -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for names, words in SEVERAL_MEANINGS:
        for word in words.split("|"):
            key = fold(word) or word.strip()
            found[key] = tuple(dict.fromkeys((*found.get(key, ()), *names)))
    return found


def decided(heading: HeadingRow, rows: Rows) -> tuple[HeadingRow, tuple[tuple[str, str], ...]]:
    """The headings with what their cells say of those with several meanings, and each of these with its column.

    A heading means the one column that every cell below it fits, where none else claims that column.
    """
    claims, told = dict(heading.claims), []
    for n, text in heading.texts.items():
        bare = heading_unit(text)[0].strip()
        names = () if n in heading.labels else _can_mean().get(fold(bare) or bare.rstrip("."), ())
        before = claims.get(n)
        others = [c for k, c in claims.items() if k != n]
        free = [m for m in names if not any(c.name == m and (c.strength > WEAK or m == "post_code") for c in others)]
        fit = [m for m in free if _fits(m, n, heading.texts, rows)]
        fit = ["quantity"] if "quantity" in fit else fit
        if len(fit) == 1 and (before is None or before.name != fit[0]):
            claims[n] = Claim(fit[0], "", SYNONYM)
            told.append((line(text), fit[0]))
    return (replace(heading, claims=claims), tuple(told)) if told else (heading, ())


def _fits(name: str, column: int, texts: Mapping[int, str], rows: Rows) -> bool:
    """Whether every cell of a column is one of `name`'s."""
    fit = _FITS.get(name)
    if fit is not None:
        return fit(column, texts, rows)
    said = [str(c.value) for c in _cells(column, rows) if not is_same_as_above(str(c.value))]
    words = [read_word(name, text) if len(text.strip()) > 1 else None for text in said]
    return bool(words) and all(words) and any(w and w.value != "unknown" for w in words)


def _cells(column: int, rows: Rows) -> list[Cell]:
    return [row[column] for _, row in rows if column in row and len(row) > 2]


def _names_grounds(column: int, texts: Mapping[int, str], rows: Rows) -> bool:
    cells = _cells(column, rows)
    return bool(cells) and all(c.kind == "text" and (is_same_as_above(str(c.value)) or ground_in(str(c.value))) for c in cells)


def _names_posts(column: int, texts: Mapping[int, str], rows: Rows) -> bool:
    """Whether every row has a short name of its own there, and none may be several posts or one."""
    posts = [row for _, row in rows if len(row) > 2]
    cells = [row[column] for row in posts if column in row]
    names = [line(str(c.value)) for c in cells]
    if len(cells) < len(posts) or not cells or any(c.kind not in ("text", "number") for c in cells):
        return False
    return len({fold(n) for n in names}) == len(names) and all(_is_a_name(n) for n in names)


def _is_a_name(text: str) -> bool:
    named = posts_named(text)
    return len(text) <= 30 and not is_same_as_above(text) and (named is None or named.sure)


def _counts_posts(column: int, texts: Mapping[int, str], rows: Rows) -> bool:
    """Whether the numbers there are those of the posts that another cell of their row names, one row of several at least."""
    agree = []
    for _, row in rows:
        if column not in row or len(row) < 3:
            continue
        stated = read_whole(row[column].value) if row[column].kind in ("text", "number") else None
        named = [posts_named(str(c.value)) for n, c in row.items() if n != column and c.kind == "text"]
        numbers = {p.number for p in named if p}
        if not isinstance(stated, int) or (numbers and stated not in numbers) or (not numbers and stated != 1):
            return False
        agree.append(stated)
    return any(n > 1 for n in agree)


_FITS: Mapping[str, Callable[[int, Mapping[int, str], Rows], bool]] = {
    "site_name": _names_grounds,
    "post_code": _names_posts,
    "quantity": _counts_posts,
}

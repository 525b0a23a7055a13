"""Rows of headings that only what stands below them tells: words and cells together say the columns."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from pipeline.intake.layout.grid import Row
from pipeline.intake.layout.grounds import ground_in
from pipeline.intake.layout.heading_rows import (
    ABOUT_POSTS,
    ABOVE,
    BELOW,
    LONGEST,
    OF_A_POST,
    WHOSE,
    HeadingRow,
    is_survey,
    labels_a_site,
    names_of,
    one_row,
    over_two_rows,
    rows_of_others,
)
from pipeline.intake.layout.measured import MEASURED, are_measures
from pipeline.intake.layout.posts_headed import names_under
from pipeline.intake.layout.stated_units import units_stated
from pipeline.intake.measures import Measure, read_measure
from pipeline.intake.survey.heading_words import names_a_post
from pipeline.intake.survey.headings import SYNONYM, Claim
from pipeline.intake.survey.list_words import read_word
from pipeline.intake.survey.post_cells import is_same_as_above


def by_words_below(
    rows: Sequence[tuple[int, Row]],
    i: int,
    decide: Callable[[HeadingRow, Sequence[tuple[int, Row]]], HeadingRow],
    named: bool = False,
    on_tab: bool = False,
) -> HeadingRow | None:
    """The heading at row `i` where only what stands below it tells its columns; it, a title or the tab must speak of posts.

    Without a word of posts, shapes, sizes and heights of posts must stand below it.
    """
    two = _two_at(rows, i)
    texts = {n: str(c.value) for n, c in rows[i][1].items() if c.kind == "text" and len(str(c.value)) <= LONGEST}
    for heading in filter(None, (two, one_row(texts))):
        if found := _by_words_below(rows, i, heading, decide, named, on_tab):
            return found
    return None


def _two_at(rows: Sequence[tuple[int, Row]], i: int) -> HeadingRow | None:
    """The heading over two rows from row `i` on, where any column needs both."""
    upper, below = rows[i][1], rows[i + 1] if i + 1 < len(rows) else (0, {})
    if below[0] != rows[i][0] + 1 or not all(c.kind == "text" for c in (*upper.values(), *below[1].values())):
        return None
    if any(isinstance(read_measure(str(c.value), "length"), Measure) for c in below[1].values()):  # a post, and no heading
        return None
    return over_two_rows({n: str(c.value) for n, c in upper.items()}, {n: str(c.value) for n, c in below[1].items()})


def _by_words_below(
    rows: Sequence[tuple[int, Row]],
    i: int,
    heading: HeadingRow,
    decide: Callable[[HeadingRow, Sequence[tuple[int, Row]]], HeadingRow],
    named: bool,
    on_tab: bool,
) -> HeadingRow | None:
    texts = heading.texts
    above = [str(c.value) for _, r in rows[max(0, i - ABOVE) : i] for c in r.values() if c.kind == "text"]
    of_posts = any(names_a_post(t) for t in texts.values()) or any(ABOUT_POSTS.search(t) for t in (*texts.values(), *above))
    of_posts = of_posts or any(c.name == "post_code" for c in heading.claims.values())
    of_posts = of_posts or any(
        {"post_size", "post_height"} <= units_stated(t).keys() for t in above
    )  # `Sizes in mm, heights in m`
    data = _down_to_the_next(rows, i, heading.taken)
    if len(texts) < 3 or not (of_posts or len(texts) >= _ENOUGH) or rows_of_others(heading, data):
        return None
    found = decide(heading, data)
    if of_posts and is_survey(found, named, about=True, data=data):
        return found
    if not (of_posts or _are_posts(found, data)):
        return None
    names = names_of(found.claims.values())
    borne_out = (c.name for n, c in found.claims.items() if _measured(n, c, data) or _in_words(n, c, data))
    surely = {*borne_out, *(c.name for c in found.claims.values() if c.strength >= SYNONYM)} & OF_A_POST
    whose = names & WHOSE or names_under(texts, data) or any(_names_a_ground(r) for _, r in data)
    whose = whose or on_tab or any(ground_in(t) or labels_a_site(t) for t in above)
    return found if {"post_size", "post_height"} <= names and len(surely) >= 2 and whose else None


def _down_to_the_next(rows: Sequence[tuple[int, Row]], i: int, taken: int) -> Sequence[tuple[int, Row]]:
    """The rows below a heading, up to where it stands again."""
    below = rows[i + taken : i + taken + BELOW]
    return below[: next((n for n, (_, row) in enumerate(below) if stands_again(rows[i][1], row)), len(below))]


def stands_again(heading: Row, row: Row) -> bool:
    """Whether a row says the same as one of headings, word for word."""
    return len(row) > 1 and [str(c.value) for c in row.values()] == [str(c.value) for c in heading.values()]


_ENOUGH = 5  # headings, where no word speaks of posts


def _are_posts(found: HeadingRow, data: Sequence[tuple[int, Row]]) -> bool:
    """Whether shape, size and height of posts stand below a heading, each figure as large as a post's, with its unit."""
    shaped = any(c.name == "post_shape" and _in_words(n, c, data) for n, c in found.claims.items())
    measured = {c.name for n, c in found.claims.items() if _measured(n, c, data)}
    return shaped and set(MEASURED) <= measured


def _in_words(column: int, found: Claim, data: Sequence[tuple[int, Row]]) -> bool:
    """Whether every cell under a heading of shapes says one."""
    cells = [str(row[column].value) for _, row in data if column in row and len(row) > 2]
    cells = [c for c in cells if not is_same_as_above(c)]
    return found.name == "post_shape" and bool(cells) and all(read_word("post_shape", c) for c in cells)


def _measured(column: int, found: Claim, data: Sequence[tuple[int, Row]]) -> bool:
    """Whether the cells under a heading of a size or a height are as large as a post's, with their units."""
    cells = [row[column] for _, row in data if column in row and len(row) > 2]
    return found.name in MEASURED and are_measures(found.name, found.unit, cells, unit_elsewhere=False)


def _names_a_ground(row: Row) -> bool:
    """Whether a row says nothing but the name of a ground."""
    return len(row) == 1 and all(c.kind == "text" and ground_in(str(c.value)) for c in row.values())

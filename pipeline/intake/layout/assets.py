"""Columns of registers that are told from a survey's own by what stands beside or below them."""

from __future__ import annotations

import re

from pipeline.intake.layout.heading_rows import HeadingRow
from pipeline.intake.layout.several_meanings import Rows, names_posts
from pipeline.intake.measures import heading_unit
from pipeline.intake.survey.folding import fold
from pipeline.intake.survey.heading_words import names_a_post
from schemas.lay_headings import SCHEDULE_HEADINGS, SCHEDULES

_SCHEDULE = re.compile(SCHEDULES, re.IGNORECASE)
_HEADED_SO = frozenset(fold(w) for w in SCHEDULE_HEADINGS.split("|"))


def are_schedules(heading: str, data: Rows, column: int) -> bool:
    """Whether a column holds the schedules of pipes: `Sch.` over `40`, `80`."""
    cells = [str(row[column].value).strip().removesuffix(".0") for _, row in data if column in row and len(row) > 2]
    return fold(heading_unit(heading)[0]) in _HEADED_SO and bool(cells) and all(_SCHEDULE.fullmatch(c) for c in cells)


def posts_before_assets(columns: list[int], heading: HeadingRow, data: Rows) -> list[int]:
    """Of headings that name a post, the one that says so, where its names tell the posts of each ground apart; else all.

    `POST_NO` beside `ASSET_ID`: the number of the register is carried through.
    """
    of_posts = [n for n in columns if names_a_post(heading.texts[n])]
    if len(of_posts) != 1 or len(columns) == 1:
        return columns
    others = {n: c for n, c in heading.claims.items() if n not in columns}
    alone = HeadingRow(heading.taken, others, heading.texts, heading.labels)
    return of_posts if names_posts(of_posts[0], alone, data) else columns

"""Headings of posts in the plural: whether their names stand below, or their number."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from pipeline.intake.layout.grid import Row
from pipeline.intake.measures import heading_unit
from pipeline.intake.survey.heading_words import as_plural
from pipeline.intake.survey.post_cells import posts_named
from schemas.heading_words import PLURALS


def says_posts(heading: str) -> bool:
    """Whether a heading says `Posts` and no more."""
    bare = as_plural(heading_unit(heading)[0])
    return re.fullmatch(PLURALS, bare.strip(" *:"), re.IGNORECASE) is not None


def names_under(texts: Mapping[int, str], data: Sequence[tuple[int, Row]]) -> frozenset[int]:
    """Columns under `Posts` of which a cell names several posts, or none is a number."""
    columns = [n for n, text in texts.items() if says_posts(text)]
    cells = {n: [c for _, row in data if (c := row.get(n)) is not None and len(row) > 2] for n in columns}
    return frozenset(
        n
        for n, found in cells.items()
        if found
        and (
            any(c.kind == "text" and _names_several(str(c.value)) for c in found)
            or all(c.kind == "text" and not str(c.value).strip().isdigit() for c in found)
        )
    )


def _names_several(text: str) -> bool:
    named = posts_named(text)
    return named is not None and named.sure and named.form in ("list", "range")

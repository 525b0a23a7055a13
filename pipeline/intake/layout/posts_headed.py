"""Headings of posts in the plural: whether their names stand below, or their number."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Mapping, Sequence
from functools import lru_cache

from pipeline.intake.layout.grid import Row
from pipeline.intake.measures import heading_unit
from pipeline.intake.survey.folding import fold
from pipeline.intake.survey.heading_words import as_plural
from pipeline.intake.survey.post_cells import is_same_as_above, posts_named
from schemas.heading_phrases import STANDING
from schemas.heading_words import GOALS_COUNTED, PLURALS, SPORT

_SPORT = re.compile(rf"\b(?:{SPORT})\b|^(?:{STANDING})(?= )", re.IGNORECASE)


@lru_cache(maxsize=4096)
def says_posts(heading: str) -> bool:
    """Whether a heading says `Posts` and no more."""
    bare = _SPORT.sub("", as_plural(heading_unit(heading)[0]))  # `Basketball posts`
    return re.fullmatch(f"(?:{PLURALS}|{GOALS_COUNTED})", bare.strip(" *:"), re.IGNORECASE) is not None


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


def number_posts(numbers: Sequence[int], where: Sequence[int], data: Sequence[tuple[int, Row]]) -> bool:
    """Whether numbers under `Posts` count them: as names they would leave out the first at a place, or stand there twice.

    `where` are the columns that say the place. Numbers that run from 1 at a place are names, or may be.
    """
    data = [(n, row) for n, row in data if len(row) > _TOTAL]
    if not where or len(numbers) != len(data) or numbers == list(range(1, len(numbers) + 1)):
        return False
    at, places = dict.fromkeys(where, ""), defaultdict[tuple[str, ...], list[int]](list)
    for (_, row), number in zip(data, numbers, strict=True):
        if where[0] in row and not is_same_as_above(str(row[where[0]].value)):
            at = dict.fromkeys(where, "")
        at |= {n: fold(str(row[n].value)) for n in where if n in row and not is_same_as_above(str(row[n].value))}
        places[tuple(at.values())].append(number)
    running = any(len(there) > 1 and there == list(range(1, len(there) + 1)) for there in places.values())
    no_names = any(len(set(there)) < len(there) or there == [there[0]] != [1] for there in places.values())
    return no_names and not running


_TOTAL = 2  # cells of a total, at most

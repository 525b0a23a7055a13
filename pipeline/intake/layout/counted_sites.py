"""Numbers of posts behind the name of a ground, `Elm School (2 posts)`: what its rows come to must agree."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace

from pipeline.intake.layout.grounds import without_count
from pipeline.intake.layout.named_posts import stated_number
from pipeline.intake.layout.record import Record, Stated, Wrong
from pipeline.intake.survey.folding import fold
from pipeline.reading.book import Cell
from schemas.grounds import POSTS_BEHIND
from schemas.post_words import NUMBERS

_POSTS_BEHIND = re.compile(POSTS_BEHIND, re.IGNORECASE)


def posts_behind(name: str) -> int:
    """The number of posts behind the name of a ground; 0 where there is none."""
    m = _POSTS_BEHIND.search(name)
    word = next((g for g in m.groups() if g), "") if m else ""
    return int(word) if word.isdigit() else NUMBERS.get(word.casefold(), 1 if word else 0)


def with_counted_sites(records: Sequence[Record]) -> list[Record]:
    """The records with the names of their grounds alone; a number behind a name is the one row's, or it must be the rows' sum."""
    sites: dict[str, list[int]] = defaultdict(list)
    counts: dict[str, int] = {}
    made = list(records)
    for i, record in enumerate(records):
        stated = record.values.get("site_name")
        whole = str(stated.cell.value) if stated and stated.cell.kind == "text" else ""
        name = without_count(whole)
        if stated and name != whole:
            cell = replace(stated.cell, value=name, shown="")
            made[i] = replace(
                record, values={**record.values, "site_name": replace(stated, cell=cell, how=stated.how or "words")}
            )
            sites[fold(name)].append(i)
            counts[fold(name)] = posts_behind(whole)
    for name, rows in sites.items():
        if counts[name]:
            for i, record in zip(rows, _agreeing([made[i] for i in rows], counts[name]), strict=True):
                made[i] = record
    return made


def _agreeing(site: list[Record], said: int) -> list[Record]:
    """The rows of a ground with the number that is said of it, or asked where they come to another one."""
    numbers = [stated_number(r) for r in site]
    if sum(n or 1 for n in numbers) == said:
        return site
    stated = site[0].values["site_name"]
    if len(site) == 1 and numbers[0] is None:
        cell = Cell(stated.cell.row, stated.cell.column, "number", said)
        quantity = Stated(cell, stated.heading, site[0].places.get("quantity") or stated.at, "words")
        return [replace(site[0], values={**site[0].values, "quantity": quantity})]
    message = f"{said} posts are said of the site, and its rows come to {sum(n or 1 for n in numbers)}."
    wrong = Wrong("quantity", stated.at, "CONFLICT", message, "the number of posts that each row stands for")
    return [replace(r, values={n: v for n, v in r.values.items() if n != "quantity"}, wrong=(*r.wrong, wrong)) for r in site]

"""A line outside the posts' rows that says welded fittings or a gooseneck, of the posts that it names."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from pipeline.intake.layout.grid import Row, line
from pipeline.intake.layout.record import Heading, Record, Stated
from pipeline.intake.survey.folding import fold
from pipeline.intake.survey.list_words import rules_out
from pipeline.intake.survey.read_cell import typed
from schemas.stated_lines import ALL_OF_THEM, THIS_ONE

_MOST_CELLS, _LONGEST = 2, 400
_RULING_OUT = ("old_fittings", "post_line")


@dataclass(frozen=True, slots=True)
class StatedWarning:
    """A line that rules kits out: its row, and its cell."""

    row: int
    stated: Stated


def warnings_of(rows: Sequence[tuple[int, Row]], records: Sequence[Record]) -> list[StatedWarning]:
    """Lines among the rows of a sheet that are no record's and say that something is welded on, or that a post is a gooseneck."""
    posts = {r.row for r in records}
    found = []
    for number, cells in rows:
        if number in posts or len(cells) > _MOST_CELLS or any(c.kind != "text" for c in cells.values()):
            continue
        for cell in cells.values():
            text = str(cell.value)
            if len(text) <= _LONGEST and len(text.split()) > 1 and any(rules_out(name, text) for name in _RULING_OUT):
                found.append(
                    StatedWarning(number, Stated(replace(cell, value=line(text)), Heading("line"), cell.address, "title"))
                )
    return found


def with_warnings(records: list[Record], lines: Sequence[StatedWarning]) -> list[Record]:
    """The records, each with the lines that name it, or all posts of its site or sheet; `this one` is the post above."""
    posts: dict[tuple[str, ...], list[int]] = defaultdict(list)
    for i, record in enumerate(records) if lines else ():
        posts[_words(_said(record, "post_code"))].append(i)
    meant: dict[int, list[Stated]] = defaultdict(list)
    for one in lines:
        for i in _meant(one, records, posts):
            meant[i].append(one.stated)
    return [replace(r, warnings=(*r.warnings, *meant[i])) if i in meant else r for i, r in enumerate(records)]


def _meant(one: StatedWarning, records: Sequence[Record], posts: Mapping[tuple[str, ...], list[int]]) -> list[int]:
    """Which of the records a line is about; none where it does not say."""
    text = typed(one.stated.cell)
    words = _words(text)
    spans = {words[a : a + n] for n in range(1, _MOST_WORDS + 1) for a in range(len(words) - n + 1)}
    alike = [i for span in sorted(spans) for i in posts.get(span, ()) if _plainly_said(_said(records[i], "post_code"), text)]
    if alike or not set(words) & _ALL:
        sites = {_site(records[i]) for i in alike}
        here = [i for i in alike if _site(records[i]) and _site(records[i]) in fold(text)]
        return here or (alike if len(sites) == 1 else _above(one, records) if not alike and _THIS_ONE.search(text) else [])
    here = [i for i, r in enumerate(records) if _site(r) and _site(r) in fold(text)]
    return here or list(range(len(records)))


def _above(one: StatedWarning, records: Sequence[Record]) -> list[int]:
    """The record above a line."""
    above = [i for i, r in enumerate(records) if r.row < one.row]
    return [max(above, key=lambda i: records[i].row)] if above else []


def _words(text: str) -> tuple[str, ...]:
    return tuple(fold(w) for w in re.findall(r"[^\W_]+", text))


def _plainly_said(post: str, text: str) -> bool:
    """Whether a short name without a figure stands in a text as it is written: `N` is no `n`."""
    return len(post) >= _SURE or re.search(r"\d", post) is not None or re.search(rf"\b{re.escape(post)}\b", text) is not None


_ALL = frozenset(fold(w) for w in ALL_OF_THEM)
_THIS_ONE = re.compile(THIS_ONE, re.IGNORECASE)
_MOST_WORDS = 4  # of a post's name
_SURE = 3  # letters of a post's name that is plainly said


def _site(record: Record) -> str:
    return fold(_said(record, "site_name") or _said(record, "site_code"))


def _said(record: Record, name: str) -> str:
    stated = record.values.get(name)
    return typed(stated.cell) if stated else ""

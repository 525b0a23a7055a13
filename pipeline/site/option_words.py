"""What a choice would change against the one in force, in words for the customer."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import numpy as np

from pipeline.rules.arrays import Catalogue
from pipeline.site.figures import kit_items
from pipeline.site.orders import Option
from pipeline.site.task import Figures

MOST = 4
"""Changes that are named one by one; those of fewer posts are counted together."""

_KINDS = (("Mounts", "mount"), ("Boards", "board"), ("Rings", "ring"), ("Extensions", "extension"))


def changes(option: Option, in_force: Option, figures: Sequence[Figures], catalogue: Catalogue) -> tuple[str, ...]:
    """What it does to the posts, nothing where all get the same kit; `figures` are those of the customer's sites, in order."""
    moved = sum(int(q[was != now].sum()) for q, was, now in _posts(option, in_force, figures))
    if not moved:
        return ()
    counts = Counter(_swaps(option, in_force, figures, catalogue))
    falling = sorted(counts.items(), key=lambda item: (-item[1], item[0]))
    named = tuple(f"{kind} on {_posts_of(many)}: {new} instead of {old}" for (kind, old, new), many in falling[:MOST])
    rest = len(falling) - MOST
    more = (f"and {rest} more {'change' if rest == 1 else 'changes'} of items",) if rest > 0 else ()
    return (f"{_posts_of(moved)} {'gets' if moved == 1 else 'get'} another kit", *named, *more)


def _posts(option: Option, in_force: Option, figures: Sequence[Figures]) -> Iterator[tuple[Any, Any, Any]]:
    """Quantity, kit in force and kit under the option of each site's different posts."""
    for f, was, now in zip(figures, in_force.kits, option.kits, strict=True):
        yield np.array(f["quantity"], dtype=np.int64), was, now


def _swaps(option: Option, in_force: Option, figures: Sequence[Figures], catalogue: Catalogue) -> dict[tuple[str, str, str], int]:
    """Posts on which an item takes another's place: (board, old one, new one) -> posts."""
    words = [_words(catalogue.tables, table, kind) for table, kind in _KINDS]
    found: Counter[tuple[str, str, str]] = Counter()
    for quantity, was, now in _posts(option, in_force, figures):
        at = np.flatnonzero((was != now) & (was >= 0) & (now >= 0))
        old, new = kit_items(was[at], catalogue), kit_items(now[at], catalogue)
        for (_, kind), codes, named, a, b in zip(_KINDS, _codes(catalogue), words, old, new, strict=True):
            for i in np.flatnonzero(a != b):
                before, after = (_named(codes, named, int(index), kind) for index in (a[i], b[i]))
                found[kind, before, after] += int(quantity[at[i]])
    return found


def _codes(catalogue: Catalogue) -> tuple[Sequence[str], ...]:
    c = catalogue
    return c.mounts.code, c.boards.code, c.rings.code, c.extensions.code


def _words(tables: Mapping[str, Sequence[Mapping[str, Any]]], table: str, kind: str) -> dict[str, str]:
    """What the customer reads of each item: its description, else its code."""
    return {row[kind]: str(row.get("description") or row[kind]) for row in tables.get(table, ())}


def _named(codes: Sequence[str], words: Mapping[str, str], index: int, kind: str) -> str:
    return words.get(codes[index], codes[index]) if index >= 0 else f"no {kind}"


def _posts_of(many: int) -> str:
    return "1 post" if many == 1 else f"{many:,} posts"

"""What only shows across rows and files: the same post twice, a site that contradicts itself."""

from __future__ import annotations

import hashlib
from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from pipeline.intake.query import Query
from pipeline.intake.survey.survey_row import SurveyRow, stated
from schemas.order import folded, natural
from schemas.survey import SURVEY

_SITE_FACTS = ("site_name", "customer", "site_kind")
_NOT_SAID = ("notes",)  # carried through, not read
_SHOWN = 3  # other places that a message names


@dataclass(frozen=True, slots=True)
class RowKey:
    """What settling needs of one row, light enough to be kept for a hundred thousand of them.

    `says` is a digest of the values that matter; `facts` are site name, customer and site kind as
    stated ('' = blank) and `fact_cells` their addresses; `post_cell` is the address of the post's code.
    """

    index: int
    file: str
    sheet: str
    row: int
    label: str
    site_code: str
    post_code: str
    held: bool
    says: bytes
    post_cell: str
    facts: tuple[str, ...]
    fact_cells: tuple[str, ...]

    @property
    def place(self) -> tuple[Any, ...]:
        """Key of the natural order of file, sheet and row, which no order of reading can change."""
        return natural(self.file), natural(self.sheet), self.row, natural(self.label)

    @property
    def where(self) -> str:
        """The place in words."""
        sheet = f", sheet {self.sheet}" if self.sheet else ""
        return f"{self.file}{sheet}, {self.label}"


def spelling(codes: Iterable[str]) -> str:
    """The spelling to show where one code was typed in several ways: the first in natural order."""
    return min((" ".join(c.split()) for c in codes), key=natural)


def row_key(row: SurveyRow, index: int) -> RowKey:
    """The light key of `row`; `index` is what `settle` calls it by."""
    facts = tuple(str(getattr(row, n) or "") for n in _SITE_FACTS)
    return RowKey(
        index,
        row.file,
        row.sheet,
        row.row,
        row.label,
        row.site_code,
        row.post_code,
        row.held,
        _digest(row),
        row.cells.get("post_code", ""),
        facts,
        tuple(row.cells.get(n, "") for n in _SITE_FACTS),
    )


def settle(rows: Sequence[RowKey]) -> tuple[set[int], set[int], list[Query]]:
    """Settle what shows only across rows and files, whatever the order in which they are given.

    Returns the indexes to drop (a row that says the same as an earlier one), the indexes to hold,
    and the queries that say so, in order. A (site, post) in rows that differ is held in all of them;
    so are rows whose site name, customer or site kind is not the most stated one of their site.
    """
    drop: set[int] = set()
    hold: set[int] = set()
    queries: list[Query] = []
    for group in _groups(rows, lambda k: (folded(k.site_code), folded(k.post_code))):
        if len(group) > 1:
            _settle_post(group, drop, hold, queries)
    standing = [k for k in rows if k.index not in drop]
    for group in _groups(standing, lambda k: (folded(k.site_code),)):
        for n, name in enumerate(_SITE_FACTS):
            _settle_fact(group, n, name, hold, queries)
    return drop, hold, sorted(queries, key=lambda q: q.order)


def _groups(rows: Iterable[RowKey], key: Any) -> list[list[RowKey]]:
    """Rows that share a key with no blank in it, each group in natural order of place."""
    by_key: dict[tuple[str, ...], list[RowKey]] = defaultdict(list)
    for k in rows:
        by_key[key(k)].append(k)
    return [sorted(g, key=lambda k: k.place) for key_, g in by_key.items() if all(key_)]


def _settle_post(group: list[RowKey], drop: set[int], hold: set[int], queries: list[Query]) -> None:
    """One post that stands in several rows."""
    first = group[0]
    if len({k.says for k in group}) == 1 and not any(k.held for k in group):
        for k in group[1:]:
            drop.add(k.index)
            said = (
                f"Post “{k.post_code}” of site “{k.site_code}” stands already in {first.where} with the same values: read once."
            )
            queries.append(_query(k, k.post_cell, "DUPLICATE", said, "Delete this row.", False, "post_code"))
        return
    differ = ", and they do not all say the same" if len({k.says for k in group}) > 1 else ""
    for k in group:
        others = _places(o.where for o in group if o is not k)
        said = f"Post “{k.post_code}” of site “{k.site_code}” stands also in {others}{differ}."
        put_right = "Give each post of the site a code of its own, or delete the row that is wrong."
        hold.add(k.index)
        queries.append(_query(k, k.post_cell, "DUPLICATE", said, put_right, True, "post_code"))


def _settle_fact(group: list[RowKey], n: int, name: str, hold: set[int], queries: list[Query]) -> None:
    """One fact about a site that its rows should agree on; a blank agrees with everything."""
    count = Counter(folded(k.facts[n]) for k in group if k.facts[n])
    if len(count) < 2:
        return
    most = max(count.values())
    winners = [v for v, c in count.items() if c == most]
    shown = {v: spelling(k.facts[n] for k in group if folded(k.facts[n]) == v) for v in count}
    heading = SURVEY.column(name).heading
    told = "; ".join(f"“{shown[v]}” on {count[v]} row{'s' * (count[v] > 1)}" for v in sorted(count, key=natural))
    for k in group:
        if not k.facts[n] or (len(winners) == 1 and folded(k.facts[n]) == winners[0]):
            continue
        said = f"{heading}: the rows of site “{k.site_code}” contradict each other: {told}."
        best = shown[winners[0]] if len(winners) == 1 else "Write the same on every row of the site."
        hold.add(k.index)
        queries.append(_query(k, k.fact_cells[n], "CONFLICT", said, best, True, name))


def _query(k: RowKey, cell: str, code: Any, message: str, suggestion: str, holds: bool, name: str) -> Query:
    return Query(k.file, k.sheet, cell, code, message, suggestion, holds, k.site_code, k.post_code, name, k.label)


def _places(where: Iterable[str]) -> str:
    """The first few places, and how many more there are."""
    places = list(where)
    more = f" and {len(places) - _SHOWN} more" if len(places) > _SHOWN else ""
    return "; ".join(places[:_SHOWN]) + more


def _digest(row: SurveyRow) -> bytes:
    """Digest of the values that matter; whether the court's level was stated matters (its bound)."""
    said = sorted((n, _plain(v)) for n, v in stated(row).items() if n not in _NOT_SAID)
    level = "court_rise" not in row.not_stated
    typed = sorted(row.typed.items()) if row.held else []
    return hashlib.blake2b(repr((said, level, typed)).encode(), digest_size=12).digest()


def _plain(value: Any) -> Any:
    """A value as it is compared: words without case, lengths to a nanometre."""
    if isinstance(value, str):
        return folded(value)
    if isinstance(value, tuple):
        return tuple(_plain(v) for v in value)
    return round(value, 9) if isinstance(value, float) else value

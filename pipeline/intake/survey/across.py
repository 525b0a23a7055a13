"""What only shows across rows and files: the same post twice, a site that contradicts itself."""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Any, Literal

from pipeline.intake.query import Query
from pipeline.intake.survey.survey_row import SurveyRow, stated
from schemas.order import folded, natural
from schemas.survey import SURVEY

SITE_FACTS = ("site_name", "customer", "site_kind")
_NOT_SAID = ("notes", "surveyed_on")  # carried through; a day is weighed by itself
_PLACE = re.compile(r"\b(court|location|area|place|playground|cancha|terrain|platz|quadra|campo)\b", re.IGNORECASE)
"""Words of headings under which people say which of a site's courts a post stands at. Source: common practice."""
_SHOWN = 3  # other places that a message names


@dataclass
class Across:
    """What came of rows on one post or one site: the rows replaced, and by which word; the rows held; the queries."""

    replaced: dict[int, str] = field(default_factory=dict)
    held: set[int] = field(default_factory=set)
    queries: list[Query] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class _Placed:
    index: int
    row: SurveyRow

    @property
    def place(self) -> tuple[Any, ...]:
        """Key of the natural order of file, sheet and row, which no order of reading can change."""
        return natural(self.row.file), natural(self.row.sheet), self.row.row, natural(self.row.label)

    @property
    def where(self) -> str:
        """The place in words."""
        sheet = f", sheet {self.row.sheet}" if self.row.sheet else ""
        return f"{self.row.file}{sheet}, {self.row.label}"


def spelling(codes: Iterable[str]) -> str:
    """The spelling to show where one code was typed in several ways: the first in natural order."""
    return min((" ".join(c.split()) for c in codes), key=natural)


def resolve(rows: Sequence[SurveyRow], suspects: set[int]) -> Across:
    """Settle what shows only across rows and files, whatever the order in which they are given.

    `suspects` are the rows whose post stands elsewhere too, or whose site is said to be two things. Of rows on one
    post the later word replaces the earlier one, and the first one those that repeat it; where that leaves several,
    all are held. So are rows whose site name, customer or site kind is not the most stated one of their site.
    """
    across = Across()
    sites = {folded(rows[i].site_code) for i in suspects if rows[i].site_code}
    placed = [_Placed(i, row) for i, row in enumerate(rows) if row.site_code and folded(row.site_code) in sites]
    for group in _groups(placed, lambda p: (folded(p.row.site_code), folded(p.row.post_code))):
        if len(group) > 1:
            _one_post(group, across)
    counting = [p for p in placed if p.index not in across.replaced]
    for group in _groups(counting, lambda p: (folded(p.row.site_code),)):
        for name in SITE_FACTS:
            _one_fact(group, name, across)
    return across


def _groups(rows: Iterable[_Placed], key: Any) -> list[list[_Placed]]:
    """Rows that share a key with no blank in it, each group in natural order of place."""
    by_key: dict[tuple[str, ...], list[_Placed]] = defaultdict(list)
    for p in rows:
        by_key[key(p)].append(p)
    return [sorted(g, key=lambda p: p.place) for key_, g in by_key.items() if all(key_)]


def _one_post(group: list[_Placed], across: Across) -> None:
    """One post that stands in several rows. Source: design section 12, rule 2."""
    last = max((p.row.surveyed_on for p in group if p.row.surveyed_on), default="")
    by = next((p for p in group if p.row.surveyed_on == last), group[0])
    for p in group:
        if p.row.surveyed_on and p.row.surveyed_on < last:
            across.replaced[p.index] = f"{p.where}: replaced by {by.where}, surveyed on {last}."
    group = [p for p in group if p.index not in across.replaced]
    if len(group) < 2:
        return
    first, alike = group[0], len({_says(p.row) for p in group}) == 1
    if alike and not any(p.row.held for p in group):
        for p in group[1:]:
            across.replaced[p.index] = f"{p.where}: says the same as {first.where}."
            words = f"{_post(p)} stands already in {first.where} with the same values: read once."
            across.queries.append(_query(p, "DUPLICATE", words, "Delete this row.", False, "post_code"))
        return
    differ = "" if alike else ", and they do not all say the same"
    for p in group:
        words = f"{_post(p)} stands also in {_places(o.where for o in group if o is not p)}{differ}."
        put_right = "Give each post of the site a code of its own, delete the wrong row, or say on each when it was surveyed."
        across.held.add(p.index)
        across.queries.append(_query(p, "DUPLICATE", words, put_right, True, "post_code"))


def _post(p: _Placed) -> str:
    return f"Post “{p.row.post_code}” of site “{p.row.site_code}”"


def _one_fact(group: list[_Placed], name: str, across: Across) -> None:
    """One fact about a site that its rows should agree on; a blank agrees with everything."""
    facts = [(p, str(getattr(p.row, name) or "")) for p in group]
    count = Counter(folded(fact) for _, fact in facts if fact)
    if len(count) < 2:
        return
    most = max(count.values())
    winners = [v for v, c in count.items() if c == most]
    shown = {v: spelling(fact for _, fact in facts if folded(fact) == v) for v in count}
    words = "; ".join(f"“{shown[v]}” on {count[v]} row{'s' * (count[v] > 1)}" for v in sorted(count, key=natural))
    best = shown[winners[0]] if len(winners) == 1 else "Write the same on every row of the site."
    for p, fact in facts:
        if fact and not (len(winners) == 1 and folded(fact) == winners[0]):
            message = f"{SURVEY.column(name).heading}: the rows of site “{p.row.site_code}” contradict each other: {words}."
            across.held.add(p.index)
            across.queries.append(_query(p, "CONFLICT", message, best, True, name))


def _query(p: _Placed, code: Literal["DUPLICATE", "CONFLICT"], message: str, suggestion: str, holds: bool, name: str) -> Query:
    r = p.row
    return Query(
        r.file, r.sheet, r.cells.get(name, ""), code, message, suggestion, holds, r.site_code, r.post_code, name, r.label
    )


def _places(where: Iterable[str]) -> str:
    """The first few places, and how many more there are."""
    places = list(where)
    more = f" and {len(places) - _SHOWN} more" if len(places) > _SHOWN else ""
    return "; ".join(places[:_SHOWN]) + more


def _says(row: SurveyRow) -> tuple[Any, ...]:
    """What matters of a row; whether the court's level was stated matters (its bound), and what a held row has typed.

    A place in a column that is not read counts too: under `Court` 1 and 2 are two.
    """
    words = tuple((n, _plain(v)) for n, v in stated(row).items() if n not in _NOT_SAID)
    typed = tuple(sorted(row.typed.items())) if row.held else ()
    return words, "court_rise" not in row.not_stated, row.unread, typed, _places_read(row)


def _places_read(row: SurveyRow) -> tuple[tuple[str, str], ...]:
    return tuple(sorted((h, folded(text)) for h, text in row.extra.items() if _PLACE.search(h)))


def _plain(value: Any) -> Any:
    """A value as it is compared: words without case, lengths to a nanometre."""
    if isinstance(value, str):
        return folded(value)
    if isinstance(value, tuple):
        return tuple(_plain(v) for v in value)
    return round(value, 9) if isinstance(value, float) else value

"""From files taken in to one task a site: every row held to the survey's model, sites in natural order."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence, Set
from dataclasses import dataclass, replace
from typing import Any

from pipeline.intake.query import Query
from pipeline.intake.survey.across import spelling
from pipeline.intake.survey.copies import Copies, lost_posts, resolve_copies
from pipeline.intake.survey.field_answers import Answered, with_field_answers
from pipeline.intake.survey.gate import Checked, check_rows
from pipeline.intake.survey.identity import identified
from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.intake.taken import Taken
from pipeline.site.task import SiteTask
from schemas.order import folded, natural


@dataclass(frozen=True)
class FileCount:
    """Where the rows of one file went; rows read = quoted + held + replaced."""

    file: str
    format: str
    rows: int
    quoted: int
    held: int
    replaced: int
    notes: tuple[str, ...]
    field_sheet: bool = False  # it has answers and no rows


@dataclass(frozen=True)
class Gathered:
    """All surveys of a run: tasks in order, every query, the count of each file, what was not typed in the cell itself."""

    tasks: tuple[SiteTask, ...]
    queries: tuple[Query, ...]
    files: tuple[FileCount, ...]
    readings: tuple[Mapping[str, str], ...]


def gather(
    files: Sequence[Taken], policy: Mapping[str, Any], date: str, valid_until: str, marked: Set[tuple[str, str]] = frozenset()
) -> Gathered:
    """One task a site. Rows that cannot be told to a site are in no task; their queries are kept.

    `marked` are name and content of files of which marked copies have gone out.
    """
    copies = resolve_copies(files, marked)
    answered = with_field_answers(
        identified([r for f in copies.files for r in f.rows]), [(f.file, f.field) for f in copies.files if f.field]
    )
    checked = check_rows(answered.rows, policy)
    counting = [row for i, row in enumerate(checked.rows) if i not in checked.replaced]
    lost, asked_again = _lost(copies, counting, policy)
    counting += lost
    of_rows = (*(_on_field_sheet(q, answered) for q in checked.queries), *asked_again)
    queries = sorted((*(q for f in copies.files for q in f.queries), *answered.queries, *of_rows), key=lambda q: q.order)
    by_site: dict[str, list[SurveyRow]] = defaultdict(list)
    for row in counting:
        if row.site_code:
            by_site[folded(row.site_code)].append(row)
    asked: dict[str, list[Query]] = defaultdict(list)
    for q in queries:
        asked[folded(q.site_code)].append(q)
    loose = _loose(counting)
    tasks = [_task(site, rows, asked[site], loose[site], date, valid_until) for site, rows in by_site.items()]
    in_order = tuple(sorted(tasks, key=lambda t: natural(t.site_code)))
    return Gathered(in_order, tuple(queries), _counts(copies, checked, lost), readings(counting))


def _on_field_sheet(q: Query, answered: Answered) -> Query:
    """A query about a value that a field sheet gave stands at that sheet's cell."""
    there = answered.places.get((q.file, q.sheet, q.record, q.name))
    return replace(q, file=there[0], sheet=there[1], cell=there[2]) if there and q.code != "CONFLICT" else q


def _lost(copies: Copies, counting: Sequence[SurveyRow], policy: Mapping[str, Any]) -> tuple[list[SurveyRow], list[Query]]:
    """Posts of replaced files that their copies no longer have."""
    old = {file: check_rows(rows, policy) for file, rows in sorted(copies.replaced.items())}
    asked = [q for checked in old.values() for q in checked.queries]
    return lost_posts(copies, {file: checked.rows for file, checked in old.items()}, asked, counting)


def _loose(rows: Sequence[SurveyRow]) -> Counter[str]:
    """Rows that name no site, by each site that their sheet names: they may be its own."""
    without = Counter((r.file, r.sheet) for r in rows if not r.site_code)
    named = {(folded(r.site_code), r.file, r.sheet) for r in rows if r.site_code}
    loose: Counter[str] = Counter()
    for site, file, sheet in named:
        loose[site] += without[file, sheet]
    return loose


def _task(site: str, rows: list[SurveyRow], queries: list[Query], loose: int, date: str, valid_until: str) -> SiteTask:
    rows = sorted(rows, key=lambda r: (natural(r.post_code), natural(r.file), natural(r.sheet), r.row, natural(r.label)))
    code = spelling(r.site_code for r in rows)
    name, customer, kind = (_stated(n, rows) for n in ("site_name", "customer", "site_kind"))
    quoted, held = (tuple(r for r in rows if r.held is kept) for kept in (False, True))
    return SiteTask(site, code, name or code, customer, kind, quoted, held, tuple(queries), date, valid_until, loose)


def _stated(name: str, rows: Iterable[SurveyRow]) -> str:
    """What most rows of a site state, held ones too; the first in natural order on a tie, '' where none does."""
    counts = Counter(fact for r in rows if (fact := getattr(r, name)))
    return min(counts, key=lambda fact: (-counts[fact], natural(fact)), default="")


def readings(rows: Iterable[SurveyRow]) -> tuple[Mapping[str, str], ...]:
    """Rows of data/readings.csv, in natural order of site, post and file."""
    key = lambda r: (natural(r.site_code), natural(r.post_code), natural(r.file), natural(r.sheet), r.row)  # noqa: E731
    return tuple(
        {
            "file": o.file or row.file,
            "sheet": o.sheet if o.file else row.sheet,
            "cell": o.cell,
            "site_code": row.site_code,
            "post_code": row.post_code,
            "name": o.name,
            "typed": o.typed,
            "taken_as": o.taken_as,
            "how": o.how,
        }
        for row in sorted(rows, key=key)
        for o in row.origins
    )


def _counts(copies: Copies, checked: Checked, lost: Sequence[SurveyRow]) -> tuple[FileCount, ...]:
    """Where each file's rows went."""
    counts, first = [], 0
    for f in copies.files:
        numbers = range(first, first + len(f.rows))
        replaced = [checked.replaced[i] for i in numbers if i in checked.replaced]
        held = sum(checked.rows[i].held for i in numbers if i not in checked.replaced)
        quoted = len(numbers) - held - len(replaced)
        first = numbers.stop
        by_copy, kept = len(copies.replaced.get(f.file, ())), sum(r.file == f.file for r in lost)
        rows, gone = len(numbers) + by_copy, len(replaced) + by_copy - kept
        notes = (*f.notes, *copies.notes[f.file], *replaced)
        counts.append(FileCount(f.file, f.format, rows, quoted, held + kept, gone, notes, f.field is not None))
    return tuple(sorted(counts, key=lambda c: natural(c.file)))

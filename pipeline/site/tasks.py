"""From files taken in to one task a site: repeats dropped, contradictions held, sites in natural order."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from pipeline.intake.query import Query
from pipeline.intake.survey.across import RowKey, settle, spelling
from pipeline.intake.take_in import Taken
from pipeline.output.names import site_name
from pipeline.site.task import SiteTask
from schemas.order import folded, natural


@dataclass(frozen=True)
class FileCount:
    """Where the rows of one file went; rows read = quoted + held."""

    file: str
    format: str
    rows: int
    quoted: int
    held: int
    notes: tuple[str, ...]


@dataclass(frozen=True)
class Gathered:
    """All surveys of a run: tasks in order, every query, and the count of each file."""

    tasks: tuple[SiteTask, ...]
    queries: tuple[Query, ...]
    files: tuple[FileCount, ...]


def gather(files: Sequence[Taken], date: str, valid_until: str) -> Gathered:
    """One task a site. Rows that cannot be told to a site are in no task; their queries are kept."""
    keys = [replace(k, index=i) for i, k in enumerate(k for f in files for k in f.keys)]
    blobs = [blob for f in files for blob in f.rows]
    drop, hold, settled = settle(keys)
    queries = sorted((*(q for f in files for q in f.queries), *settled), key=lambda q: q.order)
    by_site: dict[str, list[RowKey]] = defaultdict(list)
    for k in keys:
        if k.site_code and k.index not in drop:
            by_site[folded(k.site_code)].append(k)
    asked: dict[str, list[Query]] = defaultdict(list)
    for q in queries:
        asked[folded(q.site_code)].append(q)
    tasks = [_task(site, rows, hold, blobs, asked[site], date, valid_until) for site, rows in by_site.items()]
    return Gathered(tuple(sorted(tasks, key=lambda t: natural(t.site_code))), tuple(queries), _counts(files, hold))


def _task(
    site: str, keys: list[RowKey], hold: set[int], blobs: Sequence[bytes], queries: list[Query], date: str, valid_until: str
) -> SiteTask:
    keys = sorted(keys, key=lambda k: (natural(k.post_code), k.place))
    quoted = [k for k in keys if not k.held and k.index not in hold]
    held = [k for k in keys if k.held or k.index in hold]
    code = spelling(k.site_code for k in keys)
    name, customer, kind = (_stated(n, quoted or held) for n in range(3))
    folder = f"sites/{site_name(code)}"
    rows = tuple(blobs[k.index] for k in quoted), tuple(blobs[k.index] for k in held)
    return SiteTask(site, code, name, customer, kind, *rows, tuple(queries), folder, date, valid_until, 1, None)


def _stated(n: int, keys: Iterable[RowKey]) -> str:
    """What most rows state; the first in natural order on a tie, '' where none does."""
    counts = Counter(k.facts[n] for k in keys if k.facts[n])
    return min(counts, key=lambda fact: (-counts[fact], natural(fact)), default="")


def _counts(files: Sequence[Taken], hold: set[int]) -> tuple[FileCount, ...]:
    """Where each file's rows went; a repeated row counts as quoted, since its post is."""
    counts, index = [], 0
    for f in files:
        held = sum(k.held or index + i in hold for i, k in enumerate(f.keys))
        index += len(f.keys)
        counts.append(FileCount(f.file, f.format, len(f.keys), len(f.keys) - held, held, f.notes))
    return tuple(sorted(counts, key=lambda c: natural(c.file)))

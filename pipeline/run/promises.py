"""Which quotations are promised in a run, which promises a changed survey has ended, and which sites are closed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from pipeline.ledger.marks import DECLINED
from pipeline.ledger.records import Mark
from pipeline.ledger.store import Ledger, Revision
from pipeline.run.open_run import RunState
from pipeline.site.promised import Worlds, stands
from pipeline.site.task import Promise, SiteTask


def with_promises(tasks: Sequence[SiteTask], run: RunState, ledger: Ledger) -> list[SiteTask]:
    """The tasks with the promises that stand, or have ended; `run` has the catalogues that they were made with."""
    marked = {t.site: run.marks[t.site] for t in tasks if t.site in run.marks and run.marks[t.site].state != DECLINED}
    made = ledger.contents([(site, mark.revision) for site, mark in marked.items()])
    promises = {site: _promise(marked[site], r) for site, r in made.items() if r.catalogue in run.world.before}
    worlds = Worlds(run.world)
    return [_with(t, promises[t.site], worlds) if t.site in promises else t for t in tasks]


def closed(task: SiteTask, run: RunState) -> Mark | None:
    """The mark of a site whose quotation was declined: it stands as it last was, and counts for nothing."""
    mark = run.marks.get(task.site)
    return mark if mark and mark.state == DECLINED and task.site in run.known else None


def _promise(mark: Mark, r: Revision) -> Promise:
    return Promise(
        r.revision,
        mark.state,
        mark.day,
        mark.note,
        r.date,
        r.valid_until,
        r.workbook,
        r.content,
        r.content_hash,
        r.total,
        r.catalogue,
    )


def _with(task: SiteTask, promise: Promise, worlds: Worlds) -> SiteTask:
    return replace(task, promise=promise) if stands(task, promise, worlds) else replace(task, ended=promise)

"""What is to be done about each site of a run: what is known of it, and what its customer's other sites decide."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from pipeline.executors.processes import executor, in_order
from pipeline.ledger.pack import digest_of, unpack
from pipeline.ledger.store import Ledger
from pipeline.run.customers import decide, moved_by, needs_others
from pipeline.run.open_run import MISSING, RunState
from pipeline.run.promises import closed
from pipeline.run.request import sha
from pipeline.run.revisions import to_renew
from pipeline.site.batch import compute_sites
from pipeline.site.task import Figures, SiteTask

BATCH_POSTS, BATCH_SITES = 96, 16
"""A batch ends with the site that reaches either."""

FEW_POSTS = 160
"""So many are worked out here sooner than worker processes start. Source: measured."""


@dataclass(frozen=True)
class Job:
    """One site: its task, the fingerprint of its inputs, and its result where that is known."""

    task: SiteTask
    inputs: str
    own: str  # the same without what other sites of the customer decide
    stands: bool = False  # whether a file of its own cannot be read, so that it is quoted as that was last read
    known: Mapping[str, Any] | None = None  # as the ledger keeps it
    closed: bool = False  # declined


def jobs_of(tasks: Sequence[SiteTask], run: RunState, ledger: Ledger) -> list[Job]:
    """What is to be done about each site, once its customer's other sites have been asked where they count."""
    with_lines = ledger.with_lines()
    common = sha([run.prints.program, run.catalogue.fingerprint])
    jobs = [Job(task, own := fingerprint(task, common), own) for task in tasks]
    waiting = [job for job in jobs if needs_others(job.task, run.world) and not closed(job.task, run)]
    if waiting:
        tasks = [job.task for job in waiting]
        kept = _kept_figures(waiting, run)
        decided = decide(tasks, kept | _computed([t for t in tasks if t.site not in kept], run), run.world)
        moved = moved_by(tasks, {t.site for t in tasks} - kept.keys(), _gone(jobs, run), run.world) if _same_terms(run) else {}
        jobs = [_decided(job, decided.get(job.task.site, {}), moved.get(job.task.site, ())) for job in jobs]
    return [_closed(job, run) or replace(job, known=_known(job, run, with_lines)) for job in jobs]


def files_of(task: SiteTask) -> set[str]:
    """The files that a site's rows came from."""
    return {row.file for row in (*task.rows, *task.held)}


def kept_as_quoted(tasks: Sequence[SiteTask], run: RunState, ledger: Ledger) -> Iterator[Job]:
    """Sites of the last finished run that no file names which could be read: one of the others may."""
    asked_for, with_lines = {task.site for task in tasks}, ledger.with_lines()
    for site, known in run.known.items():
        if site in asked_for or site not in run.latest or run.last is None or known.run != run.last.run:
            continue
        if (site, known.inputs) in with_lines:
            result = unpack(known.result)
            row = result["summary"]["site"]
            head = (row["site_code"], row["site_name"], row["customer"], row["site_kind"])
            task = SiteTask(site, *head, (), (), (), run.request.date.isoformat(), row["valid_until"])
            yield Job(task, known.inputs, result.get("own", ""), True, result)


def fingerprint(task: SiteTask, common: str) -> str:
    """Fingerprint of everything that one site's result is made from: catalogue and program, its rows, its queries."""
    head = [task.site_code, task.site_name, task.customer, task.site_kind, task.folder, task.rows_loose]
    head += [[p and [p.revision, p.state, p.day, p.note, p.content_hash] for p in (task.promise, task.ended)]]
    rows = [[digest_of(row.as_dict()) for row in some] for some in (task.rows, task.held)]
    queries = [[getattr(q, name) for name in q.__slots__] for q in task.queries]
    return sha([common, head, rows, queries])


def _decided(job: Job, decided: Mapping[str, Any], moved: tuple[str, ...]) -> Job:
    if not decided:
        return job
    return replace(job, task=replace(job.task, decided=decided, moved_by=moved), inputs=sha([job.own, decided]))


def _closed(job: Job, run: RunState) -> Job | None:
    """A declined site, as it last came out; None where it was not declined."""
    mark = closed(job.task, run)
    if mark is None:
        return None
    known = run.known[job.task.site]
    result = unpack(known.result)
    site = {**result["summary"]["site"], "promise": mark.state}
    promised = {"state": mark.state, "day": mark.day, "note": mark.note, "revision": mark.revision, "total": site["total"]}
    result["summary"] |= {"site": site, "goods": [], "promised": promised}
    return replace(job, inputs=known.inputs, known=result, closed=True)


def _same_terms(run: RunState) -> bool:
    """Whether catalogue and program are those of the last finished run, so that only sites can have moved an order."""
    last = run.last
    return last is not None and (last.catalogue, last.program) == (run.catalogue.fingerprint, run.prints.program)


def _kept_figures(jobs: Sequence[Job], run: RunState) -> dict[str, Figures]:
    """What sites have to tell their customer's others, from the ledger, where their own inputs are the same."""
    found: dict[str, Figures] = {}
    for job in jobs:
        known = run.known.get(job.task.site)
        result = unpack(known.result) if known else {}
        if result.get("own") == job.own:
            found[job.task.site] = result["figures"]
    return found


def _computed(tasks: Sequence[SiteTask], run: RunState) -> dict[str, Figures]:
    """The same worked out."""
    with executor(run.world, workers(tasks, run), run.request.cluster) as through:
        made = in_order(through, compute_sites, batches(tasks), lambda task, why: {})
        return dict(zip((task.site for task in tasks), (figures for some in made for figures in some), strict=True))


def _gone(jobs: Sequence[Job], run: RunState) -> list[tuple[str, str]]:
    """Code and customer of sites that the last finished run quoted and this one does not."""
    here = {job.task.site for job in jobs}
    rows = [
        unpack(k.result)["summary"]["site"] for s, k in run.known.items() if s not in here and run.last and k.run == run.last.run
    ]
    return [(row["site_code"], row["customer"]) for row in rows]


def _known(job: Job, run: RunState, with_lines: set[tuple[str, str]]) -> Mapping[str, Any] | None:
    """The result of a site whose inputs are those of the last finished run, and whose workbook stands."""
    site = job.task.site
    latest, known = run.latest.get(site), run.known.get(site)
    if latest is None or known is None or run.last is None or known.run != run.last.run:
        return None
    if run.found_as[site] == MISSING or to_renew(job.task, run) or (site, job.inputs) not in with_lines:
        return None
    result: Mapping[str, Any] = unpack(known.result)
    return result if known.inputs == job.inputs and result["summary"]["site"]["workbook"] == latest.workbook else None


def workers(tasks: Sequence[SiteTask], run: RunState) -> int:
    """How many processes work on the tasks."""
    return 1 if sum(len(task.rows) for task in tasks) <= FEW_POSTS else run.request.jobs


def batches(tasks: Sequence[SiteTask]) -> Iterator[list[SiteTask]]:
    """The tasks in the batches that are worked out at once."""
    batch: list[SiteTask] = []
    posts = 0
    for task in tasks:
        batch.append(task)
        posts += len(task.rows)
        if posts >= BATCH_POSTS or len(batch) >= BATCH_SITES:
            yield batch
            batch, posts = [], 0
    if batch:
        yield batch

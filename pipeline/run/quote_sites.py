"""All sites quoted: known ones as they stand; the others are computed, decided on by customer, and reported on, in batches."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import dataclass, field, replace
from typing import Any

from pipeline.executors.processes import executor, in_order
from pipeline.intake.query import Query
from pipeline.ledger.pack import pack
from pipeline.ledger.store import Ledger, SiteEntry
from pipeline.output.folder import NotWrittenError, digest, file_digest, write_whole
from pipeline.output.names import FIELD, field_sheet_path
from pipeline.run.open_run import RunState
from pipeline.run.promises import with_promises
from pipeline.run.request import Progress
from pipeline.run.revisions import changes, expired, revision_of, with_before
from pipeline.run.site_jobs import Job, batches, files_of, jobs_of, kept_as_quoted, workers
from pipeline.site.batch import failed, quote_sites
from pipeline.site.task import Figures, SiteOutcome, SiteTask
from schemas.order import natural


@dataclass
class Quoted:
    """What came out of all sites."""

    summaries: list[Mapping[str, Any]] = field(default_factory=list)
    asked: list[Query] = field(default_factory=list)
    changes: list[dict[str, Any]] = field(default_factory=list)
    states: list[str] = field(default_factory=list)
    failures: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    expired: list[dict[str, Any]] = field(default_factory=list)
    intended: set[tuple[str, int]] = field(default_factory=set)  # (folded site, revision) of new workbooks
    kept: list[SiteEntry] = field(default_factory=list)
    made_again: dict[str, str] = field(default_factory=dict)  # folded site -> hash of a workbook that was missing
    sites: list[tuple[str, str]] = field(default_factory=list)  # (folded site, inputs) of all that came out, in order
    figures: dict[str, Figures] = field(default_factory=dict)  # folded site -> what its customer needs to know of it
    for_customer: dict[str, bytes] = field(default_factory=dict)  # folded site -> what its customer's quotation says of it
    closed: set[str] = field(default_factory=set)  # folded sites whose quotation was declined
    failed: dict[str, str] = field(default_factory=dict)  # folded site that did not come out -> customer as stated
    revisions: int = 0
    written: int = 0


def quote_all(run: RunState, tasks: Sequence[SiteTask], refused: Set[str], ledger: Ledger, progress: Progress) -> Quoted:
    """Every site of the run, in order. Workbooks stand when this returns; the ledger has the lines of the data files.

    `refused` are files that could not be read: while there is one, no site is taken to be asked for no longer.
    """
    quoted = Quoted()
    run = _with_catalogues(run, ledger)
    tasks = with_promises(tasks, run, ledger)
    jobs = [replace(job, stands=not refused.isdisjoint(files_of(job.task))) for job in jobs_of(tasks, run, ledger)]
    if refused:
        jobs = sorted([*jobs, *kept_as_quoted(tasks, run, ledger)], key=lambda job: natural(job.task.site_code))
    fresh = [job for job in jobs if job.known is None]
    progress.stage("Quoting sites", len(fresh))
    outcomes, done = _outcomes(fresh, run, ledger, quoted), 0
    for job in jobs:
        if job.known is not None:
            _take_known(job, run, quoted)
        else:
            _take_outcome(job, next(outcomes), run, ledger, quoted)
            done += 1
            progress.step(done)
    return quoted


def _with_catalogues(run: RunState, ledger: Ledger) -> RunState:
    """The run with the catalogues that its sites last came out with: reasons for changes are looked for there."""
    marked = [(mark.site, run.latest[mark.site].revision) for mark in ledger.marks() if mark.site in run.latest]
    promised_with = {r.catalogue for r in ledger.contents(marked).values()}
    wanted = sorted({known.catalogue for known in run.known.values()} | promised_with)
    kept = {fingerprint: kept for fingerprint in wanted if (kept := ledger.catalogue(fingerprint))}
    return replace(run, world=replace(run.world, before=kept))


def _outcomes(jobs: Sequence[Job], run: RunState, ledger: Ledger, quoted: Quoted) -> Iterator[SiteOutcome]:
    """Outcomes of the jobs, in order; the ledger has the lines, and knows of the workbooks, before any is written."""
    if not jobs:
        return
    tasks = [job.task for job in jobs]
    inputs = {job.task.site: job.inputs for job in jobs}
    groups = ([with_before(task, run, ledger) for task in batch] for batch in batches(tasks))
    with executor(run.world, workers(tasks, run), run.request.cluster) as through:
        for batch in in_order(through, quote_sites, groups, failed):
            _intend(batch, inputs, run, ledger, quoted)
            yield from batch


def _intend(batch: Sequence[SiteOutcome], inputs: Mapping[str, str], run: RunState, ledger: Ledger, quoted: Quoted) -> None:
    """Say which workbooks are about to be written, so that a killed run's files are known as ours, and keep the lines."""
    fresh = [revision_of(o, run) for o in batch if o.content is not None]
    files = [(path, digest(data)) for o in batch for path, data in _files(o)]
    with ledger.together():
        ledger.intend(fresh)
        ledger.about_to_write(files)
        for o in batch:
            ledger.put_lines(o.site, inputs[o.site], o.lines)
    quoted.intended.update((r.site, r.revision) for r in fresh)


def _take_known(job: Job, run: RunState, quoted: Quoted) -> None:
    """A site whose result is known."""
    assert job.known is not None
    _came_out(job, job.known["summary"], [Query(**q) for q in job.known["asked"]], job.known["state"], quoted)
    if job.closed:
        return
    quoted.figures[job.task.site] = job.known["figures"]
    quoted.for_customer[job.task.site] = pack(job.known["for_customer"])
    quoted.expired.extend(expired(job.task, run))


def _take_outcome(job: Job, o: SiteOutcome, run: RunState, ledger: Ledger, quoted: Quoted) -> None:
    """A site that was worked out: its workbook, and what the ledger keeps."""
    if o.error:
        quoted.failures.append(o.error + ("\n" + o.trace if o.trace else ""))
        quoted.failed[job.task.site] = job.task.customer
        return
    assert o.summary is not None
    if o.workbook is not None and not _write(job.task, o, run, ledger, quoted):
        quoted.failed[job.task.site] = job.task.customer
        return
    _came_out(job, o.summary, o.asked, o.state, quoted)
    quoted.figures[job.task.site] = o.figures
    quoted.for_customer[job.task.site] = pack(o.for_customer)
    quoted.revisions += o.content is not None
    quoted.changes.extend(changes(job.task, o, run))
    asked = [{name: getattr(q, name) for name in q.__slots__} for q in o.asked]
    plain = {"summary": o.summary, "asked": asked, "state": o.state, "figures": o.figures, "own": job.own}
    plain |= {"for_customer": o.for_customer, "decided": job.task.decided}
    quoted.kept.append(_entry(job, plain))
    if o.content is None:
        quoted.expired.extend(expired(job.task, run))


def _entry(job: Job, result: Mapping[str, Any]) -> SiteEntry:
    """A site as the ledger keeps it; packed at once, since those of all sites wait for the end of the run."""
    task = job.task
    rows = {"quoted": [row.as_dict() for row in task.rows], "held": [row.as_dict() for row in task.held]}
    return SiteEntry(task.site, task.site_code, job.inputs, pack(rows), pack(result))


def _came_out(job: Job, summary: Mapping[str, Any], asked: Sequence[Query], state: str, quoted: Quoted) -> None:
    if job.stands:  # said, and no reason for a new revision
        stood = f"{summary['site']['site_code']} is quoted as it last stood, since not every file could be read."
        quoted.notes.append(stood)
        summary, state = {**summary, "site": {**summary["site"], "state": "incomplete"}}, "incomplete"
    if job.closed:
        quoted.closed.add(job.task.site)
    quoted.sites.append((job.task.site, job.inputs))
    quoted.summaries.append(summary)
    quoted.asked.extend(asked)
    quoted.states.append(state)


def _write(task: SiteTask, o: SiteOutcome, run: RunState, ledger: Ledger, quoted: Quoted) -> bool:
    """Put a workbook in its place; one that is open elsewhere is reported, and the run goes on."""
    assert o.workbook is not None
    try:
        for path, data in _files(o):
            quoted.written += _put(path, data, run, only_new=path.endswith(FIELD) and o.content is None)
    except NotWrittenError as error:
        quoted.failures.append(str(error))
        if o.content is not None:
            ledger.forget_revision(task.site, o.revision)
        return False
    if o.content is None:
        quoted.made_again[task.site] = digest(o.workbook)
    return True


def _files(o: SiteOutcome) -> list[tuple[str, bytes]]:
    """Path and bytes of what is written of a site: its workbook, and the field sheet that goes with it."""
    if o.workbook is None or o.summary is None:
        return []
    path = o.summary["site"]["workbook"]
    return [(path, o.workbook), *([(field_sheet_path(path), o.field_sheet)] if o.field_sheet else [])]


def _put(path: str, data: bytes, run: RunState, only_new: bool) -> bool:
    """Write a file that is not there as it is to be; a field sheet may have been filled in where it stands."""
    place = run.request.out / path
    stands = file_digest(place)
    if stands == digest(data) or (stands and only_new):
        return False
    write_whole(place, data, within=run.request.out)
    return True

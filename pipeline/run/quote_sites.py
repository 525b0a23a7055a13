"""All sites quoted: known ones copied, the others worked out in batches, each workbook written whole."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from pipeline.executors.processes import in_order
from pipeline.intake.query import Query
from pipeline.ledger.pack import pack, unpack
from pipeline.ledger.store import BACK, Ledger, Revision
from pipeline.output.data import BY_SITE, DataFiles
from pipeline.output.folder import NotWrittenError, digest, file_digest, write_whole
from pipeline.output.names import site_name
from pipeline.run.open_run import EDITED, LOCKED, MISSING, RunState
from pipeline.run.request import Tell
from pipeline.run.site_fingerprint import Bearing
from pipeline.site.batch import failed, quote_sites
from pipeline.site.task import Before, SiteOutcome, SiteTask
from pipeline.site.tasks import Gathered

BATCH_POSTS, BATCH_SITES = 96, 16
"""A batch ends with the site that reaches either."""

FEW_POSTS = 160
"""So many are worked out here sooner than worker processes start. Source: measured."""


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
    kept: list[tuple[str, str, bytes, bytes]] = field(default_factory=list)  # folded site, inputs, rows, result
    made_again: dict[str, str] = field(default_factory=dict)  # folded site -> hash of a workbook that was missing
    revisions: int = 0
    written: int = 0
    data: Mapping[str, str] = field(default_factory=dict)  # data file -> hash
    pieces: Mapping[str, Mapping[str, tuple[int, int]]] = field(default_factory=dict)


@dataclass(frozen=True)
class _Job:
    """One site: its task, and its result where that is known."""

    task: SiteTask
    result: Mapping[str, Any] | None  # as the ledger keeps it

    @property
    def known(self) -> bool:
        return self.result is not None


def quote_all(run: RunState, gathered: Gathered, ledger: Ledger, tell: Tell) -> Quoted:
    """Every site of the run, in order. Workbooks stand when this returns, and so do the per-site data files."""
    quoted = Quoted()
    before = {t.name: run.outputs[p].hash for t in BY_SITE if (p := f"data/{t.name}.csv") in run.outputs and _stands(run, p)}
    with DataFiles(run.request.out / "data", before) as data:
        bearing = Bearing(run.catalogue, run.prints.program)
        jobs = [_job(task, run, data.can_copy, bearing) for task in gathered.tasks]
        run = _with_catalogues(run, jobs, ledger)
        fresh = [job for job in jobs if not job.known]
        tell.stage("Quoting sites", len(fresh))
        outcomes, done = _outcomes(fresh, run, ledger, quoted), 0
        for job in jobs:
            if job.known:
                _copied(job, run, data, quoted)
            else:
                _worked_out(job.task, next(outcomes), run, ledger, data, quoted, bearing)
                done += 1
                tell.step(done)
        quoted.data = data.finish()
        quoted.pieces = data.pieces
        quoted.written += data.written
    return quoted


def _with_catalogues(run: RunState, jobs: Sequence[_Job], ledger: Ledger) -> RunState:
    """The run with the catalogues that its sites last came out with: reasons for changes are looked for there."""
    wanted = {run.known[j.task.site].catalogue for j in jobs if not j.known and j.task.site in run.known}
    kept = {fingerprint: kept for fingerprint in sorted(wanted) if (kept := ledger.catalogue(fingerprint))}
    return replace(run, world=replace(run.world, before=kept))


def _stands(run: RunState, path: str) -> bool:
    return run.standing.get(path) == run.outputs[path].hash


def _job(task: SiteTask, run: RunState, can_copy: bool, bearing: Bearing) -> _Job:
    """What is to be done about one site."""
    latest, known = run.latest.get(task.site), run.known.get(task.site)
    stands = latest is not None and run.found_as[task.site] != MISSING and not _renew(task, run)
    if not stands or not can_copy or known is None or run.last is None:
        return _Job(task, None)
    if known.run != run.last.run or len(known.pieces) != len(BY_SITE):
        return _Job(task, None)
    result = unpack(known.result)
    return _Job(task, result if known.inputs == bearing.inputs(task, result["summary"]) else None)


def _renew(task: SiteTask, run: RunState) -> bool:
    latest = run.latest.get(task.site)
    return run.request.renew and latest is not None and latest.valid_until < run.request.date.isoformat()


def _outcomes(jobs: Sequence[_Job], run: RunState, ledger: Ledger, quoted: Quoted) -> Iterator[SiteOutcome]:
    """Outcomes of the jobs, in order."""
    batches = _batches(jobs, run, ledger)
    few = sum(len(job.task.rows) for job in jobs) <= FEW_POSTS
    workers = 1 if few else run.request.jobs
    for batch in in_order(quote_sites, run.world, batches, workers, run.request.cluster, failed):
        quoted.intended.update(_intend(batch, run, ledger))
        yield from batch


def _batches(jobs: Sequence[_Job], run: RunState, ledger: Ledger) -> Iterator[list[SiteTask]]:
    batch: list[SiteTask] = []
    posts = 0
    for job in jobs:
        batch.append(_with_before(job.task, run, ledger))
        posts += len(job.task.rows)
        if posts >= BATCH_POSTS or len(batch) >= BATCH_SITES:
            yield batch
            batch, posts = [], 0
    if batch:
        yield batch


def _with_before(task: SiteTask, run: RunState, ledger: Ledger) -> SiteTask:
    """The task with the revision that the last finished run left, and the number of the next."""
    latest = run.latest.get(task.site)
    number = _free(task, latest.revision + 1 if latest else 1, run)
    if latest is None:
        return replace(task, revision=number)
    r = ledger.contents([(task.site, latest.revision)])[task.site]
    known = run.known.get(task.site)
    before = Before(
        r.revision,
        r.date,
        r.valid_until,
        r.content_hash,
        r.content,
        _rows(task.site, ledger),
        run.programs.get(known.run if known else r.run, r.program),
        known.catalogue if known else r.catalogue,
        r.total,
        run.found_as[task.site] == MISSING,
        _renew(task, run),
    )
    return replace(task, revision=number, before=before)


def _rows(site: str, ledger: Ledger) -> dict[str, dict[str, Any]]:
    """What a site's rows said when they were last read."""
    kept = ledger.site_rows(site)
    rows = [*kept[0]["quoted"], *kept[0]["held"]] if kept else []
    return {row["post_code"]: {"typed": row["typed"], "values": row["values"]} for row in rows}


def _free(task: SiteTask, number: int, run: RunState) -> int:
    """The first number from `number` on whose workbook is not there, or is what a killed run of ours left."""
    while True:
        path = workbook_path(task, number)
        hash_ = file_digest(run.request.out / path)
        if not hash_ or (path, hash_) in run.ours:
            return number
        number += 1


def workbook_path(task: SiteTask, revision: int) -> str:
    """Path of a workbook in the output folder."""
    return f"{task.folder}/{site_name(task.site_code)}-r{revision}.xlsx"


def _intend(batch: Sequence[SiteOutcome], run: RunState, ledger: Ledger) -> list[tuple[str, int]]:
    """Say which workbooks are about to be written, so that a killed run's files are known as ours."""
    fresh = [_revision(o, run) for o in batch if o.content is not None]
    files = [(o.summary["site"]["workbook"], digest(o.workbook)) for o in batch if o.workbook is not None and o.summary]
    if files:
        with ledger.together():
            ledger.intend(fresh)
            ledger.about_to_write(files)
    return [(r.site, r.revision) for r in fresh]


def _revision(o: SiteOutcome, run: RunState) -> Revision:
    assert o.content is not None
    assert o.workbook is not None
    assert o.summary is not None
    hash_ = digest(o.workbook)
    return Revision(
        o.site, o.revision, run.number, o.date, o.valid_until, o.summary["site"]["workbook"], hash_, hash_,
        run.catalogue.fingerprint, run.prints.program, o.content_hash, dict(o.content), o.total,
    )  # fmt: skip


def _copied(job: _Job, run: RunState, data: DataFiles, quoted: Quoted) -> None:
    """A site whose result is known."""
    result = job.result
    assert result is not None
    data.copy(job.task.site, run.known[job.task.site].pieces)
    quoted.summaries.append(result["summary"])
    quoted.asked.extend(Query(**q) for q in result["asked"])
    quoted.states.append(result["state"])
    _expired(job.task, run, quoted)


def _worked_out(
    task: SiteTask, o: SiteOutcome, run: RunState, ledger: Ledger, data: DataFiles, quoted: Quoted, bearing: Bearing
) -> None:
    """A site that was worked out: its workbook, its lines, what the ledger keeps."""
    if o.error:
        quoted.failures.append(o.error + ("\n" + o.trace if o.trace else ""))
        return
    assert o.pieces is not None
    assert o.summary is not None
    if o.workbook is not None and not _write(task, o, run, ledger, quoted):
        return
    data.add(task.site, o.pieces)
    quoted.summaries.append(o.summary)
    quoted.asked.extend(o.asked)
    quoted.states.append(o.state)
    quoted.revisions += o.content is not None
    quoted.changes.extend(_changes(task, o, run))
    rows = pack({"quoted": [unpack(b) for b in task.rows], "held": [unpack(b) for b in task.held]})
    result = pack({"summary": o.summary, "asked": [_query(q) for q in o.asked], "state": o.state})
    quoted.kept.append((task.site, bearing.inputs(task, o.summary), rows, result))
    if o.content is None:
        _expired(task, run, quoted)


def _query(q: Query) -> dict[str, Any]:
    from dataclasses import asdict

    return asdict(q)


def _write(task: SiteTask, o: SiteOutcome, run: RunState, ledger: Ledger, quoted: Quoted) -> bool:
    """Put a workbook in its place; one that is open elsewhere is reported, and the run goes on."""
    assert o.workbook is not None
    assert o.summary is not None
    place, hash_ = run.request.out / o.summary["site"]["workbook"], digest(o.workbook)
    try:
        if file_digest(place) != hash_:
            write_whole(place, o.workbook, within=run.request.out)
            quoted.written += 1
    except NotWrittenError as error:
        quoted.failures.append(str(error))
        if o.content is not None:
            ledger.forget_revision(task.site, o.revision)
        return False
    if o.content is None:
        quoted.made_again[task.site] = hash_
    return True


def _changes(task: SiteTask, o: SiteOutcome, run: RunState) -> Iterator[dict[str, Any]]:
    """Rows of data/changes.csv for one site; the first run of a folder has none to compare with."""
    if run.last is None:
        return
    latest = run.latest.get(task.site)
    row = {
        "site_code": task.site_code,
        "revision_was": latest.revision if latest else None,
        "revision": o.revision,
        "total_was": latest.total if latest else "",
        "total": o.total,
    }
    if task.site in run.gone:
        yield row | {"kind": BACK, "item": task.site_code, "was": "not in the surveys", "now": "quoted again"}
    if o.content is None:
        return
    if latest is None:
        yield row | {"kind": "site added", "item": task.site_code, "was": "", "now": "quoted"}
        return
    yield from (row | vars(c) for c in o.changes)
    if run.found_as[task.site] in (EDITED, LOCKED):
        was = latest.workbook.rsplit("/", 1)[-1]
        yield row | {"kind": "workbook kept", "item": was, "was": "edited by hand", "now": "the new revision stands beside it"}


def _expired(task: SiteTask, run: RunState, quoted: Quoted) -> None:
    latest = run.latest[task.site]
    if latest.valid_until < run.request.date.isoformat():
        row = {"site_code": task.site_code, "revision": latest.revision, "valid_until": latest.valid_until}
        quoted.expired.append(row)

"""All sites quoted: known ones as they stand; the others are computed, decided on by customer, and reported on, in batches."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import dataclass, field, replace
from typing import Any

from pipeline.executors.processes import executor, in_order
from pipeline.intake.query import Query
from pipeline.ledger.pack import digest_of, pack, unpack
from pipeline.ledger.store import Ledger
from pipeline.output.folder import NotWrittenError, digest, file_digest, write_whole
from pipeline.run.customers import decide, moved_by, needs_others
from pipeline.run.open_run import MISSING, RunState
from pipeline.run.promises import closed, with_promises
from pipeline.run.request import Progress, sha
from pipeline.run.revisions import changes, expired, revision_of, to_renew, with_before
from pipeline.site.batch import compute_sites, failed, quote_sites
from pipeline.site.task import Figures, SiteOutcome, SiteTask
from schemas.order import natural

BATCH_POSTS, BATCH_SITES = 96, 16
"""A batch ends with the site that reaches either."""

FEW_POSTS = 160
"""So many are worked out here sooner than worker processes start. Source: measured."""


@dataclass(frozen=True)
class SiteResult:
    """A site that was worked out: its task, and what the ledger keeps of it as plain values."""

    task: SiteTask
    inputs: str  # fingerprint of what it was made from
    plain: Mapping[str, Any]


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
    kept: list[SiteResult] = field(default_factory=list)
    made_again: dict[str, str] = field(default_factory=dict)  # folded site -> hash of a workbook that was missing
    sites: list[tuple[str, str]] = field(default_factory=list)  # (folded site, inputs) of all that came out, in order
    figures: dict[str, Figures] = field(default_factory=dict)  # folded site -> what its customer needs to know of it
    for_customer: dict[str, bytes] = field(default_factory=dict)  # folded site -> what its customer's quotation says of it
    closed: set[str] = field(default_factory=set)  # folded sites whose quotation was declined
    failed: dict[str, str] = field(default_factory=dict)  # folded site that did not come out -> customer as stated
    revisions: int = 0
    written: int = 0


@dataclass(frozen=True)
class _Job:
    """One site: its task, the fingerprint of its inputs, and its result where that is known."""

    task: SiteTask
    inputs: str
    own: str  # the same without what other sites of the customer decide
    stands: bool = False  # whether a file of its own cannot be read, so that it is quoted as that was last read
    known: Mapping[str, Any] | None = None  # as the ledger keeps it
    closed: bool = False  # declined


def quote_all(run: RunState, tasks: Sequence[SiteTask], refused: Set[str], ledger: Ledger, progress: Progress) -> Quoted:
    """Every site of the run, in order. Workbooks stand when this returns; the ledger has the lines of the data files.

    `refused` are files that could not be read: while there is one, no site is taken to be asked for no longer.
    """
    quoted = Quoted()
    run, tasks = with_promises(tasks, _with_catalogues(run, ledger), ledger)
    jobs = [replace(job, stands=not refused.isdisjoint(_files(job.task))) for job in _jobs(tasks, run, ledger)]
    if refused:
        jobs = sorted([*jobs, *_left_standing(tasks, run, ledger)], key=lambda job: natural(job.task.site_code))
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


def _files(task: SiteTask) -> set[str]:
    return {row.file for row in (*task.rows, *task.held)}


def _left_standing(tasks: Sequence[SiteTask], run: RunState, ledger: Ledger) -> Iterator[_Job]:
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
            yield _Job(task, known.inputs, result.get("own", ""), True, result)


def _with_catalogues(run: RunState, ledger: Ledger) -> RunState:
    """The run with the catalogues that its sites last came out with: reasons for changes are looked for there."""
    wanted = sorted({known.catalogue for known in run.known.values()})
    kept = {fingerprint: kept for fingerprint in wanted if (kept := ledger.catalogue(fingerprint))}
    return replace(run, world=replace(run.world, before=kept))


def _jobs(tasks: Sequence[SiteTask], run: RunState, ledger: Ledger) -> list[_Job]:
    """What is to be done about each site, once its customer's other sites have been asked where they count."""
    with_lines = ledger.with_lines()
    common = sha([run.prints.program, run.catalogue.fingerprint])
    jobs = [_Job(task, own := fingerprint(task, common), own) for task in tasks]
    waiting = [job for job in jobs if needs_others(job.task, run.world) and not closed(job.task, run)]
    if waiting:
        tasks = [job.task for job in waiting]
        kept = _kept_figures(waiting, run)
        decided = decide(tasks, kept | _computed([t for t in tasks if t.site not in kept], run), run.world)
        moved = moved_by(tasks, {t.site for t in tasks} - kept.keys(), _gone(jobs, run), run.world) if _same_terms(run) else {}
        jobs = [_decided(job, decided.get(job.task.site, {}), moved.get(job.task.site, ())) for job in jobs]
    return [_closed(job, run) or replace(job, known=_known(job, run, with_lines)) for job in jobs]


def _closed(job: _Job, run: RunState) -> _Job | None:
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


def fingerprint(task: SiteTask, common: str) -> str:
    """Fingerprint of everything that one site's result is made from: catalogue and program, its rows, its queries."""
    head = [task.site_code, task.site_name, task.customer, task.site_kind, task.folder, task.rows_loose]
    head += [[p and [p.revision, p.state, p.day, p.note, p.content_hash] for p in (task.promise, task.ended)]]
    rows = [[digest_of(row.as_dict()) for row in some] for some in (task.rows, task.held)]
    queries = [[getattr(q, name) for name in q.__slots__] for q in task.queries]
    return sha([common, head, rows, queries])


def _decided(job: _Job, decided: Mapping[str, Any], moved: tuple[str, ...]) -> _Job:
    if not decided:
        return job
    return replace(job, task=replace(job.task, decided=decided, moved_by=moved), inputs=sha([job.own, decided]))


def _same_terms(run: RunState) -> bool:
    """Whether catalogue and program are those of the last finished run, so that only sites can have moved an order."""
    last = run.last
    return last is not None and (last.catalogue, last.program) == (run.catalogue.fingerprint, run.prints.program)


def _kept_figures(jobs: Sequence[_Job], run: RunState) -> dict[str, Figures]:
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
    with executor(run.world, _workers(tasks, run), run.request.cluster) as through:
        made = in_order(through, compute_sites, _batches(tasks), lambda task, why: {})
        return dict(zip((task.site for task in tasks), (figures for some in made for figures in some), strict=True))


def _gone(jobs: Sequence[_Job], run: RunState) -> list[tuple[str, str]]:
    """Code and customer of sites that the last finished run quoted and this one does not."""
    here = {job.task.site for job in jobs}
    rows = [
        unpack(k.result)["summary"]["site"] for s, k in run.known.items() if s not in here and run.last and k.run == run.last.run
    ]
    return [(row["site_code"], row["customer"]) for row in rows]


def _known(job: _Job, run: RunState, with_lines: set[tuple[str, str]]) -> Mapping[str, Any] | None:
    """The result of a site whose inputs are those of the last finished run, and whose workbook stands."""
    site = job.task.site
    latest, known = run.latest.get(site), run.known.get(site)
    if latest is None or known is None or run.last is None or known.run != run.last.run:
        return None
    if run.found_as[site] == MISSING or to_renew(job.task, run) or (site, job.inputs) not in with_lines:
        return None
    result: Mapping[str, Any] = unpack(known.result)
    return result if known.inputs == job.inputs and result["summary"]["site"]["workbook"] == latest.workbook else None


def _workers(tasks: Sequence[SiteTask], run: RunState) -> int:
    return 1 if sum(len(task.rows) for task in tasks) <= FEW_POSTS else run.request.jobs


def _batches(tasks: Sequence[SiteTask]) -> Iterator[list[SiteTask]]:
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


def _outcomes(jobs: Sequence[_Job], run: RunState, ledger: Ledger, quoted: Quoted) -> Iterator[SiteOutcome]:
    """Outcomes of the jobs, in order; the ledger has the lines, and knows of the workbooks, before any is written."""
    if not jobs:
        return
    tasks = [job.task for job in jobs]
    inputs = {job.task.site: job.inputs for job in jobs}
    batches = ([with_before(task, run, ledger) for task in batch] for batch in _batches(tasks))
    with executor(run.world, _workers(tasks, run), run.request.cluster) as through:
        for batch in in_order(through, quote_sites, batches, failed):
            _intend(batch, inputs, run, ledger, quoted)
            yield from batch


def _intend(batch: Sequence[SiteOutcome], inputs: Mapping[str, str], run: RunState, ledger: Ledger, quoted: Quoted) -> None:
    """Say which workbooks are about to be written, so that a killed run's files are known as ours, and keep the lines."""
    fresh = [revision_of(o, run) for o in batch if o.content is not None]
    files = [(o.summary["site"]["workbook"], digest(o.workbook)) for o in batch if o.workbook is not None and o.summary]
    with ledger.together():
        ledger.intend(fresh)
        ledger.about_to_write(files)
        for o in batch:
            ledger.put_lines(o.site, inputs[o.site], o.lines)
    quoted.intended.update((r.site, r.revision) for r in fresh)


def _take_known(job: _Job, run: RunState, quoted: Quoted) -> None:
    """A site whose result is known."""
    assert job.known is not None
    _came_out(job, job.known["summary"], [Query(**q) for q in job.known["asked"]], job.known["state"], quoted)
    if job.closed:
        return
    quoted.figures[job.task.site] = job.known["figures"]
    quoted.for_customer[job.task.site] = pack(job.known["for_customer"])
    quoted.expired.extend(expired(job.task, run))


def _take_outcome(job: _Job, o: SiteOutcome, run: RunState, ledger: Ledger, quoted: Quoted) -> None:
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
    quoted.kept.append(SiteResult(job.task, job.inputs, plain))
    if o.content is None:
        quoted.expired.extend(expired(job.task, run))


def _came_out(job: _Job, summary: Mapping[str, Any], asked: Sequence[Query], state: str, quoted: Quoted) -> None:
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

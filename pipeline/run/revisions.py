"""Revisions of a site's quotation: the one that stands, the number of the next, what changed between them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from pipeline.ledger.pack import unpack
from pipeline.ledger.store import BACK, Ledger, Revision
from pipeline.output.folder import digest, file_digest
from pipeline.output.names import field_sheet_path, workbook_path
from pipeline.run.open_run import EDITED, LOCKED, MISSING, RunState
from pipeline.site.task import Before, SiteOutcome, SiteTask


def with_before(task: SiteTask, run: RunState, ledger: Ledger) -> SiteTask:
    """The task with the revision that the last finished run left, and the number of the next."""
    latest = run.latest.get(task.site)
    number = free_number(task.folder, run.newest.get(task.site, 0) + 1, run)
    if latest is None:
        return replace(task, revision=number)
    r = ledger.contents([(task.site, latest.revision)])[task.site]
    known = run.known.get(task.site)
    if known and unpack(known.result)["summary"]["site"]["promise"]:
        known = None  # what was promised stands as it was made, whatever came after
    program = run.programs.get(known.run if known else r.run, r.program)
    before = Before(
        r.revision,
        r.date,
        r.valid_until,
        r.content_hash,
        r.content,
        _rows(task.site, ledger),
        program if program != run.prints.program else run.world.setting.program,
        known.catalogue if known else r.catalogue,
        r.total,
        run.found_as[task.site] == MISSING,
        to_renew(task, run),
    )
    return replace(task, revision=number, before=before)


def _rows(site: str, ledger: Ledger) -> dict[str, dict[str, Any]] | None:
    """What a site's rows said when they were last read; None where that is not known."""
    kept = ledger.site_rows(site)
    if kept is None:
        return None
    rows = [*kept[0]["quoted"], *kept[0]["held"]]
    return {row["values"].get("post_code", ""): {"typed": row["typed"], "values": row["values"]} for row in rows}


def free_number(folder: str, number: int, run: RunState) -> int:
    """The first number from `number` on whose workbook is not in `folder`, or is what a killed run of ours left."""
    while True:
        workbook = workbook_path(folder, number)
        if all(_is_free(path, run) for path in (workbook, field_sheet_path(workbook))):
            return number
        number += 1


def _is_free(path: str, run: RunState) -> bool:
    hash_ = file_digest(run.request.out / path)
    return not hash_ or (path, hash_) in run.ours


def to_renew(task: SiteTask, run: RunState) -> bool:
    """Whether the site's quotation has expired and is to be issued anew."""
    latest = run.latest.get(task.site)
    past = latest is not None and latest.valid_until < run.request.date.isoformat()
    return run.request.renew and past and task.site not in run.marks


def revision_of(o: SiteOutcome, run: RunState) -> Revision:
    """The new revision that a site came out with."""
    assert o.content is not None
    assert o.workbook is not None
    assert o.summary is not None
    hash_ = digest(o.workbook)
    return Revision(
        o.site, o.revision, run.number, o.date, o.valid_until, o.summary["site"]["workbook"], hash_, hash_,
        run.catalogue.fingerprint, run.prints.program, o.content_hash, dict(o.content), o.total,
    )  # fmt: skip


def changes(task: SiteTask, o: SiteOutcome, run: RunState) -> Iterator[dict[str, Any]]:
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


def expired(task: SiteTask, run: RunState) -> list[dict[str, Any]]:
    """The quotation of a site that stands as it was, where its last valid day is past."""
    latest = run.latest[task.site]
    if latest.valid_until >= run.request.date.isoformat() or task.site in run.marks:
        return []
    return [{"site_code": task.site_code, "revision": latest.revision, "valid_until": latest.valid_until}]

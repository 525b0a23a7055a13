"""A run opened: what all sites share, and where each site stood when the last run had finished."""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import dataclass

from pipeline.intake.catalogue import CatalogueRead
from pipeline.ledger.kept_catalogue import Kept, as_plain
from pipeline.ledger.pack import pack
from pipeline.ledger.records import Mark
from pipeline.ledger.store import Known, Latest, Ledger, Output, Run
from pipeline.output.folder import is_torn
from pipeline.run.request import Prints, Request
from pipeline.site.task import World
from pipeline.site.worlds import world_of

OK, MISSING, EDITED, LOCKED = "ok", "missing", "edited", "locked"
"""How a site's workbook was found."""


@dataclass(frozen=True)
class RunState:
    """One run under way."""

    request: Request
    prints: Prints
    catalogue: CatalogueRead
    world: World
    number: int
    last: Run | None  # the last finished run
    latest: Mapping[str, Latest]  # each site's revision that stands: a promised one, else the newest of a finished run
    newest: Mapping[str, int]  # the number of each site's newest revision
    marks: Mapping[str, Mark]  # of the sites that are promised or declined
    known: Mapping[str, Known]
    programs: Mapping[int, str]  # finished run -> program
    gone: Set[str]  # sites that were listed as no longer asked for
    unfinished: Mapping[tuple[str, int], str]  # revisions that a killed run intended -> path of the workbook
    ours: Set[tuple[str, str]]  # (path, hash) of files that a killed run may have written
    seen: Mapping[str, str]  # site -> hash of its newest workbook as it stands
    found_as: Mapping[str, str]  # site -> OK, MISSING, EDITED, LOCKED
    outputs: Mapping[str, Output]
    on_disk: Mapping[str, str]  # path -> hash, as the run found it


def open_run(request: Request, prints: Prints, read: CatalogueRead, ledger: Ledger, on_disk: Mapping[str, str]) -> RunState:
    """Begin a run in the ledger; `on_disk` are the hashes of what stands in the folder."""
    last = ledger.last_finished()
    until = last.run if last else 0
    newest = ledger.latest(until)
    marks = ledger.marks_in_force(until, request.date.isoformat())
    latest = newest | {site: ledger.revision(site, mark.revision) for site, mark in marks.items()}
    unfinished, ours = ledger.unfinished(until + 1), ledger.pending()
    seen = {site: on_disk[r.workbook] for site, r in latest.items()}
    content = pack(as_plain(read.tables, read.policy, read.stated, read.typed))
    number = ledger.begin(request.date.isoformat(), request.now.isoformat(), prints.program, read.fingerprint, content)
    return RunState(
        request,
        prints,
        read,
        world_of(Kept(read.tables, read.policy, read.stated, read.typed), read.fingerprint),
        number,
        last,
        latest,
        {site: r.revision for site, r in newest.items()},
        marks,
        ledger.known_sites(),
        ledger.programs(),
        ledger.gone(),
        unfinished,
        ours,
        seen,
        {site: found_as(request, r, seen[site], ours) for site, r in latest.items()},
        ledger.outputs(),
        on_disk,
    )


def found_as(request: Request, latest: Latest, hash_: str, ours: Set[tuple[str, str]]) -> str:
    """How the workbook of a revision is found, given the hash of what stands there.

    One that a killed run made again, or that a loss of power emptied, counts as missing: it is made again.
    """
    if hash_ == latest.workbook_hash:
        return OK
    if (latest.workbook, hash_) in ours or is_torn(request.out / latest.workbook):
        return MISSING
    return {"": MISSING, "unreadable": LOCKED}.get(hash_, EDITED)

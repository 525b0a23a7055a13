"""A run opened: what all sites share, and where each site stood when the last run had finished."""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import dataclass
from typing import Any

from pipeline.intake.catalogue import CatalogueRead
from pipeline.ledger.kept_catalogue import as_plain
from pipeline.ledger.pack import pack
from pipeline.ledger.store import Known, Latest, Ledger, Output, Run
from pipeline.output.folder import is_torn
from pipeline.rules.catalogue_arrays import catalogue
from pipeline.run.request import PROGRAM, Prints, Request
from pipeline.sheets.report import Setting, SettingReport
from pipeline.site.task import World
from schemas.policy import SETTINGS

ITEM_TABLES = (("Mounts", "mount"), ("Boards", "board"), ("Rings", "ring"), ("Extensions", "extension"), ("Services", "service"))

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
    latest: Mapping[str, Latest]  # each site's newest revision of a finished run
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
    latest = ledger.latest(until)
    unfinished, ours = ledger.unfinished(until + 1), ledger.pending()
    seen = {site: on_disk[r.workbook] for site, r in latest.items()}
    content = pack(as_plain(read.tables, read.policy, read.stated, read.typed))
    number = ledger.begin(request.date.isoformat(), request.now.isoformat(), prints.program, read.fingerprint, content)
    return RunState(
        request,
        prints,
        read,
        world_of(read),
        number,
        last,
        latest,
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


def world_of(read: CatalogueRead) -> World:
    """What all sites of a run share; the catalogues that they came out with before are added when it is known which."""
    items = {table: {row[code]: row for row in read.tables.get(table, ())} for table, code in ITEM_TABLES}
    setting = Setting(items, settings(read.stated, read.typed), PROGRAM, read.fingerprint)
    return World(catalogue(read.tables), read.policy, setting, {})


def settings(stated: frozenset[str], typed: Mapping[str, Any]) -> tuple[SettingReport, ...]:
    """Every setting in force, as typed, and where it comes from."""
    made = []
    for s in SETTINGS:
        value, unit = typed.get(s.name, (s.default, s.unit))
        where = "catalogue" if s.name in stated else "default"
        made.append(SettingReport(s.name, value, unit, where, s.help, s.source))
    return tuple(made)


def found_as(request: Request, latest: Latest, hash_: str, ours: Set[tuple[str, str]]) -> str:
    """How the workbook of a revision is found, given the hash of what stands there.

    One that a killed run made again, or that a loss of power emptied, counts as missing: it is made again.
    """
    if hash_ == latest.workbook_hash:
        return OK
    if (latest.workbook, hash_) in ours or is_torn(request.out / latest.workbook):
        return MISSING
    return {"": MISSING, "unreadable": LOCKED}.get(hash_, EDITED)

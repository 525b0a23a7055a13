"""A run opened: what all sites share, and where each site stood when the last run had finished."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from pipeline.books.model import Setting, SettingReport
from pipeline.inputs import PROGRAM, Prints, Request, sha
from pipeline.intake.catalogue import CatalogueRead
from pipeline.ledger.pack import pack
from pipeline.ledger.store import Known, Latest, Ledger, Output, Run
from pipeline.output.folder import file_digest
from pipeline.quote.world import SiteTask, World
from pipeline.rules.catalogue import catalogue
from schemas.order import folded
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
    unfinished: Mapping[tuple[str, int], str]  # workbooks that a killed run intended -> hash
    found_as: Mapping[str, str]  # site -> OK, MISSING, EDITED, LOCKED
    outputs: Mapping[str, Output]


def open_run(request: Request, prints: Prints, read: CatalogueRead, ledger: Ledger) -> RunState:
    """Begin a run in the ledger; frames of the catalogue are checked against their models on the way."""
    _check_frames(read)
    last = ledger.last_finished()
    until = last.run if last else 0
    latest = ledger.latest(until)
    unfinished = ledger.unfinished(until + 1)
    content = pack(
        {"tables": _plain(read.tables), "policy": _plain(read.policy), "stated": sorted(read.stated), "typed": read.typed}
    )
    number = ledger.begin(request.date.isoformat(), request.now.isoformat(), prints.program, read.fingerprint, content)
    return RunState(
        request,
        prints,
        read,
        world_of(read, {r: ledger.catalogue(r) for r in sorted({last.catalogue} if last else set())}),
        number,
        last,
        latest,
        ledger.known_sites(),
        unfinished,
        {site: found_as(request, r) for site, r in latest.items()},
        ledger.outputs(),
    )


def world_of(read: CatalogueRead, before: Mapping[str, Any]) -> World:
    """What all sites of a run share; `before` are catalogues as the ledger holds them, by fingerprint."""
    items = {table: {row[code]: row for row in read.tables.get(table, ())} for table, code in ITEM_TABLES}
    settings = tuple(
        SettingReport(
            s.name,
            *read.typed.get(s.name, (s.default, s.unit)),
            "catalogue" if s.name in read.stated else "default",
            s.help,
            s.source,
        )
        for s in SETTINGS
    )
    setting = Setting(items, settings, PROGRAM, read.fingerprint)
    codes = {fingerprint: _active(kept["tables"]) for fingerprint, kept in before.items() if kept}
    return World(catalogue(read.tables), read.policy, setting, _active(read.tables), codes)


def site_inputs(task: SiteTask, run: RunState) -> str:
    """Fingerprint of everything that one site's result is made from."""
    rows = [[blob.hex() for blob in blobs] for blobs in (task.rows, task.held)]
    head = [task.site_code, task.site_name, task.customer, task.site_kind, task.folder]
    queries = [[q.file, q.sheet, q.cell, q.code, q.message, q.suggestion, q.holds_row, q.post_code, q.name] for q in task.queries]
    return sha([head, rows, queries, run.catalogue.fingerprint, run.prints.program])


def found_as(request: Request, latest: Latest) -> str:
    """How the workbook of a revision is found."""
    hash_ = file_digest(request.out / latest.workbook)
    if hash_ == latest.workbook_hash:
        return OK
    return {"": MISSING, "unreadable": LOCKED}.get(hash_, EDITED)


def _active(tables: Mapping[str, Any]) -> frozenset[str]:
    rows = ((row, code) for table, code in ITEM_TABLES for row in tables.get(table, ()))
    return frozenset(folded(row[code]) for row, code in rows if row.get("status", "active") == "active")


def _plain(value: Any) -> Any:
    """Tables and policy as JSON holds them; Decimal money as {'money': text}."""
    if isinstance(value, Mapping):
        return {k: _plain(v) for k, v in value.items()}
    if isinstance(value, tuple | list):
        return [_plain(v) for v in value]
    return {"money": str(value)} if type(value).__name__ == "Decimal" else value


def _check_frames(read: CatalogueRead) -> None:
    """Hold the tables to their pandera models: what passed the reader and breaks a model is a fault of ours."""
    from schemas.catalogue import CATALOGUE
    from schemas.frames import check, frame
    from schemas.policy import POLICY

    for table in CATALOGUE:
        if table.name != POLICY.name:
            check(frame(read.tables.get(table.name, ()), table), table)

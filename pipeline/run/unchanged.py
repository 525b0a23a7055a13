"""A run for which nothing has changed: found out from fingerprints alone."""

from __future__ import annotations

from dataclasses import replace

from pipeline.ledger.store import Ledger, Run
from pipeline.output.folder import file_digest
from pipeline.run.outcome import FAILED, Outcome
from pipeline.run.request import Prints, Request


def unchanged(ledger: Ledger, request: Request, prints: Prints) -> Outcome | None:
    """What the last run said, where surveys, catalogue, program and outputs are as it left them; else None."""
    last = ledger.last_finished()
    if last is None or last.prints != prints.whole or last.exit_status == FAILED or request.renew:
        return None
    if ledger.changes(last.run - 1, last.run) or not _as_left(ledger, request, last):
        return None
    before = Outcome.from_text(last.outcome_text)
    return replace(before, unchanged=True, new_revisions=0, rewritten=0)


def _as_left(ledger: Ledger, request: Request, last: Run) -> bool:
    """Whether every file stands as it was last seen, and no quotation has expired since or come back to life."""
    latest = ledger.latest(last.run)
    on = request.date.isoformat()
    if any((r.valid_until < on) != (r.valid_until < last.date) for r in latest.values()):
        return False
    files = {r.workbook: r.seen for r in latest.values()} | {path: o.seen for path, o in ledger.outputs().items()}
    return all(seen and file_digest(request.out / path) == seen for path, seen in files.items())

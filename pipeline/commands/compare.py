"""`postquote compare`: what changed between the runs of a folder, and why, from its ledger."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from itertools import groupby
from pathlib import Path
from typing import Any

from pipeline.ledger.schema import LedgerError
from pipeline.ledger.store import Ledger
from pipeline.sheets.movement import Says, movement
from schemas.order import natural


def compare(folder: Path, since: int | None, sites: bool) -> Iterator[str]:
    """Lines for stdout: what changed in numbers and by reason; with `sites` also site by site.

    Without `since`: the newest run against the one before it.
    """
    path = folder / "ledger.sqlite"
    if not path.is_file():
        raise LedgerError(f"{folder} holds no ledger: no run has been finished there. Name the folder given to --out.")
    ledger = Ledger(path, read_only=True)
    try:
        yield from _lines(ledger, since, sites)
    finally:
        ledger.close()


def _lines(ledger: Ledger, since: int | None, sites: bool) -> Iterator[str]:
    runs = ledger.runs()
    if not runs:
        yield "No run of this folder has been finished yet."
        return
    if len(runs) == 1 and since is None:
        yield f"Run {runs[0].run} of {runs[0].date} is the folder's first: nothing to compare it with yet."
        yield from _marked(ledger, 0)
        return
    newest = runs[-1].run
    after = newest - 1 if since is None else since
    if since is not None and since not in {0, *(r.run for r in runs)}:
        numbers = ", ".join(str(r.run) for r in runs[-10:])
        raise LedgerError(f"There is no run {since}. The latest runs are: {numbers}.")
    yield from _runs(ledger, after)
    yield from _marked(ledger, after)
    rows = ledger.changes(after, newest)
    if not rows:
        yield "Nothing changed: every quotation says what it said."
        return
    yield from _summary(ledger, after, newest, rows)
    if not sites:
        yield "Site by site: run again with --sites."
        return
    for site, some in groupby(sorted(rows, key=lambda r: (r["site_code"], r["run"], r["place"])), key=lambda r: r["site_code"]):
        yield ""
        yield from _site(site, list(some))


def _marked(ledger: Ledger, after: int) -> Iterator[str]:
    """What became of quotations since a run."""
    for mark in ledger.marks(since=after):
        note = f"  {mark.note}" if mark.note else ""
        yield f"{mark.day}  {mark.site_code}-r{mark.revision} {mark.state}{note}"


def _summary(ledger: Ledger, after: int, newest: int, rows: Sequence[dict[str, Any]]) -> Iterator[str]:
    """What moved between two runs, and how many sites each kind of reason changed."""
    was, now = _says(ledger, after), _says(ledger, newest)
    currency = next((says["money"][0] for says in now.values()), "")
    yield from movement([(was.get(site), now.get(site)) for site in sorted({*was, *now}, key=natural)]).sentences(currency)
    reasons: dict[str, set[str]] = defaultdict(set)
    for row in rows:
        reasons[row["kind"] if row["kind"] != "other" else "without a single cause"].add(row["site_code"])
    for kind in sorted(reasons, key=lambda k: (-len(reasons[k]), k)):
        yield f"  {len(reasons[kind]):>5,} {'site' if len(reasons[kind]) == 1 else 'sites'}: {kind}"


def _says(ledger: Ledger, run: int) -> dict[str, Says]:
    """What each site's quotation said when a run had ended; the first run is compared with nothing."""
    latest = ledger.latest_of_sites(run)
    found = ledger.contents([(site, r.revision) for site, r in latest.items()])
    return {site: r.content["says"] for site, r in found.items()}


def _runs(ledger: Ledger, after: int) -> Iterator[str]:
    for run in ledger.runs():
        if run.run >= after:
            mark = "since" if run.run == after else "     "
            yield f"{mark} run {run.run:>4}  dated {run.date}  {run.program}"


def _site(site: str, rows: list[dict[str, Any]]) -> Iterator[str]:
    """One site: revisions, totals, and each reason."""
    was = next((r["revision_was"] for r in rows if r["revision_was"] is not None), None)
    now = next((r["revision"] for r in reversed(rows) if r["revision"] is not None), None)
    head = f"{site}  {_revision(was)} -> {_revision(now)}"
    yield f"{head:<44}{rows[0]['total_was'] or '-':>14} -> {rows[-1]['total'] or '-':>14}"
    for r in rows:
        yield f"  {r['kind']}: {r['item']}" if r["kind"] != "other" else "  something that has no single cause"
        if r["was"] or r["now"]:
            yield f"      {r['was'] or '(blank)'} -> {r['now'] or '(blank)'}"


def _revision(number: int | None) -> str:
    return "none" if number is None else f"r{number}"

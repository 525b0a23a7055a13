"""What another catalogue would do to everything quoted in a folder: quoted in a copy of its ledger; the folder stays as it is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from dataclasses import replace
from datetime import timedelta
from decimal import Decimal
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from pipeline.ledger.kept_catalogue import Kept
from pipeline.ledger.pack import unpack
from pipeline.ledger.store import Ledger
from pipeline.money.price_changes import price_changes
from pipeline.run.output_state import LEDGER
from pipeline.run.request import Progress, Request, fingerprints
from pipeline.sheets.movement import Says, kit_moves, movement
from pipeline.sheets.portfolio import in_feet
from pipeline.sheets.preview_report import Preview, PriceTouched, SitePreview
from pipeline.site.wants import wanted_over
from pipeline.site.worlds import ITEM_TABLES
from schemas.order import folded


def preview(request: Request, progress: Progress) -> Preview:
    """What `quote` would give with `request.catalogue` for all that the ledger of `request.out` holds.

    Nothing in the folder is written. Errors: CatalogueFaults; LedgerError where the ledger cannot be read.
    """
    from pipeline.intake.catalogue.apart import read_apart

    catalogue = read_apart(request.catalogue)
    with TemporaryDirectory(prefix="postquote-") as folder:
        copy = Path(folder) / LEDGER
        source = Ledger(request.out / LEDGER, read_only=True)
        try:
            source.copy_to(copy)
        finally:
            source.close()
        ledger = Ledger(copy)
        try:
            return _quoted_with(catalogue, replace(request, out=Path(folder), surveys=()), ledger, progress)
        finally:
            ledger.close()


def _quoted_with(catalogue: Any, request: Request, ledger: Ledger, progress: Progress) -> Preview:
    from pipeline.intake.taken import Taken
    from pipeline.run.folders import with_folders
    from pipeline.run.open_run import open_run
    from pipeline.run.quote_sites import quote_all
    from pipeline.site.tasks import gather

    last = ledger.last_finished()
    before = ledger.latest_of_sites(last.run if last else 0)
    old = ledger.catalogue(last.catalogue) if last else None
    stood = [unpack(known.result)["summary"] for site, known in sorted(ledger.known_sites().items()) if site in before]
    taken = [Taken.unpacked(content) for content in ledger.all_surveys()]
    until = request.date + timedelta(days=int(catalogue.policy["quote_valid_days"]))
    gathered = gather(taken, catalogue.policy, request.date.isoformat(), until.isoformat(), ledger.marked())
    marked = [ledger.revision(mark.site, mark.revision) for mark in ledger.marks()]
    seen = {r.workbook: r.seen for r in (*ledger.latest(last.run if last else 0).values(), *marked)}
    run = open_run(request, fingerprints([], request.catalogue), catalogue, ledger, seen)
    quoted = quote_all(run, with_folders(gathered.tasks, run), frozenset(), ledger, progress)
    revisions = {folded(s["site"]["site_code"]): int(s["site"]["revision"]) for s in stood}
    sites = _sites(ledger, revisions, quoted.summaries, quoted.changes, _active(catalogue.tables))
    pairs = [(s.was, s.now) for s in sites]
    return Preview(
        str(catalogue.policy["currency"]),
        run.world.setting.program,
        request.date.isoformat(),
        movement(pairs),
        sites,
        tuple(move for was, now in pairs for move in kit_moves(was, now)),
        _prices(old, catalogue, pairs),
        tuple(quoted.failures),
        tuple(wanted_over(stood, run.world.policy)),
        tuple(wanted_over(quoted.summaries, run.world.policy)),
        in_feet(bool(s["feet"]) for s in quoted.summaries),
    )


def _sites(
    ledger: Ledger,
    before: Mapping[str, int],
    summaries: Sequence[Mapping[str, Any]],
    changes: Sequence[Mapping[str, Any]],
    active: Set[str],
) -> tuple[SitePreview, ...]:
    """Every site that is quoted, in the order of the run."""
    found = []
    for summary in summaries:
        row = summary["site"]
        site = folded(row["site_code"])
        was = ledger.contents([(site, before[site])])[site].content["says"] if site in before else None
        now = ledger.contents([(site, row["revision"])])[site].content["says"]
        why = dict.fromkeys(f"{c['kind']}: {c['item']}" for c in changes if c["site_code"] == row["site_code"])
        promise = str(row.get("promise") or "")
        broken = promise in ("sent", "accepted") and bool(was) and not _goods(was) <= active
        found.append(SitePreview(row["site_code"], row["customer"], promise, broken, was, now, tuple(why), row["valid_until"]))
    return tuple(found)


def _goods(says: Says | None) -> set[str]:
    """Folded codes of the goods that a quotation holds."""
    return {_item(line) for line in says["lines"] if line[0] == "goods"} if says else set()


def _active(tables: Mapping[str, Sequence[Mapping[str, Any]]]) -> set[str]:
    """Folded codes of all items that may be sold."""
    rows = ((row[code], row) for table, code in ITEM_TABLES for row in tables.get(table, ()))
    return {folded(item) for item, row in rows if row.get("status", "active") == "active"}


def _prices(old: Kept | None, new: Any, pairs: Sequence[tuple[Says | None, Says | None]]) -> tuple[PriceTouched, ...]:
    if old is None:
        return ()
    held = [{_item(line) for side in pair if side for line in side["lines"]} for pair in pairs]
    changes = price_changes(old.tables, new.tables, Decimal(str(new.policy["price_slip"])))
    return tuple(PriceTouched(c, sum(folded(c.code) in items for items in held)) for c in changes)


def _item(line: Sequence[Any]) -> str:
    """The folded code of a line's item, '' for freight."""
    return "" if line[0] == "freight" else folded(str(line[1]))

"""A run closed: common data files, marked copies, portfolio, run.json, and the ledger's last word."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, replace
from typing import Any

from pipeline.intake.query import Query
from pipeline.ledger.marks import DECLINED
from pipeline.ledger.pack import unpack
from pipeline.ledger.store import GONE, Ledger
from pipeline.money.customers import nearest, terms
from pipeline.money.price_changes import slips
from pipeline.output.data import BY_SITE, encoded, heading, whole
from pipeline.output.folder import file_digest, remove_file
from pipeline.output.names import field_sheet_path
from pipeline.output.shelf import Shelf
from pipeline.run.customer_quotations import Customers, quote_customers
from pipeline.run.known_catalogue import keep_catalogue
from pipeline.run.open_run import EDITED, RunState
from pipeline.run.outcome import ALL_QUOTED, FAILED, SOME_HELD, Outcome, in_one_line, waiting
from pipeline.run.quote_sites import Quoted
from pipeline.run.read_surveys import SurveysRead
from pipeline.run.request import Progress
from pipeline.run.return_copies import return_files
from pipeline.sheets.portfolio import portfolio_workbook
from pipeline.sheets.promises_sheet import broken
from pipeline.site.remarks import not_listed
from pipeline.site.summary import from_plain
from pipeline.site.tasks import Gathered
from pipeline.site.wants import wanted_over
from schemas.column import Table
from schemas.datapackage import descriptor
from schemas.results import CHANGES, CUSTOMERS, OPTIONS, QUERIES, READINGS, SITES, WANTED


def finish(run: RunState, gathered: Gathered, files: SurveysRead, quoted: Quoted, ledger: Ledger, progress: Progress) -> Outcome:
    """Write what belongs to no single site, then mark the run as finished."""
    customers = quote_customers(run, quoted, ledger, progress)
    shelf = Shelf(run.request.out, ledger)
    queries = sorted((*gathered.queries, *quoted.asked), key=lambda q: q.order)
    vanished = _vanished(run, quoted)
    changes = [*quoted.changes, *_no_longer_asked_for(run, vanished)]
    expired = _expired(quoted)
    date = run.last.result_date if run.last and not _differs(run, quoted, changes, expired) else run.request.date.isoformat()
    _data(shelf, run, quoted, customers, ledger, queries, changes)
    shelf.put("data/readings.csv", whole(READINGS, gathered.readings))
    marked = return_files(shelf, files, run.prints, queries, run.request.jobs, progress)
    may_be_slips = _slips(run, ledger)
    progress.stage("Writing the portfolio", 1)
    portfolio = portfolio_workbook(
        (from_plain(dict(s)) for s in quoted.summaries),
        queries,
        [_file(f) for f in gathered.files],
        changes,
        quoted.expired,
        vanished,
        wanted_over(quoted.summaries, run.world.policy),
        run.world.setting,
        date,
        may_be_slips,
    )
    shelf.put("portfolio.xlsx", portfolio)
    progress.step(1)
    shelf.clear()
    outcome = _outcome(run, gathered, quoted, queries, may_be_slips, shelf)
    shelf.put("run.json", _run_json(run, gathered, quoted, outcome, date))
    outcome = replace(outcome, rewritten=quoted.written + shelf.written, **_failed(quoted, shelf))
    _end(run, files, quoted, changes, shelf, outcome, date, marked, ledger)
    return outcome


def _slips(run: RunState, ledger: Ledger) -> tuple[str, ...]:
    """Prices that have moved, since the last run that finished, by more than they are likely meant to."""
    old = ledger.catalogue(run.last.catalogue) if run.last and run.last.catalogue != run.catalogue.fingerprint else None
    return slips(old.tables, run.catalogue.tables, run.catalogue.policy) if old else ()


def _differs(run: RunState, quoted: Quoted, changes: Sequence[Any], expired: tuple[str, ...]) -> bool:
    """Whether anything but the date differs from the run before."""
    if run.last is None or run.last.prints != run.prints.whole:
        return True
    return bool(quoted.revisions or changes) or Outcome.from_text(run.last.outcome_text).expired != expired


def _expired(quoted: Quoted) -> tuple[str, ...]:
    return tuple(f"{e['site_code']}-r{e['revision']}, valid until {e['valid_until']}" for e in quoted.expired)


def _failed(quoted: Quoted, shelf: Shelf) -> dict[str, Any]:
    """What could not be worked out or written, as fields of the outcome."""
    failures = (*quoted.failures, *shelf.failures)
    return {"failures": failures, "exit_status": FAILED} if failures else {}


def _vanished(run: RunState, quoted: Quoted) -> list[dict[str, Any]]:
    """Sites that were quoted once and are no longer in the surveys; their workbooks are kept."""
    asked_for = quoted.failed.keys() | {site for site, _ in quoted.sites}
    rows = []
    for site, latest in run.latest.items():
        if site not in asked_for and site in run.known:
            kept = unpack(run.known[site].result)["summary"]["site"]
            rows.append({**kept, "revision": latest.revision, "workbook": latest.workbook, "folded": site})
    return rows


def _no_longer_asked_for(run: RunState, vanished: Sequence[Mapping[str, Any]]) -> Iterator[dict[str, Any]]:
    """A change for each site of which that was not said before."""
    for row in vanished:
        if row["folded"] not in run.gone:
            yield {
                "site_code": row["site_code"],
                "revision_was": row["revision"],
                "revision": None,
                "kind": GONE,
                "item": row["site_code"],
                "was": "quoted",
                "now": "not in the surveys; its workbook is kept",
                "total_was": run.latest[row["folded"]].total,
                "total": "",
            }


def _data(
    shelf: Shelf,
    run: RunState,
    quoted: Quoted,
    customers: Customers,
    ledger: Ledger,
    queries: Sequence[Query],
    changes: Sequence[Mapping[str, Any]],
) -> None:
    for table in BY_SITE:
        shelf.put_pieces(f"data/{table.name}.csv", _lines(table, quoted, ledger))
    shelf.put("data/sites.csv", whole(SITES, [s["site"] for s in quoted.summaries]))
    shelf.put("data/customers.csv", whole(CUSTOMERS, customers.rows))
    shelf.put("data/options.csv", whole(OPTIONS, customers.options))
    shelf.put("data/queries.csv", whole(QUERIES, [asdict(q) for q in queries]))
    shelf.put("data/changes.csv", whole(CHANGES, changes))
    shelf.put("data/wanted.csv", whole(WANTED, wanted_over(quoted.summaries, run.world.policy)))
    package = descriptor(version=run.world.setting.program.rsplit(" ", 1)[-1])
    shelf.put("data/datapackage.json", _json(package))


def _lines(table: Table, quoted: Quoted, ledger: Ledger) -> Iterator[bytes]:
    """A data file whose lines lie in the ledger, site by site."""
    yield encoded(heading(table))
    for site, inputs in quoted.sites:
        yield from (encoded(text) for text in ledger.lines(site, inputs, table.name))


def _json(value: Any) -> bytes:
    return (json.dumps(value, indent=2, ensure_ascii=False) + "\n").encode("utf-8", "replace")


def _file(f: Any) -> dict[str, Any]:
    counts = {"rows": f.rows, "quoted": f.quoted, "held": f.held, "replaced": f.replaced}
    return {"file": f.file, "format": f.format, **counts, "notes": f.notes}


def _outcome(
    run: RunState, gathered: Gathered, quoted: Quoted, queries: Sequence[Query], may_be_slips: tuple[str, ...], shelf: Shelf
) -> Outcome:
    waits = tuple(_where(q) for q in queries if waiting(q))
    read, ok, held, replaced = (sum(getattr(f, n) for f in gathered.files) for n in ("rows", "quoted", "held", "replaced"))
    edited = sorted(r.workbook for site, r in run.latest.items() if run.found_as[site] == EDITED)
    made = Outcome(
        exit_status=SOME_HELD if waits else ALL_QUOTED,
        sites=len(quoted.states),
        posts=(posts := sum(s["site"]["posts_quoted"] for s in quoted.summaries)),
        posts_held=sum(s["site"]["posts"] for s in quoted.summaries) - posts,
        posts_with_kit=sum(s["site"]["posts_with_kit"] for s in quoted.summaries),
        rows_read=read,
        rows_quoted=ok,
        rows_held=held,
        rows_replaced=replaced,
        files=len(gathered.files),
        files_not_read=sum(not f.rows and not f.field_sheet for f in gathered.files),
        ready=quoted.states.count("ready"),
        to_confirm=quoted.states.count("to_confirm"),
        incomplete=quoted.states.count("incomplete"),
        total=_total(quoted, str(run.catalogue.policy["currency"])),
        new_revisions=quoted.revisions,
        rewritten=quoted.written + shelf.written,
        waits=waits,
        failures=(),
        notes=(
            *(f"{w} was edited by hand and is left as it is." for w in edited),
            *quoted.notes,
            *_near_a_listed_name(run, quoted),
            *shelf.notes,
        ),
        expired=_expired(quoted),
        broken=tuple(broken([from_plain(dict(s)) for s in quoted.summaries])),
        slips=may_be_slips,
    )
    return replace(made, **_failed(quoted, shelf))


def _near_a_listed_name(run: RunState, quoted: Quoted) -> Iterator[str]:
    """What is said of each customer that is not listed where a listed name is near: likely it is meant."""
    listed = run.catalogue.tables.get("Customers", ())
    for name in dict.fromkeys(s["site"]["customer"] for s in quoted.summaries):
        if name and terms(name, listed) is None and nearest(name, listed):
            yield not_listed(name, listed)


def _total(quoted: Quoted, currency: str) -> str:
    from decimal import Decimal

    total = sum((Decimal(s["site"]["total"]) for s in quoted.summaries if s["site"]["promise"] != DECLINED), Decimal(0))
    return f"{total:,} {currency}"


def _where(q: Query) -> str:
    """Who is asked on the first line; then where, what is wrong and what to type instead."""
    return f"{q.file}\n{in_one_line(q)}"


def _run_json(run: RunState, gathered: Gathered, quoted: Quoted, outcome: Outcome, date: str) -> bytes:
    counts = (
        "sites",
        "posts",
        "rows_read",
        "rows_quoted",
        "rows_held",
        "rows_replaced",
        "files",
        "files_not_read",
        "ready",
        "to_confirm",
        "incomplete",
    )
    return _json(
        {
            "program": run.world.setting.program,
            "date": date,
            "counts": {name: getattr(outcome, name) for name in counts},
            "catalogue": {
                "sha256": run.prints.catalogue,
                "content": run.catalogue.fingerprint,
                "notes": list(run.catalogue.notes),
            },
            "surveys": [{**_file(f), "sha256": run.prints.surveys.get(f.file, "")} for f in gathered.files],
            "policy": {s.name: {"value": s.value, "unit": s.unit, "from": s.where} for s in run.world.setting.policy},
            "expired": list(outcome.expired),
            "broken_promises": list(outcome.broken),
            "price_slips": list(outcome.slips),
        }
    )


def _end(
    run: RunState,
    files: SurveysRead,
    quoted: Quoted,
    changes: Sequence[Mapping[str, Any]],
    shelf: Shelf,
    outcome: Outcome,
    date: str,
    marked: Sequence[tuple[str, str]],
    ledger: Ledger,
) -> None:
    """The ledger's last word: from here on the run counts."""
    _drop_unfinished(run, quoted, ledger)
    with ledger.together():
        keep_catalogue(ledger, run.prints, run.catalogue)
        ledger.put_marked(marked)
        ledger.keep_surveys(run.number, files.fresh, files.keys)
        ledger.put_sites(run.number, run.catalogue.fingerprint, quoted.kept)
        came_out = [site for site, _ in quoted.sites if site not in quoted.closed]
        ledger.end_with_sites(run.number, run.catalogue.fingerprint, came_out, sorted(quoted.closed))
        for site, r in run.latest.items():
            again = quoted.made_again.get(site)
            ours, seen = (again, again) if again else (r.workbook_hash, run.seen[site])
            if (ours, seen) != (r.workbook_hash, r.seen):
                ledger.saw(site, r.revision, ours, seen)
        ledger.put_changes(run.number, changes)
        ledger.put_outputs(shelf.now)
        ledger.finish(run.number, outcome.exit_status, run.prints.whole, outcome.as_text(), date)


def _drop_unfinished(run: RunState, quoted: Quoted, ledger: Ledger) -> None:
    """Forget revisions that a killed run intended and this one did not; their workbooks go, unless a person edited them."""
    for (site, revision), path in run.unfinished.items():
        if (site, revision) in quoted.intended:
            continue
        for left in (path, field_sheet_path(path)):
            if (left, file_digest(run.request.out / left)) in run.ours:
                remove_file(run.request.out, left)
        ledger.forget_revision(site, revision)

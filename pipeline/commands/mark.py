"""`postquote mark`: what became of a site's quotation, or of all of a customer's, in the ledger."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Mapping, Sequence
from contextlib import closing
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import Any

from pipeline.explaining.find import nearest_first
from pipeline.ledger.marks import OPEN, SENT
from pipeline.ledger.pack import unpack
from pipeline.ledger.records import Latest, Mark
from pipeline.ledger.schema import LedgerError, not_kept
from pipeline.ledger.store import Ledger
from pipeline.money.customers import customer_key, terms
from pipeline.output.folder import require_plain
from pipeline.output.lock import hold
from schemas.lists import joined
from schemas.order import folded

LEDGER = "ledger.sqlite"
_NAMED = 8

Rows = Mapping[str, Mapping[str, Any]]


@dataclass(frozen=True)
class Wanted:
    """What is to be marked: one site, or all of a customer; `revision` None is the latest."""

    site: str
    customer: str
    state: str  # sent, accepted, declined, open
    revision: int | None
    on: date
    note: str


def mark(folder: Path, wanted: Wanted, now: datetime) -> Iterator[str]:
    """Sentences on what was marked; all of it or nothing.

    Errors: LedgerError where site, customer or revision is not there, or what is said to be sent is past its last day.
    """
    path = folder / LEDGER
    if not path.is_file():
        raise LedgerError(f"{folder} holds no ledger: no run has been finished there. Name the folder given to --out.")
    with hold(folder, now):
        require_plain(path)
        try:
            with closing(Ledger(path)) as ledger:
                marks = _marks(ledger, wanted)
                with ledger.together():
                    ledger.put_marks(marks)
        except sqlite3.Error as error:
            raise not_kept(path, error) from error
    for m in marks:
        yield f"{m.site_code}: open again." if m.state == OPEN else f"{m.site_code}-r{m.revision}: {m.state} on {m.day}."
    yield "The next run of `postquote quote` into that folder goes by it."


def _marks(ledger: Ledger, wanted: Wanted) -> list[Mark]:
    last = ledger.last_finished()
    if last is None:
        raise LedgerError("No run of this folder has been finished yet: there is no quotation to mark.")
    rows = _sites(ledger, last.run)
    sites = _of_customer(ledger, rows, wanted.customer, last.catalogue) if wanted.customer else [_site(rows, wanted.site)]
    newest = ledger.latest_of_sites(last.run)
    meant = [_revision(ledger, rows[site]["site_code"], newest[site], wanted.revision) for site in sites]
    if wanted.state == SENT:
        _still_valid([(rows[r.site]["site_code"], r) for r in meant], wanted.on)
    state = (wanted.state, wanted.on.isoformat(), wanted.note, last.run)
    return [Mark(r.site, rows[r.site]["site_code"], r.revision, newest[r.site].revision, *state) for r in meant]


def _sites(ledger: Ledger, run: int) -> Rows:
    """Rows of data/sites.csv of the sites that the last run came out with, by folded code."""
    known = ledger.known_sites()
    return {site: unpack(k.result)["summary"]["site"] for site, k in sorted(known.items()) if k.run == run}


def _site(rows: Rows, site: str) -> str:
    if folded(site) in rows:
        return folded(site)
    raise LedgerError(
        f"There is no site {site}. There are, nearest first, {_listed(site, [r['site_code'] for r in rows.values()])}."
    )


def _of_customer(ledger: Ledger, rows: Rows, name: str, catalogue: str) -> list[str]:
    """The sites of a customer, called by any of its names."""
    kept = ledger.catalogue(catalogue)
    listed = kept.tables.get("Customers", ()) if kept else ()

    def key(stated: str) -> str:
        known = terms(stated, listed)
        return customer_key(known["customer"] if known else stated)

    found = [site for site, row in rows.items() if key(_whose(row)) == key(name)]
    if not found:
        near = _listed(name, sorted({_whose(row) for row in rows.values()}))
        raise LedgerError(f"There is no customer {name}. There are, nearest first, {near}.")
    return found


def _whose(row: Mapping[str, Any]) -> str:
    """The customer of a site; one that names none is a customer of its own."""
    return str(row["customer"] or row["site_name"] or row["site_code"])


def _listed(wanted: str, names: Sequence[str]) -> str:
    near = nearest_first(folded(wanted), names)
    return ", ".join(near[:_NAMED]) + (f" and {len(near) - _NAMED} more" if len(near) > _NAMED else "")


def _revision(ledger: Ledger, code: str, newest: Latest, revision: int | None) -> Latest:
    """The newest revision, or the one that is named."""
    if revision is None or revision == newest.revision:
        return newest
    try:
        if revision < newest.revision:
            return ledger.revision(newest.site, revision)
    except KeyError:
        pass
    raise LedgerError(f"{code} has no revision {revision}; its latest is {newest.revision}.")


def _still_valid(meant: Sequence[tuple[str, Latest]], on: date) -> None:
    past = [f"{code}-r{r.revision} (valid until {r.valid_until})" for code, r in meant if r.valid_until < on.isoformat()]
    if past:
        anew = "Issue it anew with `postquote quote ... --renew`, then mark what is sent."
        raise LedgerError(f"Past its last day on {on.isoformat()}: {joined(past)}. {anew}")

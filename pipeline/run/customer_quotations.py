"""What is quoted to each customer over all its sites, once they have come out: one workbook each, in revisions as for sites."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta
from decimal import Decimal
from typing import Any

from pipeline.executors.processes import executor, in_order
from pipeline.intake.catalogue.logo import Logo, read_logo
from pipeline.ledger.pack import unpack
from pipeline.ledger.records import OF_A_CUSTOMER
from pipeline.ledger.store import Ledger, Revision
from pipeline.money.prices import minor_unit
from pipeline.money.quotation import price_list
from pipeline.output.folder import NotWrittenError, digest, file_digest, write_whole
from pipeline.output.names import customer_folders, folder_of, workbook_path
from pipeline.run.open_run import MISSING, RunState
from pipeline.run.quote_sites import Quoted
from pipeline.run.request import Progress
from pipeline.run.revisions import free_number
from pipeline.sheets.customer_report import CustomerReport, from_plain
from pipeline.sheets.customer_workbook import customer_workbook
from pipeline.site.customer import changes, report_of, says
from pipeline.site.orders import Customer, Option, customers_of, options
from pipeline.site.task import World
from schemas.words import SITE_STATES

MONEY = ("net", "freight", "tax", "total")
AT_ONCE = 24
"""Customers whose quotations are held in memory together."""
FEW = 4
"""So many are written here sooner than worker processes start."""


@dataclass(frozen=True)
class Quotation:
    """One customer's quotation: whose it is, its sites' rows of data/sites.csv, what each choice would come to."""

    customer: Customer
    sites: tuple[Mapping[str, Any], ...]
    options: tuple[Option, ...]

    @property
    def key(self) -> str:
        """By which the ledger knows its revisions."""
        return OF_A_CUSTOMER + self.customer.key

    @property
    def whose(self) -> dict[str, str]:
        """The columns that say whose it is."""
        return {"customer": self.customer.name, "site_code": "" if self.customer.name else self.sites[0]["site_code"]}


@dataclass(frozen=True)
class _Issue:
    """A quotation as it is to stand: its report, what it says, and whether it is a new revision or one that is missing."""

    quotation: Quotation
    report: CustomerReport
    content: Mapping[str, Any]
    content_hash: str
    revision: int
    workbook: str
    new: bool
    again: bool


@dataclass(frozen=True)
class Customers:
    """Rows of data/customers.csv and data/options.csv."""

    rows: list[dict[str, Any]]
    options: list[dict[str, Any]]


def quote_customers(run: RunState, quoted: Quoted, ledger: Ledger, progress: Progress) -> Customers:
    """Every customer's quotation, in the order of its first site. Workbooks stand when this returns."""
    every = list(quotations(quoted, run.world))
    taken = {key: folder_of(latest.workbook) for key, latest in run.latest.items()}
    folders = customer_folders({q.key: _name(q) for q in every}, taken)
    progress.stage("Quoting customers", len(every))
    logo, made = _logo(run), Customers([], [])
    for start in range(0, len(every), AT_ONCE):
        issues = [_issue(q, folders[q.key], logo, run, quoted, ledger) for q in every[start : start + AT_ONCE]]
        _write([i for i in issues if i.new or i.again], run, quoted, ledger)
        made.rows.extend(_row(i, run.world) for i in issues)
        made.options.extend(row for i in issues for row in option_rows(i.quotation))
        progress.step(start + len(issues))
    return made


def quotations(quoted: Quoted, world: World) -> Iterator[Quotation]:
    """The quotation of each customer of which no site has failed, in the order of its first site."""
    rows = {site: summary["site"] for (site, _), summary in zip(quoted.sites, quoted.summaries, strict=True)}
    prices = price_list(world.catalogue.tables)
    stated = {site: row["customer"] for site, row in rows.items() if site not in quoted.closed} | quoted.failed
    for customer in customers_of(stated.items(), world):
        if quoted.failed.keys().isdisjoint(customer.sites):
            sites = tuple(rows[site] for site in customer.sites)
            yield Quotation(customer, sites, tuple(options(customer, quoted.figures, world, prices)))


def _name(q: Quotation) -> str:
    """What its folder is named after: the customer, or the site that names none."""
    return q.customer.name or str(q.sites[0]["site_name"] or q.sites[0]["site_code"])


def _logo(run: RunState) -> bytes:
    """The seller's logo; it was found sound when the catalogue was read."""
    name = next((r["value"] for r in run.catalogue.tables.get("Seller", ()) if r["setting"] == "logo" and r["value"]), "")
    found = read_logo(run.request.catalogue, name) if name else None
    return found.data if isinstance(found, Logo) else b""


def _issue(q: Quotation, folder: str, logo: bytes, run: RunState, quoted: Quoted, ledger: Ledger) -> _Issue:
    """The quotation as it is to stand, held against the revision that the last finished run left."""
    kept = [unpack(quoted.for_customer[site]) for site in q.customer.sites]
    figures = [quoted.figures[site] for site in q.customer.sites]
    report = report_of(q.customer, [from_plain(site) for site in kept], q.options, figures, run.world, logo)
    statement = says(report, kept)
    hash_ = hashlib.sha256(json.dumps(statement, sort_keys=True).encode()).hexdigest()
    latest = run.latest.get(q.key)
    was = ledger.contents([(q.key, latest.revision)])[q.key] if latest else None
    expired = was is not None and run.request.renew and was.valid_until < run.request.date.isoformat()
    if was is None or (not _stands(was, report, statement) and (was.content_hash != hash_ or expired)):
        number = free_number(folder, was.revision + 1 if was else 1, run)
        why = changes(was.content["says"], statement) if was and was.content_hash != hash_ else ()
        until = run.request.date + timedelta(days=int(run.world.policy["quote_valid_days"]))
        dates, new = (run.request.date.isoformat(), until.isoformat()), True
    else:
        number, why, dates, new = was.revision, tuple(was.content["issue"]), (was.date, was.valid_until), False
    path = was.workbook if was and not new else workbook_path(folder, number)
    stem = path.rpartition("/")[2].removesuffix(".xlsx")
    report = replace(report, number=stem, date=dates[0], valid_until=dates[1], changes=why)
    again = not new and run.found_as[q.key] == MISSING
    return _Issue(q, report, {"says": statement, "issue": list(why)}, hash_, number, path, new, again)


def _stands(was: Revision, report: CustomerReport, statement: Mapping[str, Any]) -> bool:
    """Whether every site of it is promised, and it says of each what it said."""
    return all(site.promise for site in report.sites) and _of_sites(was.content["says"]) == _of_sites(statement)


def _of_sites(says: Mapping[str, Any]) -> list[tuple[Any, ...]]:
    return [tuple(site[name] for name in ("site_code", "revision", *MONEY)) for site in says["sites"]]


def _write(issues: Sequence[_Issue], run: RunState, quoted: Quoted, ledger: Ledger) -> None:
    """Put the workbooks in their places, each whole; the ledger knows of them before."""
    jobs = 1 if len(issues) <= FEW else run.request.jobs
    with executor(run.world, jobs, run.request.cluster if jobs > 1 else "", or_here=True) as through:
        books = in_order(through, write_books, [[i.report] for i in issues], lambda _, why: why)
        for issue, (book,) in zip(issues, books, strict=True):
            if isinstance(book, str):
                quoted.failures.append(f"The quotation of {_name(issue.quotation)} could not be written: {book}")
            else:
                _put(issue, book, run, quoted, ledger)


def write_books(reports: Sequence[CustomerReport], world: World) -> list[bytes]:
    """The workbook of each report: what a worker does."""
    return [customer_workbook(report) for report in reports]


def _put(issue: _Issue, book: bytes, run: RunState, quoted: Quoted, ledger: Ledger) -> None:
    key, hash_ = issue.quotation.key, digest(book)
    with ledger.together():
        ledger.intend([_revision(issue, hash_, run)] if issue.new else [])
        ledger.about_to_write([(issue.workbook, hash_)])
    if issue.new:
        quoted.intended.add((key, issue.revision))
    try:
        if file_digest(run.request.out / issue.workbook) != hash_:
            write_whole(run.request.out / issue.workbook, book, within=run.request.out)
            quoted.written += 1
    except NotWrittenError as error:
        quoted.failures.append(str(error))
        if issue.new:
            ledger.forget_revision(key, issue.revision)
        return
    if not issue.new:
        quoted.made_again[key] = hash_


def _revision(issue: _Issue, hash_: str, run: RunState) -> Revision:
    r = issue.report
    total = str(sum((s.total for s in r.sites), Decimal(0)))
    return Revision(
        issue.quotation.key, issue.revision, run.number, r.date, r.valid_until, issue.workbook, hash_, hash_,
        run.catalogue.fingerprint, run.prints.program, issue.content_hash, dict(issue.content), total,
    )  # fmt: skip


def _row(issue: _Issue, world: World) -> dict[str, Any]:
    issued = {"revision": issue.revision, "valid_until": issue.report.valid_until, "workbook": issue.workbook}
    return customer_row(issue.quotation, world) | issued


def customer_row(q: Quotation, world: World) -> dict[str, Any]:
    """A row of data/customers.csv; the quotation is the sum of its sites'. Source: design section 8, order together."""
    zero = Decimal(0).quantize(minor_unit(world.policy["currency"]))
    return q.whose | {
        "state": max((s["state"] for s in q.sites), key=SITE_STATES.index),
        "sites": len(q.sites),
        "posts": sum(s["posts"] for s in q.sites),
        "posts_with_kit": q.options[q.customer.choice].posts_with_kit,
        "rows_held": sum(s["rows_held"] for s in q.sites),
        **{name: str(sum((Decimal(s[name]) for s in q.sites), zero)) for name in MONEY},
    }


def option_rows(q: Quotation) -> list[dict[str, Any]]:
    """The customer's rows of data/options.csv, in the order of the choices."""
    return [
        q.whose
        | {"choice": o.choice, "in_force": o.in_force, "posts_with_kit": o.posts_with_kit}
        | {name: str(getattr(o.amounts, name)) for name in MONEY}
        for o in q.options
    ]

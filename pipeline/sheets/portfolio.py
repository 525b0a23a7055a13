"""The portfolio workbook: all sites of a run, the answer first."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from typing import Any

from pipeline.intake.query import Query
from pipeline.sheets import show
from pipeline.sheets.customers_sheet import write_customers
from pipeline.sheets.items import write_extensions, write_reach, write_shortfalls
from pipeline.sheets.look_first import write_look_first
from pipeline.sheets.order_list import write_order_list
from pipeline.sheets.overview import Figures, write_figures, write_overview
from pipeline.sheets.promises_sheet import write_promises
from pipeline.sheets.report import Setting, SiteSummary
from pipeline.sheets.site_waits import write_waits
from pipeline.sheets.waiting import write_changes, write_expired, write_files, write_queries
from pipeline.sheets.wanted_sheet import write_wanted
from pipeline.sheets.wording import STATE
from pipeline.xlsx.page import Book, Page
from pipeline.xlsx.values import As, Col, Link
from schemas.words import CAUTION, CAUTION_IN_SHORT

SITES = "Sites"
_MONEY = ("net", "freight", "tax", "total")


def portfolio_workbook(
    summaries: Iterable[SiteSummary],
    queries: Sequence[Query],
    files: Sequence[Mapping[str, Any]],
    changes: Sequence[Mapping[str, Any]],
    expired: Sequence[Mapping[str, Any]],
    vanished: Sequence[Mapping[str, Any]],
    wanted: Sequence[Mapping[str, Any]],
    setting: Setting,
    date: str,
    slips: Sequence[str] = (),
) -> bytes:
    """The workbook of all sites as .xlsx bytes; the same arguments give the same bytes.

    `files` are rows of file, format, rows, held, notes; `changes` rows of data/changes.csv; `expired`
    rows of site_code, revision, valid_until; `vanished` rows of site_code, site_name, revision, workbook; `wanted` rows of
    data/wanted.csv; `slips` sentences about prices.
    """
    sites = list(summaries)
    currency = next((s.value for s in setting.policy if s.name == "currency"), "")
    book = Book("Portfolio", f"{show.counted(len(sites), 'site')}", date, setting.program, _digits(sites), setting.paper)
    feet = in_feet(s.feet for s in sites)
    overview = book.page("Overview")
    last = _write_sites(book, sites, currency)
    write_waits(book, sites)
    write_customers(book, sites, currency)
    write_order_list(book, sites, setting, currency)
    write_extensions(book, sites, feet)
    write_shortfalls(book, sites, feet)
    _write_wanted(book, wanted, feet)
    write_look_first(book, sites)
    write_queries(book, queries)
    write_promises(book, sites, currency)
    write_changes(book, changes, vanished, slips, currency)
    write_expired(book, expired)
    write_reach(book, sites, setting)
    write_files(book, files)
    drawn = write_figures(book, sites)
    figures = Figures(date, currency, last, drawn, len(expired), len(vanished), len(changes), len(slips))
    write_overview(overview, sites, queries, files, figures)
    return book.bytes()


def in_feet(sites: Iterable[bool]) -> bool:
    """Whether most of the sites are shown in feet and inches; so is a tie."""
    each = list(sites)
    return 2 * sum(each) >= len(each)


def _write_wanted(book: Book, wanted: Sequence[Mapping[str, Any]], feet: bool) -> None:
    page = book.page("Wanted")
    page.title("What the catalogue lacks")
    page.para(1, CAUTION, "caution")
    write_wanted(page, 2, "Wanted", wanted, feet)
    page.print_as(3 if wanted else 0, "Portfolio", header=CAUTION_IN_SHORT)


def _digits(sites: Sequence[SiteSummary]) -> int:
    """Decimals of the currency, as the sites' totals have them."""
    return max((show.digits(Decimal(str(s.site["total"]))) for s in sites), default=2)


def site_columns(currency: str) -> list[Col]:
    """Headings of the table of sites."""
    return [
        Col("Site", "bold", 24, 16),
        Col("Name", "text", 28),
        Col("Customer", "text", 24),
        Col("Kind", "text", 12),
        Col("State", "text", 16, 13),
        Col("Posts", "whole"),
        Col("Posts quoted", "whole"),
        Col("Posts without a kit", "whole"),
        Col("Rows held", "whole"),
        *(Col(f"{name.capitalize()} [{currency}]", "money", 18) for name in _MONEY),
        Col("Valid until", "text", 14, 12),
        Col("Promise", "text", 12),
        Col("Workbook", "link", 14),
    ]


def site_row(summary: SiteSummary) -> list[Any]:
    """One row of the table of sites."""
    site = summary.site
    state, look = STATE[site["state"]]
    name = f"revision {site['revision']}"
    path = str(site.get("workbook") or "")
    return [
        site["site_code"],
        site["site_name"],
        site["customer"] or "not stated",
        site["site_kind"] or "not stated",
        As(state, look),
        int(site["posts"]),
        int(site["posts_quoted"]),
        summary.outcomes.get("no_kit", 0),
        int(site["rows_held"]),
        *(Decimal(str(site[column])) for column in _MONEY),
        str(site["valid_until"]),
        site.get("promise") or None,
        Link(f"external:{path}", name) if path else "none written",
    ]


def _write_sites(book: Book, sites: Sequence[SiteSummary], currency: str) -> int:
    """Writes the table of sites; returns its last row, 1-based (0 without sites)."""
    page: Page = book.page(SITES)
    page.title("Sites: each with its workbook")
    if not sites:
        page.para(2, "No site was quoted in this run. The sheets Queries and Files say why.", "strong")
        page.print_as(0, "Portfolio")
        return 0
    page.para(1, CAUTION, "caution")
    page.table(2, "sites_all", site_columns(currency), [site_row(s) for s in sites], "Sites, states and totals")
    page.sheet.freeze_panes(3, 1)
    page.print_as(2, "Portfolio", header=CAUTION_IN_SHORT)
    return 3 + len(sites)

"""First sheet of the portfolio: what is ready, what waits for whom, what it comes to; and the figures of its pictures."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from pipeline.intake.query import Query
from pipeline.sheets import show
from pipeline.sheets.promises_sheet import broken
from pipeline.sheets.report import SiteSummary
from pipeline.sheets.wording import STATE, VERDICT
from pipeline.xlsx.page import Book, Page
from pipeline.xlsx.styles import FONT, INK
from pipeline.xlsx.values import As, Col, Formula, Link
from schemas.findings import BY_CODE
from schemas.order import natural
from schemas.words import CAUTION

_FIRST = 12
"""Broken promises that the first page names."""
SITES_DRAWN, SERVED_DRAWN = 30, 12
"""Most bars in a picture; what is left out is said."""
OUTCOMES = ("viable", "viable_confirm", "viable_extended", "no_kit")
_INKS = {"viable": "#2E7D4F", "viable_confirm": "#D9A21B", "viable_extended": "#3D6FB0", "no_kit": "#B3372F"}
_FIGURES = "Figures"
Span = tuple[int, int]
"""First and last row of figures on the sheet `Figures`, 0-based."""


@dataclass(frozen=True)
class Drawn:
    """Where the figures of each picture stand; None where there is nothing to draw."""

    outcomes: Span | None
    stops: Span | None
    serve: Span | None
    sites_left_out: int


@dataclass(frozen=True)
class Figures:
    """What the overview needs beside the sites."""

    date: str
    currency: str
    last_site_row: int  # 1-based row of the last site on `Sites`, 0 without sites
    drawn: Drawn
    expired: int
    vanished: int
    changes: int
    slips: int = 0


def summed(counts: Sequence[Mapping[str, int]]) -> dict[str, int]:
    """Counts of all sites together, greatest first, ties in natural order."""
    total: dict[str, int] = {}
    for one in counts:
        for name, count in one.items():
            total[name] = total.get(name, 0) + count
    return dict(sorted(((n, c) for n, c in total.items() if c), key=lambda item: (-item[1], natural(item[0]))))


def outcome_rows(sites: Sequence[SiteSummary]) -> list[list[Any]]:
    """Outcomes by site, in natural order of site code; of many sites, those with most to do."""

    def trouble(s: SiteSummary) -> tuple[Any, ...]:
        return -s.outcomes.get("no_kit", 0), -s.outcomes.get("viable_confirm", 0), natural(str(s.site["site_code"]))

    with_posts = sorted((s for s in sites if any(s.outcomes.values())), key=trouble)[:SITES_DRAWN]
    with_posts.sort(key=lambda s: natural(str(s.site["site_code"])))
    return [[str(s.site["site_code"]), *(s.outcomes.get(o, 0) for o in OUTCOMES)] for s in with_posts]


def write_figures(book: Book, sites: Sequence[SiteSummary]) -> Drawn:
    """Writes the sheet `Figures`, from which the overview's pictures are drawn."""
    page = book.page(_FIGURES, "#4A5A64")
    page.title("Figures: what the pictures on Overview are drawn from")
    rows = outcome_rows(sites)
    kinds = [Col(VERDICT[o][0], "whole") for o in OUTCOMES]
    page.para(1, CAUTION, "caution")
    row, outcomes = _figures(page, 2, "outcomes_by_site", [Col("Site", "bold", 40), *kinds], rows)
    stops = [[BY_CODE[c].short.capitalize(), n] for c, n in summed([s.stops for s in sites]).items()]
    row, stopped = _figures(page, row, "stops", [Col("What stops posts without a kit", "bold", 40), Col("Posts", "whole")], stops)
    serve = [[what[:1].upper() + what[1:], n] for what, n in summed([s.would_serve for s in sites]).items()]
    columns = [Col("What would serve more posts", "bold", 60), Col("More posts", "whole")]
    row, served = _figures(page, row, "would_serve", columns, serve)
    if served:
        served = served[0], min(served[1], served[0] + SERVED_DRAWN - 1)
    page.print_as(0, "Portfolio")
    return Drawn(outcomes, stopped, served, sum(any(s.outcomes.values()) for s in sites) - len(rows))


def _figures(page: Page, row: int, name: str, columns: Sequence[Col], rows: Sequence[list[Any]]) -> tuple[int, Span | None]:
    if not rows:
        return page.para(row, f"{columns[0].heading}: there is none.") + 1, None
    page.keep(row, row + len(rows))
    return page.table(row, name, columns, rows) + 1, (row + 1, row + len(rows))


def state_rows(sites: Sequence[SiteSummary], last: int, digits: int, top: int) -> list[list[Any]]:
    """States with live counts and sums over `Sites`; `top` is the 1-based row of the first of them."""
    made: list[list[Any]] = []
    sums: list[tuple[int, int, Decimal]] = []
    for index, (state, (words, look)) in enumerate(STATE.items()):
        here = [s.site for s in sites if s.site["state"] == state]
        posts, money = sum(int(s["posts"]) for s in here), sum((Decimal(str(s["total"])) for s in here), Decimal(0))
        sums.append((len(here), posts, money))
        key, row = f"Sites!$E$4:$E${last}", top + index
        formulas = (
            f"=COUNTIF({key},A{row})",
            f"=SUMIF({key},A{row},Sites!$F$4:$F${last})",
            f"=ROUND(SUMIF({key},A{row},Sites!$M$4:$M${last}),{digits})",
        )
        results = (len(here), posts, float(money))
        cells = [Formula(f, r) if last else r for f, r in zip(formulas, results, strict=True)]
        made.append([As(words, look), *cells])
    whole = [sum(s[i] for s in sums) for i in range(3)]
    first, end = top, top + len(STATE) - 1
    totals = [
        Formula(f"=ROUND(SUM({c}{first}:{c}{end}),{digits if c == 'D' else 0})", float(whole[i])) for i, c in enumerate("BCD")
    ]
    return [*made, [As("All sites", "bold"), *totals]]


def waiting_rows(sites: Sequence[SiteSummary], queries: Sequence[Query], held: int, figures: Figures) -> list[list[Any]]:
    """What waits for whom: whom, what, how many, the sheet to look at. Nothing is left out because it is none."""
    lost = {q.file for q in queries if q.code in ("NO_HEADINGS", "UNREADABLE_FILE")}
    senders = lost | {q.file for q in queries if q.holds_row}
    unread = f" and {show.counted(len(lost), 'file')} that cannot be read" if lost else ""
    correct = f"to correct {show.counted(held, 'row')}{unread}, from {show.counted(len(senders), 'file')}"
    confirms = summed([s.confirms for s in sites])
    engineer = {c: n for c, n in confirms.items() if BY_CODE[c].engineer}
    others = {c: n for c, n in confirms.items() if c not in engineer}
    no_kit = sum(s.outcomes.get("no_kit", 0) for s in sites)
    return [
        ["Senders of surveys", correct, held + len(lost), _to("Queries")],
        ["Whoever measures the posts", "to confirm: " + _codes(others), sum(others.values()), _to("Waits")],
        ["A licensed engineer", "to clear: " + _codes(engineer), sum(engineer.values()), _to("Waits")],
        ["The technical desk", "posts that no kit fits", no_kit, _to("Shortfalls")],
        ["The sales desk", "promises of which something no longer holds", len(list(broken(sites))), _to("Promises")],
        ["The sales desk", "quotations past their last day", figures.expired, _to("Expired")],
        ["The catalogue's keeper", "prices that may be slips", figures.slips, _to("Changes")],
        [
            "The sales desk",
            "changes since the last run; sites no longer asked for",
            figures.changes + figures.vanished,
            _to("Changes"),
        ],
    ]


def _to(sheet: str) -> Link:
    return Link(f"internal:'{sheet}'!A1", sheet)


def _codes(counts: Mapping[str, int]) -> str:
    return ", ".join(f"{BY_CODE[c].about} ({n})" for c, n in counts.items()) or "nothing"


def headline(sites: Sequence[SiteSummary], currency: str, digits: int) -> str:
    """The answer in one sentence."""
    count = {state: sum(s.site["state"] == state for s in sites) for state in STATE}
    total = sum((Decimal(str(s.site["total"])) for s in sites if not s.declined), Decimal(0))
    declined = " Declined ones are left out." if any(s.declined for s in sites) else ""
    return (
        f"{show.counted(len(sites), 'site')}: {count['ready']} ready, {count['to_confirm']} to confirm, "
        f"{count['incomplete']} incomplete. All quotations together: {show.money(total, digits)} {currency}.{declined}"
    )


def write_overview(
    page: Page, sites: Sequence[SiteSummary], queries: Sequence[Query], files: Sequence[Mapping[str, Any]], figures: Figures
) -> None:
    """Writes the first sheet."""
    digits = page.book.digits
    page.title(f"Portfolio of {figures.date}")
    row = 1
    if wrong := list(broken(sites)):
        more = f"\nand {len(wrong) - _FIRST} more on the sheet Promises" if len(wrong) > _FIRST else ""
        row = page.para(row, "Promised, and no longer holds:\n" + "\n".join(wrong[:_FIRST]) + more, "caution", 0, 3)
    row = page.para(row, headline(sites, figures.currency, digits), "strong")
    read, held = sum(int(f["rows"]) for f in files), sum(int(f["held"]) for f in files)
    row = page.para(
        row,
        f"{show.counted(len(files), 'file')} came in with {show.counted(read, 'row')}; "
        f"{held} of them {'waits' if held == 1 else 'wait'} for a correction.",
    )
    row += 1
    columns = [
        Col("State", "bold", 28, 26),
        Col("Sites", "whole", 46),
        Col("Posts", "whole"),
        Col(f"Total [{figures.currency}]", "money", 18, 18),
    ]
    row = page.table(row, "states", columns, state_rows(sites, figures.last_site_row, digits, row + 2), "Sites by state") + 1
    waits = [Col("Waits for", "bold", 28), Col("What", "text", 46, 46), Col("How many", "whole"), Col("Look at", "link", 18, 18)]
    row = page.table(row, "waits", waits, waiting_rows(sites, queries, held, figures), "What waits for whom")
    row = page.para(row + 1, CAUTION, "caution", 0, 3)
    _pictures(page, row + 1, figures.drawn)
    page.print_as(0, "Portfolio", landscape=False)


def _pictures(page: Page, row: int, drawn: Drawn) -> None:
    if drawn.outcomes:
        left = f" (the {SITES_DRAWN} with most to do; {drawn.sites_left_out} more on Sites)" if drawn.sites_left_out else ""
        tall = 130 + 18 * (drawn.outcomes[1] - drawn.outcomes[0] + 1)
        row = _bars(page, row, f"Posts by outcome and site{left}", drawn.outcomes, tall, [_INKS[o] for o in OUTCOMES])
    for title, span in (("What stops posts without a kit", drawn.stops), ("What would serve more posts", drawn.serve)):
        if span:
            row = _bars(page, row, title, span, 100 + 26 * (span[1] - span[0] + 1), ["#1F4B57"])
        else:
            row = page.para(row, f"{title}: there is nothing to draw.") + 1


def _bars(page: Page, row: int, title: str, span: Span, tall: int, inks: Sequence[str]) -> int:
    """A bar chart of the figures in `span`, a series a column; returns the row below it."""
    stacked = len(inks) > 1
    chart: Any = page.book.workbook.add_chart({"type": "bar", "subtype": "stacked"} if stacked else {"type": "bar"})
    first, last = span
    for column, ink in enumerate(inks, 1):
        series: dict[str, Any] = {
            "name": [_FIGURES, first - 1, column],
            "categories": [_FIGURES, first, 0, last, 0],
            "values": [_FIGURES, first, column, last, column],
            "fill": {"color": ink},
            "gap": 40,
        }
        if not stacked:
            series["data_labels"] = {"value": True}
        chart.add_series(series)
    font = {"name": FONT, "size": 9, "color": INK}
    chart.set_title({"name": title, "name_font": {"name": FONT, "size": 11, "color": INK}, "overlay": False})
    chart.set_y_axis({"reverse": True, "crossing": "max", "num_font": font})
    chart.set_x_axis(
        {
            "num_font": font,
            "num_format": "0",
            "name": "Posts",
            "name_font": font,
            "major_gridlines": {"visible": stacked},
            "min": 0,
        }
    )
    chart.set_legend({"position": "bottom", "font": font} if stacked else {"none": True})
    chart.set_size({"width": 690, "height": tall})
    page.sheet.insert_chart(row, 0, chart, {"object_position": 2, "description": title, "x_offset": 4, "y_offset": 4})
    end = row + -(-(tall + 12) // 17)
    page.keep(row, end - 1)  # no picture is cut in two
    return end + 1

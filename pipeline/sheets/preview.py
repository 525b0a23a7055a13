"""The workbook of a preview: what another catalogue would cost whom, which posts gain or lose a kit, which promises break."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from pipeline.sheets import show
from pipeline.sheets.movement import Kit, posts_with_kit, total
from pipeline.sheets.preview_report import Preview, SitePreview
from pipeline.sheets.wanted_sheet import write_wanted
from pipeline.xlsx.page import Book, Page
from pipeline.xlsx.values import Col
from schemas.words import CAUTION

_NONE = "no kit"


def preview_workbook(found: Preview) -> bytes:
    """The workbook as .xlsx bytes: Summary, Sites, Kits that change, Prices, Wanted; the same preview gives the same bytes."""
    digits = max((show.digits(total(s.now)) for s in found.sites if s.now), default=2)
    subject = "What another catalogue would do to what is quoted"
    book = Book("Preview of a catalogue", subject, found.date, found.program, digits)
    _summary(book.page("Summary"), found)
    _sites(book.page("Sites"), found)
    _kits(book.page("Kits that change"), found)
    _prices(book.page("Prices"), found)
    _wanted(book.page("Wanted"), found)
    return book.bytes()


def _summary(page: Page, found: Preview) -> None:
    page.title("Preview of a catalogue")
    row = page.paras(
        2, ("Nothing has been published: every quotation stands as it is.", *found.movement.sentences(found.currency))
    )
    row = page.section(row + 1, "Promises that would be broken")
    broken = [s for s in found.sites if s.broken]
    words = [
        f"{s.site_code}: {s.promise}, valid until {s.valid_until}; it holds an item that this catalogue lacks." for s in broken
    ]
    row = page.paras(row, words or ["None."])
    row = page.section(row + 1, "Prices that may be slips")
    row = page.paras(row, [p.change.sentence for p in found.prices if p.change.slip] or ["None."])
    if found.failures:
        row = page.paras(page.section(row + 1, "Sites that could not be worked out"), found.failures)
    page.para(row + 1, CAUTION, "caution")
    page.print_as(0, "Preview")


def _sites(page: Page, found: Preview) -> None:
    page.title("Sites")
    columns = [
        Col("Site", "bold", 24),
        Col("Customer", "text", 28),
        Col("Promise", "text", 12),
        Col(f"Total as it stands [{found.currency}]", "money", 18),
        Col(f"Total then [{found.currency}]", "money", 18),
        Col(f"Difference [{found.currency}]", "money", 18),
        Col("Posts with a kit as it stands", "whole"),
        Col("Posts with a kit then", "whole"),
        Col("Why", "text", 60),
    ]
    _table(page, "PreviewSites", columns, [_site(s) for s in found.sites], "No site is quoted.")


def _site(s: SitePreview) -> list[Any]:
    was, now = (float(total(side)) if side else None for side in (s.was, s.now))
    kits = [posts_with_kit(side) if side else None for side in (s.was, s.now)]
    moved = float(total(s.now) - total(s.was)) if s.was and s.now else None
    return [s.site_code, s.customer, s.promise, was, now, moved, *kits, "; ".join(s.reasons)]


def _kits(page: Page, found: Preview) -> None:
    page.title("Kits that change")
    why = {s.site_code: "; ".join(s.reasons) for s in found.sites}
    columns = [
        Col("Site", "bold", 24),
        Col("Post", "text", 20),
        Col("Posts", "whole"),
        Col("From", "text", 44),
        Col("To", "text", 44),
        Col("Why", "text", 60),
    ]
    rows = [[k.site_code, k.post_code, k.quantity, _kit(k.was), _kit(k.now), why.get(k.site_code, "")] for k in found.kits]
    _table(page, "PreviewKits", columns, rows, "No post would get another kit.")


def _kit(kit: Kit | None) -> str:
    return show.kit(*kit) if kit else _NONE


def _prices(page: Page, found: Preview) -> None:
    page.title("Prices that move")
    columns = [
        Col("Item", "bold", 40),
        Col(f"As it stands [{found.currency}]", "money", 18),
        Col(f"Then [{found.currency}]", "money", 18),
        Col("Quotations touched", "whole"),
        Col("Remark", "text", 60),
    ]
    rows = [
        [p.change.item, float(p.change.was), float(p.change.now), p.quotations, p.change.sentence if p.change.slip else ""]
        for p in found.prices
    ]
    _table(page, "PreviewPrices", columns, rows, "No price moves.")


def _wanted(page: Page, found: Preview) -> None:
    page.title("What the catalogue lacks")
    row = page.section(2, "As it stands")
    row = write_wanted(page, row, "WantedNow", found.wanted_was, found.feet)
    row = page.section(row + 1, "With the catalogue looked at")
    write_wanted(page, row, "WantedThen", found.wanted, found.feet)
    page.print_as(0, "Preview")


def _table(page: Page, name: str, columns: Sequence[Col], rows: Sequence[Sequence[Any]], nothing: str) -> None:
    if rows:
        page.table(2, name, columns, rows)
    else:
        page.para(2, nothing)
    page.print_as(3 if rows else 0, "Preview")

"""A tab a site: where several sheets have the same headings and none names a site, the sheet's name is the site's."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import replace

from pipeline.intake.layout.carried import is_a_place
from pipeline.intake.layout.grounds import ground_in
from pipeline.intake.layout.record import Heading, Record, Stated
from pipeline.intake.layout.row_records import names_a_site
from pipeline.reading.book import Cell
from schemas.grounds import NO_SITE_TABS

_NO_SITE = re.compile(NO_SITE_TABS, re.IGNORECASE)


def with_tabs(records: Sequence[Record], headings: Mapping[str, frozenset[str]]) -> list[Record]:
    """`records` of a book, with the sheet's name for their site's where that is plainly meant.

    `headings` has the claimed columns of each sheet with a table.
    """
    records = [_without_place(r) if ground_in(r.sheet) else r for r in records]
    alike: dict[frozenset[str], set[str]] = defaultdict(set)
    for sheet, names in headings.items():
        alike[names].add(sheet)
    named = {r.sheet for r in records if names_a_site(r.values) or any(w.name == "site_name" for w in r.wrong)}
    sites = {
        s for sheets in alike.values() if len(sheets) > 1 and not sheets & named for s in sheets if not _NO_SITE.fullmatch(s)
    } | {s for s in headings if s not in named and ground_in(s)}
    return [_on_tab(r) if r.sheet in sites else r for r in records]


def _without_place(record: Record) -> Record:
    """The record without a name that only says where on the tab's ground it stands: `Terrain rouge` under `Emplacement`."""
    own = record.values.get("site_name")
    if own is None or own.how not in ("", "same_as_above", "block") or "site_code" in record.values or not is_a_place(own):
        return record
    values = {n: s for n, s in record.values.items() if n != "site_name"}
    return replace(record, values=values, extra={**record.extra, own.heading.text: str(own.cell.value)})


def _on_tab(record: Record) -> Record:
    at = next((s.at for s in record.values.values()), "A1")
    stated = Stated(Cell(1, 1, "text", record.sheet), Heading("sheet"), at, "sheet_name")
    return replace(record, values={**record.values, "site_name": stated})

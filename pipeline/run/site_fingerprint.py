"""What of a catalogue bears on one site: a price that is in none of its kits changes nothing there.

The fingerprint of a site's inputs holds all of the catalogue but prices and descriptions of mounts,
boards and rings, price breaks on them, and customers; of these only what the site can come to.
"""

from __future__ import annotations

import hashlib
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from typing import Any

from pipeline.intake.catalogue import CatalogueRead
from pipeline.ledger.kept_catalogue import as_plain
from pipeline.money.customers import nearest, terms
from pipeline.run.request import sha
from pipeline.site.task import SiteTask
from schemas.order import folded

_ITEMS = (("Mounts", "mount"), ("Boards", "board"), ("Rings", "ring"))
_ON_THE_ITEM = frozenset({"price", "description"})
_FITS = frozenset({"serves", "confirm", "extended"})
_TERMS = ("customer", "discount_percent", "tax_exempt", "order_together", "choice")
"""What of a customer's row a site's own quotation is made from."""
_folded = cache(folded)


class Bearing:
    """One catalogue and program, ready to be asked for each site."""

    def __init__(self, read: CatalogueRead, program: str) -> None:
        self._tables = read.tables
        self._on_item: dict[str, list[Any]] = defaultdict(list)
        for table, code in _ITEMS:
            for row in read.tables.get(table, ()):
                self._on_item[folded(row[code])].append([table, *(str(row[n]) for n in sorted(_ON_THE_ITEM))])
        for row in read.tables.get("Price breaks", ()):
            self._on_item[folded(row["item"])].append(["break", row["from_quantity"], str(row["price"])])
        self._common = sha([program, as_plain(_common(read.tables), read.policy, read.stated, {})])
        self._pattern = {folded(row["board"]): folded(row["ring_pattern"]) for row in read.tables["Boards"]}
        self._rings = [(folded(row["ring"]), folded(row["ring_pattern"])) for row in read.tables["Rings"]]
        self._terms: dict[str, str] = {}

    def inputs(self, task: SiteTask, summary: Mapping[str, Any]) -> str:
        """Fingerprint of everything that one site's result is made from; `summary` is what it came out with."""
        made = hashlib.sha256(self._common.encode())
        touched = {code: self._on_item[code] for code in self._touched(summary) if code in self._on_item}
        head = [task.site_code, task.site_name, task.customer, task.site_kind, task.folder]
        queries = [
            [q.file, q.sheet, q.cell, q.code, q.message, q.suggestion, q.holds_row, q.post_code, q.name] for q in task.queries
        ]
        made.update(sha([head, queries, self._of_customer(task.customer), touched]).encode())
        for blobs in (task.rows, task.held):
            for blob in blobs:
                made.update(hashlib.sha256(blob).digest())
            made.update(b"|")
        return made.hexdigest()

    def _touched(self, summary: Mapping[str, Any]) -> Iterator[str]:
        """Folded codes of the items that may stand in a kit of the site: never one too few."""
        mounts: Mapping[str, Mapping[str, int]] = summary["reach_mounts"]
        yield from (_folded(m) for m, counts in mounts.items() if not counts.keys().isdisjoint(_FITS))
        boards = {_folded(b) for b in summary["reach_boards"]}
        yield from boards
        patterns = {self._pattern[b] for b in boards if b in self._pattern}
        yield from (ring for ring, pattern in self._rings if pattern in patterns)

    def _of_customer(self, customer: str) -> str:
        if customer not in self._terms:
            listed = list(self._tables.get("Customers", ()))
            row = terms(customer, listed)
            self._terms[customer] = str([(k, str(row.get(k))) for k in _TERMS]) if row else nearest(customer, listed)
        return self._terms[customer]


def _common(tables: Mapping[str, Sequence[Mapping[str, Any]]]) -> dict[str, Any]:
    """The tables without what is asked for item by item and customer by customer; in no order of rows."""
    out: dict[str, Any] = {}
    items = dict(_ITEMS)
    mine = {folded(row[code]) for table, code in _ITEMS for row in tables.get(table, ())}
    for name, rows in tables.items():
        if name in ("Customers", "Seller"):
            continue
        if name == "Price breaks":
            rows = [row for row in rows if folded(row["item"]) not in mine]
        if name in items:
            rows = [{k: v for k, v in row.items() if k not in _ON_THE_ITEM} for row in rows]
        out[name] = sorted(sorted((k, str(v)) for k, v in row.items() if k != "note") for row in rows)
    return out

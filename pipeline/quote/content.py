"""What a quotation says, in a canonical form: the part that a new revision is decided on, and what it rests on.

`says` is hashed: lines, totals, kits, what is held. `rests_on` is not: it serves to find the reasons
when what the quotation says has changed. Everything is JSON with sorted keys.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import Any

from pipeline.books.model import KitReport, PostReport, SiteReport
from pipeline.quote.world import World
from schemas.order import folded

_ITEMS = (("Mounts", "mount"), ("Boards", "board"), ("Rings", "ring"), ("Extensions", "extension"))
_NO_FACTS = ("status", "price", "note")


def content(report: SiteReport, world: World) -> dict[str, Any]:
    """The canonical content of one site's quotation."""
    return {"says": _says(report), "rests_on": _rests_on(report, world)}


def content_hash(made: Mapping[str, Any]) -> str:
    """SHA-256 of what the quotation says."""
    text = json.dumps(made["says"], sort_keys=True, ensure_ascii=False)
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def _says(r: SiteReport) -> dict[str, Any]:
    return {
        "site": [r.site_code, r.site_name, r.customer, r.site_kind],
        "state": r.state,
        "money": [r.currency, *(str(v) for v in (r.totals.net, r.totals.freight, r.totals.tax, r.totals.total))],
        "lines": [
            [
                x.kind,
                x.item,
                x.description,
                x.quantity,
                str(x.list_price),
                str(x.unit_price),
                str(x.discount_percent),
                str(x.line_total),
            ]
            for x in r.lines
        ],
        "posts": {p.row.post_code: _post(p) for p in r.posts},
        "held": sorted([h.post_code, *sorted(q.code + " " + q.name for q in _of(r, h.file, h.sheet, h.row))] for h in r.held),
        "asked": sorted([q.post_code, q.name, q.message] for q in r.queries if q.code == "ASKED"),
        "said": list(r.said),
    }


def _of(r: SiteReport, file: str, sheet: str, row: int) -> Iterable[Any]:
    """Queries about one row."""
    return (
        q for q in r.queries if (q.file, q.sheet) == (file, sheet) and q.cell.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ") == str(row)
    )


def _post(p: PostReport) -> dict[str, Any]:
    k = p.kit
    said: dict[str, Any] = {"quantity": p.quantity, "outcome": p.outcome, "remedy": p.remedy, "target": _length(p.target)}
    return said | _kit(k) if k else said


def _kit(k: KitReport) -> dict[str, Any]:
    return {
        "kit": [k.mount, k.board, k.ring, k.extension],
        "confirm": list(k.confirm),
        "covered": k.covered,
        "heights": [_length(k.top), _length(k.lowered), _length(k.added)],
        "load": [k.load_state, *(_figure(v) for v in (k.utilisation_play, k.utilisation_storm, k.moment_play, k.moment_storm))],
        "asks_for": [_figure(k.wall_needed), _figure(k.footing_depth_needed), _figure(k.hung_mass)],
        "unit_price": str(k.unit_price),
    }


def _length(metres: float) -> str:
    return f"{metres:.4f}"


def _figure(value: float | None) -> str:
    """Three significant digits: what a page shows."""
    return "" if value is None else f"{value:.3g}"


def _rests_on(r: SiteReport, world: World) -> dict[str, Any]:
    """Facts behind the quotation, from which reasons for a change are found."""
    tables = world.catalogue.tables
    used = {folded(c) for p in r.posts if p.kit for c in (p.kit.mount, p.kit.board, p.kit.ring, p.kit.extension) if c}
    items = {row[code]: row for table, code in _ITEMS for row in tables.get(table, ()) if folded(row[code]) in used}
    services = {x.item for x in r.lines if x.kind == "service"}
    return {
        "items": {code: {k: _plain(v) for k, v in row.items() if k not in _NO_FACTS} for code, row in sorted(items.items())},
        "prices": {code: str(row["price"]) for code, row in sorted(items.items())}
        | {row["service"]: str(row["price"]) for row in tables.get("Services", ()) if row["service"] in services},
        "breaks": sorted(
            [b["item"], int(b["from_quantity"]), str(b["price"])] for b in tables.get("Price breaks", ()) if b["item"] in items
        ),
        "pairings": sorted(f"{p['mount']} + {p['board']}" for p in tables.get("Pairings", ()) if folded(p["mount"]) in used),
        "customer": {"discount_percent": _discount(r), "tax_exempt": "yes" if r.tax_exempt else "no"},
        "policy": {s.name: " ".join((s.value, s.unit)).strip() for s in world.setting.policy},
        "rows": {row.post_code: dict(sorted(row.typed.items())) for row in (*(p.row for p in r.posts), *r.held) if row.post_code},
        "held": sorted(h.post_code for h in r.held),
    }


def _discount(r: SiteReport) -> str:
    return next((str(x.discount_percent) for x in r.lines if x.kind == "goods"), "0")


def _plain(value: Any) -> Any:
    if isinstance(value, Decimal):
        return str(value)
    return f"{value:.9g}" if isinstance(value, float) else value

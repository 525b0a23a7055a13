"""What a quotation says, in a canonical form: lines, totals, posts, kits, what is held. A new revision is decided on it.

Left out, so that they make no revision: dates, file names, rows and cells, the order of rows, how a value
was written, notes, options that are not recommended, and whatever of the catalogue is on no line.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from typing import Any

from pipeline.intake.survey.survey_row import SurveyRow, stated
from pipeline.sheets.report import KitReport, PostReport, SiteReport


def content(report: SiteReport) -> dict[str, Any]:
    """The canonical content of one site's quotation, as JSON holds it."""
    return {"says": _says(report)}


def content_hash(made: Mapping[str, Any]) -> str:
    """SHA-256 of what the quotation says."""
    text = json.dumps(made["says"], sort_keys=True, ensure_ascii=False)
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def _says(r: SiteReport) -> dict[str, Any]:
    return {
        "site": [r.site_code, r.site_name, r.customer, r.site_kind],
        "state": r.state,
        "money": [r.currency, *(str(v) for v in (r.totals.net, r.totals.freight, r.totals.tax, r.totals.total))],
        "goods_mass": f"{r.totals.goods_mass:.1f}",
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
        "held": sorted([h.post_code, *sorted(q.code + " " + q.name for q in r.queries if q.is_about(h))] for h in r.held),
        "asked": sorted([q.post_code, q.name, q.answer] for q in r.queries if q.code == "ASKED"),
        "remarks": list(r.remarks),
    }


def _post(p: PostReport) -> dict[str, Any]:
    k = p.kit
    content: dict[str, Any] = {
        "quantity": p.quantity,
        "outcome": p.outcome,
        "remedy": p.remedy,
        "target": _length(p.target),
        "stated": stated_of(p.row),
    }
    return content | _kit(k) if k else content


def stated_of(row: SurveyRow) -> dict[str, Any]:
    """What a row states of its post, as JSON holds it."""
    return {name: _plain(v) for name, v in stated(row).items() if name not in _NOT_OF_THE_POST}


_NOT_OF_THE_POST = frozenset({"site_code", "site_name", "customer", "site_kind", "post_code", "notes"})


def _plain(value: Any) -> Any:
    """A stated value as JSON holds it; lengths to a tenth of a millimetre, so that no unit's rounding shows."""
    if isinstance(value, float):
        return f"{value + 0.0:.4f}"
    return [_plain(v) for v in value] if isinstance(value, list | tuple) else value


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

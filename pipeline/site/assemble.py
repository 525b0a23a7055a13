"""One site put together: queries about what was asked for, posts, goods, money, state."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from pipeline.intake.query import Query
from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.money.amounts import Counts
from pipeline.money.quotation import quote
from pipeline.output.data import lines
from pipeline.rounding import figure
from pipeline.rules.arrays import Refusal
from pipeline.sheets.report import PostReport, SiteReport
from pipeline.site.data_lines import known
from pipeline.site.decided import share_of
from pipeline.site.remarks import of_site
from pipeline.site.shown_units import shown_in_feet
from pipeline.site.task import SiteTask, World
from schemas.results import EXTENSIONS_NEEDED, POSTS, QUOTE_LINES


def put_together(task: SiteTask, posts: tuple[PostReport, ...], asked: Sequence[Query], world: World) -> SiteReport:
    """The report of one site, given those of its posts and the queries that came up with them."""
    counts = _counts(posts)
    share = share_of(task.decided)
    quoted, totals = quote(_goods(posts), counts, world.catalogue.tables, world.policy, task.customer, share)
    terms, sentences = of_site(task.customer, task.rows, posts, world)
    return SiteReport(
        site_code=task.site_code,
        site_name=task.site_name,
        customer=task.customer,
        site_kind=task.site_kind,
        revision=0,
        date=task.date,
        valid_until=task.valid_until,
        state=_state(posts, task.held, task.rows_loose),
        rows_loose=task.rows_loose,
        currency=str(world.policy["currency"]),
        customer_listed=terms.listed,
        tax_exempt=terms.exempt,
        posts=posts,
        held=task.held,
        queries=tuple(sorted((*task.queries, *asked), key=lambda q: q.order)),
        lines=quoted,
        totals=totals,
        feet=shown_in_feet(task, world.policy),
        remarks=sentences,
        changes=(),
        total_was=None,
        posts_in_all=sum(p.quantity for p in posts) + sum(_quantity(h) for h in task.held),
        rows_held=len(task.held),
    )


def asked_of(row: SurveyRow, refused: Sequence[Refusal]) -> list[Query]:
    """The query ASKED for each item that cannot be had at the post; it holds nothing."""
    return [
        Query(
            row.file,
            row.sheet,
            row.cells.get(r.name, ""),
            "ASKED",
            r.sentence,
            r.suggestion,
            False,
            row.site_code,
            row.post_code,
            r.name,
            row.label,
            f"{r.asked}: {', '.join((r.reason, *r.findings)).replace('_', ' ')}",
        )
        for r in refused
    ]


def _quantity(row: SurveyRow) -> int:
    """Posts of a held row; one where that cannot be read."""
    return row.quantity or 1


def _goods(posts: Sequence[PostReport]) -> dict[str, int]:
    """How many of each item the recommended kits of a site need."""
    goods: Counter[str] = Counter()
    for p in posts:
        if p.kit:
            goods.update({code: p.quantity for code in (p.kit.mount, p.kit.board, p.kit.ring, p.kit.extension) if code})
    return dict(goods)


def _counts(posts: Sequence[PostReport]) -> Counts:
    """What services are charged by."""
    with_kit = [p for p in posts if p.kit]
    return Counts(
        posts=sum(p.quantity for p in with_kit),
        extensions=sum(p.quantity for p in with_kit if p.kit and p.kit.extension),
        stripped=sum(p.quantity for p in with_kit if p.row.old_fittings == "removable"),
    )


def _state(posts: Sequence[PostReport], held: Sequence[SurveyRow], loose: int) -> str:
    """State of a site; `loose` rows beside its own name no site. Source: design section 8."""
    if held or loose or any(not p.kit for p in posts):
        return "incomplete"
    waits = any(p.kit and (p.kit.fit_open or p.kit.strength_open) for p in posts)
    return "to_confirm" if waits else "ready"


def site_lines(report: SiteReport, world: World) -> tuple[dict[str, str], list[dict[str, Any]]]:
    """The site's lines of posts, extensions and quote_lines; its rows of extensions."""
    items = world.setting.items["Extensions"]
    extensions = [_extension_row(report, p, items) for p in report.posts if p.kit and p.kit.extension]
    made = {
        POSTS.name: lines(POSTS, [_post_row(report, p) for p in report.posts]),
        EXTENSIONS_NEEDED.name: lines(EXTENSIONS_NEEDED, extensions),
        QUOTE_LINES.name: lines(QUOTE_LINES, [{"site_code": report.site_code, **_line(x)} for x in report.lines]),
    }
    return made, extensions


def site_row(r: SiteReport, workbook: str) -> dict[str, Any]:
    """The site's row of sites; `workbook` is the path of its quotation."""
    t = r.totals
    return {
        "site_code": r.site_code,
        "site_name": r.site_name,
        "customer": r.customer,
        "site_kind": r.site_kind,
        "revision": r.revision,
        "state": r.state,
        "posts": r.posts_in_all,
        "posts_quoted": sum(p.quantity for p in r.posts),
        "rows_held": r.rows_held,
        "net": str(t.net),
        "freight": str(t.freight),
        "tax": str(t.tax),
        "total": str(t.total),
        "valid_until": r.valid_until,
        "workbook": workbook,
        "posts_with_kit": r.posts_with_kit,
        "posts_to_confirm": r.posts_to_confirm,
        "posts_strength_open": r.posts_strength_open,
        "promise": r.promise,
    }


def _post_row(r: SiteReport, p: PostReport) -> dict[str, Any]:
    k = p.kit
    mount = next((m for m in p.mounts if k and m.mount == k.mount), None)
    return {
        "site_code": r.site_code,
        "post_code": p.row.post_code,
        "quantity": p.quantity,
        "post_shape": p.row.post_shape,
        "post_size_m": p.size,
        "post_size_uncertainty_m": known(p.size_uncertainty),
        "post_height_m": p.height,
        "post_height_uncertainty_m": known(p.height_uncertainty),
        "court_rise_m": p.court_rise,
        "lean_deg": known(figure(np.degrees(p.lean))),
        "wall_m": p.wall,
        "wind_speed_m_s": known(p.wind_speed),
        "exposure": p.exposure,
        "target_ring_height_m": p.target,
        "outcome": p.outcome,
        "mount": k.mount if k else "",
        "board": k.board if k else "",
        "ring": k.ring if k else "",
        "extension": k.extension if k else "",
        "ring_height_max_m": mount.ring_height_max if mount else None,
        "shortfall_m": mount.shortfall if mount else None,
        "remedy": p.remedy,
    }


def _extension_row(r: SiteReport, p: PostReport, items: Mapping[str, Mapping[str, Any]]) -> dict[str, Any]:
    k = p.kit
    assert k is not None
    item = items[k.extension]
    return {
        "site_code": r.site_code,
        "post_code": p.row.post_code,
        "quantity": p.quantity,
        "mount": k.mount,
        "shortfall_m": next(m.shortfall for m in p.mounts if m.mount == k.mount),
        "extension": k.extension,
        "extension_added_m": k.added,
        "joint": item["joint"],
        "upper_size_m": item["upper_size_m"],
    }


def _line(x: Any) -> dict[str, Any]:
    return {n: str(v) if n in ("list_price", "unit_price", "discount_percent", "line_total") else v for n, v in vars(x).items()}

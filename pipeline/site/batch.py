"""A batch of sites, worked out: what a worker process does."""

from __future__ import annotations

import gc
import traceback
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Any

import numpy as np

from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.ledger.pack import unpack
from pipeline.loads.formulas import Values
from pipeline.money.prices import minor_unit
from pipeline.rules.advice import advice
from pipeline.rules.arrays import Floats, Ints
from pipeline.rules.asked import apart, refusals
from pipeline.rules.kits import recommended
from pipeline.rules.remedy import remedies
from pipeline.sheets.report import Change, SiteReport
from pipeline.sheets.site_workbook import site_workbook
from pipeline.site.assemble import put_together, site_pieces
from pipeline.site.compute import Answer, rounded, work_out
from pipeline.site.content import content, content_hash
from pipeline.site.data_lines import fit_lines, kit_lines
from pipeline.site.reasons import reasons, renewed
from pipeline.site.recommended_loads import recommended_loads
from pipeline.site.reporter import Reporter
from pipeline.site.summary import as_plain, summary
from pipeline.site.task import Before, SiteOutcome, SiteTask, World


def quote_sites(tasks: Sequence[SiteTask], world: World) -> list[SiteOutcome]:
    """An outcome for each site. A failure on the batch is looked for site by site, so that a failing site fails alone."""
    try:
        with _garbage_kept():
            return _quote(tasks, world)
    except Exception as error:
        if len(tasks) > 1:
            return [outcome for task in tasks for outcome in quote_sites([task], world)]
        return [failed(tasks[0], f"{type(error).__name__}: {error}", traceback.format_exc())]


@contextmanager
def _garbage_kept() -> Iterator[None]:
    """Looks for garbage once, at the end: a batch makes many objects and few circles, and each look costs more than it finds."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        gc.collect(0)
        if was:
            gc.enable()


def failed(task: SiteTask, why: str, trace: str = "") -> SiteOutcome:
    """The outcome of a site that could not be worked out."""
    return SiteOutcome(task.site, error=f"Site {task.site_code} could not be quoted: {why}", trace=trace)


def _quote(tasks: Sequence[SiteTask], world: World) -> list[SiteOutcome]:
    rows = [[SurveyRow.from_dict(unpack(blob)) for blob in task.rows] for task in tasks]
    flat = [row for some in rows for row in some]
    bounds = [0]
    for some in rows:
        bounds.append(bounds[-1] + len(some))
    answer = work_out(flat, world.catalogue, world.policy)
    loads = recommended_loads(answer, world)
    sites = [task.site_code for task, some in zip(tasks, rows, strict=True) for _ in some]
    digits = -int(minor_unit(world.policy["currency"]).as_tuple().exponent)
    shown = rounded(answer)
    parts = _Parts(
        Reporter(flat, shown, loads, world, digits),
        answer,
        _said(flat, answer, loads.values, world),
        fit_lines(flat, sites, shown, world.catalogue, bounds),
        kit_lines(flat, sites, shown, world.catalogue, bounds, digits),
    )
    return [_outcome(t, some, i, bounds[i], parts, world) for i, (t, some) in enumerate(zip(tasks, rows, strict=True))]


class _Parts:
    """What the sites of a batch have in common."""

    def __init__(
        self, reporter: Reporter, answer: Answer, said: dict[str, list[Any]], fit: list[bytes], kits: list[bytes]
    ) -> None:
        self.reporter, self.answer, self.said, self.fit, self.kits = reporter, answer, said, fit, kits


def _said(rows: Sequence[SurveyRow], answer: Answer, loads: Values, world: World) -> dict[str, list[Any]]:
    """Remedy and advice for each different post, refusals for each row."""
    has_kit = answer.start[1:] > answer.start[:-1]
    a, c = answer, world.catalogue
    best = recommended(a.kits, len(a.posts))
    notes = advice(a.posts, c, a.kits, best, _frequency(best, loads))
    return {
        "remedy": remedies(a.posts, c, a.fit, world.policy, has_kit),
        "refusals": refusals(rows, a.posts, c, a.fit, a.kits, group=a.group),
        "advice": [(*told, *more) for told, more in zip(notes, apart(a.posts, a.kits), strict=True)],
    }


def _frequency(best: Ints, loads: Values) -> Floats:
    """Natural frequency of each different post with its recommended kit [Hz], NaN where it has none."""
    out = np.full(len(best), np.nan)
    out[best >= 0] = loads["f"]
    return out


def _outcome(task: SiteTask, rows: Sequence[SurveyRow], number: int, first: int, parts: _Parts, world: World) -> SiteOutcome:
    made = put_together(task, rows, first, parts.reporter, parts.answer, parts.said, world)
    report, asked = made.report, made.asked
    now = content(report)
    hash_ = content_hash(now)
    before = task.before
    changes: tuple[Change, ...] = ()
    fresh = before is None or hash_ != before.content_hash or before.renew
    if before is None:
        issue = _Issue(task.revision, task.date, task.valid_until, (), None)
    elif fresh:
        changes = _why(before, now, report, world, hash_)
        issue = _Issue(task.revision, task.date, task.valid_until, changes, before.total)
    else:
        issue = _Issue.again(before)
    now["issue"] = issue.as_plain()
    report = issue.on(report)
    pieces, site, extensions = site_pieces(report, task, world)
    pieces |= {"mount_fit": parts.fit[number], "kits": parts.kits[number]}
    numbers = range(first, first + len(rows))
    plain = summary(report, site, extensions, made.remedies, parts.answer, numbers, world.catalogue)
    return SiteOutcome(
        site=task.site,
        pieces=pieces,
        asked=asked,
        summary=as_plain(plain),
        state=report.state,
        revision=issue.revision,
        date=issue.date,
        valid_until=issue.valid_until,
        content_hash=hash_,
        content=now if fresh else None,
        total=str(report.totals.total),
        workbook=site_workbook(report, world.setting) if fresh or (before and before.issue) else None,
        changes=changes,
    )


def _why(before: Before, now: dict[str, Any], report: SiteReport, world: World, hash_: str) -> tuple[Change, ...]:
    """Reasons for the new revision."""
    because = renewed(before, report.valid_until) if before.renew else ()
    if hash_ == before.content_hash:
        return because
    rows = (*(p.row for p in report.posts), *report.held)
    return (*because, *reasons(before, now, rows, report.customer, world))


class _Issue:
    """When a revision was issued, and why."""

    def __init__(self, revision: int, date: str, valid_until: str, changes: tuple[Change, ...], total_was: str | None) -> None:
        self.revision, self.date, self.valid_until = revision, date, valid_until
        self.changes, self.total_was = changes, total_was

    @staticmethod
    def again(before: Before) -> _Issue:
        """The issue of a revision that stands."""
        kept = before.content["issue"]
        changes = tuple(Change(**c) for c in kept["changes"])
        return _Issue(before.revision, before.date, before.valid_until, changes, kept["total_was"])

    def as_plain(self) -> dict[str, Any]:
        return {"changes": [vars(c) for c in self.changes], "total_was": self.total_was}

    def on(self, report: SiteReport) -> SiteReport:
        """The report with the issue's particulars."""
        from dataclasses import replace
        from decimal import Decimal

        total_was = None if self.total_was is None else Decimal(self.total_was)
        return replace(
            report,
            revision=self.revision,
            date=self.date,
            valid_until=self.valid_until,
            changes=self.changes,
            total_was=total_was,
        )

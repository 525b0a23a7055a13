"""A batch of sites, worked out: what a worker process does."""

from __future__ import annotations

import traceback
from collections.abc import Iterator, Sequence
from dataclasses import replace
from decimal import Decimal
from typing import Any

from pipeline.intake.field_sheet import identity_text
from pipeline.ledger.pack import pack
from pipeline.output.names import workbook_path
from pipeline.sheets.customer_report import as_plain as customer_plain
from pipeline.sheets.customer_site import customer_site
from pipeline.sheets.field_report import field_report
from pipeline.sheets.field_sheet import field_workbook
from pipeline.sheets.report import Change, SiteReport
from pipeline.sheets.site_workbook import site_workbook
from pipeline.site.assemble import put_together, site_lines, site_row
from pipeline.site.blocks import Block, blocks_of, bounds_of, parts_of
from pipeline.site.compute import work_out
from pipeline.site.content import content, content_hash
from pipeline.site.figures import figures, joined
from pipeline.site.promised import Worlds, as_promised, broken, summary_of
from pipeline.site.promises import promised_figures
from pipeline.site.reasons import reasons, renewed
from pipeline.site.summary import as_plain, summary
from pipeline.site.task import Before, Figures, Promise, SiteOutcome, SiteTask, World


def compute_sites(tasks: Sequence[SiteTask], world: World) -> list[Figures]:
    """First step alone, for sites whose quotation depends on others: what those need to know of each."""
    made: list[list[Figures]] = [[] for _ in tasks]
    for part in parts_of(tasks):
        answer = work_out([row for _, rows in part for row in rows], world.catalogue, world.policy)
        for (number, rows), first in zip(part, bounds_of(part), strict=False):
            made[number].append(figures(rows, first, answer, world))
    return [_figures(task, joined(blocks), world) for task, blocks in zip(tasks, made, strict=True)]


def _figures(task: SiteTask, found: Figures, world: World) -> Figures:
    """A promised site tells its customer's others what it was promised."""
    return promised_figures(task.promise, world.before[task.promise.catalogue]) if task.promise else found


def quote_sites(tasks: Sequence[SiteTask], world: World) -> list[SiteOutcome]:
    """An outcome for each site. A failure on the batch is looked for site by site, so that a failing site fails alone."""
    try:
        then = Worlds(world)
        return [
            _promised(task, task.promise, blocks, then) if task.promise else _outcome(task, blocks, world)
            for task, blocks in zip(tasks, blocks_of(tasks, world), strict=True)
        ]
    except Exception as error:
        if len(tasks) > 1:
            return [outcome for task in tasks for outcome in quote_sites([task], world)]
        return [failed(tasks[0], f"{type(error).__name__}: {error}", traceback.format_exc())]


def failed(task: SiteTask, why: str, trace: str = "") -> SiteOutcome:
    """The outcome of a site that could not be worked out."""
    return SiteOutcome(task.site, error=f"Site {task.site_code} could not be quoted: {why}", trace=trace)


def _outcome(task: SiteTask, blocks: Sequence[Block], world: World) -> SiteOutcome:
    """Third step: the site's report, lines and workbook."""
    asked = tuple(q for b in blocks for q in b.asked)
    report = put_together(task, tuple(p for b in blocks for p in b.posts), asked, world)
    now = content(report)
    hash_ = content_hash(now)
    now["order"] = {"decided": task.decided, "moved_by": list(task.moved_by)}
    before = task.before
    fresh = before is None or hash_ != before.content_hash or before.renew
    issue = _issue(task, now, hash_, report, world) if fresh or before is None else _Issue.again(before)
    now["issue"] = issue.as_plain()
    report = issue.on(report)
    lines, extensions = site_lines(report, world)
    remedies = [r for b in blocks for r in b.remedies]
    row = site_row(report, workbook_path(task.folder, report.revision))
    plain = summary(report, row, extensions, remedies, [b.reach for b in blocks])
    written = bool(fresh or (before and before.issue))
    return SiteOutcome(
        site=task.site,
        lines=tuple((name, pack(text)) for some in (*(b.lines for b in blocks), lines) for name, text in some.items()),
        asked=asked,
        summary=as_plain(plain),
        figures=joined([b.figures for b in blocks]),
        for_customer=customer_plain(customer_site(report, world.setting.items)),
        state=report.state,
        revision=issue.revision,
        date=issue.date,
        valid_until=issue.valid_until,
        content_hash=hash_,
        content=now if fresh else None,
        total=str(report.totals.total),
        workbook=site_workbook(report, world.setting) if written else None,
        field_sheet=_field_sheet(report, hash_, world) if written else None,
        changes=issue.changes if fresh else (),
    )


def _field_sheet(report: SiteReport, content: str, world: World) -> bytes:
    """What goes to the site with a revision."""
    setting = world.setting
    identity = identity_text(report.site_code, report.revision, content)
    return field_workbook(field_report(report, setting.items, identity, setting.program, setting.paper))


def _issue(task: SiteTask, now: dict[str, Any], hash_: str, report: SiteReport, world: World) -> _Issue:
    """A new revision, with its reasons."""
    before = task.before
    changes = () if before is None else (*_ended(task), *_why(before, now, report, world, hash_))
    return _Issue(task.revision, task.date, task.valid_until, changes, before.total if before else None)


def _ended(task: SiteTask) -> Iterator[Change]:
    if p := task.ended:
        yield Change("promise ended", f"r{p.revision}", f"{p.state} on {p.day}", "the survey changed a kit or a number")


def _why(before: Before, now: dict[str, Any], report: SiteReport, world: World, hash_: str) -> tuple[Change, ...]:
    """Reasons for the new revision."""
    because = renewed(before, report.valid_until) if before.renew else ()
    if hash_ == before.content_hash:
        return because
    rows = (*(p.row for p in report.posts), *report.held)
    return (*because, *reasons(before, now, rows, report.customer, world))


def _promised(task: SiteTask, promise: Promise, blocks: Sequence[Block], worlds: Worlds) -> SiteOutcome:
    """A promised site: its quotation as it stands; fit, kits and loads as they are now."""
    world, kept = worlds.now, worlds.then(promise)
    asked = tuple(q for b in blocks for q in b.asked)
    posts = tuple(p for b in blocks for p in b.posts)
    now = content(put_together(task, posts, asked, world))
    kits = {code: state for b in blocks for code, state in b.promised.items()}
    stood = as_promised(task, promise, kept)
    lines, extensions = site_lines(stood.report, kept)
    row, again = site_row(stood.report, promise.workbook), bool(task.before and task.before.issue)
    plain = summary(stood.report, row, extensions, stood.remedies, [b.reach for b in blocks])
    plain = replace(plain, promised=summary_of(promise, now, broken(promise, posts, kits, world)))
    return SiteOutcome(
        site=task.site,
        lines=tuple((name, pack(text)) for some in (*(b.lines for b in blocks), lines) for name, text in some.items()),
        asked=asked,
        summary=as_plain(plain),
        figures=promised_figures(promise, world.before[promise.catalogue]),
        for_customer=customer_plain(customer_site(stood.report, kept.setting.items)),
        state=stood.report.state,
        revision=promise.revision,
        date=promise.date,
        valid_until=promise.valid_until,
        content_hash=promise.content_hash,
        total=promise.total,
        workbook=site_workbook(stood.report, kept.setting) if again else None,
        field_sheet=_field_sheet(stood.report, promise.content_hash, kept) if again else None,
    )


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
        total_was = None if self.total_was is None else Decimal(self.total_was)
        return replace(
            report,
            revision=self.revision,
            date=self.date,
            valid_until=self.valid_until,
            changes=self.changes,
            total_was=total_was,
        )

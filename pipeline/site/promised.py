"""A promised site reported on: its quotation as it stands, what waits behind it, and what no longer holds."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Any

from pipeline.rules.arrays import Remedy
from pipeline.sheets.report import Change, PostReport, SiteReport
from pipeline.sheets.wording import stops
from pipeline.site.assemble import put_together
from pipeline.site.blocks import blocks_of
from pipeline.site.content import content
from pipeline.site.promises import lines_of, same_promise, same_rows
from pipeline.site.task import Promise, SiteTask, World
from pipeline.site.worlds import world_of
from schemas.lists import joined


class Worlds:
    """What all sites share now, and what they shared when a promise was made."""

    def __init__(self, now: World) -> None:
        self.now = now
        self._then: dict[str, World] = {}

    def then(self, promise: Promise) -> World:
        """With the catalogue that the promise was made with."""
        key = promise.catalogue
        if key not in self._then:
            self._then[key] = world_of(self.now.before[key], key)
        return self._then[key]


@dataclass(frozen=True)
class Standing:
    """A promised quotation with the survey as it is now, and the catalogue that it was made with."""

    report: SiteReport
    remedies: tuple[Remedy, ...]


def as_promised(task: SiteTask, promise: Promise, then: World) -> Standing:
    """The quotation as it stands: fit and answers by the survey of now, lines and money as promised."""
    report, remedies = _quoted(task, promise, then)
    net, freight, tax, total = (Decimal(amount) for amount in promise.content["says"]["money"][1:])
    issue = promise.content["issue"]
    report = replace(
        report,
        lines=lines_of(promise.content["says"]),
        totals=replace(report.totals, net=net, freight=freight, tax=tax, total=total),
        revision=promise.revision,
        date=promise.date,
        valid_until=promise.valid_until,
        changes=tuple(Change(**c) for c in issue["changes"]),
        total_was=None if issue["total_was"] is None else Decimal(issue["total_was"]),
        promise=promise.state,
    )
    return Standing(report, remedies)


def stands(task: SiteTask, promise: Promise, worlds: Worlds) -> bool:
    """Whether no row of the survey has changed a kit or a number of the promise. Source: design section 13."""
    says = promise.content["says"]
    if same_rows(says, task.rows, task.held):
        return True
    return same_promise(says, content(_quoted(task, promise, worlds.then(promise))[0])["says"])


def _quoted(task: SiteTask, promise: Promise, then: World) -> tuple[SiteReport, tuple[Remedy, ...]]:
    """The site quoted with the survey of now and everything else as it was."""
    task = replace(task, decided=promise.content["order"]["decided"])
    (blocks,) = blocks_of([task], then)
    report = put_together(task, tuple(p for b in blocks for p in b.posts), (), then)
    return report, tuple(r for b in blocks for r in b.remedies)


def summary_of(promise: Promise, now: Mapping[str, Any], broken: Sequence[str]) -> dict[str, Any]:
    """What the portfolio lists of a promise; `now` is what the quotation would say."""
    says, would = promise.content["says"], now["says"]
    moved = [code for code, post in says["posts"].items() if post.get("kit") != would["posts"].get(code, {}).get("kit")]
    waits = bool(moved) or says["money"] != would["money"]
    return {
        "state": promise.state,
        "day": promise.day,
        "note": promise.note,
        "revision": promise.revision,
        "until": promise.valid_until if promise.state == "sent" else "",
        "total": promise.total,
        "would_be": would["money"][4] if waits else "",
        "posts_moved": len(moved),
        "broken": list(broken),
    }


def broken(promise: Promise, posts: Sequence[PostReport], kits: Mapping[str, str], world: World) -> list[str]:
    """What no longer holds of the promised kits, each sentence once with its posts.

    `posts` are reported on with the catalogue of now; `kits` says of each post whether its promised kit can still be had:
    '' it cannot, else its load state.
    """
    found: dict[str, list[str]] = defaultdict(list)
    by_code = {p.row.post_code: p for p in posts}
    active = _active(world)
    for code, promised in promise.content["says"]["posts"].items():
        if "kit" in promised and code in by_code and (words := _wrong(promised, by_code[code], kits.get(code, ""), active)):
            found[words].append(code)
    return [f"{'Post' if len(codes) == 1 else 'Posts'} {joined(codes)}: {words}" for words, codes in found.items()]


def _wrong(promised: Mapping[str, Any], post: PostReport, load: str, active: frozenset[str]) -> str:
    """What no longer holds of one post's promised kit, '' where all does."""
    gone = [item for item in promised["kit"] if item and item not in active]
    if gone:
        return f"{joined(gone)} {'is' if len(gone) == 1 else 'are'} withdrawn or no longer listed."
    if not load:
        return f"{_named(promised)} no longer fits{_why(post, promised['kit'][0])}."
    if load == "over":
        already = ", as it was when it was promised" if promised["load"][0] == "over" else ""
        return f"{_named(promised)} is over the rough strength{already}: a licensed engineer must look at it."
    return ""


def _named(promised: Mapping[str, Any]) -> str:
    return " + ".join(item for item in promised["kit"] if item)


def _why(post: PostReport, mount: str) -> str:
    failed = next((m.failed for m in post.mounts if m.mount == mount), ())
    return f": {stops(failed)}" if failed else ""


def _active(world: World) -> frozenset[str]:
    c = world.catalogue
    return frozenset((*c.mounts.code, *c.boards.code, *c.rings.code, *c.extensions.code))

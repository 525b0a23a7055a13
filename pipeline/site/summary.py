"""What the portfolio needs of one site."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass
from decimal import Decimal
from typing import Any

import numpy as np

from pipeline.money.amounts import QuoteLine
from pipeline.rules.arrays import FAIL, REFUSED, Bools, Catalogue, Floats, Ints, Remedy
from pipeline.rules.verdict import bits, codes
from pipeline.sheets.look_first import looked
from pipeline.sheets.report import SiteReport, SiteSummary
from pipeline.site.compute import Answer
from pipeline.site.wants import wants
from schemas.words import FIT_CODES, VERDICTS

_REACHED = {"viable": "serves", "viable_confirm": "confirm", "viable_extended": "extended"}


@dataclass(frozen=True)
class Reach:
    """What the catalogue does for some rows of one site; the counts of blocks of rows add up."""

    stops: Mapping[str, int]
    mounts: Mapping[str, Mapping[str, int]]
    boards: Mapping[str, int]
    wants: tuple[Mapping[str, Any], ...]  # posts that one new item would give a kit


def reach_of(rows: Sequence[int], quantity: Ints, answer: Answer, catalogue: Catalogue, lacking: tuple[Bools, Floats]) -> Reach:
    """The reach of rows, given by their numbers in `answer` and how many posts each is.

    `lacking` is what rules.wanted.needs says of each different post.
    """
    group = answer.group[np.asarray(rows, dtype=np.int64)]
    without = answer.start[group] == answer.start[group + 1]
    return Reach(
        _stops(answer, group, quantity, without),
        reach(answer, group, quantity, catalogue),
        _boards(answer, rows, quantity, catalogue),
        wants(quantity, answer, group, lacking),
    )


def _added(blocks: Sequence[Reach]) -> Reach:
    """The reach of a site, given that of its blocks."""
    mounts = {m: _sum(b.mounts[m] for b in blocks) for m in blocks[0].mounts}
    lacking = tuple(w for b in blocks for w in b.wants)
    return Reach(_sum(b.stops for b in blocks), mounts, _sum(b.boards for b in blocks), lacking)


def _sum(counts: Iterable[Mapping[str, int]]) -> dict[str, int]:
    total: Counter[str] = Counter()
    for some in counts:
        total.update(some)
    return dict(total)


def summary(
    report: SiteReport,
    site: dict[str, Any],
    extensions: Sequence[dict[str, Any]],
    remedies: Sequence[Remedy],
    blocks: Sequence[Reach],
) -> SiteSummary:
    """The summary of one site; `remedies` go with `report.posts`, `blocks` are those of its rows."""
    without = [(p, r) for p, r in zip(report.posts, remedies, strict=True) if not p.kit]
    confirms: Counter[str] = Counter()
    for p in report.posts:
        if p.kit:
            confirms.update(dict.fromkeys(p.kit.confirm, p.quantity))
    all_rows = _added(blocks)
    return SiteSummary(
        site=site,
        outcomes=_counted((p.outcome, p.quantity) for p in report.posts),
        goods=tuple(_plain(line) for line in report.lines if line.kind == "goods"),
        extensions=tuple(extensions),
        shortfalls=tuple(_shortfall(p, r) for p, r in without),
        stops=all_rows.stops,
        reach_mounts=all_rows.mounts,
        reach_boards=all_rows.boards,
        would_serve=_counted((r.serves, p.quantity) for p, r in without if r.serves),
        confirms=dict(sorted(confirms.items())),
        looked=tuple(one for p in report.posts if (one := looked(p))),
        wants=all_rows.wants,
        feet=report.feet,
        senders=tuple(sorted({row.file for row in (*(p.row for p in report.posts), *report.held)})),
    )


def as_plain(made: SiteSummary) -> dict[str, Any]:
    """The summary as JSON holds it."""
    return dict(vars(made))


def from_plain(plain: dict[str, Any]) -> SiteSummary:
    """The inverse of `as_plain` after a trip through JSON."""
    fields: dict[str, Any] = {k: tuple(v) if isinstance(v, list) else v for k, v in plain.items()}
    return SiteSummary(**fields)


def _plain(line: QuoteLine) -> dict[str, Any]:
    return {k: str(v) if isinstance(v, Decimal) else v for k, v in asdict(line).items()}


def _counted(pairs: Any) -> dict[str, int]:
    counts: Counter[str] = Counter()
    for name, quantity in pairs:
        counts[name] += quantity
    return dict(sorted(counts.items()))


def _shortfall(p: Any, remedy: Remedy) -> dict[str, Any]:
    """A post that no kit fits: how far the nearest mount of its kind is from serving it."""
    near = [m.shortfall for m in p.mounts if "SHAPE" not in m.failed and "SIZE" not in m.failed]
    return {
        "post_code": p.row.post_code,
        "quantity": p.quantity,
        "shape": p.row.post_shape or "",
        "size_m": p.size,
        "height_m": p.height,
        "target_m": p.target,
        "shortfall_m": min(near) if near else None,
        "remedy": remedy.sentence,
    }


def _stops(answer: Answer, group: Ints, quantity: Ints, without: np.ndarray) -> dict[str, int]:
    """Of the posts without a kit: how many each finding stops, taking for each post the mount that fails least."""
    if not without.any():
        return {}
    masks = bits(answer.fit.findings, FAIL, answer.fit.verdict.shape)[group[without]]
    if not masks.shape[1]:
        return {}
    many = sum((masks >> i) & 1 for i in range(len(FIT_CODES)))
    nearest = masks[np.arange(len(masks)), np.argmin(many, axis=1)]
    counts: Counter[str] = Counter()
    refused = answer.posts.cleared[group[without]] == REFUSED
    for mask, no, q in zip(nearest, refused, quantity[without], strict=True):
        counts.update(dict.fromkeys(("STRENGTH",) if no else codes(int(mask)) or ("BOARD",), int(q)))
    return dict(sorted(counts.items()))


def reach(answer: Answer, group: Ints, quantity: Ints, catalogue: Catalogue) -> dict[str, dict[str, int]]:
    """For each mount: posts that it serves, by verdict, and posts that each finding stops."""
    fit = answer.fit
    verdict = fit.verdict[group]
    masks = bits(fit.findings, FAIL, fit.verdict.shape)[group]
    served = {word: quantity @ (verdict == VERDICTS.index(v)) for v, word in _REACHED.items()}
    stopped = {code: quantity @ ((masks >> i) & 1) for i, code in enumerate(FIT_CODES)}
    counts = served | stopped
    return {m: {n: int(v[j]) for n, v in counts.items() if v[j]} for j, m in enumerate(catalogue.mounts.code)}


def _boards(answer: Answer, rows: Sequence[int], quantity: Ints, catalogue: Catalogue) -> dict[str, int]:
    """For each board: posts that have a kit with it."""
    counts: Counter[int] = Counter()
    for row, q in zip(rows, quantity, strict=True):
        k = answer.kits_of(row)
        counts.update(dict.fromkeys(np.unique(answer.kits.board[k.start : k.stop]).tolist(), int(q)))
    return {catalogue.boards.code[b]: n for b, n in sorted(counts.items())}

"""From rows to fit, kits and loads: posts that are alike are computed once, kits in blocks of posts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from functools import partial

import numpy as np

from pipeline import rounding
from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.loads.screen import screen
from pipeline.rules.alike import distinct
from pipeline.rules.arrays import Catalogue, Finding, Fit, Ints, Kits, Policy, Posts
from pipeline.rules.choice import Leading, Offered, Want, leading, offered, wanting
from pipeline.rules.fit import fit
from pipeline.rules.kits import kits
from pipeline.rules.post_arrays import posts

BLOCK = 64
"""Posts whose kits are worked out together: large enough for numpy, small enough for the cache."""


@dataclass(frozen=True)
class Answer:
    """What the rules say of n rows that stand for g different posts."""

    posts: Posts  # (g,)
    fit: Fit  # (g, m)
    kits: Kits  # by post, then rank
    start: Ints  # (g + 1,); kits of post i are start[i] to start[i + 1]
    group: Ints  # (n,); the post that each row stands for
    leading: Leading
    offered: Offered

    def kits_of(self, row: int) -> range:
        """Numbers of the kits of a row, best first."""
        g = self.group[row]
        return range(self.start[g], self.start[g + 1])


def work_out(
    rows: Sequence[SurveyRow], catalogue: Catalogue, policy: Policy, wants: Sequence[Want] = (), units: Sequence[int] = ()
) -> Answer:
    """Fit, kits and loads of n rows.

    `wants` says what the customer of each row wants, least price where it is empty; `units` in which units the sentences
    about each row say lengths, both where it is empty.
    """
    every = posts(rows, catalogue, policy)
    every = wanting(every, wants) if wants else every
    every = replace(every, units=np.array(units, dtype=np.int64)) if units else every
    first, group = distinct(every)
    some = every.take(first)
    found = fit(some, catalogue, policy)
    blocks = [np.arange(at, min(at + BLOCK, len(first))) for at in range(0, len(first), BLOCK)] or [first]
    kept = _joined([(b, kits(some.take(b), catalogue, _part(found, b), policy, partial(screen, policy=policy))) for b in blocks])
    start = np.searchsorted(kept.post, np.arange(len(first) + 1))
    return Answer(some, found, kept, start, group, leading(some, catalogue, kept), offered(kept))


def rounded(answer: Answer) -> Answer:
    """The answer as it is written, hashed and shown; rules that go on computing take the one that `work_out` gave."""
    return replace(answer, posts=rounding.posts(answer.posts), fit=rounding.fit(answer.fit), kits=rounding.kits(answer.kits))


def _part(whole: Fit, index: Ints) -> Fit:
    """The fit of some posts."""
    parts = {f.name: getattr(whole, f.name) for f in fields(whole)}
    findings = tuple(
        Finding(
            f.code,
            _rows(f.state, index),
            _rows(f.value, index),
            _rows(f.least, index),
            _rows(f.most, index),
            _rows(f.margin, index),
            f.unit,
        )
        for f in whole.findings
    )
    return Fit(**{n: v if n == "findings" else v[index] for n, v in parts.items()} | {"findings": findings})


def _rows(values: np.ndarray, index: Ints) -> np.ndarray:
    """Rows of an array that may stand for all posts at once."""
    return values[index] if values.ndim and values.shape[0] > 1 else values


def _joined(blocks: Sequence[tuple[Ints, Kits]]) -> Kits:
    """Kits of all blocks, numbered by post again."""
    load = {name: np.concatenate([k.load[name] for _, k in blocks]) for name in blocks[0][1].load}
    names = [f.name for f in fields(Kits) if f.name not in ("post", "load")]
    joined = {name: np.concatenate([getattr(k, name) for _, k in blocks]) for name in names}
    return Kits(post=np.concatenate([b[k.post] for b, k in blocks]), load=load, **joined)

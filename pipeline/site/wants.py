"""What the catalogue lacks: what each site's posts would need, and the rows of data/wanted.csv over all sites."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from pipeline.rounding import length
from pipeline.rules.arrays import Bools, Floats, Ints, Policy
from pipeline.rules.wanted import Need, wanted
from pipeline.site.compute import Answer
from pipeline.site.data_lines import known
from schemas.survey import SHAPES


def wants(quantity: Ints, answer: Answer, group: Ints, lacking: tuple[Bools, Floats]) -> tuple[dict[str, Any], ...]:
    """Posts of some rows that one new item would give a kit, as JSON holds them; `lacking` is what rules.wanted.needs says."""
    wanting, added = lacking
    return tuple(
        {
            "shape": SHAPES[answer.posts.shape[g]],
            "size_m": float(length(answer.posts.size[g])),
            "added_m": known(length(added[g])),
            "quantity": many,
        }
        for many, g in zip(quantity.tolist(), group.tolist(), strict=True)
        if wanting[g]
    )


def wanted_over(summaries: Iterable[Mapping[str, Any]], policy: Policy) -> list[dict[str, Any]]:
    """Rows of data/wanted.csv over the sites of some summaries (SiteSummary as plain values)."""
    sites = ((str(s["site"]["site_code"]), s["wants"]) for s in summaries)
    return wanted_rows(sites, float(policy["wanted_window"]))


def wanted_rows(sites: Iterable[tuple[str, Sequence[Mapping[str, Any]]]], window: float) -> list[dict[str, Any]]:
    """Rows of data/wanted.csv from each site's code and what its posts would need; `window` is policy `wanted_window` [m]."""
    needs = [
        Need(code, w["shape"], w["size_m"], math.nan if w["added_m"] is None else w["added_m"], w["quantity"])
        for code, some in sites
        for w in some
    ]
    return [
        {
            "rank": rank,
            "kind": w.kind,
            "post_shape": w.shape,
            "size_least_m": w.least,
            "size_most_m": w.most,
            "added_m": known(w.added),
            "posts": w.posts,
            "sites": len(w.site_codes),
            "site_codes": ";".join(w.site_codes),
        }
        for rank, w in enumerate(wanted(needs, window), start=1)
    ]

"""Ring heights of the post with the mount: formula, numbers put in, result, and which wanted heights are served."""

from __future__ import annotations

import math
from collections.abc import Iterator

from pipeline.explaining.case import POST, Case, setting
from pipeline.explaining.layout import heading, item, metres, paragraph
from pipeline.rules.arrays import SLACK
from pipeline.rules.plain import at_least, at_most, height
from pipeline.rules.ring_height import settings
from schemas.catalogue import ADJUSTMENTS
from schemas.policy import BY_NAME

_MOST = 24
"""Settings that are listed one by one."""


def heights(case: Case) -> Iterator[str]:
    """Lift, greatest ring height, margin, shortfall, settings, wanted heights."""
    yield from heading(f"Ring heights with mount {case.mount_code}")
    yield from _reach(case)
    yield from _settings(case)
    yield from _wanted(case)
    source = BY_NAME["ring_height_tolerance"].source
    yield from paragraph(f"Source: geometry, and the catalogue's figures of the mount; tolerance: {source}.")


def _reach(case: Case) -> Iterator[str]:
    p, fit, mounts, m = case.answer.posts, case.answer.fit, case.catalogue.mounts, case.mount
    needed, ring = float(mounts.needed[m]), float(mounts.for_ring[m])
    H, c, T = float(p.height[POST]), float(p.court_rise[POST]), float(p.target[POST])
    top, margin, short = (case.pair(v) for v in (fit.ring_height_max, fit.margin, fit.shortfall))
    yield from item("Lift of the mount", f"a = for ring height - post height needed = {metres(ring)} - {metres(needed)}"
                    f" = {metres(ring - needed)} {'above' if ring >= needed else 'below'} the post's top")  # fmt: skip
    yield from item("Greatest ring height", f"z_max = H - c + a = {metres(H)} - {_term(c)} + {_term(ring - needed)}"
                    f" = {metres(top)} = {at_most(top)}, without an extension")  # fmt: skip
    yield from item("Target", f"T = the greatest wanted ring height = {metres(T)} = {height(T)}")
    yield from item("Margin", f"z_max - T = {metres(top)} - {metres(T)} = {metres(margin)}")
    yield from item("Tolerance", f"tol = {setting(case.left.kept, 'ring_height_tolerance')}")
    why = f" = {at_least(short)}" if short else ": the margin is within the tolerance"
    yield from item("Shortfall", f"-margin where margin < -tol, else 0: {metres(short)}{why}")


def _term(value: float) -> str:
    return metres(value) if value >= 0 else f"({metres(value)})"


def _settings(case: Case) -> Iterator[str]:
    fit, mounts, m, T = case.answer.fit, case.catalogue.mounts, case.mount, float(case.answer.posts.target[POST])
    top, low, greatest, added = (case.pair(v) for v in (fit.top, fit.lowered, fit.ring_height_max, fit.added))
    with_it = f" + {metres(added)} of extension {case.extension_code}" if case.extension_code else ""
    yield from item("Highest setting", f"z_top = min({metres(greatest)}{with_it}, {metres(T)}) = {metres(top)} = {at_most(top)}")
    yield from item("Clamped lower by", f"x = max(0, {metres(case.pair(fit.margin))}{with_it}) = {metres(low)}")
    listed = settings(mounts, m, top)
    travel, step, kind = float(mounts.travel[m]), float(mounts.step[m]), ADJUSTMENTS[int(mounts.adjustment[m])]
    if kind == "continuous":
        text = f"continuous: z_top - travel to z_top = {metres(listed[-1])} to {metres(top)}"
    elif kind == "stepped":
        shown = ", ".join(metres(z) for z in listed[:_MOST]) + (f" and {len(listed) - _MOST} more" if len(listed) > _MOST else "")
        most = len(listed) - 1
        text = f"stepped: z_top - k x {metres(step)}, k = 0 to {most} (travel {metres(travel)}): {shown}"
    else:
        text = f"fixed: {metres(top)} alone"
    yield from item("Settings", text)


def _wanted(case: Case) -> Iterator[str]:
    """Each wanted height: the setting nearest to it, and whether that serves."""
    p, fit = case.answer.posts, case.answer.fit
    near = float(case.policy["ring_height_tolerance"]) + SLACK
    for z in sorted((float(w) for w in p.wanted[POST] if not math.isnan(w)), reverse=True):
        best = nearest_setting(case, z)
        off = abs(best - z)
        served = "served" if off <= near else "not served"
        yield from item(f"Wanted {metres(z)}", f"{height(z)}: {served}; the nearest setting is {metres(best)}, {metres(off)} off")
    covered, wanted = int(fit.covered[POST, case.mount]), int(fit.wanted[POST])
    yield from item("Served", f"{covered} of {wanted} wanted heights, each where a setting is within the tolerance")


def nearest_setting(case: Case, wanted: float) -> float:
    """The setting of the mount that is nearest to a wanted height [m]."""
    mounts, m = case.catalogue.mounts, case.mount
    every = settings(mounts, m, case.pair(case.answer.fit.top))
    if ADJUSTMENTS[int(mounts.adjustment[m])] == "continuous":
        return min(max(wanted, every[-1]), every[0])
    return min(every, key=lambda z: abs(z - wanted))

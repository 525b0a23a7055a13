"""Which extensions were looked at for the post with the mount, and why each was or was not taken."""

from __future__ import annotations

import math
from collections.abc import Iterator

from pipeline.explaining.case import POST, Case
from pipeline.explaining.layout import heading, metres, paragraph, table
from pipeline.rules.arrays import SLACK
from pipeline.rules.extension import SPIGOT
from pipeline.rules.plain import at_least
from schemas.catalogue import JOINTS
from schemas.survey import SHAPES

_RULE = (
    "It must go on the post (shape, size, joint length, a spigot's bore), be of a size that the mount takes, add at least the "
    "shortfall less the tolerance, and have clear length for the clamps. Of those that do: the least added height, then "
    "the least price, then the code."
)


def extensions(case: Case) -> Iterator[str]:
    """The choice of extension, and every active one with what speaks against it."""
    yield from heading(f"Extension for post {case.row.post_code} with mount {case.mount_code}")
    fit, many = case.answer.fit, len(case.catalogue.extensions.code)
    short = case.pair(fit.shortfall)
    if not _needed(case):
        within = " within the uncertainty of the measured height, so the height is to be confirmed" if short else ""
        reason = f"the ring is short by {metres(short)},{within}" if short else "the ring reaches its target"
        yield from paragraph(f"None is looked for: {reason}.")
        return
    yield from paragraph(f"One is needed: the ring is short by {metres(short)} = {at_least(short)}. {_RULE}")
    if not many:
        yield from paragraph("The catalogue has no active extension.")
        return
    rows = [[case.catalogue.extensions.code[e], *_figures(case, e), _why(case, e)] for e in preference(case)]
    yield from table(("code", "adds", "price", "taken, or why not"), rows)
    if not case.extension_code:
        yield from paragraph("None will do: the pair fails HEIGHT.")
    yield from paragraph("Source: the catalogue's figures of mount and extension; order: house rule.")


def _needed(case: Case) -> bool:
    """Whether the post is too short beyond tolerance and uncertainty."""
    margin, u = case.pair(case.answer.fit.margin), float(case.answer.posts.height_uncertainty[POST])
    return margin < -(float(case.policy["ring_height_tolerance"]) + u) - SLACK


def preference(case: Case) -> list[int]:
    """Numbers of the active extensions, the most wanted first. Source: design section 5, extension."""
    e = case.catalogue.extensions
    return sorted(range(len(e.code)), key=lambda i: (round(float(e.added[i]), 9), int(e.price[i]), e.code[i]))


def _figures(case: Case, e: int) -> tuple[str, str]:
    x = case.catalogue.extensions
    return metres(float(x.added[e])), f"{int(x.price[e]) * case.catalogue.price_unit} {case.currency}"


def _why(case: Case, e: int) -> str:
    if e == int(case.answer.fit.extension[POST, case.mount]):
        return "TAKEN"
    return "; ".join(against(case, e)) or "would do; another comes first"


def against(case: Case, e: int) -> Iterator[str]:
    """What speaks against an extension; nothing where it would do. One for another shape needs no further reason."""
    shape = int(case.catalogue.extensions.shape[e])
    if int(case.answer.posts.shape[POST]) != shape:
        yield f"for {SHAPES[shape]} posts"
        return
    yield from _on_the_post(case, e)
    yield from _under_the_mount(case, e)


def _on_the_post(case: Case, e: int) -> Iterator[str]:
    p, x = case.answer.posts, case.catalogue.extensions
    D, bore, clear = float(p.size[POST]), float(p.size[POST] - 2 * p.wall[POST]), float(p.clear_length[POST])
    if not x.size_least[e] - SLACK <= D <= x.size_most[e] + SLACK:
        yield f"takes {_window(x.size_least[e], x.size_most[e])}, the post has {metres(D)}"
    if x.joint_length[e] > clear + SLACK:
        yield f"its {JOINTS[int(x.joint[e])]} laps {metres(float(x.joint_length[e]))}, {metres(clear)} is clear"
    if int(x.joint[e]) == SPIGOT and (bore < x.bore_least[e] - SLACK or bore > x.bore_most[e] + SLACK):
        yield f"its spigot enters a bore of {_window(x.bore_least[e], x.bore_most[e])}, the post's is {metres(bore)}"


def _under_the_mount(case: Case, e: int) -> Iterator[str]:
    mounts, x, m = case.catalogue.mounts, case.catalogue.extensions, case.mount
    short, added, upper = case.pair(case.answer.fit.shortfall), float(x.added[e]), float(x.upper_size[e])
    if not mounts.size_least[m] - SLACK <= upper <= mounts.size_most[m] + SLACK:
        yield f"its upper tube is {metres(upper)}, the mount takes {_window(mounts.size_least[m], mounts.size_most[m])}"
    if added < short - float(case.policy["ring_height_tolerance"]) - SLACK:
        yield f"adds {metres(short - added)} too little"
    need, clear = max(0.0, added - short) + float(mounts.clamp_length[m]), float(x.upper_clear[e])
    if need > clear + SLACK:
        yield f"the clamps need {metres(need)} of its upper tube, {metres(clear)} is clear"


def _window(least: float, most: float) -> str:
    if not math.isnan(least + most):
        return f"{metres(float(least))} to {metres(float(most))}"
    return f"at least {metres(float(least))}" if math.isnan(most) else f"at most {metres(float(most))}"

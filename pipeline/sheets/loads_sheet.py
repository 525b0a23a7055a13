"""The sheet `Loads`: the rough installed load of each recommended kit, in plain words, and where it comes from."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from pipeline.sheets import show
from pipeline.sheets.report import KitReport, PostReport, Setting, SiteReport
from pipeline.sheets.setup import finish, shared
from pipeline.sheets.wording import load, posts_named
from pipeline.xlsx.page import Book, Page
from pipeline.xlsx.values import As, Col
from schemas.words import CAUTION, NOT_LOOKED_AT

_EXPLAINED = """\
A post is bent most where it leaves the ground. 'Moment at the ground' is that bending, in newton metres: a force times \
the height or the distance at which it acts.
Two cases are looked at. Play: the weight of what hangs there, somebody hanging on the ring or pushing it, and the wind in \
which people still play; the worse of hanging and pushing counts. Storm: the weight, and the design wind of the place, at \
six tenths as allowable stress design has it (ASCE 7-16, 2.4).
'Share of strength' sets that against what a steel tube of the stated wall carries (AISC 360-16, allowable stress design), \
with its axial load and with the sway that the load adds. At 100 % the rough strength is used up. Where the wall, the \
material or the extension's rating is not known there is no share; 'wall to look for' is then the least wall at which the \
post would just carry the worse case.
'Footing depth' is what the building code's formula for a post in open ground asks for (IBC 1807.3.2.1), with the stated \
or assumed concrete and soil; never dig in less than the local frost depth. A post on a base plate has none: its anchors \
are for an engineer.
'Ring deflection' is how far the ring's centre goes down under the hanging load, by the bending of the post alone."""
NO_BREAK = "\N{NO-BREAK SPACE}%"
NOT_STEEL = "not a steel post"
EXPLANATION = tuple(_EXPLAINED.splitlines())
"""Paragraphs that explain the figures to a reader who is no engineer."""


COLUMNS = [
    Col("Post", "bold", 24),
    Col("Posts alike", "whole"),
    Col("Kit", "text", 30, 22),
    Col("Answer", "text", 28),
    Col("Share of strength, play", "right", 14),
    Col("Share of strength, storm", "right", 14),
    Col("Play moment at the ground", "right", 18),
    Col("Storm moment at the ground", "right", 18),
    Col("Wall stated", "right", 14),
    Col("Wall to look for", "right", 18),
    Col("Footing depth", "right", 18),
    Col("Ring deflection", "right", 18),
    Col("Hung mass", "right", 12),
]
"""Headings of the answer, and of what to look for."""


def cells(post: PostReport, kit: KitReport, feet: bool) -> list[Any]:
    """The answer for one post, what to look for, and what else was worked out; SI beside what was computed."""
    base_plate = post.row.post_base == "base plate"
    no_depth = "anchors: engineer" if base_plate else show.NOT_COMPUTED
    return [
        show.kit(kit.mount, kit.board, kit.ring, kit.extension),
        As(*load(kit)),
        show.share(kit.utilisation_play),
        show.share(kit.utilisation_storm),
        show.moment(kit.moment_play, feet),
        show.moment(kit.moment_storm, feet),
        show.UNKNOWN if post.wall is None else show.wall(post.wall, feet),
        _no_wall(post) if kit.wall_needed is None else show.wall_to_look_for(kit.wall_needed, feet),
        no_depth if kit.footing_depth_needed is None else show.depth(kit.footing_depth_needed, feet),
        show.UNKNOWN if kit.ring_sag is None else show.deflection(kit.ring_sag, feet),
        show.mass(kit.hung_mass, feet),
    ]


def _no_wall(post: PostReport) -> str:
    asked = (post.row.material or "unknown") in ("steel", "unknown")
    return "none is enough" if asked else NOT_STEEL


def takes(post: PostReport, kit: KitReport, feet: bool) -> str:
    """How much of the strength the load takes; where the wall is not known, the least wall to look for."""
    storm, play = kit.utilisation_storm, kit.utilisation_play
    if storm is not None and play is not None:
        worse, case = (storm, "a storm") if storm >= play else (play, "play")
        if math.isinf(worse):
            return f"the post is {show.TOO_SLENDER}: only a licensed engineer can clear it"
        over = ", and only a licensed engineer can clear it" if kit.load_state == "over" else ""
        return f"the load takes {show.share(worse)} of the rough strength, in {case}{over}"
    if kit.wall_needed is not None:
        needed = show.wall_to_look_for(kit.wall_needed, feet)
        known = "the wall is not known" if post.wall is None else "the strength is not known"
        return f"{known}: look for a wall of at least {needed}"
    if _no_wall(post) == NOT_STEEL:
        return "the strength is not known, since this screen is for steel posts only: ask a licensed engineer"
    return "the strength is not known, and no wall of a steel tube of this size would carry the load: ask a licensed engineer"


def parts(kit: KitReport, case: str) -> str:
    """The parts of a moment at the ground in words, the greatest first: `push at the ring 73 %, ...`."""
    moments = [(getattr(part, case), part.what) for part in kit.shares]
    whole = sum(moment for moment, _ in moments)
    if not whole > 0:
        return show.NOT_COMPUTED
    moments.sort(key=lambda part: -part[0])
    return ", ".join(
        f"{_small_first(what)} {show.share(moment / whole)}".replace(" %", NO_BREAK) for moment, what in moments if moment
    )


def _small_first(words: str) -> str:
    return words[:1].lower() + words[1:]


def in_words(posts: Sequence[PostReport], feet: bool) -> list[tuple[str, str]]:
    """Sentences on the load of each recommended kit and where it comes from, with their style; alike ones said once."""
    found: dict[tuple[str, str], list[PostReport]] = {}
    for post in posts:
        kit = post.kit
        if kit:
            told = takes(post, kit, feet)
            if any(part.play or part.storm for part in kit.shares):
                told += f". In play the bending at the ground comes from: {parts(kit, 'play')}"
                told += f". In a storm: {parts(kit, 'storm')}"
            found.setdefault((told, "bad" if kit.load_state == "over" else "para"), []).append(post)
    return [(f"{posts_named(alike, 60)}: {told}.", style) for (told, style), alike in found.items()]


def write_loads(book: Book, report: SiteReport, setting: Setting) -> None:
    """Writes the sheet."""
    page = book.page("Loads", "#8A3B12")
    page.title("Loads: a rough screen of each recommended kit on its post")
    row = page.para(1, CAUTION, "caution")
    row = page.para(row, NOT_LOOKED_AT, "strong")
    rows = shared((p, cells(p, p.kit, report.feet)) for p in report.posts if p.kit)
    if rows:
        row = page.table(row, "loads_rough", COLUMNS, rows, "Rough load of each recommended kit")
        row = _block(page, row, "In plain words, post by post", in_words(report.posts, report.feet))
    else:
        row = page.para(row + 1, "No post of this site has a kit, so there is no load to show.", "strong")
    _block(page, row, "What the figures mean", [(text, "para") for text in EXPLANATION])
    finish(page, report, 0)


def _block(page: Page, row: int, title: str, entries: Sequence[tuple[str, str]]) -> int:
    """A titled list of sentences, kept on one page."""
    if not entries:
        return row
    first = row + 1
    row = page.section(first, title, 8)
    for text, style in entries:
        row = page.para(row, text, style)
    page.keep(first, row - 1)
    return row

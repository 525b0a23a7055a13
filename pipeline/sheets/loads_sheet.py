"""The sheet `Loads`: what the screen found in words, then the figures, then where they come from."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from pipeline.sheets import load_words, show
from pipeline.sheets.report import KitReport, PostReport, Setting, SiteReport
from pipeline.sheets.setup import finish, shared
from pipeline.xlsx.page import Book, Page
from pipeline.xlsx.values import As, Col
from schemas.lengths import MPH
from schemas.words import CAUTION, NOT_LOOKED_AT

_EXPLAINED = """\
A post is bent most where it leaves the ground; a driven one, with no concrete round it, a little below. 'Moment at the \
ground' is that bending: a force times the height or the distance at which it acts. Of a driven post the share of strength \
counts the greater bending below; its length is still taken from the ground up, which is on the unsafe side in soft ground.
Two cases are looked at. Play: the weight of what hangs there, somebody hanging on the ring or pushing it, and the wind in \
which people still play; the worse of hanging and pushing counts. Storm: the weight, and the design wind of the place, at \
six tenths as allowable stress design has it (ASCE 7-16, 2.4).
'Share of strength' sets that against what a steel tube of the stated wall carries (AISC 360-16, allowable stress design), \
with its axial load and with the sway that the load adds. At 100 % the rough strength is used up. Where the wall, the \
material or the extension's rating is not known there is no share; 'wall to look for' is then the least wall at which the \
post would just carry the worse case. It is rounded up.
'Footing depth' is what the building code's formula for a post in open ground asks for (IBC 1807.3.2.1), with the stated \
or assumed concrete and soil, rounded up; never dig in less than the local frost depth. A post on a base plate has none: its \
anchors are for an engineer.
'Ring deflection' is how far the ring's centre goes down under the hanging load, by the bending of the post alone. 'Torque at \
the clamps' is that of a pull sideways on the ring, for the mount's maker to judge.
'A quarter of the wall gone' is what rust at the ground line may have taken; '25 ksi' is steel softer than the usual floor for \
an old post of unknown grade; 'the next wind step' is 1.13 times the design wind."""
EXPLANATION = tuple(_EXPLAINED.splitlines())
"""Paragraphs that explain the figures to a reader who is no engineer."""

FOUND = [
    Col("Post", "bold", 22),
    Col("Posts alike", "whole"),
    Col("Kit", "text", 26, 20),
    Col("Answer", "text", 22),
    Col("Share of strength", "right", 14),
    Col("Footing", "text", 26),
    Col("Widest board within 80 %", "right", 16),
    Col("To measure or ask next", "text", 20),
]
"""Headings of what was found."""

FIGURES = [
    Col("Post", "bold", 22),
    Col("Posts alike", "whole"),
    Col("Share in play", "right", 14),
    Col("Share in storm", "right", 14),
    Col("Play moment at the ground", "right", 18),
    Col("Storm moment at the ground", "right", 18),
    Col("Wall stated", "right", 14),
    Col("Wall to look for", "right", 16),
    Col("Footing depth", "right", 16),
    Col("Ring deflection", "right", 16),
    Col("Hung mass", "right", 12),
    Col("Torque at the clamps", "right", 18),
]
"""Headings of the figures."""

CHANGES = [
    Col("Post", "bold", 22),
    Col("Posts alike", "whole"),
    Col("Share now", "right", 14),
    Col("With a quarter of the wall gone", "right", 16),
    Col("Of steel of 25 ksi (172 MPa)", "right", 16),
    Col("At the next wind step (x 1.13)", "right", 16),
    Col("Design wind", "right", 16),
    Col("Wind at which it reaches 100 %", "right", 18),
]
"""Headings of what would change the answer."""


def found(post: PostReport, kit: KitReport, feet: bool) -> list[Any]:
    """The answer for one post."""
    widest = kit.margins.widest_board if kit.margins else None
    return [
        show.kit(kit.mount, kit.board, kit.ring, kit.extension),
        As(*load_words.answer(kit)),
        show.share(load_words.worse(kit)),
        As(*load_words.footing(post, kit, feet)),
        "none" if widest is None else show.length(widest, feet),
        load_words.next_to_measure(post),
    ]


def figures(post: PostReport, kit: KitReport, feet: bool) -> list[Any]:
    """The figures of one post, of two or three digits; walls and depths rounded up."""
    no_depth = "anchors: engineer" if post.row.post_base == "base plate" else show.NOT_COMPUTED
    torque = kit.margins.torque if kit.margins else None
    return [
        show.share(kit.utilisation_play),
        show.share(kit.utilisation_storm),
        show.moment(kit.moment_play, feet),
        show.moment(kit.moment_storm, feet),
        show.UNKNOWN if post.wall is None else show.wall(post.wall, feet),
        load_words.no_wall(post) if kit.wall_needed is None else show.wall_to_look_for(kit.wall_needed, feet),
        no_depth if kit.footing_depth_needed is None else show.depth(kit.footing_depth_needed, feet),
        show.UNKNOWN if kit.ring_sag is None else show.deflection(kit.ring_sag, feet),
        show.mass(kit.hung_mass, feet),
        show.NOT_COMPUTED if torque is None else show.moment(torque, feet),
    ]


def changes(post: PostReport, kit: KitReport, feet: bool) -> list[Any]:
    """What would change the answer at one post."""
    m = kit.margins
    return [
        show.share(load_words.worse(kit)),
        *(show.share(share) for share in ((m.rusted, m.soft, m.windier) if m else (None, None, None))),
        show.speed(post.wind_speed, feet) if post.wind_speed == post.wind_speed else show.UNKNOWN,
        _limit(m.wind_limit if m else None, feet),
    ]


def _limit(speed: float | None, feet: bool) -> str:
    """Wind speed at which the share reaches 1, rounded down: never more than it is."""
    if speed is None:
        return show.UNKNOWN
    if not speed:
        return "over without wind"
    if math.isinf(speed):
        return "none up to 150 m/s"
    return f"{math.floor(speed / MPH):.0f} mph" if feet else f"{math.floor(speed):.0f} m/s"


def write_loads(book: Book, report: SiteReport, setting: Setting) -> None:
    """Writes the sheet: words and answer first, then the figures, then where they come from."""
    page, feet = book.page("Loads", "#8A3B12"), report.feet
    page.title("Loads: a rough screen of each recommended kit on its post")
    row = page.para(1, CAUTION, "caution")
    posts = [(p, p.kit) for p in report.posts if p.kit]
    if posts:
        row = _block(page, row, "What was found", load_words.found(report.posts, feet))
        row = page.table(
            row + 1, "loads_found", FOUND, shared((p, found(p, k, feet)) for p, k in posts), "What the screen found at each post"
        )
        row = page.para(row, NOT_LOOKED_AT, "strong")
        row = _table(page, row, "Figures", FIGURES, shared((p, figures(p, k, feet)) for p, k in posts), "loads_rough")
        title = "What would change the answer"
        row = _table(page, row, title, CHANGES, shared((p, changes(p, k, feet)) for p, k in posts), "loads_changes")
        row = _block(page, row, "Where the bending comes from", load_words.parts(report.posts))
    else:
        row = page.para(row, NOT_LOOKED_AT, "strong")
        row = page.para(row + 1, "No post of this site has a kit, so there is no load to show.", "strong")
    _block(page, row, "What the figures mean", [(text, "para") for text in (*EXPLANATION, load_words.GAUGE)])
    finish(page, report, 0)


def _table(page: Page, row: int, title: str, columns: Sequence[Col], rows: list[list[Any]], name: str) -> int:
    """A titled table, begun on the page on which its first rows stand."""
    first = row + 1
    row = page.table(page.section(first, title, len(columns)), name, columns, rows, title)
    page.keep(first, min(row - 1, first + 4))
    return row


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

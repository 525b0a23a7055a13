"""The sheet `Loads`: the rough installed load of each recommended kit, in plain words, and where it comes from."""

from __future__ import annotations

import math
from typing import Any

from pipeline.books import show
from pipeline.books.cells import As, Col
from pipeline.books.model import KitReport, PostReport, Setting, SiteReport
from pipeline.books.page import Book, Page
from pipeline.books.setup import finish, length_columns, length_values
from pipeline.books.wording import load
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
'Ring sag' is how far the ring's centre goes down under the hanging load, by the bending of the post alone."""
EXPLANATION = tuple(_EXPLAINED.splitlines())
"""Paragraphs that explain the figures to a reader who is no engineer."""


def columns(feet: bool) -> list[Col]:
    """Headings of the table."""
    pounds = [Col("Play moment at the ground [lbf ft]", "whole", 12)] if feet else []
    storm = [Col("Storm moment at the ground [lbf ft]", "whole", 12)] if feet else []
    return [
        Col("Post", "bold", 24),
        Col("Kit", "text", 40, 30),
        Col("Posts alike", "whole"),
        Col("Answer", "text", 24),
        Col("Share of strength, play", "right", 14),
        Col("Share of strength, storm", "right", 14),
        *pounds,
        Col("Play moment at the ground [N m]", "whole", 12),
        *storm,
        Col("Storm moment at the ground [N m]", "whole", 12),
        Col("Least to look for: post", "bold", 24),
        Col("Wall stated [mm]", "number1"),
        Col("Wall to look for [in]" if feet else "Wall to look for [mm]", "number2"),
        *([Col("Wall to look for [mm]", "number2")] if feet else []),
        *length_columns("Footing depth", feet),
        Col("Ring sag [in]" if feet else "Ring sag [mm]", "number2" if feet else "number1"),
        *([Col("Ring sag [mm]", "number1")] if feet else []),
        *([Col("Hung mass [lb]", "number1")] if feet else []),
        Col("Hung mass [kg]", "number1"),
    ]


def row_of(post: PostReport, kit: KitReport, feet: bool) -> list[Any]:
    """One row of the table."""
    pair = (lambda v: _moment(v, feet)) if feet else (lambda v: [_known(v, show.NOT_COMPUTED)])
    base_plate = post.row.values.get("post_base") == "base plate"
    return [
        post.row.post_code,
        show.kit(kit.mount, kit.board, kit.ring, kit.extension),
        post.quantity,
        As(*load(kit)),
        show.share(kit.utilisation_play),
        show.share(kit.utilisation_storm),
        *pair(kit.moment_play),
        *pair(kit.moment_storm),
        post.row.post_code,
        _known(post.wall, show.UNKNOWN, 1000),
        *_small(kit.wall_needed, feet, _no_wall(post)),
        *length_values(kit.footing_depth_needed, feet, "anchors: engineer" if base_plate else show.NOT_COMPUTED),
        *_small(kit.ring_sag, feet, show.UNKNOWN),
        *([_known(kit.hung_mass, show.NOT_COMPUTED, 1 / show.POUND)] if feet else []),
        _known(kit.hung_mass, show.NOT_COMPUTED),
    ]


def _no_wall(post: PostReport) -> str:
    asked = post.row.values.get("material", "unknown") in ("steel", "unknown")
    return "none is enough" if asked else "not a steel post"


def _known(value: float | None, missing: str, scale: float = 1.0) -> Any:
    return As(missing, "right") if value is None or math.isnan(value) else value * scale


def _moment(value: float, feet: bool) -> list[Any]:
    return [_known(value, show.NOT_COMPUTED, 1 / (show.POUND_FORCE * show.INCH * 12)), _known(value, show.NOT_COMPUTED)]


def _small(value: float | None, feet: bool, missing: str) -> list[Any]:
    millimetres = _known(value, missing, 1000)
    return [_known(value, missing, 1 / show.INCH), millimetres] if feet else [millimetres]


def share_rows(report: SiteReport) -> list[list[Any]]:
    """Where the moments come from: a row a post and part, with the part's share of the whole."""
    made: list[list[Any]] = []
    for post in report.posts:
        kit = post.kit
        if kit is None or not kit.shares:
            continue
        play, storm = sum(s.play for s in kit.shares), sum(s.storm for s in kit.shares)
        for part in kit.shares:
            shares = [part.play / play if play else 0.0, part.storm / storm if storm else 0.0]
            made.append([post.row.post_code, part.what, part.play, shares[0], part.storm, shares[1]])
    return made


def write_loads(book: Book, report: SiteReport, setting: Setting) -> None:
    """Writes the sheet."""
    page = book.page("Loads", "#8A3B12")
    page.title("Loads: a rough screen of each recommended kit on its post")
    row = page.para(1, CAUTION, "caution")
    row = page.para(row, NOT_LOOKED_AT, "strong")
    rows = [row_of(post, post.kit, report.feet) for post in report.posts if post.kit]
    top = 0
    if rows:
        top = row
        row = page.table(top, "loads_rough", columns(report.feet), rows, "Rough load of each recommended kit")
    else:
        row = page.para(row + 1, "No post of this site has a kit, so there is no load to show.", "strong")
    row = page.section(row + 1, "What the figures mean", 8)
    row = page.paras(row, EXPLANATION)
    if rows:
        _shares(page, row + 1, share_rows(report))
    split = (10 if report.feet else 8) if rows else 0
    if split:
        page.title("What to look for, and what else was worked out", split)
    finish(page, report, top, split=split)


def _shares(page: Page, row: int, rows: list[list[Any]]) -> None:
    row = page.section(row, "Where the moments at the ground come from", 8)
    if not rows:
        page.para(row, "The parts were not computed for this site.")
        return
    cols = [
        Col("Post", "bold", 24),
        Col("Part", "text", 44),
        Col("Play [N m]", "whole"),
        Col("Of the play moment [%]", "percent"),
        Col("Storm [N m]", "whole"),
        Col("Of the storm moment [%]", "percent"),
    ]
    page.table(row, "loads_parts", cols, rows, "Parts of the moments at the ground")

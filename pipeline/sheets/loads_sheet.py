"""The sheet `Loads`: the rough installed load of each recommended kit, in plain words, and where it comes from."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from pipeline.sheets import show
from pipeline.sheets.report import KitReport, PostReport, Setting, SiteReport
from pipeline.sheets.setup import finish, length_columns, length_values
from pipeline.sheets.wording import load, posts_named
from pipeline.xlsx.page import Book, Page
from pipeline.xlsx.values import As, Band, Col
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
NO_BREAK = "\N{NO-BREAK SPACE}%"
NOT_STEEL = "not a steel post"
CASES = {"play": "Play", "storm": "Storm"}
EXPLANATION = tuple(_EXPLAINED.splitlines())
"""Paragraphs that explain the figures to a reader who is no engineer."""


def columns(feet: bool) -> list[Col]:
    """Headings of the answer."""
    return [
        Col("Post", "bold", 24),
        Col("Kit", "text", 26, 20),
        Col("Posts alike", "whole"),
        Col("Answer", "text", 24),
        Col("Share of strength, play", "right", 14),
        Col("Share of strength, storm", "right", 14),
        *([Col("Play moment at the ground [lbf ft]", "whole", 12)] if feet else []),
        Col("Play moment at the ground [N m]", "whole", 12),
        *([Col("Storm moment at the ground [lbf ft]", "whole", 12)] if feet else []),
        Col("Storm moment at the ground [N m]", "whole", 12),
    ]


def row_of(post: PostReport, kit: KitReport, feet: bool) -> list[Any]:
    """The answer for one post."""
    return [
        post.row.post_code,
        show.kit(kit.mount, kit.board, kit.ring, kit.extension),
        post.quantity,
        As(*load(kit)),
        show.share(kit.utilisation_play),
        show.share(kit.utilisation_storm),
        *_moment(kit.moment_play, feet),
        *_moment(kit.moment_storm, feet),
    ]


def least_columns(feet: bool) -> list[Col]:
    """Headings of what to look for; the first names the post again."""
    return [
        Col("Least to look for: post", "bold", 24),
        Col("Wall stated [mm]", "number1"),
        *([Col("Wall to look for [in]", "number2", 16)] if feet else []),
        Col("Wall to look for [mm]", "number2", 16),
        *length_columns("Footing depth", feet),
        *([Col("Ring sag [in]", "number2")] if feet else []),
        Col("Ring sag [mm]", "number1"),
        *([Col("Hung mass [lb]", "number1")] if feet else []),
        Col("Hung mass [kg]", "number1"),
    ]


def least_row(post: PostReport, kit: KitReport, feet: bool) -> list[Any]:
    """What to look for at one post, and what else was worked out."""
    base_plate = post.row.post_base == "base plate"
    return [
        post.row.post_code,
        _known(post.wall, show.UNKNOWN, 1000),
        *_small(kit.wall_needed, feet, _no_wall(post)),
        *length_values(kit.footing_depth_needed, feet, "anchors: engineer" if base_plate else show.NOT_COMPUTED),
        *_small(kit.ring_sag, feet, show.UNKNOWN),
        *([_known(kit.hung_mass, show.NOT_COMPUTED, 1 / show.POUND)] if feet else []),
        _known(kit.hung_mass, show.NOT_COMPUTED),
    ]


def _no_wall(post: PostReport) -> str:
    asked = (post.row.material or "unknown") in ("steel", "unknown")
    return "none is enough" if asked else NOT_STEEL


def _known(value: float | None, missing: str, scale: float = 1.0) -> Any:
    return As(missing, "right") if value is None or math.isnan(value) else value * scale


def _moment(value: float, feet: bool) -> list[Any]:
    pounds = [_known(value, show.NOT_COMPUTED, 1 / (show.POUND_FORCE * show.INCH * 12))] if feet else []
    return [*pounds, _known(value, show.NOT_COMPUTED)]


def _small(value: float | None, feet: bool, missing: str) -> list[Any]:
    millimetres = _known(value, missing, 1000)
    return [_known(value, missing, 1 / show.INCH), millimetres] if feet else [millimetres]


def takes(post: PostReport, kit: KitReport) -> str:
    """How much of the strength the load takes; where the wall is not known, the least wall to look for."""
    storm, play = kit.utilisation_storm, kit.utilisation_play
    if storm is not None and play is not None:
        worse, case = (storm, "a storm") if storm >= play else (play, "play")
        if math.isinf(worse):
            return f"the post is {show.TOO_SLENDER}: only a licensed engineer can clear it"
        over = ", and only a licensed engineer can clear it" if kit.load_state == "over" else ""
        return f"the load takes {show.share(worse)} of the rough strength, in {case}{over}"
    if kit.wall_needed is not None:
        needed = f"{kit.wall_needed * 1000:.2f} mm ({kit.wall_needed / show.INCH:.2f} in)"
        known = "the wall is not known" if post.wall is None else "the strength is not known"
        return f"{known}: look for a wall of at least {needed}"
    if _no_wall(post) == NOT_STEEL:
        return "the strength is not known, since this screen is for steel posts only: ask a licensed engineer"
    return "the strength is not known, and no wall of a steel tube of this size would carry the load: ask a licensed engineer"


def whence(kit: KitReport, case: str) -> str:
    """The parts of a moment at the ground in words, the greatest first: `push at the ring 73 %, ...`."""
    parts = [(getattr(part, case), part.what) for part in kit.shares]
    whole = sum(moment for moment, _ in parts)
    if not whole > 0:
        return show.NOT_COMPUTED
    parts.sort(key=lambda part: -part[0])
    return ", ".join(
        f"{_small_first(what)} {show.share(moment / whole)}".replace(" %", NO_BREAK) for moment, what in parts if moment
    )


def _small_first(words: str) -> str:
    return words[:1].lower() + words[1:]


def in_words(posts: Sequence[PostReport]) -> list[tuple[str, str]]:
    """Sentences on the load of each recommended kit and where it comes from, with their style; alike ones said once."""
    found: dict[tuple[str, str], list[PostReport]] = {}
    for post in posts:
        kit = post.kit
        if kit:
            told = takes(post, kit)
            if any(part.play or part.storm for part in kit.shares):
                told += f". In play the bending at the ground comes from: {whence(kit, 'play')}"
                told += f". In a storm: {whence(kit, 'storm')}"
            found.setdefault((told, "bad" if kit.load_state == "over" else "para"), []).append(post)
    return [(f"{posts_named(alike, 60)}: {told}.", style) for (told, style), alike in found.items()]


def part_names(kits: Sequence[KitReport]) -> list[tuple[str, str]]:
    """Case and name of each part that counts at any post, in the order in which they were worked out."""
    named = [(case, part.what) for case in CASES for kit in kits for part in kit.shares if getattr(part, case)]
    return list(dict.fromkeys(named))


def part_columns(names: Sequence[tuple[str, str]]) -> list[Col]:
    """Headings of the parts of the moments; the first names the post again."""
    return [Col("Parts: post", "bold", 24), *(Col(f"{CASES[case]}: {_small_first(what)} [N m]", "whole") for case, what in names)]


def part_row(post: PostReport, kit: KitReport, names: Sequence[tuple[str, str]]) -> list[Any]:
    """The parts of the moments at one post [N m]."""
    found = {part.what: part for part in kit.shares}
    return [post.row.post_code, *(getattr(found[what], case) if what in found else None for case, what in names)]


def _bands(report: SiteReport) -> list[Band]:
    feet = report.feet
    posts = [(post, post.kit) for post in report.posts if post.kit]
    bands = [Band("Loads", columns(feet), [row_of(p, k, feet) for p, k in posts])]
    least = [least_row(p, k, feet) for p, k in posts]
    bands.append(Band("What to look for, and what else was worked out", least_columns(feet), least))
    names = part_names([k for _, k in posts])
    if names:
        parts = [part_row(p, k, names) for p, k in posts]
        bands.append(Band("Parts of the moments at the ground", part_columns(names), parts))
    return bands


def write_loads(book: Book, report: SiteReport, setting: Setting) -> None:
    """Writes the sheet."""
    page = book.page("Loads", "#8A3B12")
    page.title("Loads: a rough screen of each recommended kit on its post")
    row = page.para(1, CAUTION, "caution")
    row = page.para(row, NOT_LOOKED_AT, "strong")
    top, said = 0, ("In plain words, post by post", in_words(report.posts))
    if any(post.kit for post in report.posts):
        bands = _bands(report)
        few = page.stacks(bands)
        if few:  # else the table's headings, which stay in sight, would stand too low
            row = _block(page, row, *said) + 1
        top = row
        row, _ = page.bands(top, "loads_rough", bands, "Rough load of each recommended kit")
        if few:
            top = 0
        else:
            row = _block(page, row, *said)
    else:
        row = page.para(row + 1, "No post of this site has a kit, so there is no load to show.", "strong")
    _block(page, row, "What the figures mean", [(text, "para") for text in EXPLANATION])
    finish(page, report, top)


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

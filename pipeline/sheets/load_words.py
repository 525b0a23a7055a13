"""What is said of a load: bands by share of strength, the footing's answer, what would change it. Words clear nothing."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from pipeline.sheets import show
from pipeline.sheets.report import KitReport, PostReport
from pipeline.sheets.wording import posts_named
from schemas.lengths import SLACK

Entry = tuple[str, str]
"""A sentence and its style."""

NOT_STEEL = "not a steel post"
NO_BREAK = "\N{NO-BREAK SPACE}%"

BANDS: tuple[tuple[float, str, str, str], ...] = (
    (0.6, "No overload seen: to 60 %", "text", "The load takes up to 60 % of the rough strength."),
    (0.8, "No overload seen: 60 to 80 %", "text", "The load takes 60 to 80 % of the rough strength."),
    (1.0, "Above 80 %: an engineer first", "check",
     "The load takes more than 80 % of the rough strength: have a licensed engineer look at it before anything is ordered."),
)  # fmt: skip
"""Most share of strength, words of a cell, their style (never green), and what is said more."""

SEEN = "No overload seen by the screen, of a sound post with its full wall."
OVER = ("Over the rough strength", "bad")
UNKNOWN = ("Strength not known", "check")
NOT_COMPUTED = ("not computed", "check")

GAUGE = (
    "Where to gauge the wall: with an ultrasonic gauge on bare metal, at four places round the post, just above and just "
    "below where it leaves the ground or the concrete (dig 100 mm free), under collars, and at the foot of any weld. The "
    "least reading counts. Source: common practice."
)

MEASURE_NEXT: dict[str, str] = {
    "wall": "wall at the ground line",
    "steel": "grade of the steel",
    "wind_speed": "design wind of the place",
    "exposure": "exposure of the place",
    "size": "size, with calipers",
    "lean": "lean, with a level",
    "material": "material",
    "rated": "rating of the extension",
}
"""What to measure or ask next, by input."""


def worse(kit: KitReport) -> float | None:
    """The worse share of strength; None where it is not known."""
    play, storm = kit.utilisation_play, kit.utilisation_storm
    return None if play is None or storm is None else max(play, storm)


def answer(kit: KitReport) -> tuple[str, str]:
    """Words and style of a kit's load answer; moments that are not there were not computed."""
    if kit.load_state == "unknown":
        return NOT_COMPUTED if kit.moment_play != kit.moment_play and kit.moment_storm != kit.moment_storm else UNKNOWN
    share = worse(kit)
    if share is None or share != share:
        return NOT_COMPUTED
    band = next((b for b in BANDS if share <= b[0] + 1e-9), None)
    return OVER if band is None or kit.load_state == "over" else band[1:3]


def cleared(post: PostReport, feet: bool) -> str:
    """Who cleared the loads of a post, '' nobody."""
    row = post.row
    if row.strength_cleared != "yes" or not row.cleared_by:
        return ""
    upto = "for any kit" if row.cleared_moment is None else f"up to {show.moment(row.cleared_moment, feet)} at the ground"
    return f" Cleared by {row.cleared_by}, {upto}."


def takes(post: PostReport, kit: KitReport, feet: bool) -> str:
    """How much of the strength the load takes; where that is not known, the least wall to look for."""
    share = worse(kit)
    if share is not None:
        if math.isinf(share):
            return f"The post is {show.TOO_SLENDER}: only a licensed engineer can clear it."
        if kit.load_state == "over":
            return f"The load takes {show.share(share)} of the rough strength: only a licensed engineer can clear it."
        band = next(b for b in BANDS if share <= b[0] + 1e-9)
        return band[3] if band is BANDS[-1] else f"{SEEN} {band[3]}"
    if kit.wall_needed is not None:
        known = "The wall is not known" if post.wall is None else "The strength is not known"
        return f"{known}: look for a wall of at least {show.wall_to_look_for(kit.wall_needed, feet)}, at the ground line."
    if no_wall(post) == NOT_STEEL:
        return "The strength is not known, since this screen is for steel posts only: ask a licensed engineer."
    return "The strength is not known, and no wall of a steel tube of this size would carry the load: ask a licensed engineer."


def no_wall(post: PostReport) -> str:
    """Why there is no wall to look for."""
    return "none is enough" if (post.row.material or "unknown") in ("steel", "unknown") else NOT_STEEL


def footing(post: PostReport, kit: KitReport, feet: bool) -> tuple[str, str]:
    """Words and style of the footing's answer."""
    row, needed = post.row, kit.footing_depth_needed
    if row.post_base == "base plate":
        return "anchors: an engineer", "check"
    if needed is None:
        return "depth needed not known", "check"
    asked = f"{show.depth(needed, feet)} needed"
    if row.footing_depth is None:
        return f"{asked}, depth not stated", "check"
    stated = f"{asked}, {show.length(row.footing_depth, feet)} stated"
    if row.footing_depth + SLACK < needed:
        return f"TOO SHALLOW: {stated}", "bad"
    if row.post_base != "driven" and row.footing_diameter is None:
        return f"{stated}, diameter not stated", "check"
    return stated, "text"


def next_to_measure(post: PostReport) -> str:
    """The one input whose measurement would settle most."""
    if post.wall is None:
        return MEASURE_NEXT["wall"]
    if post.row.material != "steel":
        return MEASURE_NEXT["material"] if (post.row.material or "unknown") == "unknown" else "a licensed engineer's view"
    kit = post.kit
    if kit is not None and kit.load_state == "unknown" and kit.extension:
        return MEASURE_NEXT["rated"]
    return MEASURE_NEXT.get(post.measure_next, "nothing stands out")


def found(posts: Sequence[PostReport], feet: bool) -> list[Entry]:
    """What was found, in words, the worst first; posts of which the same is said are named together."""
    return _grouped(posts, lambda post, kit: takes(post, kit, feet) + cleared(post, feet))


def parts(posts: Sequence[PostReport]) -> list[Entry]:
    """Where the bending of each post comes from, in words."""
    return _grouped([p for p in posts if p.kit and any(s.play or s.storm for s in p.kit.shares)],
                 lambda _, kit: f"In play the bending at the ground comes from: {comes_from(kit, 'play')}. "
                                f"In a storm: {comes_from(kit, 'storm')}.")  # fmt: skip


def _grouped(posts: Sequence[PostReport], say: Callable[[PostReport, KitReport], str]) -> list[Entry]:
    groups: dict[Entry, list[PostReport]] = {}
    for post in sorted(posts, key=lambda p: -rank(p)):
        if post.kit:
            style = "bad" if post.kit.load_state == "over" else "para"
            groups.setdefault((say(post, post.kit), style), []).append(post)
    return [(f"{posts_named(alike, 60)}: {text}", style) for (text, style), alike in groups.items()]


def rank(post: PostReport) -> int:
    """Over, not known, above 80 %, and so on down."""
    words = answer(post.kit)[0] if post.kit else ""
    order = [band[1] for band in BANDS]
    return order.index(words) if words in order else len(order) + (words == OVER[0])


def comes_from(kit: KitReport, case: str) -> str:
    """The parts of a moment at the ground in words, the greatest first: `push at the ring 73 %, ...`."""
    some = [(getattr(part, case), part.what) for part in kit.shares]
    whole = sum(moment for moment, _ in some)
    if not whole > 0:
        return show.NOT_COMPUTED
    some.sort(key=lambda part: -part[0])
    return ", ".join(
        f"{_small_first(what)} {show.share(moment / whole)}".replace(" %", NO_BREAK) for moment, what in some if moment
    )


def _small_first(words: str) -> str:
    """Words with a small first letter."""
    return words[:1].lower() + words[1:]

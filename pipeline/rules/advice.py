"""Advice about a post with its recommended kit: never a verdict, each with its source."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from pipeline.rules import plain
from pipeline.rules.arrays import Catalogue, Floats, Ints, Kits, Note, Posts
from schemas.lengths import SLACK
from schemas.survey import BASES, CONDITIONS

LINE_WIDTH = 0.050
"""Width of the end line [m]. Source: FIBA Official Basketball Rules, art. 2.4 (50 mm)."""

BOARD_INSIDE = 1.200
"""Board face from the end line's inner edge [m]. Source: FIBA Official Basketball Rules, art. 3 (1.20 m); NFHS 4 ft."""

RUN_OFF = 2.0
"""Free space beyond the lines [m]. Source: FIBA Official Basketball Rules, art. 2.1 (2 m)."""

FREE_SPACE = (("A", 3.25), ("B", 2.25), ("C", 1.65), ("D", 1.2), ("E", 0.6))
"""Class and least free space from post to board [m]. Source: EN 1270, classes (memory)."""

PLAY_SPACE = 1.65
"""Under this free space a place serves shooting practice only [m]. Source: EN 1270 (memory)."""

GUST_FLOOR = 38.0
"""A design wind below this is likely no strength-level gust [m/s]. Source: ASCE 7-16 figure 26.5-1 (85 mph; memory)."""

RIGID = 1.0
"""Least natural frequency of a rigid structure [Hz]. Source: ASCE 7-16, 26.2."""


@dataclass(frozen=True)
class Place(plain.InUnits):
    """One post and, where it has a kit, the recommended kit's overhang; NaN where it is not known."""

    posts: Posts
    i: int
    overhang: float  # [m]
    frequency: float  # [Hz]

    @property
    def units(self) -> int:
        return int(self.posts.units[self.i])


def advice(posts: Posts, catalogue: Catalogue, kits: Kits, first: Ints, frequency: Floats) -> list[tuple[Note, ...]]:
    """Advice for each post.

    `first` (n,) is the number of the recommended kit of each post, -1 where it has none; `frequency`
    (n,) the natural frequency of the post with it [Hz], NaN where it is not known.
    """
    out = []
    for i, k in enumerate(first.tolist()):
        overhang = float(catalogue.mounts.overhang[kits.mount[k]]) if k >= 0 else math.nan
        place = Place(posts, i, overhang, float(frequency[i]) if k >= 0 else math.nan)
        out.append(tuple(note for rule in ADVICE for note in rule(place)))
    return out


def board_face(at: Place) -> Iterator[Note]:
    """Where the board's face stands against the end line: overhang - post_to_end_line - line width."""
    inside = at.overhang - float(at.posts.post_to_end_line[at.i]) - LINE_WIDTH
    if math.isnan(inside):
        return
    off = inside - BOARD_INSIDE
    compared = "as asked" if abs(off) <= 0.006 + SLACK else f"{at.height(abs(off))} {'more' if off > 0 else 'less'} than that"
    side = f"{at.height(inside)} inside" if inside >= 0 else f"{at.height(-inside)} outside"
    text = f"The board's face stands {side} the end line's inner edge; the rules ask for 1.20 m or 4 ft: {compared}."
    yield Note("Board and end line", text, "FIBA Official Basketball Rules, 1.20 m from the inner edge; NFHS 4 ft")


def free_space(at: Place) -> Iterator[Note]:
    """Free space from the post to the board in EN 1270's classes."""
    if math.isnan(at.overhang):
        return
    name = next((n for n, least in FREE_SPACE if at.overhang >= least - SLACK), "")
    text = f"From the post's face to the board there are {at.height(at.overhang)} free"
    least = at.height(FREE_SPACE[-1][1])
    text += f": class {name} of EN 1270." if name else f": less than the least class of EN 1270 ({least})."
    if at.overhang < PLAY_SPACE - SLACK:
        text += f" Under {at.height(PLAY_SPACE)} a place is for shooting practice only."
    yield Note("Free space", text, "EN 1270, free space classes (memory)")


def padding(at: Place) -> Iterator[Note]:
    """A post near the end line wants padding."""
    away = float(at.posts.post_to_end_line[at.i])
    if away < RUN_OFF - SLACK:
        beyond = f"{at.height(away)} beyond the end line, within the {at.height(RUN_OFF)} that players run out"
        where = beyond if away >= 0 else "on the court"
        yield Note("Padding", f"The post stands {where}: it wants padding.", "FIBA Official Basketball Rules, 2 m free (memory)")


def gust(at: Place) -> Iterator[Note]:
    """A low design wind may be of an older kind."""
    speed = float(at.posts.wind_speed[at.i])
    if speed < GUST_FLOOR - SLACK:
        wind = plain.speed(speed, at.units)
        text = f"The design wind of {wind} is low: check that it is a 3-second gust at strength level, not an older kind."
        yield Note("Wind speed", text, "ASCE 7-10 and later, figure 26.5-1 (memory)")


def flexing(at: Place) -> Iterator[Note]:
    """A post that flexes is beyond the gust factor of a rigid one."""
    if at.frequency < RIGID:
        text = f"The post would sway at about {at.frequency:.2f} Hz, under 1 Hz: wind may load it more than this screen says."
        yield Note("Flexing post", text, "ASCE 7-16, 26.2: a rigid structure has at least 1 Hz; G = 0.85 is for those")


def unknown_condition(at: Place) -> Iterator[Note]:
    """A condition that is not known is no confirm, but it is said."""
    if at.posts.condition[at.i] == CONDITIONS.index("unknown"):
        text = "The post's condition is not known: look at the ground line and under collars before anything is ordered."
        yield Note("Condition", text, "common practice")


def unknown_base(at: Place) -> Iterator[Note]:
    """A base that is not known is taken as concrete, and it is said."""
    if at.posts.base[at.i] == BASES.index("unknown"):
        wide = at.size(float(at.posts.footing_diameter[at.i]))
        text = f"How the post stands in the ground is not known: concrete {wide} across is assumed."
        yield Note("Post base", text, "house default")


ADVICE: tuple[Callable[[Place], Iterator[Note]], ...] = (
    board_face,
    free_space,
    padding,
    gust,
    flexing,
    unknown_condition,
    unknown_base,
)
"""Every piece of advice, in the order in which it is given."""

"""Elevation of a post with its kit, seen from the side: pure coordinates in metres, to scale."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from pipeline.sheets import show
from pipeline.sheets.report import KitReport, PostReport

RING_DIAMETER = 0.450
RING_GAP = 0.151
RING_ABOVE_EDGE = 0.150
"""Source: FIBA Basketball Equipment, ring and backboard (memory); design section 7."""
BOARD_THICKNESS = 0.04
RING_THICKNESS = 0.03
GROUND_DEPTH = 0.10
TUBE = 0.06
"""Sizes of what is drawn only to be seen [m]: no catalogue states them."""
_LEFT, _RIGHT = -1.35, 0.95
_COURT_FROM = 0.25
"""Where the court is drawn to begin when its distance from the post is not known [m from the post's face]."""


@dataclass(frozen=True)
class Rect:
    """A named rectangle: left and bottom edge, width and height [m]; x from the post's axis to the court, y from the ground."""

    name: str
    x: float
    y: float
    width: float
    height: float

    @property
    def top(self) -> float:
        """Upper edge [m]."""
        return self.y + self.height

    @property
    def right(self) -> float:
        """Right edge [m]."""
        return self.x + self.width


@dataclass(frozen=True)
class Dimension:
    """A dimension line from (x, y) to (x2, y2) [m], upright or level, and the words beside it."""

    name: str
    x: float
    y: float
    x2: float
    y2: float
    words: str
    side: str  # left, right, above: where the words stand


@dataclass(frozen=True)
class Elevation:
    """What is drawn, and the bounds of the drawing [m]."""

    rects: tuple[Rect, ...]
    dimensions: tuple[Dimension, ...]
    left: float
    right: float
    bottom: float
    top: float
    told: str

    def rect(self, name: str) -> Rect:
        """The rectangle called `name`; KeyError where there is none."""
        for found in self.rects:
            if found.name == name:
                return found
        raise KeyError(name)


def elevation(post: PostReport, kit: KitReport, items: Mapping[str, Mapping[str, Mapping[str, Any]]], feet: bool) -> Elevation:
    """Elevation of `post` with `kit`; `items` are the catalogue's rows by table and code.

    Ring height above ground is the kit's top setting plus the court's level; the post's top is H, with
    an extension H + added; the clamps begin `lowered` below the top; the board's lower edge lies 0.150 m
    below the ring's plane. Source: design sections 5 and 7.
    """
    mount = items.get("Mounts", {}).get(kit.mount, {})
    board = items.get("Boards", {}).get(kit.board, {})
    upper = items.get("Extensions", {}).get(kit.extension, {}).get("upper_size_m") if kit.extension else None
    size = upper or post.size
    face = size / 2 + (mount.get("overhang_m") or 0.0)
    ring = kit.top + post.court_rise
    lower = ring - RING_ABOVE_EDGE
    end = post.height + kit.added
    clamp_top = end - kit.lowered
    clamp_low = clamp_top - (mount.get("clamp_length_m") or 0.0)
    high = board.get("height_m") or 0.0
    middle = lower + high / 2
    arm = (clamp_low + clamp_top) / 2
    rects = [Rect("post", -post.size / 2, 0.0, post.size, post.height)]
    if kit.extension:
        rects.append(Rect("extension", -size / 2, post.height, size, kit.added))
    rects += [
        Rect("mount", size / 2, arm - TUBE / 2, face - BOARD_THICKNESS - size / 2, TUBE),
        Rect("carrier", face - BOARD_THICKNESS - TUBE, min(arm, middle) - TUBE / 2, TUBE, abs(middle - arm) + TUBE),
        Rect("clamps", -size / 2 - 0.02, clamp_low, size + 0.04, clamp_top - clamp_low),
        Rect("board", face - BOARD_THICKNESS, lower, BOARD_THICKNESS, high),
        Rect("ring", face, ring - RING_THICKNESS, RING_GAP + RING_DIAMETER, RING_THICKNESS),
    ]
    right = face + RING_GAP + RING_DIAMETER + _RIGHT
    top = max(lower + high, end) + 0.35
    return Elevation(
        (*_grounds(post, right), *rects),
        _dimensions(post, kit, face, size / 2, ring, lower + high, feet),
        _LEFT,
        right,
        min(0.0, post.court_rise) - GROUND_DEPTH,
        top,
        told(post, kit, feet),
    )


def _grounds(post: PostReport, right: float) -> tuple[Rect, Rect]:
    """Ground on the post's side, court beyond the outer edge of the end line."""
    away = post.row.post_to_end_line
    edge = post.size / 2 + (_COURT_FROM if away is None else away)
    edge = min(max(edge, _LEFT + 0.3), right - 0.6)
    bottom = min(0.0, post.court_rise) - GROUND_DEPTH
    return (
        Rect("ground", _LEFT, bottom, edge - _LEFT, -bottom),
        Rect("court", edge, bottom, right - edge, post.court_rise - bottom),
    )


def _dimensions(
    post: PostReport, kit: KitReport, face: float, half: float, ring: float, above: float, feet: bool
) -> tuple[Dimension, ...]:
    x = -max(half, post.size / 2) - 0.18
    out = face + RING_GAP + RING_DIAMETER + 0.15
    made = [
        Dimension("height", x, 0.0, x, post.height, f"post {show.length(post.height, feet)}", "left"),
        Dimension("ring", out, post.court_rise, out, ring, f"ring {show.length(kit.top, feet)}", "right"),
        Dimension("overhang", half, above + 0.1, face, above + 0.1, f"overhang {show.length(face - half, feet)}", "above"),
    ]
    if kit.extension:
        words = f"adds {show.length(kit.added, feet)}"
        made.append(Dimension("added", x, post.height, x, post.height + kit.added, words, "left"))
    return tuple(made)


def told(post: PostReport, kit: KitReport, feet: bool) -> str:
    """The elevation in words, for those who cannot see it."""
    level = f", court {show.both(post.court_rise, feet)} above the ground" if post.court_rise else ""
    joint = f", extension {kit.extension} adds {show.both(kit.added, feet)}" if kit.extension else ""
    return (
        f"Elevation to scale: {post.row.post_shape or ''} post of {show.both(post.size, feet)}, "
        f"{show.both(post.height, feet)} above ground{level}{joint}; mount {kit.mount}, board {kit.board}, "
        f"ring {kit.ring} at {show.both(kit.top, feet)} above the court"
    )

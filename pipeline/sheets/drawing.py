"""Elevation of a post with its kit, seen from the side: pure coordinates in metres, to scale."""

from __future__ import annotations

from dataclasses import dataclass

from pipeline.sheets import show
from pipeline.sheets.assembly import Assembly
from schemas.lengths import DOWN
from schemas.ring import RING_DIAMETER, RING_GAP

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
    in_words: str

    def rect(self, name: str) -> Rect:
        """The rectangle called `name`; KeyError where there is none."""
        for found in self.rects:
            if found.name == name:
                return found
        raise KeyError(name)


def elevation(a: Assembly, feet: bool) -> Elevation:
    """Elevation of a post with its kit, the ring at its highest setting. Source: design sections 5 and 7."""
    half, arm = a.upper_size / 2, (a.clamp_bottom + a.clamp_top) / 2
    middle = a.board_bottom + a.board_height / 2
    right, top = a.face + RING_GAP + RING_DIAMETER + _RIGHT, max(a.board_bottom + a.board_height, a.end) + 0.35
    rects = [Rect("post", -a.post_size / 2, 0.0, a.post_size, a.post_height)]
    if a.extension:
        rects.append(Rect("extension", -half, a.post_height, a.upper_size, a.added))
    rects += [
        Rect("mount", half, arm - TUBE / 2, a.face - BOARD_THICKNESS - half, TUBE),
        Rect("carrier", a.face - BOARD_THICKNESS - TUBE, min(arm, middle) - TUBE / 2, TUBE, abs(middle - arm) + TUBE),
        Rect("clamps", -half - 0.02, a.clamp_bottom, a.upper_size + 0.04, a.clamp_length),
        Rect("board", a.face - BOARD_THICKNESS, a.board_bottom, BOARD_THICKNESS, a.board_height),
        Rect("ring", a.face, a.ring_above_ground - RING_THICKNESS, RING_GAP + RING_DIAMETER, RING_THICKNESS),
    ]
    bottom = min(0.0, a.court_rise) - GROUND_DEPTH
    return Elevation((*_grounds(a, right), *rects), _dimensions(a, feet), _LEFT, right, bottom, top, in_words(a, feet))


def _grounds(a: Assembly, right: float) -> tuple[Rect, Rect]:
    """Ground on the post's side, court beyond the outer edge of the end line."""
    edge = a.post_size / 2 + (_COURT_FROM if a.post_to_end_line is None else a.post_to_end_line)
    edge = min(max(edge, _LEFT + 0.3), right - 0.6)
    bottom = min(0.0, a.court_rise) - GROUND_DEPTH
    return (
        Rect("ground", _LEFT, bottom, edge - _LEFT, -bottom),
        Rect("court", edge, bottom, right - edge, a.court_rise - bottom),
    )


def _dimensions(a: Assembly, feet: bool) -> tuple[Dimension, ...]:
    half, above, ring = a.upper_size / 2, a.board_bottom + a.board_height + 0.1, a.ring_above_ground
    x, out = -max(a.upper_size, a.post_size) / 2 - 0.18, a.face + RING_GAP + RING_DIAMETER + 0.15
    made = [
        Dimension("height", x, 0.0, x, a.post_height, f"post {show.length(a.post_height, feet)}", "left"),
        Dimension("ring", out, a.court_rise, out, ring, f"ring {show.length(a.top, feet, DOWN)}", "right"),
        Dimension("overhang", half, above, a.face, above, f"overhang {show.length(a.overhang, feet)}", "above"),
    ]
    if a.extension:
        words = f"adds {show.length(a.added, feet)}"
        made.append(Dimension("added", x, a.post_height, x, a.end, words, "left"))
    return tuple(made)


def in_words(a: Assembly, feet: bool) -> str:
    """The elevation in words, for those who cannot see it."""
    level = f", court {show.length(a.court_rise, feet)} above the ground" if a.court_rise else ""
    joint = f", extension {a.extension} adds {show.length(a.added, feet)}" if a.extension else ""
    return (
        f"Elevation to scale: {a.post_shape} post of {show.length(a.post_size, feet)}, "
        f"{show.length(a.post_height, feet)} above ground{level}{joint}; mount {a.mount}, board {a.board}, "
        f"ring {a.ring} at {show.length(a.top, feet, DOWN)} above the court"
    )

"""What to measure where: a side view to scale, made of native shapes. The boxes are in metres, so that they can be checked."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any

from schemas.ring import RING_ABOVE_EDGE, RING_DIAMETER, RING_GAP

SCALE = 118.0
"""Pixels a metre."""

ROW_PIXELS = 20
LEFT, RIGHT, BOTTOM, TOP = -3.0, 4.3, -1.3, 4.35
"""Edges of the picture [m]: x towards the court from the post's axis, z up from the ground at the post."""

POST_SIZE, POST_HEIGHT = 0.0889, 2.5908
COURT_RISE, CLEAR, TO_END_LINE, LINE_WIDTH = 0.15, 1.016, 0.75, 0.05
RING_HEIGHT, BOARD_HEIGHT, BOARD_FACE = 3.048, 1.067, 1.05
FOOTING_DIAMETER, FOOTING_DEPTH = 0.45, 0.90
"""The post drawn: 3 1/2 in round, 8 ft 6 in high; ring at 10 ft. Source of ring, gap and line: FIBA, as in the computation."""

INK, GREY, PALE = "#1F2933", "#6B7785", "#D5DCE3"
SOIL, CONCRETE, COURT, STEEL, ACCENT = "#E8DCC8", "#C3C7CB", "#7FA58A", "#52606D", "#9C2F1B"


@dataclass(frozen=True)
class Box:
    """One rectangle of the drawing [m]; a line is a thin one. `text` stands in it."""

    name: str
    x0: float
    z0: float
    x1: float
    z1: float
    fill: str = ""
    line: str = ""
    text: str = ""
    align: str = "center"
    bold: bool = False


def boxes() -> tuple[Box, ...]:
    """The whole drawing, from the back to the front."""
    return (*_scene(), *_dimensions(), *_captions())


def _scene() -> tuple[Box, ...]:
    """Ground, court, footing, post; and the board that is to come, pale."""
    half, low = POST_SIZE / 2, COURT_RISE + RING_HEIGHT
    edge = low - RING_ABOVE_EDGE
    ring = BOARD_FACE + RING_GAP
    slab = half + 0.45
    return (
        Box("soil", LEFT + 0.1, BOTTOM + 0.1, RIGHT - 0.1, 0, SOIL),
        Box("court", slab, -0.1, RIGHT - 0.1, COURT_RISE, COURT),
        Box("footing", -FOOTING_DIAMETER / 2, -FOOTING_DEPTH, FOOTING_DIAMETER / 2, 0, CONCRETE, GREY),
        Box("arm, new", half, edge + 0.20, BOARD_FACE - 0.04, edge + 0.25, PALE),
        Box("arm, new", half, POST_HEIGHT - 0.15, BOARD_FACE - 0.3, POST_HEIGHT - 0.10, PALE),
        Box("arm, new", BOARD_FACE - 0.35, POST_HEIGHT - 0.15, BOARD_FACE - 0.30, edge + 0.25, PALE),
        Box("arm, new", half, POST_HEIGHT - 0.10, half + 0.05, edge + 0.25, PALE),
        Box("board, new", BOARD_FACE - 0.04, edge, BOARD_FACE, edge + BOARD_HEIGHT, PALE, GREY),
        Box("ring, new", ring, low - 0.02, ring + RING_DIAMETER, low, ACCENT),
        Box("ring plate, new", BOARD_FACE, low - 0.09, ring, low, PALE, GREY),
        Box("post", -half, -FOOTING_DEPTH + 0.1, half, POST_HEIGHT, STEEL, INK),
        Box("end line", half + TO_END_LINE, COURT_RISE, half + TO_END_LINE + LINE_WIDTH, COURT_RISE + 0.025, "#FFFFFF", INK),
    )


def _dimensions() -> tuple[Box, ...]:
    """The measures, each a line with two ends and its number."""
    half = POST_SIZE / 2
    ring = BOARD_FACE + RING_GAP + RING_DIAMETER
    return (
        *_upright("Height above ground", "2", -1.55, 0, POST_HEIGHT, half),
        *_upright("Clear straight length", "3", -0.75, POST_HEIGHT - CLEAR, POST_HEIGHT, half),
        *_upright("Ring heights wanted", "6", ring + 0.7, COURT_RISE, COURT_RISE + RING_HEIGHT, -ring),
        *_upright("Court above ground", "4", half + 0.28, 0, COURT_RISE, -half - 0.45, lift=0.30),
        *_level("Post to end line", "5", 0.95, half, half + TO_END_LINE, COURT_RISE),
        *_level("Post size", "1", POST_HEIGHT - 0.22, -half, half, POST_HEIGHT - 0.22, outside=True),
        *_upright("Footing depth", "8", -0.75, -FOOTING_DEPTH, 0, FOOTING_DIAMETER / 2),
        *_level("Footing diameter", "8", -1.0, -FOOTING_DIAMETER / 2, FOOTING_DIAMETER / 2, -FOOTING_DEPTH),
        *_level("Wall thickness", "7", 0.20, -half, half, 0.20, outside=True),
    )


THIN, TICK, BADGE = 0.014, 0.06, 0.11
"""Half of nothing is drawn: a line is THIN [m], its ends TICK to each side, its number stands in a badge of half-size BADGE."""


def _upright(name: str, number: str, x: float, z0: float, z1: float, reach: float, lift: float = 0.0) -> tuple[Box, ...]:
    """A vertical measure at x from z0 to z1; `reach` is how far its ends' helping lines go: to -reach."""
    to = (x, -reach)
    middle = (z0 + z1) / 2
    helping = [Box(f"{name}, helping line", min(to), z - THIN / 4, max(to), z + THIN / 4, GREY) for z in (z0, z1)]
    line = Box(name, x - THIN / 2, z0, x + THIN / 2, z1, ACCENT)
    ends = [Box(f"{name}, end", x - TICK, z - THIN / 2, x + TICK, z + THIN / 2, ACCENT) for z in (z0, z1)]
    return (*helping, line, *ends, _badge(name, number, x, middle + lift))


def _level(name: str, number: str, z: float, x0: float, x1: float, foot: float, outside: bool = False) -> tuple[Box, ...]:
    """A horizontal measure at height z from x0 to x1, lines down or up to `foot`; a short one has its number outside."""
    low, high = min(z, foot), max(z, foot)
    helping = [Box(f"{name}, helping line", x - THIN / 4, low, x + THIN / 4, high, GREY) for x in (x0, x1) if low < high]
    ends = [Box(f"{name}, end", x - THIN / 2, z - TICK, x + THIN / 2, z + TICK, ACCENT) for x in (x0, x1)]
    if not outside:
        line = Box(name, x0, z - THIN / 2, x1, z + THIN / 2, ACCENT)
        return (*helping, line, *ends, _badge(name, number, (x0 + x1) / 2, z))
    lead = Box(name, x0 - 0.26, z - THIN / 2, x0, z + THIN / 2, ACCENT)
    return (lead, *ends, _badge(name, number, x0 - 0.32, z))


def _badge(name: str, number: str, x: float, z: float) -> Box:
    return Box(f"{name}, number", x - BADGE, z - BADGE, x + BADGE, z + BADGE, "#FFFFFF", ACCENT, number, bold=True)


def _captions() -> tuple[Box, ...]:
    """Words that need no number."""
    ring = COURT_RISE + RING_HEIGHT
    return (
        Box("caption", 2.75, 0.17, RIGHT - 0.1, 0.40, text="playing surface", align="right"),
        Box("caption", LEFT + 0.1, 0.02, -1.75, 0.25, text="ground at the post", align="left"),
        Box(
            "caption",
            BOARD_FACE + 0.08,
            ring + 0.42,
            BOARD_FACE + 1.9,
            ring + 0.65,
            text="new board and ring (pale)",
            align="left",
        ),
        Box("caption", 0.92, 0.17, 1.75, 0.40, text="end line", align="left"),
        Box("caption", LEFT + 0.1, POST_HEIGHT - 0.34, -1.65, POST_HEIGHT - 0.1, text="top of the post", align="left"),
        Box("caption", LEFT + 0.1, BOTTOM + 0.12, LEFT + 1.1, BOTTOM + 0.34, text="1 metre", align="left"),
        Box("scale", LEFT + 0.1, BOTTOM + 0.10, LEFT + 1.1, BOTTOM + 0.125, INK),
    )


def draw(ws: Any, row: int, captions: tuple[str, ...] = ()) -> int:
    """Put the drawing on a sheet from `row` down, with other captions where given; returns the first row below it."""
    texts = iter(captions)
    for box in boxes():
        if box.name == "caption" and captions:
            box = replace(box, text=next(texts))
        ws.insert_textbox(row, 0, box.text, _options(box))
    return row + math.ceil((TOP - BOTTOM) * SCALE / ROW_PIXELS)


def _options(box: Box) -> dict[str, Any]:
    """Place and looks of one box in pixels."""
    options: dict[str, Any] = {
        "x_offset": round((box.x0 - LEFT) * SCALE),
        "y_offset": round((TOP - box.z1) * SCALE),
        "width": max(1, round((box.x1 - box.x0) * SCALE)),
        "height": max(1, round((box.z1 - box.z0) * SCALE)),
        "object_position": 3,
        "description": box.text or box.name,
        "fill": {"color": box.fill} if box.fill else {"none": True},
        "line": {"color": box.line, "width": 0.75} if box.line else {"none": True},
    }
    if box.text:
        options["font"] = {"name": "Calibri", "size": 10, "bold": box.bold, "color": INK}
        options["align"] = {"vertical": "middle", "horizontal": box.align}
    return options

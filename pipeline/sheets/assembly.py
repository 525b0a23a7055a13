"""What hangs on a post, resolved from report and catalogue once: what drawings, field sheet and customer's workbook show."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from pipeline.sheets.report import KitReport, PostReport
from schemas.ring import RING_ABOVE_EDGE

Items = Mapping[str, Mapping[str, Mapping[str, Any]]]
"""The catalogue's rows by table and code."""


@dataclass(frozen=True)
class Assembly:
    """A kit on a post, all lengths in metres; two posts that look the same have equal ones."""

    post_shape: str
    post_size: float
    post_height: float  # above ground
    court_rise: float  # of the court above the ground at the post
    post_to_end_line: float | None
    mount: str
    board: str
    ring: str
    extension: str  # '' none
    mount_words: str  # descriptions as in the catalogue, '' none
    board_words: str
    ring_words: str
    extension_words: str
    fastening: str
    adjustment: str
    overhang: float  # front face of what the mount clamps to the board's front face
    clamp_length: float
    step: float  # 0 where there are no steps
    board_width: float
    board_height: float
    joint: str  # of the extension, '' none
    joint_length: float
    upper_size: float  # what the mount clamps: the extension's size, else the post's
    added: float
    lowered: float  # how far below its highest place the mount is clamped
    top: float  # highest ring setting above the court
    lowest: float  # lowest ring setting above the court

    @property
    def end(self) -> float:
        """Top of the post with its extension above the ground."""
        return self.post_height + self.added

    @property
    def clamp_top(self) -> float:
        """Upper end of the clamps above the ground. Source: design section 5, x."""
        return self.end - self.lowered

    @property
    def clamp_bottom(self) -> float:
        """Lower end of the clamps above the ground."""
        return self.clamp_top - self.clamp_length

    @property
    def ring_above_ground(self) -> float:
        """The ring's highest setting above the ground at the post."""
        return self.top + self.court_rise

    @property
    def board_bottom(self) -> float:
        """The board's lower edge above the ground, the ring at its highest setting."""
        return self.ring_above_ground - RING_ABOVE_EDGE

    @property
    def face(self) -> float:
        """The board's front face from the post's axis."""
        return self.upper_size / 2 + self.overhang


def assembly(post: PostReport, kit: KitReport, items: Items) -> Assembly:
    """What `kit` looks like on `post`; an item that the catalogue does not have is drawn without its sizes."""
    mount, board = items.get("Mounts", {}).get(kit.mount, {}), items.get("Boards", {}).get(kit.board, {})
    ring, joined = items.get("Rings", {}).get(kit.ring, {}), items.get("Extensions", {}).get(kit.extension, {})
    return Assembly(
        post_shape=post.row.post_shape or "",
        post_size=post.size,
        post_height=post.height,
        court_rise=post.court_rise,
        post_to_end_line=post.row.post_to_end_line,
        mount=kit.mount,
        board=kit.board,
        ring=kit.ring,
        extension=kit.extension,
        mount_words=mount.get("description") or "",
        board_words=board.get("description") or "",
        ring_words=ring.get("description") or "",
        extension_words=joined.get("description") or "",
        fastening=mount.get("fastening") or "",
        adjustment=mount.get("adjustment") or "",
        overhang=mount.get("overhang_m") or 0.0,
        clamp_length=mount.get("clamp_length_m") or 0.0,
        step=(mount.get("step_m") or 0.0) if mount.get("adjustment") == "stepped" else 0.0,
        board_width=board.get("width_m") or 0.0,
        board_height=board.get("height_m") or 0.0,
        joint=joined.get("joint") or "",
        joint_length=joined.get("joint_length_m") or 0.0,
        upper_size=joined.get("upper_size_m") or post.size,
        added=kit.added,
        lowered=kit.lowered,
        top=kit.top,
        lowest=kit.lowest,
    )


def alike(posts: Sequence[PostReport], items: Items) -> dict[Assembly, list[PostReport]]:
    """Posts with a kit, those that look the same together, in the order of the first of each."""
    found: dict[Assembly, list[PostReport]] = {}
    for post in posts:
        if post.kit:
            found.setdefault(assembly(post, post.kit, items), []).append(post)
    return found

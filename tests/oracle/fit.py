"""Fit and ring height of one post with one mount: design sections 3, 4 and 5, in plain scalars."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from .model import Catalogue, Extension, Mount, Post

SLACK = 1e-6
PASS, CONFIRM, FAIL = "pass", "confirm", "fail"
ORDER = ("SHAPE", "SIZE", "LINE", "LEAN", "FITTINGS", "CONDITION", "BASE", "CLEAR", "HEIGHT", "JOINT")
VERDICTS = ("viable", "viable_confirm", "viable_extended", "not_viable")


def not_above(value: float, limit: float) -> bool:
    """Inclusive comparison with the slack of the design."""
    return value <= limit + SLACK


def within(value: float, least: float, most: float) -> bool:
    """Inclusive window with the slack of the design."""
    return not_above(least, value) and not_above(value, most)


@dataclass(frozen=True)
class Fit:
    """The answer for one post with one mount."""

    post: Post
    mount: Mount
    findings: dict[str, str]
    z_max: float
    shortfall: float
    extension: Extension | None
    z_top: float
    covered: int
    wanted: int

    @property
    def failed(self) -> list[str]:
        return [code for code in ORDER if self.findings[code] == FAIL]

    @property
    def confirm(self) -> list[str]:
        return [code for code in ORDER if self.findings[code] == CONFIRM]

    @property
    def verdict(self) -> str:
        if self.failed:
            return "not_viable"
        if self.extension:
            return "viable_extended"
        return "viable_confirm" if self.confirm else "viable"


def size_uncertainty(post: Post, policy: dict[str, Any]) -> float:
    """Bound on the size's error [m], design section 3."""
    measured = "estimate" if "measured" in post.unread else post.measured or "rule across"
    if post.basis == "nominal pipe size" and measured != "estimate":
        measured = "pipe mark"
    bound = {
        "calipers": policy["size_uncertainty_calipers"],
        "tape round the post": policy["size_uncertainty_tape"],
        "rule across": policy["size_uncertainty_rule"],
        "pipe mark": policy["size_uncertainty_pipe_mark"] * post.size,
        "drawing": policy["size_uncertainty_drawing"] * post.size,
        "estimate": policy["size_uncertainty_estimate"],
    }
    return bound[measured]


def height_uncertainty(post: Post, policy: dict[str, Any]) -> float:
    """Bound on the height's error [m], design section 3."""
    names = {"tape": "tape", "level or laser": "level", "drawing": "drawing", "estimate": "estimate"}
    method = "estimate" if "height_measured" in post.unread else post.height_measured or "tape"
    bound = policy["height_uncertainty_" + names[method]]
    return bound + (policy["court_rise_uncertainty"] if post.rise is not None else 0.0)


def size_finding(post: Post, mount: Mount, policy: dict[str, Any]) -> str:
    u = size_uncertainty(post, policy)
    low, high = post.size - u, post.size + u
    meets = not_above(low, mount.most) and not_above(mount.least, high)
    if "measured" in post.unread:  # an unknown tool may be any: never a pass, and no fail where a guess could fit
        return CONFIRM if meets else FAIL
    if post.measured == "estimate":
        whole = not_above(mount.least, low) and not_above(high, mount.most)
        return PASS if whole else CONFIRM if meets else FAIL
    if within(post.size, mount.least, mount.most):
        return PASS
    return CONFIRM if meets else FAIL


def lean_finding(post: Post, policy: dict[str, Any]) -> str:
    if "lean" in post.unread:
        return CONFIRM
    lean = post.lean or 0.0
    if not_above(0.450 * math.sin(lean), policy["ring_level_tolerance"]):
        return PASS
    if lean > policy["lean_limit"] + 1e-9:
        return FAIL
    return PASS if post.shimmed == "yes" else CONFIRM


def word_findings(post: Post) -> dict[str, str]:
    """Rules that only look a word up."""
    line = {"straight": PASS, "unknown": CONFIRM, "tapered": CONFIRM, "gooseneck": FAIL, "bent": FAIL}
    fittings = {"none": PASS, "removable": PASS, "unknown": CONFIRM, "fixed": FAIL}
    condition = {"sound": PASS, "surface rust": PASS, "unknown": CONFIRM, "corroded": FAIL, "cracked": FAIL, "loose": FAIL}
    plate = PASS if is_cleared(post) else CONFIRM
    base = {"base plate": plate, "portable": FAIL}
    return {
        "LINE": line[post.line or "unknown"],
        "FITTINGS": fittings[post.fittings or "unknown"],
        "CONDITION": condition[post.condition or "unknown"],
        "BASE": CONFIRM if "base" in post.unread else base.get(post.base or "unknown", PASS),
    }


def is_cleared(post: Post) -> bool:
    """An engineer has cleared the strength, and is named."""
    return post.cleared == "yes" and bool(post.cleared_by)


def shape_finding(post: Post, mount: Mount) -> str:
    if post.shape != mount.shape or post.shape == "other":
        return FAIL
    return CONFIRM if post.inferred else PASS


def clear_finding(post: Post, mount: Mount, extension: Extension | None, lowered: float) -> str:
    """CLEAR; with an extension its own upper tube was looked at when it was chosen."""
    need = lowered + mount.clamp
    if "clear" in post.unread:
        return CONFIRM if extension or not_above(need, post.height) else FAIL
    return PASS if extension or not_above(need, post.height if post.clear is None else post.clear) else FAIL


def extension_serves(e: Extension, post: Post, mount: Mount, shortfall: float, clear: float | None, tol: float) -> bool:
    """Whether an extension may be offered, design section 5; `clear` None where that cannot be read."""
    if not e.active or e.shape != post.shape:
        return False
    lowered = max(0.0, e.added - shortfall)
    fits = (
        within(post.size, e.least, e.most)
        and not_above(shortfall - tol, e.added)
        and within(e.upper, mount.least, mount.most)
        and not_above(lowered + mount.clamp, e.upper_clear)
        and (clear is None or not_above(e.joint_length, clear))
    )
    if fits and e.joint == "spigot" and post.wall is not None:
        fits = within(post.size - 2 * post.wall, e.bore_least, e.bore_most)
    return fits


def choose_extension(
    post: Post, mount: Mount, catalogue: Catalogue, shortfall: float, clear: float | None, tol: float
) -> Extension | None:
    """Least added height, then least price, then code."""
    good = [e for e in catalogue.extensions if extension_serves(e, post, mount, shortfall, clear, tol)]
    return min(good, key=lambda e: (round(e.added, 9), e.price, e.code), default=None)


def height_finding(margin: float, tol: float, u: float, estimated: bool, extension: Extension | None) -> str:
    if not not_above(-(tol + u), margin):
        if extension is None:
            return FAIL
        return CONFIRM if estimated else PASS
    if not not_above(-tol, margin):
        return CONFIRM
    if estimated and not not_above(-tol, margin - u):
        return CONFIRM
    return PASS


def height_of(post: Post, margin: float, tol: float, u: float, extension: Extension | None) -> str:
    """HEIGHT; an unknown tool may be any: never a pass."""
    unread = "height_measured" in post.unread
    found = height_finding(margin, tol, u, unread or post.height_measured == "estimate", extension)
    return CONFIRM if unread and found == PASS else found


def covers(mount: Mount, z_top: float, height: float, tol: float) -> bool:
    """Whether a wanted height lies within the tolerance of one of the mount's settings."""
    if mount.adjustment == "continuous":
        return within(height, z_top - mount.travel - tol, z_top + tol)
    steps = math.floor(mount.travel / mount.step + 1e-9) if mount.adjustment == "stepped" else 0
    return any(not_above(abs(z_top - k * mount.step - height), tol) for k in range(steps + 1))


def wanted_heights(post: Post, policy: dict[str, Any]) -> tuple[float, ...]:
    return post.wanted or policy["ring_height_wanted"]


def fit(post: Post, mount: Mount, catalogue: Catalogue, policy: dict[str, Any]) -> Fit:
    """Every finding about one post with one mount."""
    tol = policy["ring_height_tolerance"]
    wanted = wanted_heights(post, policy)
    target = max(wanted)
    clear = None if "clear" in post.unread else post.height if post.clear is None else post.clear
    z_max = post.height - (post.rise or 0.0) + mount.for_ring - mount.needed
    margin = z_max - target
    shortfall = 0.0 if not_above(-tol, margin) else -margin
    u = height_uncertainty(post, policy)
    short = not not_above(-(tol + u), margin)
    extension = choose_extension(post, mount, catalogue, shortfall, clear, tol) if short else None
    z_top = min(target, z_max + (extension.added if extension else 0.0))
    findings = word_findings(post) | {
        "SHAPE": shape_finding(post, mount),
        "SIZE": size_finding(post, mount, policy),
        "LEAN": lean_finding(post, policy),
        "CLEAR": clear_finding(post, mount, extension, max(0.0, margin)),
        "HEIGHT": height_of(post, margin, tol, u, extension),
        "JOINT": CONFIRM if extension and extension.joint == "spigot" and post.wall is None else PASS,
    }
    covered = sum(covers(mount, z_top, height, tol) for height in wanted)
    return Fit(post, mount, findings, z_max, shortfall, extension, z_top, covered, len(wanted))

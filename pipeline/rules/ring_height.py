"""Ring heights: how high a mount carries the ring on a post, and which wanted heights it serves."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pipeline.rules.arrays import SLACK, Bools, Floats, Ints, Mounts, Policy, Posts
from schemas.catalogue import ADJUSTMENTS


@dataclass(frozen=True)
class Reach:
    """What the mounts reach on the posts without an extension, each (n, m) [m]."""

    greatest: Floats  # z_max
    margin: Floats  # z_max - T
    shortfall: Floats  # -margin, 0 within the tolerance
    short: Bools  # beyond tolerance and uncertainty: an extension is needed


def lift(mounts: Mounts) -> Floats:
    """How far the mount carries the ring above the post's top [m], (m,); negative where below it.

    Source: design section 5, lift a.
    """
    return mounts.for_ring - mounts.needed


def reach(posts: Posts, mounts: Mounts, policy: Policy) -> Reach:
    """Greatest ring height, margin and shortfall of every post with every mount.

    z_max = H - c + a, margin = z_max - T. Source: design sections 4 (HEIGHT) and 5.
    """
    tol = policy["ring_height_tolerance"]
    greatest = (posts.height - posts.court_rise)[:, None] + lift(mounts)
    margin = greatest - posts.target[:, None]
    shortfall = np.where(margin < -tol - SLACK, -margin, 0.0)
    short = margin < -(tol + posts.height_uncertainty[:, None]) - SLACK
    return Reach(greatest, margin, shortfall, short)


def top_setting(greatest: Floats, added: Floats, target: Floats) -> Floats:
    """Highest setting z_top = min(z_max + added, T), (n, m) [m].

    Source: design section 5, settings.
    """
    return np.minimum(greatest + added, target[:, None])


def lowered(margin: Floats, added: Floats) -> Floats:
    """How far below its highest place the mount is clamped, so that its top setting is T: x [m], (n, m).

    Source: design section 5; with an extension the added height counts too.
    """
    return np.maximum(0.0, margin + added)


def setting_range(mounts: Mounts) -> Floats:
    """How far below its highest setting each mount can be set [m], (m,): lowest setting = z_top - this.

    Stepped: whole steps within the travel; continuous: the travel; fixed: 0. Source: design section 5, settings.
    """
    step, most_steps = _steps(mounts)
    return np.where(mounts.adjustment == ADJUSTMENTS.index("continuous"), mounts.travel, step * most_steps)


def settings(mounts: Mounts, mount: int, top: float) -> list[float]:
    """Ring heights of one mount whose highest setting is `top` [m], highest first; of a continuous one both ends.

    Source: design section 5, settings.
    """
    step, most_steps = _steps(mounts)
    if mounts.adjustment[mount] == ADJUSTMENTS.index("continuous"):
        return [top, top - float(mounts.travel[mount])]
    return [top - k * float(step[mount]) for k in range(int(most_steps[mount]) + 1)]


def covered(posts: Posts, mounts: Mounts, top: Floats, policy: Policy) -> Ints:
    """How many of a post's wanted heights each mount serves, (n, m).

    Stepped: settings top - k step for k = 0..floor(travel/step + 1e-9); continuous: the whole travel;
    fixed: the top alone. Served where a setting is within the tolerance. Source: design section 5.
    """
    near = policy["ring_height_tolerance"] + SLACK
    step, most_steps = _steps(mounts)
    continuous = mounts.adjustment == ADJUSTMENTS.index("continuous")
    count = np.zeros(top.shape, dtype=np.int64)
    for height in posts.wanted.T:  # one pass for each wanted height, of which there are few
        below = top - height[:, None]
        k = np.clip(np.round(below / step), 0, most_steps)
        off = np.abs(below - k * step)
        beyond = np.maximum(np.maximum(-below, below - mounts.travel), 0.0)
        count += np.where(continuous, beyond, off) <= near
    return count


def _steps(mounts: Mounts) -> tuple[Floats, Floats]:
    """Step [m] and greatest number of steps down of each mount; step 1 and none where it has no steps."""
    stepped = mounts.adjustment == ADJUSTMENTS.index("stepped")
    step = np.where(stepped, mounts.step, 1.0)
    return step, np.where(stepped, np.floor(mounts.travel / step + 1e-9), 0.0)

"""Which extension makes a short post tall enough for a mount."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pipeline.rules.arrays import SLACK, Bools, Extensions, Floats, Ints, Mounts, Policy, Posts
from pipeline.rules.ring_height import Reach
from schemas.catalogue import JOINTS

SPIGOT = JOINTS.index("spigot")


@dataclass(frozen=True)
class Choice:
    """The extension of every pair, each (n, m)."""

    index: Ints  # among the active extensions, -1 none
    added: Floats  # [m], 0 without one

    @property
    def made(self) -> Bools:
        """Where an extension is needed and found."""
        return self.index >= 0


def choose(posts: Posts, mounts: Mounts, extensions: Extensions, reach: Reach, policy: Policy) -> Choice:
    """The extension for every pair whose post is too short, whatever else fails there.

    Among those that will do: the least added height, then the least price, then the code.
    Source: design section 5, extension for a short post.
    """
    if not extensions.code:
        return Choice(np.full(reach.short.shape, -1, dtype=np.int64), np.zeros(reach.short.shape))
    order = _preference(extensions)
    will_do = joins(posts, extensions)[:, None, :] & carries(mounts, extensions)[None, :, :]
    will_do &= _tall_and_clear(mounts, extensions, reach.shortfall, policy["ring_height_tolerance"])
    will_do = will_do[:, :, order] & reach.short[:, :, None]
    index = np.where(will_do.any(axis=2), order[will_do.argmax(axis=2)], -1)
    return Choice(index, np.where(index >= 0, extensions.added[index], 0.0))


def _preference(extensions: Extensions) -> Ints:
    """Indexes of the extensions, best first."""
    by_code = np.argsort(np.argsort(np.array(extensions.code)))
    return np.lexsort((by_code, extensions.price, np.round(extensions.added, 9)))


def joins(posts: Posts, extensions: Extensions) -> Bools:
    """Where the extension goes on the post: shape, size, joint length, and a spigot's bore, (n, e).

    A spigot on a post whose wall is not stated, and a joint on a post whose clear length could not be read, are let
    through here: JOINT and CLEAR ask to confirm them.
    """
    size, clear = posts.size[:, None], posts.clear_length[:, None]
    fits = posts.shape[:, None] == extensions.shape
    fits &= (extensions.size_least - SLACK <= size) & (size <= extensions.size_most + SLACK)
    fits &= ~(extensions.joint_length > clear + SLACK)
    bore = (posts.size - 2 * posts.wall)[:, None]
    outside = (bore < extensions.bore_least - SLACK) | (bore > extensions.bore_most + SLACK)
    return fits & ~((extensions.joint == SPIGOT) & outside)


def carries(mounts: Mounts, extensions: Extensions) -> Bools:
    """Where the extension's upper tube is within the mount's window, (m, e)."""
    upper = extensions.upper_size
    return (mounts.size_least[:, None] - SLACK <= upper) & (upper <= mounts.size_most[:, None] + SLACK)


def _tall_and_clear(mounts: Mounts, extensions: Extensions, shortfall: Floats, tol: float) -> Bools:
    """Where it adds enough, and max(0, added - shortfall) + clamp length is clear on its upper tube, (n, m, e).

    Both are bounds on the shortfall, so that no (n, m, e) array of numbers is needed.
    """
    spare = extensions.upper_clear - mounts.clamp_length[:, None]  # (m, e)
    most = extensions.added + tol + SLACK  # (e,)
    least = np.where(spare >= -SLACK, extensions.added - spare - SLACK, np.inf)
    short = shortfall[:, :, None]
    return (least <= short) & (short <= most)

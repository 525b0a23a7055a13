"""In what order the kits of a post stand."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from pipeline.rules.arrays import Bools, Catalogue, Ints, Posts, States


def order(
    posts: Posts,
    catalogue: Catalogue,
    post: Ints,
    mount: Ints,
    board: Ints,
    ring: Ints,
    over: Bools,
    covered: Ints,
    verdict: States,
    price: Ints,
) -> Ints:
    """Indexes that put k kits by post, and best first within each post; every array (k,).

    Over-loaded kits last; then fewest items that differ from what was asked; more wanted heights
    covered; verdict; lower price; codes of mount, board, ring. Source: design section 8, rank.
    """
    keys = (
        post,
        over,
        differing(posts, post, mount, board, ring),
        -covered,
        verdict,
        price,
        by_code(catalogue.mounts.code)[mount],
        by_code(catalogue.boards.code)[board],
        by_code(catalogue.rings.code)[ring],
    )
    return np.lexsort(keys[::-1])


def differing(posts: Posts, post: Ints, mount: Ints, board: Ints, ring: Ints) -> Ints:
    """How many items of each kit differ from what was asked for at its post, (k,).

    A wish that nothing can meet (-2) differs from every kit; no wish (-1) from none.
    """
    wishes = ((posts.mount_asked, mount), (posts.board_asked, board), (posts.ring_asked, ring))
    count = np.zeros(len(post), dtype=np.int64)
    for asked, item in wishes:
        wish = asked[post]
        count += (wish != -1) & (wish != item)
    return count


def ranks(post: Ints) -> Ints:
    """1, 2, 3 ... within each run of equal `post`, (k,); `post` sorted."""
    if not len(post):
        return np.zeros(0, dtype=np.int64)
    starts = np.flatnonzero(np.r_[True, post[1:] != post[:-1]])
    lengths = np.diff(np.r_[starts, len(post)])
    return np.arange(len(post)) - np.repeat(starts, lengths) + 1


def by_code(codes: Sequence[str]) -> Ints:
    """Place of each code in plain string order, (number of codes,)."""
    places = {code: i for i, code in enumerate(sorted(codes))}
    return np.array([places[code] for code in codes], dtype=np.int64)

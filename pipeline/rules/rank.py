"""In what order the kits of a post stand."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from pipeline.rules.arrays import Bools, Catalogue, Floats, Ints, Posts, States
from pipeline.rules.ring_height import setting_range

DECIMALS = 9
"""Widths and ranges that agree to so many decimals of a metre are equal, whatever unit they were typed in."""


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
    covered; verdict; what the customer's choice puts first; lower price; codes of mount, board, ring.
    Source: design section 8, rank and choice.
    """
    keys = (
        post,
        over,
        differing(posts, post, mount, board, ring),
        -covered,
        verdict,
        own_key(posts, catalogue, post, mount, board, ring),
        price,
        *codes_in_order(catalogue, mount, board, ring),
    )
    return np.lexsort(keys[::-1])


def own_key(posts: Posts, catalogue: Catalogue, post: Ints, mount: Ints, board: Ints, ring: Ints) -> Ints:
    """The key of its customer's choice for each of k kits, lower first, (k,). Source: design section 8, choice.

    least price: none; widest board: the wider board; most heights: the greater range, top setting less lowest
    setting; one board: the customer's board and ring.
    """
    other = (board != posts.customer_board[post]) | (ring != posts.customer_ring[post])
    keys = np.stack([np.zeros_like(post), *fixed_keys(catalogue, mount, board), other.astype(np.int64)])
    return keys[posts.choice[post], np.arange(len(post))]


def fixed_keys(catalogue: Catalogue, mount: Ints, board: Ints) -> tuple[Ints, Ints]:
    """Keys of `widest board` and `most heights`, which need to know of no other site, each (k,)."""
    return _most_first(catalogue.boards.width)[board], _most_first(setting_range(catalogue.mounts))[mount]


def _most_first(values: Floats) -> Ints:
    """Place of each value from the greatest on; equal values have equal places, (n,)."""
    return np.unique(-np.round(values, DECIMALS), return_inverse=True)[1].reshape(-1)


def codes_in_order(catalogue: Catalogue, mount: Ints, board: Ints, ring: Ints) -> tuple[Ints, Ints, Ints]:
    """The last keys of every ranking: places of the three codes in plain string order, each (k,)."""
    return (
        by_code(catalogue.mounts.code)[mount],
        by_code(catalogue.boards.code)[board],
        by_code(catalogue.rings.code)[ring],
    )


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
    starts = np.flatnonzero(np.r_[True, post[1:] != post[:-1]])
    lengths = np.diff(np.r_[starts, len(post)])
    return np.arange(len(post)) - np.repeat(starts, lengths) + 1


def by_code(codes: Sequence[str]) -> Ints:
    """Place of each code in plain string order, (number of codes,)."""
    places = {code: i for i, code in enumerate(sorted(codes))}
    return np.array([places[code] for code in codes], dtype=np.int64)


FEW = 3
"""Least number of kits offered for a post, where so many fit: variants of the same make it up."""


def different(looks: Ints, most: int) -> Ints:
    """Which of a post's kits, by rank, are worth offering: their numbers, ascending, at most `most`.

    `looks` (k, f) says what each kit is in f ways (width of its board, its face, range of its heights), equal numbers for
    what is the same. The best ranked kit of each width, of each face, of each range is offered; variants of the same
    only where those are fewer than `FEW`. The recommended kit is always among them.
    """
    steps = [np.unique(way, return_index=True)[1] for way in looks.T]
    first = np.unique(np.concatenate(steps))[:most]
    others = np.delete(np.arange(len(looks)), first)
    return np.sort(np.concatenate([first, others[: max(0, min(FEW, most) - len(first))]]))
